import { Button, Group, Input, Label, NumberField } from "react-aria-components";

/** A number with steps of one; kept within its ends. */
export function CountEntry({
  label,
  value,
  least = 0,
  most,
  step = 1,
  onChange,
  hideLabel = false,
}: {
  readonly label: string;
  readonly value: number;
  readonly least?: number;
  readonly most?: number;
  readonly step?: number;
  readonly onChange: (value: number) => void;
  readonly hideLabel?: boolean;
}) {
  return (
    <NumberField
      className="count"
      value={value}
      minValue={least}
      {...(most === undefined ? {} : { maxValue: most })}
      step={step}
      onChange={(next) => Number.isFinite(next) && onChange(next)}
    >
      <Label className={hideLabel ? "unseen" : "field-label"}>{label}</Label>
      <Group className="count-group">
        <Button slot="decrement" className="step">
          −
        </Button>
        <Input className="count-input" />
        <Button slot="increment" className="step">
          +
        </Button>
      </Group>
    </NumberField>
  );
}
