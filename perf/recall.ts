import { Random } from "../core/numerics/random.ts";
import type { LogLine } from "../core/safety/log-lines.ts";
import { Recall } from "../core/safety/lots-recall.ts";
import type { LotBody, LotRef, Shape } from "../core/safety/lots-schema.ts";
import { lotKey } from "../core/safety/lots-stock.ts";

/** A year of a kitchen with 250 services, as its log has it: `entries` of them, by a seed. */
export function yearOfRecords(entries: number, seed = "a year"): LogLine[] {
  const random = Random.of(seed);
  const lines: LogLine[] = [];
  const day = (n: number, hour: number) =>
    new Date(Date.UTC(2026, 0, 1 + n, hour, random.below(60))).toISOString();
  const add = (body: LotBody, service: string, at: string) =>
    lines.push({ id: `entry-${lines.length}`, service, at, by: "cook", body });
  const ingredients = Array.from({ length: 200 }, (_, i) => `ingredient-${i}`);
  const newest = new Map<string, LotRef[]>();
  const perService = Math.floor(entries / 250);
  for (let s = 0; s < 250; s++) {
    const [service, first] = [`service-${s}`, Math.floor(s * 1.4)];
    const made = Array.from({ length: 60 }, (_, i) => ({
      preparation: `prep-${i}`,
      batches: 1 + random.below(3),
      ingredients: Array.from({ length: 5 }, () => ingredients[random.below(200)]!),
      preparations: i < 20 ? [] : [`prep-${random.below(20)}`],
    }));
    const seats = Array.from({ length: 72 }, (_, i) => `${i}`);
    const plates: Shape["plates"] = Array.from({ length: 12 }, (_, i) => ({
      ...{ course: `course-${i % 5}`, dish: `dish-${i}`, variant: "standard", needs: [], count: 72, seats },
      ingredients: [ingredients[random.below(200)]!],
      preparations: Array.from({ length: 5 }, () => `prep-${20 + random.below(40)}`),
    }));
    const span = { from: day(first, 6), to: day(first + 2, 22) };
    add({ kind: "shape", name: service, ...span, made, plates }, service, day(first, 6));
    const deliveries = Math.floor(perService / 4);
    for (let i = 0; i < deliveries; i++) {
      const ingredient = ingredients[(s * deliveries + i) % 200]!;
      const of = { ingredient, lot: `L${s}-${i}`, supplier: "farm" };
      newest.set(ingredient, [...(newest.get(ingredient) ?? []).slice(-1), of]);
      const amount = { value: 5, unit: "kg" } as const;
      add(
        { kind: "delivery", of, amount, useBy: span.to.slice(0, 10), accepted: true },
        service,
        day(first, 7),
      );
    }
    while (lines.length < (s + 1) * perService) {
      const one = made[random.below(60)]!;
      const of = newest.get(one.ingredients[random.below(5)]!)?.[0];
      if (!of) continue;
      const amount = { value: 1 + random.below(2000), unit: "g" } as const;
      const into = { preparation: one.preparation, batch: 1 + random.below(one.batches) };
      if (random.below(20) === 0)
        add({ kind: "discarded", lot: of, amount, reason: "old" }, service, day(first + 2, 21));
      else add({ kind: "used", lot: of, into, amount }, service, day(first + 1, 6 + random.below(14)));
    }
  }
  return lines;
}

/** Reading a year of records, and asking them both ways; the slowest of the questions counts. */
export async function recallBench() {
  const lines = yearOfRecords(50_000);
  const weigh = (_: string, { value, unit }: { value: number | string; unit: string }) =>
    Number(value) * (unit === "kg" ? 1000 : 1);
  const cpu = () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  };
  const began = cpu();
  const recall = new Recall(lines, weigh);
  const read = cpu() - began;
  const timed = (ask: (i: number) => void, n: number) => {
    let worst = 0;
    for (let i = 0; i < n; i++) {
      const from = cpu();
      ask(i);
      worst = Math.max(worst, cpu() - from);
    }
    return worst;
  };
  const keys = [...recall.stock.lots.values()].map(({ ref }) => lotKey(ref));
  const forward = timed((i) => recall.forward([keys[(i * 7919) % keys.length]!]), 200);
  const back = timed((i) => recall.backFromSeat(`service-${i}`, String(i % 72)), 200);
  const row = (name: string, value: number, goal: number) => ({
    ...{ name, value, unit: "ms", goal, ok: value <= goal },
  });
  return [
    row(`${lines.length} entries of a year: read, processor time`, read, 1000),
    row("a lot: all batches, dishes, seats; slowest of 200", forward, 1000),
    row("a seat: all lots that may be in it; slowest of 200", back, 1000),
  ];
}
