import { useState } from "react";
import { Button, FieldError, Input, Label, TextField } from "react-aria-components";
import type { ControlPoint } from "../../../core/run/result.ts";
import { useEntries } from "../../app/hands.tsx";
import { useSettings } from "../../app/settings.tsx";
import type { Limit } from "./limit.ts";
import { toCelsius } from "./typed.ts";

/** Writes one reading down; what can't be read stays as typed and is told how to mend. */
export function ReadingEntry({
  point,
  limit,
}: {
  readonly point: ControlPoint;
  readonly limit: Limit | undefined;
}) {
  const { say, settings } = useSettings();
  const { entries } = useEntries();
  const [typed, setTyped] = useState("");
  const [wrong, setWrong] = useState<string>();
  const unit = limit?.celsius ? `°${settings.degrees}` : "";
  const write = () => {
    const value = toCelsius(typed, limit?.celsius === true && settings.degrees === "F");
    if (typed.trim() === "" || !Number.isFinite(value)) return setWrong(say("log.wrong", { typed }));
    setWrong(undefined);
    setTyped("");
    void entries.write({
      kind: "reading",
      preparation: point.preparation,
      step: point.step,
      act: point.act,
      value,
      unit: limit?.celsius ? "°C" : "",
      ...(settings.name === "" ? {} : { by: settings.name }),
    });
  };
  return (
    <form
      className="reading-entry no-print"
      onSubmit={(event) => {
        event.preventDefault();
        write();
      }}
    >
      <TextField
        validationBehavior="aria"
        className="entry"
        value={typed}
        onChange={setTyped}
        isInvalid={wrong !== undefined}
      >
        <Label className="field-label">{say("log.reading", { unit: unit || "none" })}</Label>
        <Input inputMode="decimal" autoComplete="off" />
        <FieldError className="wrong">{wrong}</FieldError>
      </TextField>
      <Button type="submit" className="button">
        {say("log.write")}
      </Button>
    </form>
  );
}
