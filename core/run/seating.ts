import type { Tracer } from "../ledger/tracer.ts";
import type { Documents } from "../production/documents.ts";
import { restOfCovers } from "../production/rules.ts";
import { STANDARD } from "../production/variants.ts";
import type { SeatingOrigins, SeatingSheet } from "../safety/seating.ts";
import type { PlateCount } from "./result.ts";

/** Notes how the counts of the seating sheet came: from the groups in the book, and from the plates less those. */
export function traceSeating(
  tracer: Tracer,
  docs: Documents,
  service: string,
  { seats, rest, origins }: SeatingSheet & { readonly origins: SeatingOrigins },
  plates: readonly PlateCount[],
): void {
  const at = docs.pointer("services", service);
  const countOf = (g: number) => `book:${at}/guests/${g}/count`;
  seats.forEach(({ count }, i) => {
    const inputs = [countOf(origins.seats[i]!)];
    tracer.note(`/seating/seats/${i}/count`, { value: count, unit: "guest", rule: "given", inputs });
  });
  rest.forEach(({ course, dish, count }, i) => {
    const row = plates.findIndex((p) => p.course === course && p.dish === dish && p.variant === STANDARD);
    const inputs = [`/plates/${row}/count`, ...origins.rest[i]!.groups.map(countOf)];
    tracer.note(`/seating/rest/${i}/count`, { value: count, unit: "guest", rule: restOfCovers.name, inputs });
  });
}
