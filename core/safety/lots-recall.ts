import { type LogLine, standing } from "./log-lines.ts";
import {
  awayNodes,
  batchNode,
  besideNode,
  couldBeThere,
  type Graph,
  graphOf,
  lotNode,
  type Node,
  partsOf,
  platesNode,
  poolNode,
  push,
  type Step,
  seatNode,
  type Unexplained,
} from "./lots-links.ts";
import type { Shape, Used } from "./lots-schema.ts";
import { type LotStock, lotKey, type Stock, stockOf, type Weigh } from "./lots-stock.ts";

/** A thing found, and whether the records say so or only cannot rule it out. */
export interface Found<T> {
  readonly what: T;
  readonly certain: boolean;
}

export interface FoundBatch {
  readonly service: string;
  readonly preparation: string;
  readonly batch: number;
}
export interface FoundPlates {
  readonly service: string;
  readonly row: number;
}
export interface FoundSeat {
  readonly service: string;
  readonly seat: string;
}

/** What went with every cover of a service. */
export interface FoundCovers {
  readonly service: string;
}

/** Where a lot went. */
export interface Forward {
  readonly lots: readonly LotStock[];
  readonly batches: readonly Found<FoundBatch>[];
  readonly plates: readonly Found<FoundPlates>[];
  /** Services in which it went with every cover: everyone there had it, also who sat at no seat known by name. */
  readonly covers: readonly Found<FoundCovers>[];
  readonly seats: readonly Found<FoundSeat>[];
}

/** What may be in something. */
export interface Back {
  readonly lots: readonly Found<LotStock>[];
  readonly batches: readonly Found<FoundBatch>[];
  /** What is in it of which no record says whence: unknown, not absent. */
  readonly unexplained: readonly Unexplained[];
}

/** The records of lots, read once and asked often. The ways within a service are found when a question comes to it. */
export class Recall {
  readonly stock: Stock;
  readonly shapes: ReadonlyMap<string, Shape>;
  /** Services with lots noted, of which nobody kept what they made of what. */
  readonly shapeless: readonly string[];
  readonly #lots: ReadonlyMap<string, readonly LotStock[]>;
  readonly #used: ReadonlyMap<string, readonly Used[]>;
  /** Services in which something of another service, or a lot, is noted. */
  readonly #noted = new Map<Node, Set<string>>();
  readonly #graphs = new Map<string, Graph>();

  constructor(lines: readonly LogLine[], weigh: Weigh) {
    this.stock = stockOf(lines, weigh);
    this.#lots = Map.groupBy(this.stock.lots.values(), ({ ref }) => ref.ingredient);
    this.shapes = new Map(standing<Shape>(lines, ["shape"]).map(({ now }) => [now.service, now.body]));
    const used = new Map<string, Used[]>();
    for (const { now } of standing<Used>(lines, ["used"])) {
      const { service, body } = now;
      push(used, service, body);
      const elsewhere = awayNodes(body, service);
      for (const node of body.lot ? [lotNode(lotKey(body.lot)), ...elsewhere] : elsewhere)
        this.#noted.set(node, (this.#noted.get(node) ?? new Set()).add(service));
    }
    this.#used = used;
    this.shapeless = [...used.keys()].filter((service) => !this.shapes.has(service));
  }

  /** Lots of a code as it stands on a pack, of any supplier and ingredient. */
  lotsOf(code: string): LotStock[] {
    const sought = code.trim().toLowerCase();
    return [...this.stock.lots.values()].filter(({ ref }) => ref.lot.toLowerCase() === sought);
  }

  /** All batches, plates and seats that a lot went into, or may have. */
  forward(keys: readonly string[]): Forward {
    const reached = reach((node) => this.#after(node), keys.map(lotNode));
    return {
      lots: keys.flatMap((key) => this.stock.lots.get(key) ?? []),
      ...this.#things(reached),
    };
  }

  /** All lots that are in a plate, or may be. */
  backFromPlates(service: string, row: number): Back {
    return this.#back(platesNode(service, row));
  }

  /** All lots that are in what one seat was served, or may be. */
  backFromSeat(service: string, seat: string): Back {
    return this.#back(seatNode(service, seat));
  }

  backFromBatch(service: string, preparation: string, batch: number): Back {
    return this.#back(batchNode(service, preparation, batch));
  }

  #back(node: Node): Back {
    const reached = reach((one) => this.#before(one), [node]);
    reached.set(node, true);
    const { batches } = this.#things(reached);
    const lots: Found<LotStock>[] = [];
    const unexplained: Unexplained[] = [];
    for (const [one, certain] of reached) {
      const [kind, first = "", item = ""] = partsOf(one);
      const lot = kind === "lot" ? this.stock.lots.get(first) : undefined;
      if (lot) lots.push({ what: lot, certain });
      if (kind === "pool" && this.#before(one).length === 0) unexplained.push({ service: first, item });
      unexplained.push(...(kind === "lot" ? [] : (this.#graph(first).unmade.get(one) ?? [])));
    }
    return { lots: surestFirst(lots), batches, unexplained };
  }

  #graph(service: string): Graph {
    const known = this.#graphs.get(service);
    if (known) return known;
    const made = graphOf(service, this.shapes.get(service), this.#used.get(service) ?? []);
    this.#graphs.set(service, made);
    return made;
  }

  /** Steps of a node in its own service and in those that note it. */
  #steps(node: Node, way: "in" | "out"): Step[] {
    const [kind, service = ""] = partsOf(node);
    const services = new Set(this.#noted.get(node));
    if (kind !== "lot") services.add(service);
    return [...services].flatMap((one) => this.#graph(one)[way].get(node) ?? []);
  }

  /** Where something went: as noted; a lot also into the pools it may have been in. */
  #after(node: Node): Step[] {
    const steps = this.#steps(node, "out");
    const [kind, key = "", row] = partsOf(node);
    if (kind === "plates")
      for (const seat of this.shapes.get(key)?.plates[Number(row)]?.seats ?? [])
        steps.push({ to: seatNode(key, seat), certain: true });
    if (kind === "beside")
      for (const seat of this.shapes.get(key)?.beside?.seats ?? [])
        steps.push({ to: seatNode(key, seat), certain: true });
    const lot = kind === "lot" ? this.stock.lots.get(key) : undefined;
    if (!lot) return steps;
    const { ingredient } = lot.ref;
    for (const [service, shape] of this.shapes)
      if (couldBeThere(lot, shape) && names(shape, ingredient) && this.#graph(service).pools.has(ingredient))
        steps.push({ to: poolNode(service, ingredient), certain: false });
    return steps;
  }

  #before(node: Node): Step[] {
    const [kind, service = "", third = ""] = partsOf(node);
    const shape = this.shapes.get(service);
    if (kind === "seat")
      return [
        ...this.#steps(node, "in"),
        ...(shape?.beside?.seats.includes(third) ? [{ to: besideNode(service), certain: true }] : []),
        ...(shape?.plates ?? []).flatMap(({ seats }, row) =>
          seats.includes(third) ? [{ to: platesNode(service, row), certain: true }] : [],
        ),
      ];
    if (kind !== "pool" || !shape) return this.#steps(node, "in");
    return (this.#lots.get(third) ?? [])
      .filter((lot) => couldBeThere(lot, shape))
      .map(({ key }) => ({ to: lotNode(key), certain: false }));
  }

  #things(reached: ReadonlyMap<Node, boolean>) {
    const batches: Found<FoundBatch>[] = [];
    const plates: Found<FoundPlates>[] = [];
    const covers: Found<FoundCovers>[] = [];
    const seats: Found<FoundSeat>[] = [];
    for (const [node, certain] of reached) {
      const [kind, service = "", third = "", fourth] = partsOf(node);
      if (kind === "batch")
        batches.push({ what: { service, preparation: third, batch: Number(fourth) }, certain });
      else if (kind === "plates") plates.push({ what: { service, row: Number(third) }, certain });
      else if (kind === "beside") covers.push({ what: { service }, certain });
      else if (kind === "seat") seats.push({ what: { service, seat: third }, certain });
    }
    return {
      batches: surestFirst(batches),
      plates: surestFirst(plates),
      covers: surestFirst(covers),
      seats: surestFirst(seats),
    };
  }
}

/** Whether a service takes an ingredient at all: much quicker to see than where from. */
function names({ made, plates, beside }: Shape, ingredient: string): boolean {
  const takes = ({ ingredients }: { readonly ingredients: readonly string[] }) =>
    ingredients.includes(ingredient);
  return made.some(takes) || plates.some(takes) || (beside !== undefined && takes(beside));
}

function surestFirst<T>(found: readonly Found<T>[]): Found<T>[] {
  return found.toSorted((a, b) => Number(b.certain) - Number(a.certain));
}

/** All that can be reached, and whether by certain steps alone. */
function reach(steps: (node: Node) => readonly Step[], from: readonly Node[]): Map<Node, boolean> {
  const found = new Map<Node, boolean>();
  for (const certain of [true, false]) {
    const open = [...from, ...(certain ? [] : found.keys())];
    const seen = new Set(open);
    while (open.length > 0)
      for (const step of steps(open.pop()!)) {
        if ((certain && !step.certain) || seen.has(step.to)) continue;
        seen.add(step.to);
        if (!found.has(step.to)) found.set(step.to, certain);
        open.push(step.to);
      }
  }
  return found;
}
