import fc from "fast-check";
import type { Mode, Problem, Task } from "../../core/schedule/problem.ts";
import { validateProblem } from "../../core/schedule/validate.ts";

// Random small problems with every feature, for the property tests of this room.

const H = 600;
const ten = (least: number, most: number) =>
  fc.integer({ min: least / 10, max: most / 10 }).map((x) => x * 10);

const person = (id: string) =>
  fc
    .record({ from: ten(0, 100), length: ten(200, 500), rest: ten(50, 150), skills: fc.subarray(["a", "b"]) })
    .map((p) => ({
      id,
      skills: p.skills,
      shifts: [
        {
          from: p.from,
          to: p.from + p.length,
          breaks: [{ from: p.from + p.rest, to: p.from + p.rest + 20 }],
        },
        { from: H, to: H + 200 },
      ],
    }));

const oven = { lowest: 50, highest: 250, tolerance: 10, minutesPerUnit: 0.5, leastMinutes: 10 };
const resources = fc.record({ calendar: fc.boolean(), capacity: fc.integer({ min: 3, max: 5 }) }).map((r) => [
  { id: "oven", capacity: [r.capacity, 100], state: oven },
  { id: "oven2", capacity: [r.capacity, 50], state: { ...oven, tolerance: 0 } },
  {
    id: "kettle",
    capacity: [2],
    setups: [
      { from: "x", to: "y", minutes: 30 },
      { from: "y", to: "x", minutes: 10 },
    ],
  },
  {
    id: "room",
    capacity: [4],
    ...(r.calendar
      ? {
          calendar: [
            { from: 0, to: 200, capacity: [3] },
            { from: 220, to: 900, capacity: [4] },
          ],
        }
      : {}),
  },
]);

const need = fc.oneof(
  fc
    .record({
      of: fc.constant(["oven", "oven2"]),
      size: fc.integer({ min: 0, max: 3 }),
      set: fc.constantFrom(100, 105, 112, 180),
    })
    .map((n) => ({ of: n.of, amount: [n.size, 10 * n.size], state: { set: n.set } })),
  fc
    .record({
      size: fc.integer({ min: 1, max: 2 }),
      class: fc.constantFrom("x", "y", "z"),
      exclusive: fc.boolean(),
    })
    .map((n) => ({
      of: ["kettle"],
      amount: [n.size],
      class: n.class,
      exclusive: n.exclusive,
    })),
  fc.record({ size: fc.integer({ min: 1, max: 3 }), batch: fc.constantFrom("u", "v", "") }).map((n) => ({
    of: ["room", "kettle"],
    amount: [Math.min(2, n.size)],
    ...(n.batch === "" ? {} : { batch: n.batch }),
  })),
);

const mode: fc.Arbitrary<Mode> = fc.record({
  duration: ten(0, 120),
  interrupt: fc.constantFrom("no", "breaks", "shifts"),
  people: fc.array(
    fc.record({ count: fc.integer({ min: 1, max: 2 }), skill: fc.constantFrom("a", "b", "") }).map((n) => ({
      count: n.count,
      ...(n.skill === "" ? {} : { skill: n.skill }),
    })),
    { maxLength: 1 },
  ),
  resources: fc.array(need, { maxLength: 2 }),
});

export const problems: fc.Arbitrary<Problem> = fc
  .record({
    modes: fc.array(fc.array(mode, { minLength: 1, maxLength: 2 }), { minLength: 1, maxLength: 7 }),
    dates: fc.array(
      fc.record({ release: ten(0, 200), deadline: ten(300, 600), use: fc.constantFrom(0, 0, 1, 2) }),
      {
        minLength: 7,
        maxLength: 7,
      },
    ),
    links: fc.array(
      fc.record({
        from: fc.nat(6),
        to: fc.nat(6),
        at: fc.constantFrom("start" as const, "end" as const),
        least: ten(-20, 60),
        play: ten(0, 200),
        use: fc.constantFrom(0, 1, 2),
      }),
      { maxLength: 6 },
    ),
    spans: fc.array(fc.record({ from: fc.nat(6), to: fc.nat(6), size: fc.integer({ min: 1, max: 2 }) }), {
      maxLength: 2,
    }),
    resources,
    persons: fc.tuple(person("p"), person("q"), person("r")),
    same: fc.boolean(),
  })
  .map((r): Problem => {
    const n = r.modes.length;
    const tasks = r.modes.map((modes, i): Task => {
      const d = r.dates[i]!;
      return {
        id: `t${i}`,
        // The first two may have to be done by the same hands on the same unit.
        modes:
          r.same && i < 2
            ? modes.map((m) => ({ ...m, people: (m.people ?? []).map((q) => ({ ...q, same: "team" })) }))
            : modes,
        ...(d.use > 0 ? { release: d.release } : {}),
        ...(d.use > 1 ? { deadline: d.deadline } : {}),
        early: 1,
      };
    });
    const lags = r.links
      .filter((l) => l.from % n < l.to % n)
      .map((l) => ({
        from: { task: `t${l.from % n}`, at: l.at },
        to: { task: `t${l.to % n}`, at: "start" as const },
        ...(l.use !== 1 ? { least: l.least } : {}),
        ...(l.use !== 0 ? { most: l.least + l.play, best: l.least } : {}),
      }));
    const spans = r.spans
      .filter((s) => s.from % n < s.to % n)
      .map((s, k) => ({
        id: `s${k}`,
        from: { task: `t${s.from % n}`, at: "end" as const },
        to: { task: `t${s.to % n}`, at: "start" as const },
        need: { of: ["room"], amount: [s.size] },
      }));
    return { horizon: H, tasks, lags, spans, resources: r.resources, persons: r.persons };
  })
  .filter((p) => validateProblem(p).length === 0);
