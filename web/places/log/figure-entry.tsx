import { Button, FieldError, Input, Label, TextField } from "react-aria-components";
import { convert, type Unit } from "../../../core/quantity/index.ts";
import { useWords } from "../../app/settings.tsx";
import { readTyped } from "../../parts/amount-entry.tsx";

/** A typed amount in its unit; undefined where it can't be read or is nothing. A bare number is in `unit`. */
export function typedIn(typed: string, unit: Unit): number | undefined {
  const read = readTyped(typed, unit);
  if (!("amount" in read)) return undefined;
  const there = convert(read.amount, unit);
  return there.ok && there.value > 0 ? there.value : undefined;
}

/** A step a scale or a hand makes at that size. */
function stepAt(value: number, unit: Unit): number {
  if (unit !== "g" && unit !== "mL") return 1;
  return value >= 2000 ? 50 : value >= 200 ? 10 : value >= 20 ? 5 : 1;
}

/** A figure in large, with a step less and more on either side: for wet hands at the scale. */
export function FigureEntry({
  label,
  typed,
  unit,
  onType,
  wrong,
}: {
  readonly label: string;
  readonly typed: string;
  readonly unit: Unit;
  readonly onType: (typed: string) => void;
  readonly wrong?: string | undefined;
}) {
  const { say } = useWords();
  const value = typedIn(typed, unit) ?? 0;
  const move = (way: 1 | -1) => {
    const next = Math.max(0, Number((value + way * stepAt(value, unit)).toFixed(3)));
    onType(next === 0 ? "" : String(next));
  };
  const shown = unit === "g" || unit === "mL" ? `${label}, ${unit}` : label;
  return (
    <TextField
      validationBehavior="aria"
      className="entry figure-entry"
      value={typed}
      onChange={onType}
      isInvalid={wrong !== undefined}
    >
      <Label className="field-label">{shown}</Label>
      <span className="figure-entry-row">
        <Button className="step" aria-label={say("write.less", { label })} onPress={() => move(-1)}>
          −
        </Button>
        <Input inputMode="decimal" autoComplete="off" />
        <Button className="step" aria-label={say("write.more", { label })} onPress={() => move(1)}>
          +
        </Button>
      </span>
      <FieldError className="wrong">{wrong}</FieldError>
    </TextField>
  );
}
