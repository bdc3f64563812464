/** A value as JSON knows it. */
type Json = unknown;

/** Two people's changes joined, or where they clash (JSON Pointers). */
export type Merged =
  | { readonly ok: true; readonly value: Json }
  | { readonly ok: false; readonly clashes: readonly string[] };

/**
 * Joins two changes of one document. Fields changed by one side are taken from it; lists whose members have ids
 * are joined member by member; what both changed, differently, is a clash: never one of them in silence.
 */
export function mergeDocuments(base: Json, theirs: Json, mine: Json): Merged {
  const clashes: string[] = [];
  const value = merge(base, theirs, mine, "", clashes);
  return clashes.length > 0 ? { ok: false, clashes } : { ok: true, value };
}

const GONE = Symbol("gone");

function merge(base: Json, theirs: Json, mine: Json, path: string, clashes: string[]): Json {
  if (same(mine, theirs) || same(mine, base)) return theirs;
  if (same(theirs, base)) return mine;
  if (isObject(base) && isObject(theirs) && isObject(mine))
    return mergeObjects(base, theirs, mine, path, clashes);
  const lists = [base, theirs, mine].map(byId);
  if (lists.every((list) => list !== undefined)) {
    const [b, t, m] = lists as [Map<string, Json>, Map<string, Json>, Map<string, Json>];
    // Order: theirs, then what only mine has. If both sides moved members about, that is theirs' order.
    const ids = [...t.keys(), ...[...m.keys()].filter((id) => !t.has(id))];
    return ids.flatMap((id) => {
      const one = merge(b.get(id) ?? GONE, t.get(id) ?? GONE, m.get(id) ?? GONE, `${path}/${id}`, clashes);
      return one === GONE ? [] : [one];
    });
  }
  clashes.push(path);
  return theirs;
}

function mergeObjects(
  base: Record<string, Json>,
  theirs: Record<string, Json>,
  mine: Record<string, Json>,
  path: string,
  clashes: string[],
): Record<string, Json> {
  const at = (object: Record<string, Json>, key: string) => (Object.hasOwn(object, key) ? object[key] : GONE);
  const merged: Record<string, Json> = {};
  for (const key of new Set([...Object.keys(theirs), ...Object.keys(mine)])) {
    const value = merge(at(base, key), at(theirs, key), at(mine, key), `${path}/${key}`, clashes);
    if (value !== GONE) merged[key] = value;
  }
  return merged;
}

function isObject(value: Json): value is Record<string, Json> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** A list's members by id, when each has one of its own. */
function byId(value: Json): Map<string, Json> | undefined {
  if (!Array.isArray(value)) return undefined;
  const map = new Map<string, Json>();
  for (const member of value) {
    if (!isObject(member) || typeof member.id !== "string") return undefined;
    map.set(member.id, member);
  }
  return map.size === value.length ? map : undefined;
}

function same(a: Json, b: Json): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a))
    return Array.isArray(b) && a.length === b.length && a.every((one, i) => same(one, b[i]));
  if (!isObject(a) || !isObject(b)) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => Object.hasOwn(b, key) && same(a[key], b[key]))
  );
}
