import fc from "fast-check";
import { expect, test } from "vitest";
import { textWidth } from "../text.ts";
import { heatLabels } from "./heat-labels.ts";

const write = (celsius: number) => `${celsius} °C`;
const within = { top: 0, bottom: 60, end: 400 };
const placed = (spans: { from: number; to: number; setC: number }[]) =>
  heatLabels(spans, (s) => ({ from: s.from, to: s.to, across: 50 - s.setC / 5 }), write, 14, within);

test("D9 temperatures that stand close are written above and below and before, or left to the tasks", () => {
  const close = [
    { from: 100, to: 110, setC: 160 },
    { from: 112, to: 130, setC: 170 },
    { from: 114, to: 116, setC: 175 },
    { from: 116, to: 117, setC: 172 },
    { from: 117, to: 118, setC: 174 },
    { from: 118, to: 119, setC: 171 },
  ];
  const labels = placed(close);
  expect(labels.length).toBeLessThan(6);
  expect(labels.map(({ text }) => text)).toContain("170 °C");
  expect(placed([close[0]!])).toEqual([{ span: close[0], text: "160 °C", x: 103, y: 13 }]);
});

test("D9 no label lies on another, and none leaves the stave", () => {
  const span = fc
    .record({
      from: fc.integer({ min: 0, max: 390 }),
      long: fc.integer({ min: 1, max: 60 }),
      setC: fc.integer({ min: 20, max: 230 }),
    })
    .map(({ from, long, setC }) => ({ from, to: Math.min(400, from + long), setC }));
  fc.assert(
    fc.property(fc.array(span, { maxLength: 12 }), (spans) => {
      const labels = placed(spans);
      for (const { x, y, text } of labels) {
        expect(x + textWidth(text, 14)).toBeLessThanOrEqual(400);
        expect(y).toBeLessThanOrEqual(60);
      }
      labels.forEach((a, i) => {
        for (const b of labels.slice(i + 1)) {
          const apart = a.x + textWidth(a.text, 14) <= b.x || b.x + textWidth(b.text, 14) <= a.x;
          expect(apart || Math.abs(a.y - b.y) >= 14).toBe(true);
        }
      });
    }),
    { seed: 7, numRuns: 200 },
  );
});
