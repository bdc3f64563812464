import { amountsBench } from "./amounts.ts";
import { heatBench } from "./heat.ts";
import { liveBench } from "./live.ts";
import { ordersBench } from "./orders.ts";
import { recallBench } from "./recall.ts";
import { laggedRows, projectRows, type ScheduleRow, scheduleRows } from "./schedule.ts";
import { storesBench } from "./stores.ts";

interface Row {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string | number | undefined;
  readonly ok: boolean;
}

/** Figures, or why there are none. */
type Bench = () => Promise<readonly Row[] | string>;

const BENCHES: Readonly<Record<string, Bench>> = {
  amounts: amountsBench,
  heat: heatBench,
  live: liveBench,
  orders: ordersBench,
  recall: recallBench,
  stores: storesBench,
  schedule: async () => withGoals(scheduleRows()),
  // Published instances, from the folder that CHECK_DATA names.
  projects: async () =>
    process.env.CHECK_DATA
      ? withGoals(
          [laggedRows, projectRows].flatMap((figures) => figures(`${process.env.CHECK_DATA}/benchmarks`)),
        )
      : "skipped: published instances are not part of this repository. Set CHECK_DATA to the folder whose benchmarks/ holds them.",
};

function withGoals(rows: readonly ScheduleRow[]): Row[] {
  return rows.map(({ limit, ...row }) => ({
    ...row,
    goal: limit,
    ok: limit === undefined || row.value <= limit,
  }));
}

/** `npm run bench [name …]`: prints each figure beside its goal; says aloud which goal is missed. */
const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !(name in BENCHES));
if (unknown.length > 0) {
  console.error(`no bench is called ${unknown.join(" or ")}; there are ${Object.keys(BENCHES).join(", ")}`);
  process.exit(2);
}
let missed = 0;
const skipped: string[] = [];
for (const [name, bench] of Object.entries(BENCHES)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  console.log(`\n${name}`);
  const rows = await bench();
  if (typeof rows === "string") {
    skipped.push(name);
    console.log(`  ${rows}`);
    continue;
  }
  for (const row of rows) {
    if (!row.ok) missed++;
    const value = Number(row.value.toPrecision(4)).toString().padStart(12);
    console.log(
      `${row.ok ? "  " : "✕ "}${value} ${row.unit.padEnd(12)}${row.name}${row.goal === undefined ? "" : `  (goal ${typeof row.goal === "number" ? `at most ${row.goal}` : row.goal})`}`,
    );
  }
}
if (skipped.length > 0) console.log(`\nNot measured: ${skipped.join(", ")}.`);
console.log(
  missed > 0
    ? `\n${missed} goals are missed: the lines marked ✕.`
    : skipped.length > 0
      ? "\nEvery goal that was measured is met."
      : "\nEvery goal is met.",
);
