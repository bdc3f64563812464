import type { Documents } from "./documents.ts";
import type { Apply, Edit } from "./plan-types.ts";
import type { Kitchen, Service } from "./schema.ts";

/** The documents a change may touch, by kind. */
const KINDS = ["kitchens", "services", "preparations"] as const;

/** What a plan is made for: its kitchen and service stand in the documents, too. */
export interface Planned {
  readonly docs: Documents;
  readonly kitchen: Kitchen;
  readonly service: Service;
}

/** The edits that make the documents of `before` those of `after`; another kitchen is named, not edited. */
export function applyOf(before: Planned, after: Planned): Apply {
  const other = before.kitchen.id !== after.kitchen.id;
  const edits = KINDS.flatMap((document) =>
    [...standing(after)[document]].flatMap(([id, value]): Edit[] => {
      if (other && document === "kitchens") return [];
      const was = standing(before)[document].get(id);
      return was === undefined || was === value ? [] : editsOf(was, value, { document, id }, "");
    }),
  );
  return { ...(other ? { kitchen: after.kitchen.id } : {}), ...(edits.length > 0 ? { edits } : {}) };
}

/** What a plan would be made for once the edits are made. Covers are the caller's. */
export function applied(before: Planned, apply: Apply): Planned {
  const docs = { ...standing(before) };
  for (const { document, id, at, value } of apply.edits ?? []) {
    const list = docs[document] as ReadonlyMap<string, unknown>;
    const steps = at.split("/").slice(1);
    Object.assign(docs, { [document]: new Map(list).set(id, withValue(list.get(id), steps, value)) });
  }
  const kitchen = docs.kitchens.get(apply.kitchen ?? before.kitchen.id) ?? before.kitchen;
  return { docs, kitchen, service: docs.services.get(before.service.id)! };
}

/** One document with the edits of it made. */
export function editedDocument<T>(document: T, edits: readonly Edit[]): T {
  return edits.reduce<T>((so, { at, value }) => withValue(so, at.split("/").slice(1), value) as T, document);
}

function standing({ docs, kitchen, service }: Planned): Documents {
  return {
    ...docs,
    kitchens: new Map(docs.kitchens).set(kitchen.id, kitchen),
    services: new Map(docs.services).set(service.id, service),
  };
}

/** The fewest places at which two values differ; a list that only grew is added to, else it is put whole. */
function editsOf(was: unknown, now: unknown, of: Pick<Edit, "document" | "id">, at: string): Edit[] {
  if (JSON.stringify(was) === JSON.stringify(now)) return [];
  const here: Edit[] = [{ ...of, at, value: now }];
  if (typeof was !== "object" || typeof now !== "object" || was === null || now === null) return here;
  if (Array.isArray(was) !== Array.isArray(now)) return here;
  const [old, fresh] = [was as Record<string, unknown>, now as Record<string, unknown>];
  if (Object.keys(old).some((key) => fresh[key] === undefined && old[key] !== undefined)) return here;
  return Object.keys(fresh).flatMap((key) =>
    old[key] === undefined
      ? fresh[key] === undefined
        ? []
        : [{ ...of, at: `${at}/${key}`, value: fresh[key] }]
      : editsOf(old[key], fresh[key], of, `${at}/${key}`),
  );
}

function withValue(within: unknown, [key, ...rest]: readonly string[], value: unknown): unknown {
  if (key === undefined) return value;
  if (Array.isArray(within)) {
    const list = [...within];
    list[Number(key)] = withValue(list[Number(key)], rest, value);
    return list;
  }
  const from = (within ?? {}) as Record<string, unknown>;
  return { ...from, [key]: withValue(from[key], rest, value) };
}

/** Every number of a value in the order it is written. */
export function numbersOf(value: unknown): number[] {
  return [...numbersBelow(value, "")].map(([, number]) => number);
}

/** Every number below a value with its JSON Pointer (RFC 6901), in the order it is written. */
export function* numbersBelow(value: unknown, at: string): Generator<[string, number]> {
  if (typeof value === "number") yield [at, value];
  else if (value !== null && typeof value === "object")
    for (const [key, inner] of Object.entries(value)) yield* numbersBelow(inner, `${at}/${key}`);
}
