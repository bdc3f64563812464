import type { Problem } from "../pantry/refusal.ts";
import type { Allergen } from "../pantry/schema.ts";
import type { Need } from "../plating/schema.ts";
import type { Amounts } from "../production/amounts.ts";
import type { Documents } from "../production/documents.ts";
import { STANDARD } from "../production/variants.ts";
import { type Beside, besideOf } from "./beside.ts";
import type { Contents, Eaten } from "./contents.ts";
import { type FlagAt, flagAt } from "./flags.ts";
import { changesOf } from "./front-of-house.ts";
import type { AllergenCell, SharedWay } from "./matrix.ts";
import { type Missing, missingAt } from "./missing.ts";

/** Who sits where and gets what, in the order of the tables. */
export interface SeatingSheet {
  readonly seats: readonly SeatLine[];
  /** What all others get: those without needs and choices. */
  readonly rest: readonly { readonly course: string; readonly dish: string; readonly count: number }[];
}

/** One guest, or a group that sits nowhere in particular yet. */
export interface SeatLine {
  readonly group: string;
  readonly seat?: string;
  /** What stands before the last number of the seat: "3" of "3-2". */
  readonly table?: string;
  readonly count: number;
  readonly needs: readonly Need[];
  /** What goes with every cover and must be kept from this guest; absent where there is nothing of the kind. */
  readonly beside?: readonly Beside[];
  /** One for each course of the menu. */
  readonly courses: readonly SeatCourse[];
}

export interface SeatCourse {
  readonly course: string;
  /** Absent when nothing of the course can be served. */
  readonly dish?: string;
  readonly variant?: string;
  /** What is otherwise than on the dish as written: "Buckwheat and kale instead of barley and kale". */
  readonly changes: readonly string[];
  /** What may come to the plate by the plan, of what this guest must not have, and how to mend it. */
  readonly traces: readonly SeatTrace[];
  /** What this group asked for that a certifying person decides, and what is found against it. */
  readonly flags?: readonly FlagAt[];
  readonly missing?: Missing;
}

export interface SeatTrace {
  readonly need: Need;
  readonly way: SharedWay;
  readonly mend: string;
}

/** By place in the sheet: the group of the service; the plates of a rest and the groups that are not of it. */
export interface SeatingOrigins {
  readonly seats: readonly number[];
  readonly rest: readonly { readonly groups: readonly number[] }[];
}

/**
 * The seating sheet (README, S20): every group at every course with its plate, or with what is missing and the
 * nearest remedy. The counts are those of the newest `update`.
 */
export function seatingSheet(
  docs: Documents,
  contents: Contents,
  amounts: Amounts,
  cells: readonly AllergenCell[],
): SeatingSheet & { readonly origins: SeatingOrigins } {
  const { service, menu, ledger } = amounts;
  const rows = amounts.cells.plates;
  const names = (eaten: Eaten) => nameOf(docs, eaten);
  const seats = service.guests.map((group, g) => ({
    g,
    line: {
      group: group.id,
      ...(group.seat === undefined ? {} : { seat: group.seat, ...tableOf(group.seat) }),
      count: group.count,
      needs: group.needs,
      ...keptAway(besideOf(contents, menu, group.needs)),
      courses: menu.courses.map((course): SeatCourse => {
        const row = rows.find((each) => each.course === course.id && each.row.groups.includes(g));
        if (!row && !isPlaced(amounts, course.id, g)) return { course: course.id, changes: [], traces: [] };
        if (!row)
          return {
            ...{ course: course.id, changes: [], traces: [] },
            missing: missingAt(docs, contents, course, group.needs, names),
          };
        const { dish, form } = row.row;
        const placements = form.placed.map((each) => each.placement);
        return {
          ...{ course: course.id, dish: dish.id, variant: form.name },
          changes: changesOf(dish, placements, names),
          ...(group.flags?.length
            ? { flags: group.flags.map((flag) => flagAt(contents, flag, placements)) }
            : {}),
          traces: tracesAt(cells, dish.id, form.name, group.needs, (id) => nameOf(docs, { preparation: id })),
        };
      }),
    },
  }));
  seats.sort((a, b) => inOrder(a.line, b.line) || a.g - b.g);
  const rest = rows.flatMap((row) => {
    if (row.row.shares.length === 0 || row.row.form.name !== STANDARD) return [];
    const placed = row.row.groups.reduce((sum, g) => sum + service.guests[g]!.count, 0);
    const count = ledger.value(row.count) - placed;
    return count > 0
      ? [{ line: { course: row.course, dish: row.row.dish.id, count }, groups: row.row.groups }]
      : [];
  });
  return {
    seats: seats.map(({ line }) => line),
    rest: rest.map(({ line }) => line),
    origins: { seats: seats.map(({ g }) => g), rest: rest.map(({ groups }) => ({ groups })) },
  };
}

const keptAway = (beside: readonly Beside[]) => (beside.length > 0 ? { beside } : {});

/** Whether a group is placed by need or choice in a course, or could not be; otherwise it follows the shares. */
function isPlaced({ service }: Amounts, course: string, g: number): boolean {
  const group = service.guests[g]!;
  return group.needs.length > 0 || group.choices.some((choice) => choice.course === course);
}

const collator = new Intl.Collator("en", { numeric: true });

/** By table and seat as people count them; who sits nowhere comes last. */
function inOrder(a: SeatLine, b: SeatLine): number {
  if (a.seat === undefined || b.seat === undefined)
    return Number(a.seat === undefined) - Number(b.seat === undefined);
  return collator.compare(a.table ?? "", b.table ?? "") || collator.compare(a.seat, b.seat);
}

/** The table of "3-2", "T4 S2", "12/4": all before the last part. A seat of one part has none. */
export function tableOf(seat: string): { readonly table?: string } {
  const table = /^(.*[\p{L}\p{N}])[^\p{L}\p{N}]+[\p{L}\p{N}]+$/u.exec(seat.trim())?.[1];
  return table === undefined ? {} : { table };
}

function tracesAt(
  cells: readonly AllergenCell[],
  dish: string,
  variant: string,
  needs: readonly Need[],
  name: (preparation: string) => string,
): SeatTrace[] {
  return needs.flatMap((need) => {
    const allergen = need.slice("no-".length) as Allergen;
    const cell = cells.find(
      (each) =>
        each.dish === dish &&
        each.variant === variant &&
        (each.need === need ||
          (each.need === undefined && need.startsWith("no-") && each.allergen === allergen)),
    );
    return (cell?.shared ?? []).map((way) => ({ need, way, mend: mendOf(way, name) }));
  });
}

/** Do it first, clean between, or use another unit: what keeps two foods apart. */
function mendOf({ path, from, how, placeName }: SharedWay, name: (preparation: string) => string): string {
  const [exposed, other] = [name(path.at(-1)!), name(from[0]!)];
  return how === "after"
    ? `do ${exposed} before ${other}, or clean ${placeName} between them, or use another`
    : `do ${exposed} before ${other}, or elsewhere than at ${placeName}`;
}

function nameOf(docs: Documents, { preparation, ingredient }: Eaten): string {
  return preparation === undefined
    ? (docs.ingredients.get(ingredient!)?.name ?? ingredient!)
    : (docs.preparations.get(preparation)?.name ?? preparation);
}

/** A seat that two groups sit on: one of them would be served the other's plate. */
export function seatsTaken({ service }: Amounts, pointer: string): Problem[] {
  const first = new Map<string, string>();
  return service.guests.flatMap((group, g) => {
    const key = group.seat?.trim().toLowerCase();
    if (key === undefined) return [];
    const known = first.get(key);
    if (known === undefined) {
      first.set(key, group.id);
      return [];
    }
    return [
      {
        path: `${pointer}/guests/${g}/seat`,
        what: `seat "${group.seat}" is given to "${known}" and to "${group.id}"`,
        mend: "give one of them another seat, or put the needs of both together if it is one guest",
      },
    ];
  });
}
