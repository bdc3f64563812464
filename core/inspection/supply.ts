import { lacking } from "./flow.ts";
import { named } from "./named.ts";
import type { Finding } from "./types.ts";

/** Food that is there from a minute on. */
export interface Lot {
  readonly task: string;
  readonly amount: number;
  /** From when it may be taken. */
  readonly readyMin: number;
  /** Until when the last of it must be used; undefined for no limit. */
  readonly useByMin?: number | undefined;
}

/** Food that is taken at a minute. */
export interface Take {
  readonly task: string;
  readonly amount: number;
  readonly takenMin: number;
  /** When the last of it is used: the take itself, or the end of a plate-up. */
  readonly usedMin: number;
}

/** What the two rules are called in the findings. */
export interface SupplyRules {
  readonly ready: string;
  readonly hold: string;
  readonly what: string;
}

/**
 * Judges a lot's making against its use: at every moment no more is taken than was made, and there is a way to hand
 * the lots to the takers so that each is used within its limit.
 */
export function judgeSupply(lots: readonly Lot[], takes: readonly Take[], rules: SupplyRules): Finding[] {
  const early = takenTooEarly(lots, takes, rules);
  return early.length > 0 ? early : usedTooLate(lots, takes, rules);
}

export function takenTooEarly(lots: readonly Lot[], takes: readonly Take[], rules: SupplyRules): Finding[] {
  const found: Finding[] = [];
  const inOrder = [...lots].sort((a, b) => a.readyMin - b.readyMin);
  for (const take of takes) {
    let wanted = 0;
    for (const other of takes) if (other.takenMin <= take.takenMin) wanted += other.amount;
    wanted *= 1 - 1e-9;
    let made = 0;
    for (const lot of inOrder) {
      if (made >= wanted) break;
      made += lot.amount;
      if (made < wanted || lot.readyMin <= take.takenMin) continue;
      const by = lot.readyMin - take.takenMin;
      found.push({
        ...{ rule: rules.ready, tasks: [lot.task, take.task], by, unit: "min" },
        what: `${named(take.task)} begins ${by} min ${rules.ready === "after" ? "too soon after" : "before"} ${named(lot.task)}${rules.ready === "after" ? "" : " is done"}`,
      });
    }
  }
  return found;
}

function usedTooLate(lots: readonly Lot[], takes: readonly Take[], rules: SupplyRules): Finding[] {
  if (lots.every((lot) => lot.useByMin === undefined)) return [];
  const lateBy = (lot: Lot, take: Take) => take.usedMin - (lot.useByMin ?? Infinity);
  const lack = lacking({
    from: lots.map((lot) => ({ item: lot, amount: lot.amount })),
    to: takes.map((take) => ({ item: take, amount: take.amount })),
    joined: (lot, take) => lot.readyMin <= take.takenMin && lateBy(lot, take) <= 0,
  });
  if (lack.every((each) => each === 0)) return [];
  // No way of handing out keeps every limit; it is told as the kitchen would see it, the oldest taken first.
  const told = oldestFirst(lots, takes).flatMap(({ take, lots: taken }) => {
    const late = taken.filter((lot) => lateBy(lot, take) > 0);
    if (late.length === 0) return [];
    const by = Math.max(...late.map((lot) => lateBy(lot, take)));
    return [tooLate(rules, [...late.map((lot) => lot.task), take.task], by)];
  });
  if (told.length > 0) return told;
  return takes.flatMap((take, i) => (lack[i]! > 0 ? [tooLate(rules, [take.task], 1)] : []));
}

function tooLate(rules: SupplyRules, tasks: readonly string[], by: number): Finding {
  const [taker, lots] = [named(tasks.at(-1)!), tasks.slice(0, -1).map((id) => named(id))];
  const food = lots.length === 0 ? rules.what : `what came of ${lots.join(" and ")}`;
  return {
    rule: rules.hold,
    tasks,
    by,
    unit: "min",
    what: `${taker} uses ${food} ${by} min after its limit`,
  };
}

/** Which lots each taker gets when the oldest food goes first. */
function oldestFirst(
  lots: readonly Lot[],
  takes: readonly Take[],
): { readonly take: Take; readonly lots: readonly Lot[] }[] {
  const queue = [...lots].sort((a, b) => a.readyMin - b.readyMin);
  const crumb = 1e-9 * takes.reduce((sum, take) => sum + take.amount, 0);
  let at = 0;
  let left = queue[0]?.amount ?? 0;
  const inOrder = [...takes].sort((a, b) => a.takenMin - b.takenMin || a.usedMin - b.usedMin);
  return inOrder.map((take) => {
    const taken: Lot[] = [];
    let wanted = take.amount;
    while (at < queue.length && wanted > crumb) {
      const part = Math.min(wanted, left);
      if (part > crumb) taken.push(queue[at]!);
      wanted -= part;
      left -= part;
      if (left <= crumb) left = queue[++at]?.amount ?? 0;
    }
    return { take, lots: taken };
  });
}
