import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from "react-aria-components";

/** One of many. */
export function Pick({
  label,
  value,
  options,
  onChange,
  hideLabel = false,
}: {
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [id: string, text: string])[];
  readonly onChange: (id: string) => void;
  readonly hideLabel?: boolean;
}) {
  return (
    <Select className="pick" value={value} onChange={(key) => key !== null && onChange(String(key))}>
      <Label className={hideLabel ? "unseen" : "field-label"}>{label}</Label>
      <Button className="pick-button">
        <SelectValue />
        <span aria-hidden="true"> ▾</span>
      </Button>
      <Popover className="over" placement="bottom start">
        <ListBox className="pick-list">
          {options.map(([id, text]) => (
            <ListBoxItem key={id} id={id} textValue={text} className="pick-item">
              {text}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </Select>
  );
}
