import type { Amounts, UseAmount } from "../production/amounts.ts";
import { STANDARD } from "../production/variants.ts";

/**
 * For whom a preparation is made, where it goes on guests' own plates alone: "coeliac; seats 2-6, 3-2". Undefined
 * where it goes on anyone else's plate too, with every cover, or on none.
 */
export function whoseOf(amounts: Amounts): (preparation: string) => string | undefined {
  const rows = Map.groupBy(amounts.plates, (row) => keyOf(row.course, row.dish, row.variant));
  const known = new Map<string, ReadonlySet<string>>();
  const platesOf = (id: string): ReadonlySet<string> => {
    const found = known.get(id);
    if (found) return found;
    const reached = new Set<string>();
    known.set(id, reached);
    for (const use of amounts.preparations.get(id)?.usedBy ?? [])
      for (const key of use.beside !== undefined
        ? [EVERYONE]
        : use.preparation === undefined
          ? [ofPlate(use)]
          : platesOf(use.preparation))
        reached.add(key);
    return reached;
  };
  return (id) => {
    const ways = platesOf(id);
    const reached = [...ways].flatMap((key) => rows.get(key) ?? []);
    if (ways.has(EVERYONE) || reached.length === 0 || reached.some((row) => row.variant === STANDARD))
      return undefined;
    const needs = [...new Set(reached.flatMap((row) => row.needs))].map((need) => need.replaceAll("-", " "));
    const seats = [...new Set(reached.flatMap((row) => row.seats))];
    const where = seats.length === 0 ? [] : [`${seats.length === 1 ? "seat" : "seats"} ${seats.join(", ")}`];
    return [needs.join(", "), ...where].filter(Boolean).join("; ") || undefined;
  };
}

/** With every cover beside the plates. */
const EVERYONE = "with every cover";

const keyOf = (course: string, dish: string, variant: string) => `${course} ${dish} ${variant}`;
const ofPlate = ({ course, dish, variant }: UseAmount) => keyOf(course ?? "", dish ?? "", variant ?? "");
