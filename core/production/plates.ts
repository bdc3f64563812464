import type { FormulaCells } from "../formula/cells.ts";
import type { Cell } from "../ledger/ledger.ts";
import { sum } from "../ledger/rules.ts";
import { stated } from "../ledger/stated.ts";
import { gramsCell } from "../pantry/grams.ts";
import { purchasedFor } from "../pantry/rules.ts";
import type { Need } from "../plating/schema.ts";
import { DIETS } from "../plating/schema.ts";
import type { Documents } from "./documents.ts";
import type { Row, Seating } from "./guests.ts";
import { restOfCovers, shareByLargestRemainder, spareForTasting, spareOfVariant } from "./rules.ts";
import type { Service } from "./schema.ts";
import { STANDARD } from "./variants.ts";

/** What one placement puts on one plate, g: EP, and AP where it is an ingredient that is trimmed. */
export interface PlacedCells {
  readonly preparation: string | undefined;
  readonly ingredient: string | undefined;
  readonly cut: string | undefined;
  readonly ep: Cell;
  readonly ap: Cell;
}

/** One row of plates: a dish in one form in one course. */
export interface PlateCells {
  readonly course: string;
  readonly row: Row;
  readonly needs: readonly Need[];
  readonly seats: readonly string[];
  readonly notFed: readonly string[];
  readonly count: Cell;
  readonly spare: Cell;
  /** Guests and spare together. */
  readonly plates: Cell;
  /** Food on one plate, g, and the seconds its placements take. */
  readonly plateG: Cell;
  readonly seconds: Cell;
  readonly placed: readonly PlacedCells[];
}

/** Cell of the covers, the one number a change of covers changes. */
export const COVERS = "calc:/covers";

/** Counts of plates by dish and form, from the covers cell on. The preparations must have been made before. */
export function plateCells(
  formula: FormulaCells,
  docs: Documents,
  service: Service,
  seating: readonly Seating[],
  covers: Cell,
): PlateCells[] {
  const { ledger } = formula;
  const menuAt = docs.pointer("menus", service.menu);
  const serviceAt = docs.pointer("services", service.id);
  const groupCount = (g: number) =>
    stated(ledger, `book:${serviceAt}/guests/${g}/count`, "guest", service.guests[g]!.count);
  const tasting = stated(ledger, `book:${serviceAt}/tasting`, "plate", service.tasting);

  return seating.flatMap(({ course, rows, apart, notFed }, c) => {
    const path = `calc:/courses/${course.id}`;
    const rest = ledger.derive(`${path}/rest`, "guest", restOfCovers, [covers, ...apart.map(groupCount)]);
    const weights = course.options.map((option, o) =>
      stated(ledger, `book:${menuAt}/courses/${c}/options/${o}/share`, "ratio", option.share),
    );
    const shared = (o: number) =>
      ledger.derive(`${path}/options/${o}/rest`, "guest", shareByLargestRemainder, [
        stated(ledger, `const:/place/${o}`, "", o),
        rest,
        ...weights,
      ]);
    const groupIds = notFed.map((g) => service.guests[g]!.id);
    return rows.map((row): PlateCells => {
      const rowPath = `calc:/plates/${course.id}/${row.dish.id}/${row.form.name}`;
      const parts = [...row.groups.map(groupCount), ...row.shares.map(shared)];
      const count = ledger.derive(`${rowPath}/count`, "plate", sum, parts);
      const spare =
        row.form.name === STANDARD
          ? ledger.derive(`${rowPath}/spare`, "plate", spareForTasting, [count, tasting])
          : ledger.derive(`${rowPath}/spare`, "plate", spareOfVariant, [count]);
      const groups = row.groups.map((g) => service.guests[g]!);
      const placed = row.form.placed.map((each) => placedCells(formula, row.dish.id, each));
      return {
        course: course.id,
        row,
        needs: inOrder(groups.flatMap((group) => group.needs)),
        seats: groups.flatMap((group) => (group.seat === undefined ? [] : [group.seat])),
        notFed: groupIds,
        count,
        spare,
        plates: ledger.derive(`${rowPath}/plates`, "plate", sum, [count, spare]),
        plateG: ledger.derive(
          `${rowPath}/g`,
          "g",
          sum,
          placed.map((each) => each.ep),
        ),
        seconds: ledger.derive(
          `${rowPath}/seconds`,
          "s",
          sum,
          row.form.placed.map(({ placement, at }) =>
            stated(ledger, `book:${at}/seconds`, "s", placement.seconds),
          ),
        ),
        placed,
      };
    });
  });
}

function placedCells(
  formula: FormulaCells,
  dish: string,
  { placement, at }: Row["form"]["placed"][number],
): PlacedCells {
  const { ledger } = formula;
  const { preparation, ingredient, cut } = placement;
  // The same placement may stand in several forms: its cells are named by its place in the book.
  const path = `calc:/dishes/${dish}${at.slice(at.indexOf("/", at.indexOf("/", 1) + 1))}`;
  const item = preparation === undefined ? { ingredient: ingredient! } : { preparation };
  const matter = formula.matterOf(item);
  const ep = gramsCell(ledger, `${path}/g`, placement.amount, `${at}/amount`, matter, formula.problems);
  const trim = ingredient === undefined ? undefined : formula.trim(ingredient, cut);
  const apPath = `${path}/ap`;
  const ap =
    trim === undefined ? ep : (ledger.find(apPath) ?? ledger.derive(apPath, "g", purchasedFor, [ep, trim]));
  return { preparation, ingredient, cut, ep, ap };
}

/** Needs once each, diets first in the order of the closed list, then by name. */
function inOrder(needs: readonly Need[]): Need[] {
  const place = (need: Need) => {
    const at = (DIETS as readonly string[]).indexOf(need);
    return at < 0 ? DIETS.length : at;
  };
  return [...new Set(needs)].sort((a, b) => place(a) - place(b) || (a < b ? -1 : 1));
}
