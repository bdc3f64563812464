import type { Result } from "../core/run/result.ts";
import type { Io } from "./io.ts";

/** Broken rules told at a terminal: the foremost come first. */
const MOST = 12;

/** Writes a result as a person reads it at a terminal. */
export function writeSummary(result: Result, io: Io): void {
  const { summary, plan, orders, warnings } = result;
  io.out(`${summary.serviceName}: ${summary.covers} covers, ${summary.at}\n${summary.sentence}\n\n`);
  io.out(`${summary.preparations} preparations, ${plan.tasks.length} tasks, `);
  io.out(`${(summary.handsMinutes / 60).toFixed(1)} hours of hands\n`);
  io.out(`Cost ${summary.costPerCover.toFixed(2)} ${result.cost.currency} a cover`);
  if (summary.costShare !== undefined) io.out(`, ${(summary.costShare * 100).toFixed(1)} % of the price`);
  io.out(`; orders ${summary.orderTotal} ${result.cost.currency}\n`);
  for (const order of orders)
    io.out(
      `  ${order.name}: ${order.lines.length} lines, ${order.total}, order by ${order.orderBy}, comes ${order.deliver}\n`,
    );
  writeNoPlan(plan, io);
  for (const broken of plan.broken.slice(0, MOST)) io.out(`  does not fit: ${broken.what}\n`);
  if (plan.broken.length > MOST) io.out(`  and ${plan.broken.length - MOST} more; --json has all\n`);
  if (plan.conflict) {
    io.out("  these cannot all be kept; without any one of them the rest can:\n");
    for (const rule of plan.conflict) io.out(`    ${rule.what}\n`);
  }
  for (const remedy of plan.remedies) io.out(`  remedy: ${remedy.change}: ${remedy.result}\n`);
  for (const { path, what, mend } of warnings) io.note(`${path}: ${what}. To mend: ${mend}.\n`);
}

/** Whether no plan exists or none was found, before what the attempt breaks. */
function writeNoPlan({ noPlan, conflict, schedules }: Result["plan"], io: Io): void {
  if (!noPlan) return;
  if (!noPlan.proved) {
    io.out(`  no plan found in ${schedules} schedules; that none exists is not proved\n`);
    return;
  }
  const named = noPlan.rules.length > 0;
  const by =
    conflict && named
      ? "those told as a conflict suffice"
      : named
        ? "these suffice"
        : "hands, room, dates and waits together prove it";
  io.out(`  proved: no plan exists that keeps every rule; ${by}${named && !conflict ? ":" : ""}\n`);
  if (!conflict) for (const { what } of noPlan.rules.slice(0, MOST)) io.out(`    ${what}\n`);
}
