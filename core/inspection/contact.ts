import type { Preparation, Step } from "../formula/schema.ts";
import { ALLERGENS, type Allergen } from "../pantry/schema.ts";
import type { PlateCount } from "../run/result.ts";
import { allergensOf, tracesForbidden } from "./contents.ts";
import { namedForm } from "./forms.ts";
import { named } from "./named.ts";
import type { Load, Parts } from "./parts.ts";
import type { Scope } from "./scope.ts";
import { covered, type Span, shared } from "./spans.ts";
import { type Finding, roundUp } from "./types.ts";
import { type Equipment, staysOf } from "./units.ts";

/** Food at one place for a stretch of time: on a unit, or worked on at a bench. */
export interface Standing {
  readonly task: string;
  readonly load: Load;
  readonly span: Span;
}
interface Place {
  readonly name: string;
  /** Empty minutes that make it clean; Infinity where nobody says how long cleaning takes. */
  readonly cleanMin: number;
  /** A bench, or an oven's air: nothing stays behind on a surface. */
  readonly wiped: boolean;
  readonly there: readonly Standing[];
}

/** Kinds whose food stands open in one air, unless the kitchen says its shelves share none. */
const AIR = /^(combi|deck|oven|range-oven|steamer|smoker|salamander|prover|proofer|dehydrator)$/;
/** Kinds in which food is covered or in a vessel, a bag or a plate of its own. */
const ITS_OWN = /^(burner|induction|sealer|scale|plate-warmer|plate-bench)$/;
const COVERED =
  /^(chiller|blast-chiller|blast-freezer|cold-room|walk-in|fridge|freezer|freezer-room|hot-cabinet|hot-cupboard)$/;
const WATER = /^(bath|ice-sink|ice-bath)$/;
/** Minutes that make a bench clean where the kitchen gives no time around the work. */
const WIPE_MIN = 5;

/**
 * Judges that nothing a guest must not have traces of came to what lies on that guest's plate: food that has it, may
 * have it or of which nobody knows, on the same unit or bench at once, or before it without a cleaning.
 */
export function judgeContact(scope: Scope, parts: Parts, plates: readonly PlateCount[]): Finding[] {
  const kept = keptFrom(scope, plates);
  if (kept.size === 0) return [];
  const found: Finding[] = [];
  for (const place of placesOf(scope, parts))
    for (const [from, to, by] of passages(place)) {
      const forbidden = kept.get(to.load.preparation.id);
      if (!forbidden || from.load.preparation.id === to.load.preparation.id) continue;
      const brought = carriedAt(scope, from.load.preparation, from.load.step);
      const passed = [...forbidden].filter((allergen) => brought.has(allergen));
      if (passed.length === 0) continue;
      const what = `${place.name}: ${named(to.task)} is exposed to ${passed.join(", ")} of ${named(from.task)}, and a guest who must not have it gets it`;
      found.push({ rule: "contact", tasks: [from.task, to.task], by, unit: "min", what });
    }
  return found;
}

/** A place where the order of work keeps something from a guest, and how. */
export interface KeptApart {
  readonly there: readonly Standing[];
  /** Minutes the place stands empty when b follows a; undefined where the two may stand there together. */
  between(a: Standing, b: Standing): number | undefined;
}

/** Where food stands that must be kept from other food, with the minutes between: a minute to open a door or wipe a bench. */
export function keptApart(scope: Scope, parts: Parts, plates: readonly PlateCount[]): KeptApart[] {
  const kept = keptFrom(scope, plates);
  const known = new Map<string, boolean>();
  const passes = ({ load: a }: Standing, { load: b }: Standing) => {
    const key = `${a.preparation.id} ${a.step.id} ${b.preparation.id}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const carried = carriedAt(scope, a.preparation, a.step);
    const does = [...(kept.get(b.preparation.id) ?? [])].some((each) => carried.has(each));
    known.set(key, does);
    return does;
  };
  if (kept.size === 0) return [];
  return placesOf(scope, parts).map(({ there, cleanMin, wiped }) => ({
    there,
    between(a, b) {
      if (a.load.preparation.id === b.load.preparation.id) return undefined;
      if (!passes(a, b) && !passes(b, a)) return undefined;
      return wiped ? Math.max(1, cleanMin) : passes(a, b) ? cleanMin : 0;
    },
  }));
}

/** Allergens to which each preparation is exposed somewhere in the plan. */
export function exposedTo(scope: Scope, parts: Parts): ReadonlyMap<string, ReadonlySet<Allergen>> {
  const exposed = new Map<string, Set<Allergen>>();
  for (const place of placesOf(scope, parts))
    for (const [from, to] of passages(place)) {
      const { preparation, step } = to.load;
      if (preparation.id === from.load.preparation.id) continue;
      const has = carriedAt(scope, preparation, step);
      const known = exposed.get(preparation.id) ?? new Set();
      for (const allergen of carriedAt(scope, from.load.preparation, from.load.step))
        if (!has.has(allergen)) known.add(allergen);
      exposed.set(preparation.id, known);
    }
  return exposed;
}

/** Every preparation below what lies on a plate. */
export function belowPlate(scope: Scope, row: Pick<PlateCount, "dish" | "variant">): ReadonlySet<string> {
  const found = new Set<string>();
  const form = namedForm(scope.dishes.get(row.dish)!, row.variant)!;
  const open = form.flatMap((placement) => placement.preparation ?? []);
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (found.has(id)) continue;
    found.add(id);
    for (const { item } of scope.preparations.get(id)!.lines)
      if ("preparation" in item) open.push(item.preparation);
  }
  return found;
}

/** Which allergens must be kept from a preparation for the sake of a guest who gets it. */
function keptFrom(scope: Scope, plates: readonly PlateCount[]): Map<string, Set<Allergen>> {
  const kept = new Map<string, Set<Allergen>>();
  for (const row of plates) {
    const forbidden = row.needs.flatMap(tracesForbidden);
    if (forbidden.length === 0) continue;
    for (const id of belowPlate(scope, row)) kept.set(id, new Set([...(kept.get(id) ?? []), ...forbidden]));
  }
  return kept;
}

/** Pairs at a place of which the first may leave something on the second, and by how many minutes it is too much. */
function passages({ cleanMin, there }: Place): [Standing, Standing, number][] {
  const found: [Standing, Standing, number][] = [];
  const spans = there.map((each) => each.span);
  for (const a of there)
    for (const b of there) {
      if (a === b) continue;
      const together = shared(a.span, b.span);
      if (together > 0) {
        found.push([a, b, together]);
        continue;
      }
      const wait = b.span[0] - a.span[1];
      if (wait < 0 || cleanMin === 0) continue;
      const empty = wait - covered(spans, a.span[1], b.span[0]);
      if (empty < cleanMin) found.push([a, b, cleanMin === Number.POSITIVE_INFINITY ? 1 : cleanMin - empty]);
    }
  return found;
}

function placesOf(scope: Scope, parts: Parts): Place[] {
  const units = new Map<string, { equipment: Equipment; there: Standing[] }>();
  for (const { unit, equipment, load, task, from, to } of staysOf(scope, parts).stays) {
    if (to <= from || standsAlone(equipment, load)) continue;
    const known = units.get(unit) ?? { equipment, there: [] };
    known.there.push({ task, load, span: [from, to] });
    units.set(unit, known);
  }
  const benches = new Map<string, Standing[]>();
  for (const load of parts.loads) {
    const station = load.step.work?.station;
    const { work } = load;
    if (!work || station === undefined || work.endMin <= work.startMin) continue;
    const standing: Standing = { task: work.id, load, span: [work.startMin, work.endMin] };
    benches.set(station, [...(benches.get(station) ?? []), standing]);
  }
  const wipe = scope.kitchen.around > 0 ? 0 : WIPE_MIN;
  return [
    ...[...units].map(([id, { equipment, there }]) => ({
      name: named(id, "unit"),
      there,
      cleanMin: cleanedIn(equipment),
      wiped: cleanedIn(equipment) === 0,
    })),
    ...[...benches].map(([id, there]) => ({
      name: `bench ${named(id, "station")}`,
      there,
      cleanMin: wipe,
      wiped: true,
    })),
  ];
}

/** Whether nothing passes to or from food of a load on this equipment. */
function standsAlone(equipment: Equipment, load: Load): boolean {
  const { kind, sharedAir } = equipment;
  if (AIR.test(kind)) return sharedAir === false;
  if (COVERED.test(kind)) return sharedAir !== true;
  return ITS_OWN.test(kind) || (WATER.test(kind) && inBag(load.preparation, load.step));
}

/** Shared air is over when the two are not inside together; a surface has to be cleaned. */
function cleanedIn({ kind, cleanMin = 0 }: Equipment): number {
  if (AIR.test(kind) || COVERED.test(kind)) return 0;
  return cleanMin > 0 ? roundUp(cleanMin) : Number.POSITIVE_INFINITY;
}

/** Sealed here, or sealed before in this preparation with nothing put to it since. */
function inBag(preparation: Preparation, step: Step, seen: ReadonlySet<string> = new Set()): boolean {
  if (step.uses.some((use) => use.kind === "sealer")) return true;
  if (step.from.length === 0 || seen.has(step.id)) return false;
  if (preparation.lines.some((line) => line.step === step.id)) return false;
  return step.from.every((from) =>
    inBag(preparation, stepFrom(preparation, from), new Set([...seen, step.id])),
  );
}

const stepFrom = (preparation: Preparation, from: Step["from"][number]) =>
  preparation.steps.find((each) => each.id === (typeof from === "string" ? from : from.step))!;

const remembered = new WeakMap<Scope, Map<string, ReadonlySet<Allergen>>>();

/** Allergens in the food of a step, perhaps and unknown included: of its lines and of all that enters it. */
function carriedAt(scope: Scope, preparation: Preparation, step: Step): ReadonlySet<Allergen> {
  const cache = remembered.get(scope) ?? new Map<string, ReadonlySet<Allergen>>();
  remembered.set(scope, cache);
  const key = `${preparation.id} ${step.id}`;
  const known = cache.get(key);
  if (known) return known;
  const carried = new Set<Allergen>();
  for (const line of preparation.lines)
    if (line.step === step.id) for (const one of allergensOf(scope, line.item)) carried.add(one);
  for (const from of step.from)
    for (const one of carriedAt(scope, preparation, stepFrom(preparation, from))) carried.add(one);
  const ordered = new Set(ALLERGENS.filter((each) => carried.has(each)));
  cache.set(key, ordered);
  return ordered;
}
