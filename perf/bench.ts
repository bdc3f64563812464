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

const BENCHES: Readonly<Record<string, () => Promise<readonly Row[]>>> = {
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
      : [],
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
let missed = 0;
for (const [name, bench] of Object.entries(BENCHES)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  console.log(`\n${name}`);
  for (const row of await bench()) {
    if (!row.ok) missed++;
    const value = Number(row.value.toPrecision(4)).toString().padStart(12);
    console.log(
      `${row.ok ? "  " : "✕ "}${value} ${row.unit.padEnd(12)}${row.name}${row.goal === undefined ? "" : `  (goal ${typeof row.goal === "number" ? `at most ${row.goal}` : row.goal})`}`,
    );
  }
}
console.log(`\n${missed === 0 ? "Every goal is met." : `${missed} goals are missed: the lines marked ✕.`}`);
