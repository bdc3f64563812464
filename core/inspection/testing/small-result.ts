import { ALLERGENS } from "../../pantry/schema.ts";
import { DIETS } from "../../plating/schema.ts";
import type { PlanTask, PlateCount } from "../../run/result.ts";
import type { Judged } from "../types.ts";

/** Minutes from the horizon, D-1 08:00, to a clock of the day of service. */
const minute = (clock: string) => 960 + 60 * Number(clock.slice(0, 2)) + Number(clock.slice(3));

/** The clock of a minute of the day of service. */
const clockOf = (at: number) =>
  `D ${String(Math.floor((at - 960) / 60)).padStart(2, "0")}:${String(at % 60).padStart(2, "0")}`;

type Row = readonly [id: string, start: string, end: string, hands?: string, units?: string];

/**
 * The day of the small service, worked out by hand. Work is (fixed + variable) × 1.25, whole minutes: the sauce takes
 * (4 + 2.5 × 0.704 kg) × 1.25 = 7.2, so 8; a batch of five tarts (4 + 5) × 1.25 = 11.25, so 12.
 * Units: id, space, unit, set temperature.
 */
const DAY: readonly Row[] = [
  ["stock/simmer/1", "09:00", "09:10", "ana", "kettle#1 0.99 litre"],
  ["stock/simmer/1/wait", "09:10", "11:10", "", "kettle#1 0.99 litre"],
  ["stock/simmer/1/look-1", "10:00", "10:02", "ana"],
  ["stock/simmer/1/look-2", "10:50", "10:52", "ana"],
  ["thaw/tart/berries/1", "10:00", "11:00"],
  ["thaw/tart/berries/2", "10:00", "11:00"],
  ["stock/strain/1", "11:10", "11:25", "ana"],
  ["tart/mix/1", "12:00", "12:12", "ben", "mixer 0.5 kg"],
  ["tart/mix/2", "12:12", "12:24", "ben", "mixer 0.5 kg"],
  ["tart/bake/1/wait", "12:44", "13:14", "", "combi 1 shelf 180"],
  ["tart/bake/2/wait", "12:44", "13:14", "", "combi 1 shelf 180"],
  ["gratin/slice/1", "17:00", "17:15", "ben"],
  ["gratin/bake/1/wait", "18:20", "19:05", "", "combi 1 shelf 150"],
  ["sauce/reduce/1", "18:00", "18:08", "ben", "kettle#1 0.704 litre"],
  ["sauce/reduce/1/wait", "18:08", "18:28", "", "kettle#1 0.704 litre"],
  ["line-check", "18:30", "18:40", "ana"],
  ["plate/main/meat", "19:26", "19:30", "ana"],
  ["plate/main/green", "19:29", "19:30", "ben"],
  ["course/main", "19:30", "19:30"],
  ["plate/dessert/tart", "20:08", "20:10", "ben"],
  ["course/dessert", "20:10", "20:10"],
];

type Said = Readonly<Record<string, Partial<PlanTask>>>;
const kept = (state: string, maxMin: number, usedMin: number) => ({ hold: { state, maxMin, usedMin } });

/**
 * What is said of each task, by hand: minutes it may slip when what comes after it is pushed, what it comes after, the wait
 * nearest to its limit, its station.
 */
const SAID: Said = {
  // Pinned; its waiting goes with it, and a look-in may come a quarter of 50 min later.
  "stock/simmer/1": { station: "hot" },
  "stock/simmer/1/wait": { station: "hot", after: ["stock/simmer/1"] },
  "stock/simmer/1/look-1": { slackMin: 12, station: "hot", after: ["stock/simmer/1/wait"] },
  "stock/simmer/1/look-2": { slackMin: 12, station: "hot", after: ["stock/simmer/1/wait"] },
  // Mixed by 13:10 and 13:22, thawed an hour before.
  "thaw/tart/berries/1": { slackMin: 130, station: "cold" },
  "thaw/tart/berries/2": { slackMin: 142, station: "cold" },
  // Ana's break may move to 18:00, half an hour before the line check, and she strains before it.
  "stock/strain/1": {
    slackMin: 395,
    station: "hot",
    after: ["stock/simmer/1/wait"],
    ...kept("cold", 1500, 395),
  },
  // 90 min after it was mixed a tart is in the oven: by 13:42 and 13:54, so mixed 20 min before that.
  "tart/mix/1": { slackMin: 70, station: "cold", after: ["thaw/tart/berries/1"] },
  "tart/mix/2": { slackMin: 70, station: "cold", after: ["thaw/tart/berries/2"] },
  "tart/bake/1/wait": { slackMin: 58, after: ["tart/mix/1"], ...kept("ambient", 600, 416) },
  "tart/bake/2/wait": { slackMin: 70, after: ["tart/mix/2"], ...kept("ambient", 600, 416) },
  // Out of the oven at 19:26, when the meat is plated.
  "gratin/slice/1": { slackMin: 86, station: "cold" },
  "gratin/bake/1/wait": { slackMin: 21, after: ["gratin/slice/1"], ...kept("hot", 90, 25) },
  "sauce/reduce/1": { slackMin: 58, station: "hot", after: ["stock/strain/1"] },
  "sauce/reduce/1/wait": { slackMin: 58, station: "hot", after: ["sauce/reduce/1"], ...kept("hot", 120, 62) },
  "line-check": { station: "pass", after: ["tart/bake/1/wait", "tart/bake/2/wait"] },
  "plate/main/meat": { station: "pass", after: ["gratin/bake/1/wait", "sauce/reduce/1/wait"] },
  "plate/main/green": { station: "pass", after: ["gratin/bake/1/wait"] },
  "course/main": { after: ["plate/main/meat", "plate/main/green"] },
  "plate/dessert/tart": { station: "pass", after: ["tart/bake/1/wait", "tart/bake/2/wait"] },
  "course/dessert": { after: ["plate/dessert/tart"] },
};

const none = { value: 0, unit: "g" };

/** The run of the small service as it must be: nothing is wrong with it. */
export function smallResult(): Judged {
  return {
    plates: [
      plates("main", "meat", "standard", 7, ["coeliac"]),
      plates("main", "green", "standard", 3, ["vegetarian"]),
      plates("dessert", "tart", "standard", 9, ["vegetarian"]),
      plates("dessert", "tart", "coeliac", 1, ["coeliac"]),
    ],
    needs: [
      // (7 + 1) × 50 g and a tenth over; 1.5 g of stock for each gram of sauce.
      need("sauce", 440, 40, 0.44),
      need("stock", 660, 0, 0.165),
      need("gratin", 1280, 0, 1.28),
      need("tart", 1000, 0, 0.5, [5, 5]),
    ],
    plan: {
      ...{
        status: "feasible",
        objective: [],
        peaks: [],
        broken: [],
        remedies: [],
        load: [],
        seed: 1,
        schedules: 1,
      },
      tasks: DAY.map(task),
    },
    allergens: [
      ...cells("meat", "standard", ["milk"], ["vegetarian", "vegan", "pescatarian"]),
      ...cells("green", "standard", ["milk"], ["vegan"]),
      ...cells("tart", "standard", ["gluten", "wheat"], ["coeliac"]),
      ...cells("tart", "coeliac", [], []),
    ],
    balance: [
      // 0.99 kg × 0.8, less a sixth; 0.704 kg reduced to 0.44 kg.
      balance("stock", 990, 660, { evaporated: 198, strained: 132 }),
      balance("sauce", 704, 440, { evaporated: 264 }),
      balance("tart", 1000, 1000, {}),
      balance("gratin", 1280, 1280, {}),
    ],
    orders: [
      {
        ...{ supplier: "market", name: "Market", orderBy: "D-1 12:00", deliver: "D 07:00" },
        ...{ charge: "0", goods: "32.00", total: "32.00", belowMinimum: "0" },
        // 1,280 g × 0.9 / 0.8 and 2 × 40 g / 0.8 are 1,540 g of carrots: four packs of 500 g.
        lines: Object.entries({ bones: 1, flour: 1, butter: 1, berries: 1, carrot: 4 }).map(
          ([id, packs]) => ({
            ...{
              offer: `o-${id}`,
              ingredient: id,
              name: id,
              packs,
              pack: "500 g",
              price: "4.00",
              total: (4 * packs).toFixed(2),
            },
            ...{ need: { value: 0, unit: "g" }, bought: { value: 500 * packs, unit: "g" }, alternatives: [] },
            why: { mean: none, surer: none, store: none, left: 0, short: 0 },
          }),
        ),
      },
    ],
  };
}

function plates(
  course: string,
  dish: string,
  variant: string,
  count: number,
  needs: PlateCount["needs"],
): PlateCount {
  return {
    course,
    dish,
    variant,
    needs,
    count,
    spare: 1,
    seats: [],
    notFed: [],
    plateG: 0,
    platingSeconds: 0,
  };
}

function need(preparation: string, grams: number, overage: number, factor: number, pieces?: number[]) {
  const g = (value: number) => ({ value, unit: "g" });
  const batches = pieces ?? [undefined];
  return {
    ...{ preparation, name: preparation, amount: g(grams), overage: g(overage), factor, usedBy: [] },
    batches: batches.map((count, i) => ({
      ...{ index: i + 1, amount: g(grams / batches.length) },
      ...(count === undefined ? {} : { pieces: count }),
    })),
  };
}

function cells(dish: string, variant: string, contained: readonly string[], notFor: readonly string[]) {
  const cell = (bad: boolean) => ({
    dish,
    variant,
    state: bad ? ("contains" as const) : ("free" as const),
    paths: [],
  });
  return [
    ...ALLERGENS.map((allergen) => ({ ...cell(contained.includes(allergen)), allergen })),
    ...DIETS.map((need) => ({ ...cell(notFor.includes(need)), need })),
  ];
}

function balance(preparation: string, inG: number, outG: number, lost: Record<string, number>) {
  const named = Object.entries(lost).map(([how, g]) => ({ how, g }));
  return { preparation, inG, outG, lost: named, waterG: 0, declaredG: outG };
}

function task([id, start, end, hands = "", units = ""]: Row): PlanTask {
  const [a = "", b = "", c = ""] = id.split("/");
  const of =
    a === "plate"
      ? { preparation: c, step: b, batch: 0, kind: "plate" as const }
      : a === "course" || a === "line-check"
        ? { preparation: "", step: "", batch: 0, kind: "milestone" as const }
        : a === "thaw"
          ? { preparation: b, step: "mix", batch: Number(id.at(-1)), kind: "passive" as const }
          : {
              preparation: a,
              step: b,
              batch: Number(c),
              kind: id.endsWith("wait") ? ("passive" as const) : ("work" as const),
            };
  return {
    ...{
      id,
      ...of,
      name: id,
      start: `D ${start}`,
      end: `D ${end}`,
      startMin: minute(start),
      endMin: minute(end),
    },
    hands: hands === "" ? [] : hands.split(" "),
    equipment: (units === "" ? [] : units.split(", ")).map((text) => {
      const [unit = "", space, of = "", setC] = text.split(" ");
      return { id: unit, space: Number(space), unit: of, ...(setC ? { setC: Number(setC) } : {}) };
    }),
    ...{ earliest: `D ${start}`, slackMin: 0, after: [], ...SAID[id] },
    latest: clockOf(minute(start) + (SAID[id]?.slackMin ?? 0)),
  };
}
