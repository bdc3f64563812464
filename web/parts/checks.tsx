import { Checkbox, CheckboxGroup, FieldError, Label, Text } from "react-aria-components";

/** Any of a few, all seen at once. */
export function Checks<T extends string>({
  label,
  value,
  options,
  what,
  wrong,
  onChange,
}: {
  readonly label: string;
  readonly value: readonly T[];
  readonly options: readonly (readonly [id: T, text: string])[];
  /** What the choice is for. */
  readonly what?: string;
  readonly wrong?: string | undefined;
  readonly onChange: (value: T[]) => void;
}) {
  return (
    <CheckboxGroup
      className="checks"
      value={[...value]}
      onChange={(next) => onChange(next as T[])}
      isInvalid={wrong !== undefined}
      validationBehavior="aria"
    >
      <Label className="field-label">{label}</Label>
      <div className="checks-list">
        {options.map(([id, text]) => (
          <Checkbox key={id} value={id} className="check">
            <span className="box" aria-hidden="true" />
            {text}
          </Checkbox>
        ))}
      </div>
      {what !== undefined && (
        <Text slot="description" className="quiet small block">
          {what}
        </Text>
      )}
      <FieldError className="wrong">{wrong}</FieldError>
    </CheckboxGroup>
  );
}
