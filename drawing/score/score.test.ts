import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PAPER_INK } from "../ink.ts";
import { svgText } from "../tree.ts";
import { MIDNIGHT, RUN, STATIONS, task } from "./a-run.fixture.ts";
import { type Ghosts, scoreGhosts } from "./ghosts.ts";
import { hourTicks } from "./grid.ts";
import { holdMatters, wedgeOf } from "./hold.ts";
import { inLanes } from "./lanes.ts";
import { PAGE_MEASURES } from "./layout.ts";
import { heatLine } from "./oven.ts";
import { type ScoreInput, scoreChosen, scoreDrawing, scoreHead } from "./score.ts";
import { staves, timed } from "./staves.ts";
import { mergeSpans, runTime } from "./time.ts";

const spans = fc.array(
  fc
    .tuple(fc.integer({ min: -3000, max: 1300 }), fc.integer({ min: 0, max: 400 }))
    .map(([from, long]) => ({ from, to: from + long })),
  { maxLength: 40 },
);

describe("time", () => {
  it("D6 never runs backwards and finds every moment again", () => {
    fc.assert(
      fc.property(spans, (busy) => {
        const time = runTime(-3000, 1400, busy, { perMinute: 0.5 });
        let before = -1;
        for (let m = -3000; m <= 1400; m += 25) {
          const place = time.at(m);
          expect(place).toBeGreaterThanOrEqual(before);
          expect(time.minuteAt(place)).toBeCloseTo(m, 6);
          before = place;
        }
      }),
      { seed: 11, numRuns: 60 },
    );
  });
  it("D6 keeps work to scale and folds only where no hand works", () => {
    fc.assert(
      fc.property(spans, (busy) => {
        const time = runTime(-3000, 1700, busy, { perMinute: 1 });
        for (const span of busy)
          expect(time.at(span.to) - time.at(span.from)).toBeCloseTo(span.to - span.from, 6);
        for (const fold of time.folds)
          expect(mergeSpans(busy).some((s) => s.from < fold.to && s.to > fold.from)).toBe(false);
      }),
      { seed: 12, numRuns: 60 },
    );
  });
  it("D6 writes no hour inside a fold and none on another", () => {
    const time = runTime(
      -1440,
      1200,
      [
        { from: -900, to: -600 },
        { from: 500, to: 1200 },
      ],
      { perMinute: 1 },
    );
    const ticks = hourTicks({ time, direction: "along" });
    expect(ticks.length).toBeGreaterThan(8);
    ticks.forEach((tick, i) => {
      expect(time.folds.some((f) => tick > f.from && tick < f.to)).toBe(false);
      if (i > 0) expect(time.at(tick) - time.at(ticks[i - 1]!)).toBeGreaterThanOrEqual(46);
    });
  });
});

describe("lanes", () => {
  const laid = fc.array(
    fc
      .tuple(
        fc.integer({ min: 0, max: 300 }),
        fc.integer({ min: 1, max: 90 }),
        fc.integer({ min: 1, max: 4 }),
      )
      .map(([from, long, tall]) => ({ item: 0, from, to: from + long, tall })),
    { maxLength: 40 },
  );
  it("D8 puts nothing on another", () => {
    fc.assert(
      fc.property(laid, (list) => {
        const { items, lanes } = inLanes(list);
        expect(items.length).toBe(list.length);
        items.forEach((a, i) => {
          expect(a.lane + (a.tall ?? 1)).toBeLessThanOrEqual(lanes);
          for (const b of items.slice(i + 1)) {
            const inTime = a.from < b.to && b.from < a.to;
            const inLane = a.lane < b.lane + (b.tall ?? 1) && b.lane < a.lane + (a.tall ?? 1);
            expect(inTime && inLane).toBe(false);
          }
        });
      }),
      { seed: 21, numRuns: 100 },
    );
  });
  it("D8 takes no more lanes than happen at once when each is one lane tall", () => {
    fc.assert(
      fc.property(laid, (list) => {
        const single = list.map((entry) => ({ ...entry, tall: 1 }));
        const most = Math.max(
          0,
          ...single.map((a) => single.filter((b) => b.from <= a.from && b.to > a.from).length),
        );
        expect(inLanes(single).lanes).toBe(most);
      }),
      { seed: 22, numRuns: 100 },
    );
  });
});

describe("hold", () => {
  const held = (maxMin: number, usedMin: number) =>
    timed([task("a", "a", 0, 10, { kind: "work", hold: { state: "hot", maxMin, usedMin } })], 0)[0]!;
  it("D7 narrows to what is left when it is used", () => {
    expect(wedgeOf(held(60, 45))?.left).toBeCloseTo(0.25);
    expect(wedgeOf(held(60, 60))?.left).toBe(0);
    expect(wedgeOf(held(60, 80))?.left).toBe(0);
    expect(wedgeOf(timed([task("a", "a", 0, 10, { kind: "work" })], 0)[0]!)).toBeUndefined();
  });
  it("D7 a long hold with much left is not drawn unasked", () => {
    expect(holdMatters(held(60, 5))).toBe(true);
    expect(holdMatters(held(4320, 900))).toBe(false);
    expect(holdMatters(held(4320, 4000))).toBe(true);
    expect(holdMatters(held(60, 0))).toBe(false);
  });
});

describe("oven", () => {
  it("D9 climbs before the later temperature, only as far as there is room", () => {
    const tasks = timed(
      [
        task("a", "a", 0, 60, {
          kind: "passive",
          equipment: [{ id: "o", space: 1, unit: "shelf", setC: 100 }],
        }),
        task("b", "b", 30, 90, {
          kind: "passive",
          equipment: [{ id: "o", space: 1, unit: "shelf", setC: 100 }],
        }),
        task("c", "c", 100, 130, {
          kind: "passive",
          equipment: [{ id: "o", space: 1, unit: "shelf", setC: 180 }],
        }),
      ],
      MIDNIGHT,
    ).map((entry) => ({ ...entry }));
    const { spans: at, points } = heatLine(tasks, "o", () => 40);
    expect(at.map((s) => [s.to - s.from, s.setC])).toEqual([
      [90, 100],
      [30, 180],
    ]);
    const climb = points[3]![0] - points[2]![0];
    expect(points[2]![1]).toBe(100);
    expect(points[3]![1]).toBe(180);
    expect(climb).toBe(10);
  });
});

function wholeScore(direction: "along" | "down", more: Pick<ScoreInput, "pinned" | "chosen"> = {}) {
  return scoreDrawing({ ...inputOf(direction), ...more }, PAPER_INK);
}

function inputOf(direction: "along" | "down"): ScoreInput {
  const tasks = timed(RUN, MIDNIGHT);
  const time = runTime(
    -2 * 1440 + 14 * 60,
    20 * 60,
    tasks.filter((t) => t.task.hands.length > 0 || t.task.equipment.some((e) => e.setC)),
    { perMinute: 0.9 },
  );
  return {
    staves: [
      ...staves(tasks, "station", STATIONS),
      ...staves(tasks, "equipment", new Map([["combi", "Combi oven"]])).filter((s) => s.id === "combi"),
    ],
    time,
    measures: direction === "along" ? PAGE_MEASURES : { ...PAGE_MEASURES, lane: 120, bar: 114, head: 60 },
    ovens: new Map([
      ["combi", { spaces: 10, spacesFor: (space: number) => space, climbMin: (a, b) => Math.abs(b - a) / 4 }],
    ]),
    direction,
    service: [{ minute: 1170, name: "Char 19:30" }],
    now: 16 * 60 + 40,
    nowWord: "now",
    markOf: ({ task: t }) => (t.slackMin === 0 ? "broken" : t.slackMin < 15 ? "tight" : undefined),
    describe: ({ task: t }) => t.name,
    writeHour: (m) => `${Math.floor((((m % 1440) + 1440) % 1440) / 60)}:00`,
    writeDay: (m) => ["D-2", "D-1", "D"][m / 1440 + 2] ?? "",
    writeC: (c) => `${c} °C`,
    namesWidth: direction === "along" ? 130 : 0,
    title: "A short run",
  };
}

describe("score", () => {
  it.each(["along", "down"] as const)("D1 D3 D7 D9 draws a run %s", async (direction) => {
    const score = wholeScore(direction);
    await expect(svgText(score.drawing)).toMatchFileSnapshot(`../snapshots/score-${direction}.svg`);
  });
  it("draws every task that is on a stave", () => {
    const text = svgText(wholeScore("along").drawing);
    for (const t of RUN.filter((r) => r.station || r.equipment.some((e) => e.id === "combi")))
      expect(text).toContain(`data-task="${t.id}"`);
  });
  it("D10 a glimpse of the day names no course that is not in it", () => {
    const service = [
      { minute: 1170, name: "Char 19:30" },
      { minute: 1200, name: "Velouté 20:00" },
    ];
    const glimpse = (from: number, to: number) => {
      const time = runTime(from, to, [{ from, to }], { perMinute: 4 });
      return svgText(scoreDrawing({ ...inputOf("along"), service, time }, PAPER_INK).drawing);
    };
    expect(glimpse(600, 840)).not.toMatch(/Char|Velouté/);
    expect(glimpse(1000, 1180)).toMatch(/Char/);
    expect(glimpse(1000, 1180)).not.toMatch(/Velouté/);
    expect(glimpse(1000, 1300)).toMatch(/Char.*Velouté/s);
  });
  it("D11 a pin on what is pinned, an empty dashed bar where it would stand; nothing of both without", () => {
    const [first, second] = RUN.filter((r) => r.station);
    const at = { from: 600, to: 660 };
    const score = wholeScore("along", { pinned: new Set([first!.id]) });
    expect(svgText(score.drawing).match(/data-sign="pin"/g)).toHaveLength(1);
    const input = { direction: "along", measures: PAGE_MEASURES } as const;
    const over = (ghosts: Ghosts) => svgText(scoreGhosts(score, input, ghosts, PAPER_INK));
    const ghost = new RegExp(`<rect[^>]*data-ghost="${second!.id}"[^>]*>`).exec(
      over(new Map([[second!.id, at]])),
    )![0];
    expect(Number(/ x="([\d.]+)"/.exec(ghost)![1])).toBeCloseTo(score.time.at(600), 1);
    expect(ghost).toContain("stroke-dasharray");
    expect(svgText(wholeScore("along").drawing)).not.toMatch(/data-sign="pin"/);
    expect(over(new Map())).not.toContain("data-ghost");
    // Laid over the score it lies in the lane of its task.
    const own = new RegExp(
      `data-task="${second!.id}".*?<rect[^>]* y="([\\d.]+)"[^>]* height="([\\d.]+)"`,
      "s",
    ).exec(svgText(score.drawing))!;
    const [y, height] = [
      Number(/ y="([\d.]+)"/.exec(ghost)![1]),
      Number(/ height="([\d.]+)"/.exec(ghost)![1]),
    ];
    expect(Math.abs(y + height / 2 - (Number(own[1]) + Number(own[2]) / 2))).toBeLessThan(2);
  });
  it("D14 a task chosen after the score was drawn is drawn as if it had been, and nothing else anew", () => {
    for (const direction of ["along", "down"] as const) {
      const plain = wholeScore(direction);
      for (const { id } of RUN) {
        const chosen = scoreChosen(plain, inputOf(direction), PAPER_INK, id);
        expect(svgText(chosen.drawing)).toBe(svgText(wholeScore(direction, { chosen: id }).drawing));
        const parts = plain.drawing.children.filter((child, k) => child !== chosen.drawing.children[k]);
        expect(parts.length).toBeLessThanOrEqual(2);
      }
    }
  });
  it("D12 a later course whose name has no room stands under its number, its line below the hours", () => {
    const first = 18 * 60;
    const service = [0, 40, 80].map((after, i) => ({
      minute: first + after,
      name: `A course of long name ${i}`,
    }));
    const score = scoreDrawing({ ...inputOf("along"), service }, PAPER_INK);
    const texts = [...svgText(score.drawing).matchAll(/<text[^>]* y="14"[^>]*>([^<]*)</g)].map((m) => m[1]);
    expect(texts).toEqual(expect.arrayContaining(["2"]));
    expect(texts).not.toContain("A course of long name 1");
    const x = score.time.at(first + 40) - 1;
    const line = new RegExp(`<rect x="${Math.round(x * 100) / 100}" y="([\\d.]+)" width="2"`).exec(
      svgText(score.drawing),
    )!;
    expect(Number(line[1])).toBeGreaterThanOrEqual(36);
  });
  it("D13 the head drawn alone tells what the score's own head tells, at the same places", () => {
    const input = inputOf("along");
    const inHead = (svg: string) =>
      [...svg.matchAll(/<text x="([-\d.]+)" y="([\d.]+)"[^>]*>([^<]*)</g)]
        .map((m) => m.slice(1))
        .filter(([, y]) => Number(y) < PAGE_MEASURES.head);
    const head = inHead(svgText(scoreHead(input, PAPER_INK)));
    expect(head.length).toBeGreaterThan(5);
    expect(head).toEqual(inHead(svgText(wholeScore("along").drawing)));
  });
  it("staves do not overlap", () => {
    const laid = wholeScore("along").staves;
    laid.forEach((stave, i) => {
      const next = laid[i + 1];
      if (next) expect(stave.start + stave.size).toBeLessThanOrEqual(next.start);
    });
  });
});
