import { FieldError, Input, Label, TextField } from "react-aria-components";

/** A plain field of a form that is sent as a whole. */
export function Entry({
  label,
  value,
  onChange,
  type = "text",
  wrong,
  className = "",
}: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly type?: "text" | "date";
  readonly wrong?: string | undefined;
  readonly className?: string;
}) {
  return (
    <TextField
      validationBehavior="aria"
      className={`entry ${className}`}
      value={value}
      onChange={onChange}
      isInvalid={wrong !== undefined}
    >
      <Label className="field-label">{label}</Label>
      <Input type={type} autoComplete="off" />
      <FieldError className="wrong">{wrong}</FieldError>
    </TextField>
  );
}
