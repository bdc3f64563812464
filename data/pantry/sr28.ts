import type { Composition } from "../../core/pantry/schema.ts";
import { addedSugarsOf } from "./composition/added-sugars.ts";
import { animal } from "./composition/animal.ts";
import { MINERAL_COLUMNS } from "./composition/mineral-row.ts";
import { minerals } from "./composition/minerals.ts";
import { plant } from "./composition/plant.ts";
import { pressed } from "./composition/pressed.ts";
import type { Row } from "./composition/row.ts";
import { composed } from "./composition/row.ts";
import { stored } from "./composition/stored.ts";
import { sr } from "./sources.ts";

const ROWS: Readonly<Record<string, Row>> = { ...animal, ...plant, ...pressed, ...stored };

/** Every row restated, by NDB number. */
export const restatedRows: ReadonlyMap<string, Row> = new Map(Object.entries(ROWS));

/**
 * Composition of the edible part by USDA SR28, g in 100 g.
 * @param ndb the row's number there. @param note what the row is of, where that is not plain.
 * @throws RangeError for a row that is not restated.
 */
export function sr28(ndb: string, note?: string): Composition {
  const row = ROWS[ndb];
  if (!row) throw new RangeError(`USDA SR28 row ${ndb} is not restated in data/pantry/composition`);
  const more = MINERAL_COLUMNS.flatMap((column, at) => {
    const figure = minerals[ndb]?.[at] ?? null;
    return figure === null ? [] : [[column, figure] as const];
  });
  const known = composed(row, sr(ndb, note));
  const addedSugars = addedSugarsOf(ndb, known.sugars);
  const added = addedSugars === undefined ? {} : { addedSugars };
  return { ...known, ...Object.fromEntries(more), ...added };
}
