import { useState } from "react";
import { ALLERGENS } from "../../../core/pantry/schema.ts";
import type { AllergenCell } from "../../../core/run/result.ts";
import { allergensSaid } from "../../../words/allergens-said.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { variantWords } from "../../../words/variant.ts";
import { useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { useWide } from "../../parts/use-wide.ts";
import { TracesTold } from "./traces-told.tsx";

/** Letters beside the words, so that a matrix reads in black and white. */
const SIGNS = { contains: "●", may: "◐", unknown: "?", free: "·" } as const;
/** For a need: does the plate meet it. */
const NEED_SIGNS = { contains: "✕", may: "◐", unknown: "?", free: "✓" } as const;

interface Row {
  readonly dish: string;
  readonly variant: string;
  readonly cells: readonly AllergenCell[];
}

/** Dish and variant against allergens and needs; a tap tells the way by which each arrives. */
export function Allergens() {
  const { amounts: quick, plan, behind } = useTold();
  const { say } = useWords();
  // What passes on shared equipment is told with the plan.
  const amounts = behind ? quick : (plan ?? quick);
  const wide = useWide(1000);
  const [chosen, setChosen] = useState<string>();
  if (!amounts) return null;
  const rows = rowsOf(amounts.allergens);
  const needs = [...new Set(amounts.allergens.flatMap((cell) => (cell.need ? [cell.need] : [])))];
  const found = amounts.allergens.find((cell) => keyOf(cell) === chosen);
  return (
    <div className="page">
      <p className="quiet">{say("allergens.legend")}</p>
      <TracesTold />
      {wide ? (
        <>
          <Matrix
            rows={rows}
            columns={ALLERGENS.map((id) => ({
              id,
              word: wordFor(say, "allergen", id),
              of: (cell) => cell.allergen === id,
            }))}
            signs={SIGNS}
            chosen={chosen}
            onChoose={setChosen}
          />
          <h2 className="part">{say("allergens.needs")}</h2>
          <Matrix
            rows={rows}
            columns={needs.map((id) => ({
              id,
              word: wordFor(say, "need", id),
              of: (cell) => cell.need === id,
            }))}
            signs={NEED_SIGNS}
            chosen={chosen}
            onChoose={setChosen}
          />
        </>
      ) : (
        rows.map((row, i) => (
          <Listed
            key={row.dish + row.variant}
            row={row}
            first={rows[i - 1]?.dish !== row.dish}
            chosen={chosen}
            onChoose={setChosen}
          />
        ))
      )}
      {wide && (
        <div className="paths-place" aria-live="polite">
          {found && <Paths cell={found} />}
        </div>
      )}
    </div>
  );
}

interface Column {
  readonly id: string;
  readonly word: string;
  readonly of: (cell: AllergenCell) => boolean;
}

function Matrix({
  rows,
  columns,
  signs,
  chosen,
  onChoose,
}: {
  readonly rows: readonly Row[];
  readonly columns: readonly Column[];
  readonly signs: Readonly<Record<AllergenCell["state"], string>>;
  readonly chosen: string | undefined;
  readonly onChoose: (key: string) => void;
}) {
  const names = useNames();
  const { say } = useWords();
  return (
    <div className="matrix-place">
      <table className="table matrix">
        <thead>
          <tr>
            <td />
            {columns.map((column) => (
              <th key={column.id} scope="col" className="upright">
                <span>{column.word}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            <tr key={row.dish + row.variant} data-first={rows[i - 1]?.dish !== row.dish || undefined}>
              <th scope="row">
                <span className={rows[i - 1]?.dish === row.dish ? "unseen" : "dish"}>
                  {names.dish(row.dish)}{" "}
                </span>
                <Variant of={row.variant} />
              </th>
              {columns.map((column) => {
                const cell = row.cells.find(column.of);
                if (!cell) return <td key={column.id} />;
                const key = keyOf(cell);
                return (
                  <td key={column.id} className={`cell is-${cell.state}`}>
                    {cell.paths.length === 0 && !cell.shared ? (
                      <>
                        <span aria-hidden="true">{signs[cell.state]}</span>
                        <span className="unseen">
                          {say(cell.allergen ? `cell.${cell.state}` : `meets.${cell.state}`)}
                        </span>
                      </>
                    ) : (
                      <button
                        type="button"
                        className="cell-button"
                        aria-pressed={key === chosen}
                        onClick={() => onChoose(key)}
                      >
                        <span aria-hidden="true">{signs[cell.state]}</span>
                        <span className="unseen">
                          {names.dish(row.dish)}, {column.word}:{" "}
                          {say(cell.allergen ? `cell.${cell.state}` : `meets.${cell.state}`)}
                        </span>
                      </button>
                    )}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** On a narrow screen: a dish, and below it what it contains, in words. */
function Listed({
  row,
  first,
  chosen,
  onChoose,
}: {
  readonly row: Row;
  readonly first: boolean;
  readonly chosen: string | undefined;
  readonly onChoose: (key: string) => void;
}) {
  const names = useNames();
  const { say } = useWords();
  const there = row.cells.filter((cell) => cell.allergen && cell.state !== "free");
  const unmet = row.cells.filter((cell) => cell.need && cell.state !== "free");
  const found = row.cells.find((cell) => keyOf(cell) === chosen);
  const word = (cell: AllergenCell) =>
    cell.allergen ? wordFor(say, "allergen", cell.allergen) : wordFor(say, "need", cell.need ?? "");
  const group = (
    title: string,
    cells: readonly AllergenCell[],
    signs: Readonly<Record<AllergenCell["state"], string>>,
  ) =>
    cells.length > 0 && (
      <>
        <p className="field-label">{title}</p>
        <p className="chips">
          {cells.map((cell) => (
            <button
              type="button"
              key={keyOf(cell)}
              className={`chip is-${cell.state}`}
              aria-pressed={keyOf(cell) === chosen}
              onClick={() => onChoose(keyOf(cell))}
            >
              <span aria-hidden="true">{signs[cell.state]} </span>
              {word(cell)}
              <span className="unseen">
                , {say(cell.allergen ? `cell.${cell.state}` : `meets.${cell.state}`)}
              </span>
            </button>
          ))}
        </p>
      </>
    );
  return (
    <section className="allergen-dish">
      <h2 className={first ? "note-title dish" : "note-title"}>
        <span className={first ? "" : "unseen"}>{names.dish(row.dish)} </span>
        <Variant of={row.variant} />
      </h2>
      {there.length === 0 && (
        <p className="quiet">{allergensSaid(say, { contains: [], mayContain: [] }, String)}</p>
      )}
      {group(say("allergens.contains"), there, SIGNS)}
      {group(say("allergens.unmet"), unmet, NEED_SIGNS)}
      {found && <Paths cell={found} />}
    </section>
  );
}

function Variant({ of }: { readonly of: string }) {
  const { say } = useWords();
  const words = variantWords(say, of);
  return words === undefined ? null : <span className="quiet small block">{words}</span>;
}

/** The ways by which something arrives: dish, preparation, …, ingredient. */
function Paths({ cell }: { readonly cell: AllergenCell }) {
  const names = useNames();
  const { say } = useWords();
  const what = cell.allergen
    ? wordFor(say, "allergen", cell.allergen)
    : wordFor(say, "need", cell.need ?? "");
  return (
    <section className="note">
      <h2 className="note-title">
        {cell.allergen ? say("allergens.how", { what }) : say("allergens.against", { what })}
        <span className="quiet">, {names.dish(cell.dish)}</span>
      </h2>
      {cell.shared && <Traces of={cell.shared} />}
      <ul className="rows">
        {cell.paths.map((path) => (
          <li key={path.join("/")}>
            {path.map((id, i) => (i === 0 ? names.dish(id) : names.item(id))).join(" › ")}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What lay beside or before it, where and when. */
function Traces({ of }: { readonly of: NonNullable<AllergenCell["shared"]> }) {
  const names = useNames();
  const { say, write } = useWords();
  return (
    <>
      <p className="field-label">{say("traces.title")}</p>
      <ul className="rows traces">
        {of.map(({ path, from, how, placeName, at, tasks }) => (
          <li key={tasks.join()}>
            {say("traces.way", {
              path: path.map((id, i) => (i === 0 ? names.dish(id) : names.item(id))).join(" › "),
              from: from.map(names.item).join(" › "),
              how,
              place: placeName,
              at: write.clock(at),
            })}
          </li>
        ))}
      </ul>
    </>
  );
}

function keyOf(cell: AllergenCell): string {
  return `${cell.dish}|${cell.variant}|${cell.allergen ?? cell.need}`;
}

function rowsOf(cells: readonly AllergenCell[]): Row[] {
  const rows = new Map<string, { dish: string; variant: string; cells: AllergenCell[] }>();
  for (const cell of cells) {
    const key = `${cell.dish}|${cell.variant}`;
    const row = rows.get(key);
    if (row) row.cells.push(cell);
    else rows.set(key, { dish: cell.dish, variant: cell.variant, cells: [cell] });
  }
  // Variants stand below their dish.
  const order = [...new Set(cells.map((cell) => cell.dish))];
  return [...rows.values()].sort((a, b) => order.indexOf(a.dish) - order.indexOf(b.dish));
}
