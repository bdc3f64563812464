import { useEffect, useState } from "react";
import { FieldError, Input, Label, TextArea, TextField } from "react-aria-components";

/**
 * A text that is taken when it is left or Enter is pressed, and stays as typed until then (A3).
 * @param check says what is wrong and how to mend it, or nothing.
 */
export function TextEntry({
  label,
  value,
  onChange,
  check,
  hideLabel = false,
  long = false,
  className = "",
}: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly check?: (typed: string) => string | undefined;
  readonly hideLabel?: boolean;
  readonly long?: boolean;
  readonly className?: string;
}) {
  const [typed, setTyped] = useState(value);
  const [wrong, setWrong] = useState<string>();
  useEffect(() => {
    setTyped(value);
    setWrong(undefined);
  }, [value]);
  const take = () => {
    const problem = check?.(typed);
    setWrong(problem);
    if (problem === undefined && typed !== value) onChange(typed);
  };
  return (
    <TextField
      validationBehavior="aria"
      className={`entry ${className}`}
      value={typed}
      onChange={setTyped}
      onBlur={take}
      isInvalid={wrong !== undefined}
    >
      <Label className={hideLabel ? "unseen" : "field-label"}>{label}</Label>
      {long ? (
        <TextArea
          rows={1}
          onKeyDown={(event) => {
            if (event.key === "Escape") setTyped(value);
          }}
        />
      ) : (
        <Input
          onKeyDown={(event) => {
            if (event.key === "Enter") take();
            if (event.key === "Escape") setTyped(value);
          }}
        />
      )}
      <FieldError className="wrong">{wrong}</FieldError>
    </TextField>
  );
}
