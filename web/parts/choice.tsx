import { Label, Radio, RadioGroup } from "react-aria-components";

/** One of a few, all seen at once. */
export function Choice<T extends string>({
  label,
  value,
  options,
  onChange,
  hideLabel = false,
}: {
  readonly label: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly onChange: (value: T) => void;
  readonly hideLabel?: boolean;
}) {
  return (
    <RadioGroup
      className="choice"
      value={value}
      onChange={(next) => onChange(next as T)}
      orientation="horizontal"
    >
      <Label className={hideLabel ? "unseen" : "field-label"}>{label}</Label>
      <div className="choice-options">
        {options.map(([id, text]) => (
          <Radio key={id} value={id} className="choice-option">
            {text}
          </Radio>
        ))}
      </div>
    </RadioGroup>
  );
}
