import type { Larder } from "../formula/larder.ts";
import type { Preparation, Step } from "../formula/schema.ts";
import {
  type ControlData,
  chooseCritical,
  controlFor,
  type Handled,
  type LimitPart,
  partInWords,
} from "../heat/control-points.ts";
import type { Kitchen } from "../production/schema.ts";
import { type Act, actsOf, servedRaw } from "./acts.ts";
import type { Foods, RawFood } from "./foods.ts";
import { localLimit, localNames } from "./local-limits.ts";

/** A point where a hazard is held in check, as it goes into the log. */
export interface ControlPoint {
  readonly preparation: string;
  readonly step: string;
  /** What is watched there: cook, cool, reheat …; "written" when it is the book's own and of no such kind. */
  readonly act: Handled["act"] | "written";
  /** Whose words: the book's own, or what the trade asks of what is cooked. */
  readonly from: "book" | "trade";
  readonly level: "critical" | "practice";
  readonly hazard: string;
  readonly limit: string;
  /** The limit in figures, each with what was computed for it where heat was. */
  readonly parts: readonly ControlPart[];
  /** What was computed for the step: minutes, core and log10 of slow, middle and quick piece. */
  readonly predicted?: Predicted;
  readonly monitor: string;
  readonly corrective: string;
  readonly record: string;
  readonly when?: string;
  readonly source?: string;
  readonly note?: string;
}

export interface ControlPart {
  readonly what: LimitPart["what"];
  readonly op: ">=" | "<=" | ">" | "<";
  readonly value: number;
  readonly withinMin?: number;
  readonly forSeconds?: number;
  /** Computed at its own worst end, and how far it is on the right side of the limit. */
  readonly predicted?: number;
  readonly margin?: number;
}

export interface Predicted {
  readonly minutes?: { readonly low: number; readonly mid: number; readonly high: number };
  readonly coreC?: { readonly slow: number; readonly mid: number; readonly quick: number };
  readonly log10?: { readonly slow: number; readonly mid: number; readonly quick: number };
  /** The input that matters most. */
  readonly driver: string;
}

/** A point, and for each of its parts where value, minutes and seconds come from: pointers for the trace. */
export interface Controlled {
  readonly point: ControlPoint;
  readonly paths: readonly PartPaths[];
}
export interface PartPaths {
  readonly value: string;
  readonly withinMin?: string;
  readonly forSeconds?: string;
}

export interface Watched {
  readonly larder: Larder;
  readonly foods: Foods;
  readonly pointer: (kind: string, id: string) => string;
  readonly kitchen: Pick<Kitchen, "id" | "localLimits">;
  /** Preparations made, parts before what they enter. */
  readonly order: readonly string[];
  /** What is laid on plates, by id. */
  readonly served: readonly {
    readonly preparation?: string | undefined;
    readonly ingredient?: string | undefined;
    readonly cut?: string | undefined;
  }[];
  /** Boiling point of water in this kitchen, °C: no wet core can pass it. */
  readonly boilingC: number;
}

type Limit = NonNullable<Step["control"]>["limit"];

const WHAT: Readonly<Record<Limit["what"], readonly [string, string]>> = {
  coreC: ["core", "°C"],
  airC: ["air", "°C"],
  minutes: ["time", "min"],
  pH: ["pH", ""],
};
const OP: Readonly<Record<Limit["op"], string>> = {
  ">=": "at least",
  "<=": "at most",
  ">": "above",
  "<": "below",
};

/** A limit in words: "core at least 74 °C". */
export function limitInWords(limit: Limit & { withinMin?: number | undefined }): string {
  const [what, unit] = WHAT[limit.what];
  const within = limit.withinMin === undefined ? "" : ` within ${limit.withinMin} min`;
  return `${what} ${OP[limit.op]} ${limit.value}${unit && ` ${unit}`}${within}`;
}

/** A point while it is being put together. */
interface Draft {
  /** Or the ingredient that goes to the plate as it was bought; it has no steps. */
  readonly preparation: Pick<Preparation, "id" | "name" | "steps">;
  /** "" where an ingredient goes raw to the plate. */
  readonly stepId: string;
  act: ControlPoint["act"];
  handled?: Handled;
  readonly from: "book" | "trade";
  level: "critical" | "practice";
  /** Critical by law, or by its kind. */
  special: boolean;
  asked: "critical" | "practice";
  hazard: string;
  limit: string;
  parts: { part: ControlPart; paths: PartPaths }[];
  monitor: string;
  corrective: string;
  record: string;
  source: string | undefined;
  readonly notes: Set<string>;
}

/** Fewest and most critical points of a plan that can be kept (Codex lets it be clear; common practice, no source). */
const FEWEST_CRITICAL = 4;

/**
 * The control points of a service (README, S8, S10): the book's own, in its words, and what the trade asks of what
 * is cooked; four to seven of them critical, the rest good practice.
 * When each comes up is the plan's to say.
 */
export function controlPoints(watched: Watched): Controlled[] {
  const drafts = watched.order.flatMap((id) => draftsOf(watched, watched.larder.preparations.get(id)!));
  drafts.push(...rawDrafts(watched, drafts));
  const pooled = pool(drafts, watched);
  choose(pooled);
  const place = new Map(watched.order.map((id, i) => [id, i]));
  return pooled
    .toSorted((a, b) => (place.get(a.preparation.id) ?? 0) - (place.get(b.preparation.id) ?? 0))
    .map(pointOf);
}

function pointOf(draft: Draft): Controlled {
  const { preparation, stepId, act, from, level, hazard, limit, monitor, corrective, record } = draft;
  const note = [...draft.notes].join(" ");
  return {
    point: {
      ...{ preparation: preparation.id, step: stepId, act, from, level, hazard, limit },
      parts: draft.parts.map(({ part }) => part),
      ...{ monitor, corrective, record },
      ...(draft.source === undefined ? {} : { source: draft.source }),
      ...(note === "" ? {} : { note }),
    },
    paths: draft.parts.map(({ paths }) => paths),
  };
}

function draftsOf(watched: Watched, preparation: Preparation): Draft[] {
  const own = new Map<string, Draft>();
  for (const [i, step] of preparation.steps.entries())
    if (step.control) own.set(step.id, ownDraft(watched, preparation, step, i));
  const drafts = [...own.values()];
  for (const act of actsOf(watched.foods, preparation, watched.boilingC)) {
    const made = controlFor(act.handled);
    if (!made) continue;
    const mine = own.get(act.step.id);
    if (mine && covers(act.step, act.handled.act)) join(mine, act, made);
    else drafts.push(tradeDraft(preparation, act.step.id, act, made));
  }
  return drafts;
}

function ownDraft(watched: Watched, preparation: Preparation, step: Step, index: number): Draft {
  const control = step.control!;
  const limits: (Limit & { withinMin?: number | undefined })[] = [control.limit, ...(control.and ?? [])];
  const at = `book:${watched.pointer("preparations", preparation.id)}/steps/${index}/control`;
  const notes = new Set<string>();
  const core = limits.find((limit) => limit.what === "coreC" && limit.op.startsWith(">"));
  if (core && core.value >= watched.boilingC)
    notes.add(`Water boils at ${watched.boilingC.toFixed(1)} °C here: a wet core cannot reach this limit.`);
  return {
    ...{ preparation, stepId: step.id, act: "written", from: "book", level: control.level, special: false },
    asked: control.level,
    hazard: control.hazard,
    limit: `${limits.map(limitInWords).join("; ")}${control.localLimit ? ` (local: ${control.localLimit})` : ""}`,
    parts: limits.map(({ what, op, value, withinMin }, k) => {
      const path = k === 0 ? `${at}/limit` : `${at}/and/${k - 1}`;
      return {
        part: { what, op, value, ...(withinMin === undefined ? {} : { withinMin }) },
        paths: {
          value: `${path}/value`,
          ...(withinMin === undefined ? {} : { withinMin: `${path}/withinMin` }),
        },
      };
    }),
    monitor: control.monitor,
    corrective: control.corrective,
    record: control.record,
    source: control.source
      ? [control.source.doc, control.source.table].filter(Boolean).join(", ")
      : undefined,
    notes,
  };
}

function tradeDraft(
  preparation: Draft["preparation"],
  stepId: string,
  { handled, special }: Pick<Act, "handled" | "special">,
  made: ControlData,
): Draft {
  const { level, hazard, limit, monitor, corrective, record } = made;
  return {
    ...{ preparation, stepId, act: handled.act, handled, from: "trade", level, special, asked: level },
    ...{ hazard, limit, monitor, corrective, record },
    parts: made.parts
      .filter((part) => part.what !== "document")
      .map((part, k) => {
        const at = `const:/limits/${handled.act}/${handled.food}/${k}`;
        const { what, op, value, withinMin, forSeconds } = part;
        const figures = {
          ...(withinMin === undefined ? {} : { withinMin }),
          ...(forSeconds === undefined ? {} : { forSeconds }),
        };
        const paths = Object.fromEntries(
          ["value", ...Object.keys(figures)].map((key) => [
            key,
            `${at}/${key}/${{ value, ...figures }[key]}`,
          ]),
        );
        return { part: { what, op, value, ...figures }, paths: paths as unknown as PartPaths };
      }),
    source: [made.source.doc, "table" in made.source ? made.source.table : undefined]
      .filter(Boolean)
      .join(", "),
    notes: new Set(made.notes),
  };
}

/** The book's own words stay; what the trade has to say of the same thing is added. */
function join(mine: Draft, act: Act, made: ControlData): void {
  mine.act = act.handled.act;
  mine.handled = act.handled;
  mine.special ||= act.special;
  if (made.level === "critical") mine.asked = "critical";
  for (const note of made.notes) if (!note.startsWith("Water boils")) mine.notes.add(note);
  const stages = made.parts.filter((part) => part.withinMin !== undefined);
  const said = (part: LimitPart) =>
    mine.parts.some(
      ({ part: own }) => (own.withinMin ?? Number.POSITIVE_INFINITY) <= part.withinMin! && reaches(own, part),
    );
  if (act.handled.act === "cool" && !stages.every(said)) mine.notes.add(`The trade asks: ${made.limit}.`);
}

/** First mark of cooling, °C (Food Code 3-501.14). */
const COOLED_C = 21;

const reaches = (own: ControlPart, part: LimitPart) =>
  own.what === part.what && (part.op === "<=" ? own.value <= part.value : own.value >= part.value);

/** Whether the book's own control at a step is about the same thing as what the trade asks there. */
function covers(step: Step, act: Handled["act"]): boolean {
  const limits: readonly Limit[] = [step.control!.limit, ...(step.control!.and ?? [])];
  const has = (what: Limit["what"], way: "<" | ">", most = Number.POSITIVE_INFINITY) =>
    limits.some((limit) => limit.what === what && limit.op.startsWith(way) && limit.value <= most);
  switch (act) {
    case "cook":
    case "reheat":
      return has("coreC", ">");
    case "cool":
      // A core not to be passed in the oven is no cooling.
      return has("coreC", "<", COOLED_C);
    case "hold-cold":
    case "cure":
      return has("airC", "<") || has("pH", "<");
    default:
      return false;
  }
}

/** What is served raw, by what is laid on plates. */
function rawDrafts(watched: Watched, drafts: readonly Draft[]): Draft[] {
  const found = new Map<string, Draft>();
  for (const on of watched.served) {
    for (const { raw, handled } of servedRaw(watched.foods, on)) {
      const at = watched.larder.preparations.get(raw.preparation) ?? onPlate(watched.larder, raw.ingredient);
      const key = `${raw.preparation} ${raw.step} ${raw.food}`;
      const made = controlFor(handled);
      if (!made || found.has(key)) continue;
      const mine = raw.food === "fish" ? drafts.find((draft) => ofParasites(draft, raw)) : undefined;
      if (mine) {
        mine.act = "serve-raw";
        mine.special = true;
        mine.asked = "critical";
      } else {
        const special = made.level === "critical";
        found.set(key, tradeDraft(at, raw.step, { handled, special }, made));
      }
    }
  }
  return [...found.values()];
}

/** An ingredient that goes to the plate as it was bought, where a preparation is asked for. */
function onPlate(larder: Larder, ingredient: string): Draft["preparation"] {
  const { id, name } = larder.ingredients.get(ingredient)!;
  return { id, name, steps: [] };
}

/** The book has a point of its own for the parasites: it names them, the letter or the freezing. */
function ofParasites(draft: Draft, raw: RawFood): boolean {
  if (draft.from !== "book" || draft.preparation.id !== raw.preparation) return false;
  const { hazard, limit, monitor, corrective, record } = draft;
  return /parasit|letter|freez|frozen/i.test([hazard, limit, monitor, corrective, record].join(" "));
}

/** Holding is read off the cabinet or the cooler, not of each preparation: one point stands for all in it. */
function pool(drafts: readonly Draft[], watched: Watched): Draft[] {
  const out: Draft[] = [];
  const first = new Map<string, { draft: Draft; also: string[] }>();
  const kept = (draft: Draft) =>
    draft.preparation.steps.find((step) => step.id === draft.stepId)?.hold?.maxMin ?? 0;
  for (const draft of drafts) {
    draft.parts = draft.parts.map((each) => stricter(watched, draft, each));
    if (draft.from === "trade" && draft.parts.length > 0 && draft.act !== "serve-raw")
      draft.limit = inWords(draft);
    const holding = draft.act === "hold-hot" || draft.act === "hold-cold";
    if (draft.from === "book" || !holding || draft.special) {
      out.push(draft);
      continue;
    }
    const key = `${draft.act} ${draft.limit}`;
    const known = first.get(key);
    if (!known) first.set(key, { draft, also: [] });
    else if (kept(draft) > kept(known.draft))
      first.set(key, { draft, also: [...known.also, known.draft.preparation.name] });
    else known.also.push(draft.preparation.name);
  }
  for (const { draft, also } of first.values()) {
    if (also.length > 0)
      draft.notes.add(`One reading stands for what is kept with it: ${[...new Set(also)].join("; ")}.`);
    out.push(draft);
  }
  return out;
}

function inWords({ act, parts }: Draft): string {
  const words = parts.map(({ part }) => partInWords(part as LimitPart)).join("; ");
  return act === "cool"
    ? `from 57 °C: ${words}`
    : act === "cure"
      ? `${words}; salt by weight of the piece`
      : words;
}

/** Acts whose limit is a least temperature. */
const LEAST: ReadonlySet<string> = new Set(["cook", "reheat", "hold-hot"]);

/** The kitchen's local limits of a part: of its figure, of its minutes. */
function localsOf(watched: Watched, draft: Draft, part: ControlPart) {
  const none = { value: undefined, within: undefined };
  const temperature = part.what === "coreC" || part.what === "airC";
  if (!draft.handled || !temperature || LEAST.has(draft.act) !== part.op.startsWith(">")) return none;
  const names = localNames(draft.handled, part as LimitPart);
  return {
    value: localLimit(watched.kitchen, names.value),
    within: part.withinMin === undefined ? undefined : localLimit(watched.kitchen, names.within),
  };
}

/** The kitchen's local limit in place of a laxer one; one that is laxer itself is not taken, and said. */
function stricter(
  watched: Watched,
  draft: Draft,
  { part, paths }: Draft["parts"][number],
): Draft["parts"][number] {
  const { value, within } = localsOf(watched, draft, part);
  const at = (index: number) =>
    `book:${watched.pointer("kitchens", watched.kitchen.id)}/localLimits/${index}/value`;
  const lax = (what: string) => draft.notes.add(`The kitchen's own ${what} is laxer and not taken.`);
  const out = { part: { ...part }, paths: { ...paths } };
  if (value && value.value !== part.value) {
    if (part.op.startsWith(">") === value.value > part.value) {
      Object.assign(out.part, { value: value.value });
      Object.assign(out.paths, { value: at(value.index) });
      draft.notes.add(`Local limit: ${value.value} °C (${value.doc}).`);
    } else lax(`${value.value} °C (${value.doc})`);
  }
  if (within && within.value !== part.withinMin) {
    if (within.value < part.withinMin!) {
      Object.assign(out.part, { withinMin: within.value });
      Object.assign(out.paths, { withinMin: at(within.index) });
      draft.notes.add(`Local limit: ${within.value} min (${within.doc}).`);
    } else lax(`${within.value} min (${within.doc})`);
  }
  return out;
}

const RANK: Readonly<Record<string, number>> = {
  cook: 0,
  "serve-raw": 0,
  cure: 1,
  cool: 2,
  reheat: 3,
  "hold-hot": 4,
};

/**
 * Seven at most are critical: the book's own first, then those the law asks a plan for, then what kills, cools,
 * reheats and holds. A point the book calls practice is raised only where fewer than four would be left.
 */
function choose(drafts: readonly Draft[]): void {
  const weight = (draft: Draft) =>
    (draft.special ? 0 : draft.from === "book" ? 10 : 20) + (RANK[draft.act] ?? 5);
  const asks = drafts
    .filter((draft) => draft.level === "critical" || (draft.special && draft.asked === "critical"))
    .toSorted((a, b) => weight(a) - weight(b));
  const raised = drafts
    .filter((draft) => !asks.includes(draft) && draft.asked === "critical")
    .toSorted((a, b) => weight(a) - weight(b))
    .slice(0, Math.max(0, FEWEST_CRITICAL - asks.length));
  const order = [...asks, ...raised];
  const chosen = chooseCritical(order.map((draft) => ({ ...dataOf(draft), level: "critical" })));
  for (const draft of drafts) {
    const level = chosen[order.indexOf(draft)]?.level ?? "practice";
    if (draft.from === "book" && draft.level === "critical" && level === "practice")
      draft.notes.add(
        "The book calls it critical; a plan keeps at most seven, so it stands with the checks.",
      );
    draft.level = level;
  }
}

/** As heat's choice reads it; the choice goes by the level alone. */
function dataOf({ hazard, limit, monitor, corrective, record }: Draft): Omit<ControlData, "level"> {
  const source = { doc: "", kind: "common practice" } as const;
  return { hazard, limit, parts: [], monitor, corrective, record, source, notes: [] };
}
