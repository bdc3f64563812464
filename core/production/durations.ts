import type { Preparation, Step, Work } from "../formula/schema.ts";
import { commonWorkMinutes, dividedWorkMinutes, passiveMinutes, wholeUp } from "./plan-rules.ts";
import type { Masses, Site } from "./site.ts";
import type { DurationOf, Way } from "./tasks.ts";

/**
 * Ways of doing work, fewest hands first (README, P2). More hands are offered only while they save a minute,
 * and no more than the kitchen has with the skill; fewer than the least asked for is said as a lack.
 */
export function waysOfWork(
  site: Site,
  prep: Preparation,
  work: Work,
  masses: Masses,
  skill: string | undefined,
  task: string,
): Way[] {
  const able = handsWith(site, skill);
  const { least, most, split } = work.hands;
  if (able < least) {
    const who = skill === undefined ? "persons" : `persons with the skill "${skill}"`;
    const what = `${prep.name} needs ${least} hands at once, there are ${able} ${who}`;
    site.lacks.push({ rule: "hands", tasks: [task], by: least - able, unit: "hands", what });
  }
  const fewest = Math.min(least, able);
  const minutes = (hands: number) => {
    const figures = [
      work.fixedMin,
      work.perKgMin ?? 0,
      masses.inG,
      work.perPieceMin ?? 0,
      masses.pieces,
      work.perBatchMin ?? 0,
    ] as const;
    return split === "each"
      ? commonWorkMinutes(...figures, site.kitchen.around)
      : dividedWorkMinutes(...figures, Math.max(1, hands), site.kitchen.around);
  };
  const ways: Way[] = [{ hands: fewest, minutes: minutes(fewest) }];
  if (split === "divides")
    for (let hands = fewest + 1; hands <= Math.min(most, able); hands++) {
      const shorter = minutes(hands);
      if (shorter < ways.at(-1)!.minutes) ways.push({ hands, minutes: shorter });
    }
  return ways;
}

/** How many of the crew have a skill (or simply how many there are). */
export function handsWith(site: Site, skill: string | undefined): number {
  if (skill === undefined) return site.crew.length;
  return site.crew.filter((person) => person.skills.includes(skill)).length;
}

/** Minutes a step waits without hands (README, P3); undefined when it does not wait. */
export function durationOfPassive(
  site: Site,
  prep: Preparation,
  step: Step,
  masses: Masses,
  pointer: string,
): { readonly minutes: number; readonly from: DurationOf["from"] } | undefined {
  if (step.target) {
    const filled = site.fillTarget(prep, step, masses);
    if ("minutes" in filled) return { minutes: wholeUp(filled.minutes), from: "target" };
    const path = `${pointer}/target`;
    if (!site.doubts.some((d) => d.path === path))
      site.doubts.push({ path, what: filled.doubt, mend: filled.mend });
  }
  const passive = step.passive;
  if (!passive) return step.target ? { minutes: 0, from: "fixed" } : undefined;
  const minutes =
    "min" in passive
      ? passiveMinutes(passive.min, 0, masses.inG)
      : passiveMinutes(passive.fixedMin, passive.perKgMin, masses.inG);
  return { minutes, from: "passive" };
}
