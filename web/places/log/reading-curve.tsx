import { curveDrawing, PAGE_INK } from "../../../drawing/index.ts";
import { useWords } from "../../app/settings.tsx";
import type { Reading } from "../../offline/entry.ts";
import { Drawing } from "../../parts/drawing.tsx";
import type { Limit } from "./limit.ts";

/** What was read at one point, along the clock, between its limits. */
export function ReadingCurve({
  read,
  limit,
  title,
}: {
  readonly read: readonly Reading[];
  readonly limit: Limit;
  readonly title: string;
}) {
  const { write } = useWords();
  const values = read.flatMap((r) => (r.value === undefined ? [] : [r.value]));
  const times = read.map((r) => Date.parse(r.first.at) / 60_000);
  const [t0, t1] = [Math.min(...times), Math.max(...times)];
  const spread = Math.max(5, Math.max(limit.value, ...values) - Math.min(limit.value, ...values));
  const hour = (minute: number) =>
    new Date(minute * 60_000).toLocaleTimeString(write.preferences.locale, {
      hour: "2-digit",
      minute: "2-digit",
      hour12: write.preferences.clock === "12",
    });
  return (
    <Drawing
      of={curveDrawing(
        {
          points: read.flatMap((r) =>
            r.value === undefined ? [] : [[Date.parse(r.first.at) / 60_000, r.value] as const],
          ),
          limits: [...new Set([limit.value, ...limit.marks.map((mark) => mark.value)])].map((y) => ({
            y,
            side: limit.least ? "below" : "above",
            name: limit.celsius ? write.temperature(y) : write.number(y, 1),
          })),
          x: { from: t0 - 10, to: Math.max(t1, t0 + 60) + 10, step: 15, write: hour },
          y: {
            from: Math.min(limit.value, ...values) - spread * 0.3,
            to: Math.max(limit.value, ...values) + spread * 0.3,
            write: (v) => (limit.celsius ? write.temperature(v) : write.number(v, 1)),
          },
          title,
          width: 300,
          height: 150,
          readings: true,
        },
        PAGE_INK,
      )}
    />
  );
}
