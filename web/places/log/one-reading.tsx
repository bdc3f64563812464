import { useState } from "react";
import { Button } from "react-aria-components";
import { useEntries } from "../../app/hands.tsx";
import { useSettings } from "../../app/settings.tsx";
import type { Reading } from "../../offline/entry.ts";
import { TextEntry } from "../../parts/text-entry.tsx";
import type { Limit } from "./limit.ts";
import { toCelsius } from "./typed.ts";

/** A reading as first written, with every correction beside it (A7). */
export function OneReading({
  reading,
  limit,
  beyond,
}: {
  readonly reading: Reading;
  readonly limit: Limit | undefined;
  readonly beyond: boolean;
}) {
  const { say, write, settings } = useSettings();
  const [correcting, setCorrecting] = useState(false);
  const { entries } = useEntries();
  const show = (value: number | undefined) =>
    value === undefined ? "" : limit?.celsius ? write.temperature(value) : write.number(value, 2);
  const at = new Date(reading.first.at).toLocaleTimeString(write.preferences.locale, {
    hour: "2-digit",
    minute: "2-digit",
    hour12: settings.clock === "12",
  });
  return (
    <div className="reading">
      <p>
        <span className="quiet">{at}</span>{" "}
        {reading.corrections.length > 0 ? (
          <>
            <s>{show(reading.first.value)}</s>
            {reading.corrections.map((c, i) => (
              <span key={c.id}>
                {" "}
                {i < reading.corrections.length - 1 ? (
                  <s>{show(c.value)}</s>
                ) : (
                  <strong>{show(c.value)}</strong>
                )}
              </span>
            ))}
          </>
        ) : (
          <strong>{show(reading.first.value)}</strong>
        )}
        {beyond && <span className="harm"> ✕</span>}
        {reading.first.by && <span className="quiet"> {reading.first.by}</span>}
      </p>
      {correcting ? (
        <TextEntry
          label={say("log.correct.to")}
          className="price"
          value=""
          check={(typed) =>
            typed.trim() === "" ||
            Number.isFinite(toCelsius(typed, limit?.celsius === true && settings.degrees === "F"))
              ? undefined
              : say("log.wrong", { typed })
          }
          onChange={(typed) => {
            setCorrecting(false);
            void entries.write({
              kind: "reading",
              corrects: (reading.corrections.at(-1) ?? reading.first).id,
              value: toCelsius(typed, limit?.celsius === true && settings.degrees === "F"),
              ...(reading.first.preparation === undefined ? {} : { preparation: reading.first.preparation }),
              ...(reading.first.step === undefined ? {} : { step: reading.first.step }),
              ...(settings.name === "" ? {} : { by: settings.name }),
            });
          }}
        />
      ) : (
        <Button className="button quiet-button no-print" onPress={() => setCorrecting(true)}>
          {say("log.correct")}
        </Button>
      )}
    </div>
  );
}
