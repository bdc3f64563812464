import type { Preparation, Step, Use } from "../formula/schema.ts";
import type { Documents } from "./documents.ts";
import type { MadePlan } from "./make-plan.ts";
import type { Broken } from "./plan-types.ts";
import type { Kitchen } from "./schema.ts";

type Equipment = Kitchen["equipment"][number];

/** Steps in the book changed to use other equipment, not yet tried. */
interface StepChange {
  readonly what: string;
  readonly docs: Documents;
}

/** Changes tried at most: each is planned anew. */
const MOST = 3;
/** What a breach of equipment is called. */
const OF_EQUIPMENT = new Set([
  "equipment",
  "range",
  "room",
  "temperature",
  "changeover",
  "exclusive",
  "days",
]);

interface Place {
  readonly preparation: Preparation;
  readonly step: Step;
  readonly use: number;
}

/**
 * What stands in broken rules of equipment, in other equipment of another kind that is heated, too, reaches the
 * temperature (or one within the step's own tolerance) and counts its room the same way. Whether the food may go
 * there, without steam for instance, only the chef knows: it is said.
 */
export function otherEquipment(made: MadePlan, broken: readonly Broken[]): StepChange[] {
  const { site } = made;
  const changes: StepChange[] = [];
  for (const [kind, places] of inBreach(made, broken))
    for (const other of site.kitchen.equipment) {
      if (changes.length === MOST) return changes;
      const names = site.kitchen.equipment.filter((e) => e.kind === kind || e.id === kind);
      if (other.kind === kind || other.id === kind) continue;
      const able = places.filter(({ step, use }) => setIn(other, step.uses[use]!) !== undefined);
      if (able.length === 0) continue;
      const from = names.length === 1 ? names[0]!.name : kind.replaceAll("-", " ");
      changes.push({
        what: `${words(able, other)} instead of ${from}, if the food may go there`,
        docs: moved(site.docs, able, other),
      });
    }
  return changes;
}

/** By kind (or id) of equipment that is in breach, the steps in any breach that are heated in it. */
function inBreach({ site, set }: MadePlan, broken: readonly Broken[]): Map<string, Place[]> {
  const stepsOf = (rules: readonly Broken[]) => {
    const ids = new Set(rules.flatMap(({ tasks }) => tasks));
    const tasks = set.tasks.filter((task) => ids.has(task.id));
    return new Set(tasks.map((task) => `${task.preparation}/${task.step}`));
  };
  const tight = stepsOf(broken.filter(({ rule }) => OF_EQUIPMENT.has(rule)));
  const any = stepsOf(broken);
  const found = new Map<string, Place[]>();
  const tightKinds = new Set<string>();
  for (const id of site.amounts.preparations.keys()) {
    const preparation = site.docs.preparations.get(id);
    for (const step of preparation?.steps ?? [])
      step.uses.forEach(({ setC, kind, equipment }, use) => {
        const key = (kind ?? equipment)!;
        if (setC === undefined || !any.has(`${id}/${step.id}`)) return;
        if (tight.has(`${id}/${step.id}`)) tightKinds.add(key);
        found.set(key, [...(found.get(key) ?? []), { preparation: preparation!, step, use }]);
      });
  }
  return new Map([...found].filter(([key]) => tightKinds.has(key)));
}

/** The temperature a use would have in other equipment; undefined where it cannot stand there. */
function setIn(other: Equipment, { setC, toleranceC = 0, space, depthMm = 0 }: Use): number | undefined {
  if (!other.rangeC || !other.capacity.some((c) => c.unit === space.unit)) return undefined;
  if (depthMm > (other.maxDepthMm ?? Number.POSITIVE_INFINITY)) return undefined;
  const nearest = Math.min(Math.max(setC!, other.rangeC[0]), other.rangeC[1]);
  return Math.abs(nearest - setC!) <= toleranceC ? nearest : undefined;
}

function moved(docs: Documents, places: readonly Place[], other: Equipment): Documents {
  const preparations = new Map(docs.preparations);
  for (const { preparation, step, use } of places) {
    const now = preparations.get(preparation.id)!;
    const steps = now.steps.map((each) => {
      if (each.id !== step.id) return each;
      const uses = each.uses.map((one, k) => {
        if (k !== use) return one;
        const { kind: _, ...rest } = one;
        return { ...rest, equipment: other.id, setC: setIn(other, one)! };
      });
      return { ...each, uses };
    });
    preparations.set(preparation.id, { ...now, steps });
  }
  return { ...docs, preparations };
}

function words(places: readonly Place[], other: Equipment): string {
  const told = places.slice(0, 3).map(({ preparation, step, use }) => {
    const [was, now] = [step.uses[use]!.setC!, setIn(other, step.uses[use]!)!];
    return `${preparation.name}: ${step.name}${now === was ? "" : ` at ${now} °C instead of ${was}`}`;
  });
  const more = places.length > 3 ? ` and ${places.length - 3} more` : "";
  return `${told.join("; ")}${more} in ${other.name}`;
}
