import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from "react";
import { FieldError, Input, Label, TextField } from "react-aria-components";
import { type Amount, amountOf, numericValue, readAmount, type Unit } from "../../core/quantity/index.ts";
import { useWords } from "../app/settings.tsx";

/** Reads a typed amount, or says what is wrong and how to mend it. A bare number keeps the unit it stands in. */
export function readTyped(
  typed: string,
  unit: Unit,
): { readonly amount: Amount } | { readonly wrong: "empty" | "unreadable" | "unit" } {
  const text = typed.trim();
  if (text === "") return { wrong: "empty" };
  const read = readAmount(/[\d½⅓⅔¼¾⅛⅜⅝⅞]\s*$/.test(text) ? `${text} ${unit}` : text);
  if (read.rest.trim() !== "" || read.low === null || read.low !== read.high)
    return { wrong: read.rest.trim() === "" ? "unreadable" : "unit" };
  const amount = amountOf(read);
  if (!amount) return { wrong: "unreadable" };
  // A fraction stays a fraction: a third is not 0.333.
  const exact = read.exact?.low;
  return { amount: exact?.includes("/") ? { value: exact, unit: amount.unit } : amount };
}

/** An amount as it is written in a document. */
export function amountText(amount: Amount): string {
  return `${amount.value} ${amount.unit}`;
}

/** Steps of a dragged or arrowed amount: what a scale shows at that size. */
function stepOf(value: number, unit: string): number {
  if (unit === "piece") return 1;
  const size = Math.abs(value);
  if (unit === "kg" || unit === "L") return size >= 10 ? 0.5 : size >= 1 ? 0.05 : 0.01;
  return size >= 1000 ? 10 : size >= 100 ? 5 : size >= 10 ? 1 : 0.1;
}

const tidy = (value: number) => Math.max(0, Number(value.toFixed(3)));

/**
 * An amount to type, to step with the arrows, or to drag by its handle; each change is told at once (A3).
 * @param onChange `gesture` is the same for all changes of one drag.
 */
export function AmountEntry({
  label,
  amount,
  onChange,
}: {
  readonly label: string;
  readonly amount: Amount;
  readonly onChange: (amount: Amount, gesture?: string) => void;
}) {
  const { say } = useWords();
  const written = amountText(amount);
  const [typed, setTyped] = useState(written);
  const [wrong, setWrong] = useState<string>();
  const drag = useRef<{ x: number; from: number; gesture: string } | undefined>(undefined);
  useEffect(() => {
    setTyped(written);
    setWrong(undefined);
  }, [written]);
  const take = () => {
    if (typed === written) return setWrong(undefined);
    const read = readTyped(typed, amount.unit);
    if ("wrong" in read) return setWrong(say(`amount.${read.wrong}`, { typed, label }));
    setWrong(undefined);
    onChange(read.amount);
  };
  const value = numericValue(amount.value);
  const step = (by: number, gesture?: string) =>
    onChange({ value: tidy(value + by * stepOf(value, amount.unit)), unit: amount.unit }, gesture);
  const keys = (event: KeyboardEvent) => {
    if (event.key === "Enter") take();
    else if (event.key === "Escape") {
      setTyped(written);
      setWrong(undefined);
    } else if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      event.preventDefault();
      step(event.key === "ArrowUp" ? 1 : -1);
    }
  };
  const down = (event: PointerEvent) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    drag.current = { x: event.clientX, from: value, gesture: `drag ${event.timeStamp}` };
  };
  const move = (event: PointerEvent) => {
    if (!drag.current) return;
    const { x, from, gesture } = drag.current;
    const unit = stepOf(from, amount.unit);
    const next = tidy(Math.round((from + Math.round((event.clientX - x) / 4) * unit) / unit) * unit);
    if (next !== value) onChange({ value: next, unit: amount.unit }, gesture);
  };
  const up = () => {
    drag.current = undefined;
  };
  return (
    <TextField
      validationBehavior="aria"
      className="amount"
      value={typed}
      onChange={setTyped}
      onBlur={take}
      isInvalid={wrong !== undefined}
    >
      <Label className="unseen">{label}</Label>
      <span className="amount-row">
        <span
          className="amount-handle"
          role="slider"
          tabIndex={0}
          aria-label={say("amount.drag", { label })}
          aria-valuenow={value}
          aria-valuetext={written}
          aria-valuemin={0}
          onPointerDown={down}
          onPointerMove={move}
          onPointerUp={up}
          onPointerCancel={up}
          onKeyDown={(event) => {
            const by = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10 }[
              event.key
            ];
            if (by === undefined) return;
            event.preventDefault();
            step(by);
          }}
        >
          ↔
        </span>
        <Input className="amount-input" onKeyDown={keys} size={Math.max(7, typed.length + 1)} />
      </span>
      <FieldError className="wrong">{wrong}</FieldError>
    </TextField>
  );
}
