import { useState } from "react";
import { FieldError, Input, Label, TextField } from "react-aria-components";
import { useWords } from "../../../app/settings.tsx";
import { readTyped, type Typed } from "./draft.ts";
import { useProblem } from "./problems.tsx";

export type EntryUnit =
  | "mm"
  | "°C"
  | "K"
  | "min"
  | "g"
  | "%"
  | "m"
  | "W/(m² K)"
  | "W/(m K)"
  | "kg/m³"
  | "J/(kg K)"
  | "";

/** How a unit is shown by the measures of this tablet, and what one of it is in the unit of the document. */
function shownAs(unit: EntryUnit, units: "metric" | "us", degrees: "C" | "F") {
  if (unit === "mm" && units === "us") return { unit: "in", factor: 25.4, offset: 0 };
  if (unit === "°C" && degrees === "F") return { unit: "°F", factor: 5 / 9, offset: 32 };
  if (unit === "K")
    return { unit: degrees === "F" ? "°F" : "°C", factor: degrees === "F" ? 5 / 9 : 1, offset: 0 };
  return { unit, factor: 1, offset: 0 };
}

/**
 * A number of a trial. It is told at each key; what can't be read stays as typed and is refused beside the field, in
 * the words of the heat room (A3).
 * @param paths places in the trial whose problems belong here
 */
export function NumberEntry({
  label,
  unit,
  value,
  paths,
  onChange,
  hint,
  hideLabel = false,
}: {
  readonly label: string;
  readonly unit: EntryUnit;
  readonly value: Typed;
  readonly paths: readonly string[];
  readonly onChange: (value: Typed) => void;
  readonly hint?: string | undefined;
  readonly hideLabel?: boolean;
}) {
  const { write } = useWords();
  const { units, degrees } = write.preferences;
  const shown = shownAs(unit, units, degrees);
  const written =
    typeof value === "number"
      ? String(Number((value / shown.factor + shown.offset).toFixed(3)))
      : (value ?? "");
  // Between keys the text is the person's own: "4." must not turn into "4".
  const [typing, setTyping] = useState<string>();
  const wrong = useProblem(paths);
  return (
    <TextField
      className="entry number-entry"
      value={typing ?? written}
      onChange={(text) => {
        setTyping(text);
        const read = readTyped(text);
        onChange(typeof read === "number" ? Number(((read - shown.offset) * shown.factor).toFixed(6)) : read);
      }}
      onBlur={() => setTyping(undefined)}
      isInvalid={wrong !== undefined}
    >
      <Label className={hideLabel ? "unseen" : "field-label"}>
        {label}
        {hideLabel && shown.unit !== "" && `, ${shown.unit}`}
      </Label>
      <span className="number-row">
        <Input inputMode="decimal" />
        {shown.unit !== "" && (
          <span className="number-unit" aria-hidden={!hideLabel || undefined}>
            {shown.unit}
          </span>
        )}
      </span>
      {hint && <span className="quiet small block">{hint}</span>}
      <FieldError className="wrong">{wrong}</FieldError>
    </TextField>
  );
}
