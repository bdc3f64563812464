import type { BatchRef, Shape, Used } from "./lots-schema.ts";
import { LEAST, type LotStock, lotKey } from "./lots-stock.ts";

/**
 * A thing that food goes into or comes from: a lot, all there was of an ingredient while a service was made, a batch, the
 * plates of a dish in one variant, what goes with every cover, a seat.
 */
export type Node = string;
export const lotNode = (key: string): Node => nodeOf("lot", key);
export const batchNode = (service: string, preparation: string, batch: number): Node =>
  nodeOf("batch", service, preparation, batch);
export const platesNode = (service: string, row: number): Node => nodeOf("plates", service, row);
export const seatNode = (service: string, seat: string): Node => nodeOf("seat", service, seat);

/** What goes with every cover of a service. */
export const besideNode = (service: string): Node => nodeOf("beside", service);

export const poolNode = (service: string, ingredient: string): Node => nodeOf("pool", service, ingredient);

/** Stands in no text of a log: such characters are refused. */
const BETWEEN = "\u001f";
function nodeOf(...parts: (string | number)[]): Node {
  return parts.join(BETWEEN);
}
/** The parts a node was made of. */
export function partsOf(node: Node): string[] {
  return node.split(BETWEEN);
}

/** One step of the way of food: as it was noted or can only be, or as it may have been. */
export interface Step {
  readonly to: Node;
  readonly certain: boolean;
}

/** What no record explains: the food came from somewhere, and nothing says where. */
export interface Unexplained {
  readonly service: string;
  /** An ingredient of which no lot was on hand, or a preparation that the service did not make. */
  readonly item: string;
}

/** The ways of food within one service, both ways, but for those from lots to pools, and from plates and what goes with every cover to seats. */
export interface Graph {
  readonly out: ReadonlyMap<Node, readonly Step[]>;
  readonly in: ReadonlyMap<Node, readonly Step[]>;
  /** Ingredients of which something was used without its lot noted. */
  readonly pools: ReadonlySet<string>;
  /** What a node needs that the service did not make. */
  readonly unmade: ReadonlyMap<Node, readonly Unexplained[]>;
}

/**
 * Every way food may have gone in a service. What was noted stands as certain. Where nothing was noted, food came from the
 * pool of all lots of the ingredient that may have been on hand, and from any batch of a preparation.
 * @param shape what it makes of what; without it only what was noted is known.
 */
export function graphOf(service: string, shape: Shape | undefined, used: readonly Used[]): Graph {
  const out = new Map<Node, Step[]>();
  const into = new Map<Node, Step[]>();
  const unmade = new Map<Node, Unexplained[]>();
  const pools = new Set<string>();
  const link = (from: Node, to: Node, certain: boolean) => {
    push(out, from, { to, certain });
    push(into, to, { to: from, certain });
  };
  const batches = new Map(shape?.made.map(({ preparation, batches: n }) => [preparation, n]));
  const noted = Map.groupBy(used, (one) => intoKey(one, service));
  const fill = (to: Node, key: string, of: Pick<Shape["made"][number], "ingredients" | "preparations">) => {
    const seen = new Set<string>();
    for (const one of noted.get(key) ?? []) {
      link(sourceOf(one, service), to, true);
      seen.add(one.lot?.ingredient ?? one.batch!.preparation);
    }
    for (const ingredient of of.ingredients) {
      if (seen.has(ingredient)) continue;
      pools.add(ingredient);
      link(poolNode(service, ingredient), to, true);
    }
    for (const preparation of of.preparations) {
      if (seen.has(preparation)) continue;
      const n = batches.get(preparation) ?? 0;
      if (n === 0) push(unmade, to, { service, item: preparation });
      for (let batch = 1; batch <= n; batch++) link(batchNode(service, preparation, batch), to, n === 1);
    }
  };
  const filled = new Set<Node>();
  for (const made of shape?.made ?? [])
    for (let batch = 1; batch <= made.batches; batch++) {
      const to = batchNode(service, made.preparation, batch);
      filled.add(to);
      fill(to, to, made);
    }
  shape?.plates.forEach((row, i) => {
    fill(platesNode(service, i), dishKey(row), row);
  });
  // Nobody notes what went into the bread basket: any lot, any batch.
  if (shape?.beside) fill(besideNode(service), "beside", shape.beside);
  for (const one of used) {
    const from = sourceOf(one, service);
    // A batch that the service did not plan, or of another day, is there by what was noted alone.
    if ("preparation" in one.into) {
      const to = intoBatch(one.into, service);
      if (!filled.has(to)) link(from, to, true);
    } else for (const seat of one.into.seats ?? []) link(from, seatNode(service, seat), true);
  }
  return { out, in: into, pools, unmade };
}

/** The nodes of a noted use that belong to another service than its entry. */
export function awayNodes(used: Used, service: string): Node[] {
  const nodes: Node[] = [];
  if (used.batch?.service !== undefined && used.batch.service !== service)
    nodes.push(sourceOf(used, service));
  if ("preparation" in used.into && used.into.service !== undefined && used.into.service !== service)
    nodes.push(intoBatch(used.into, service));
  return nodes;
}

export function push<T>(map: Map<string, T[]>, key: string, value: T): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

/** Where a noted use went: a batch, or all plates of a dish. Seats by name do not speak for the dish's other plates. */
function intoKey({ into }: Used, service: string): string {
  if ("preparation" in into) return intoBatch(into, service);
  return into.seats ? "seats" : dishKey(into);
}

function dishKey({ course, dish }: { readonly course: string; readonly dish: string }): string {
  return `dish ${course} ${dish}`;
}

function intoBatch(into: BatchRef, service: string): Node {
  return batchNode(into.service ?? service, into.preparation, into.batch);
}

function sourceOf({ lot, batch }: Used, service: string): Node {
  return lot ? lotNode(lotKey(lot)) : batchNode(batch!.service ?? service, batch!.preparation, batch!.batch);
}

/**
 * Whether some of a lot may have been on hand while a service was made: it had come by then, and was not known to be
 * gone before. Where the records contradict themselves (more used than came), it may have been.
 */
export function couldBeThere({ movements, onHand, deliveries }: LotStock, { from, to }: Shape): boolean {
  // One that never came by the records was there before they began.
  if (deliveries.length === 0) return true;
  if (!movements.some(({ at }) => at <= to)) return false;
  if (onHand < -LEAST) return true;
  const next = movements.findIndex((one) => one.at > from);
  const before = next < 0 ? movements.at(-1)! : movements[next - 1];
  return !before || before.after > LEAST || (next >= 0 && movements[next]!.at <= to);
}
