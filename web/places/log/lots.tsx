import { Button } from "react-aria-components";
import { type Amount, numericValue } from "../../../core/quantity/index.ts";
import { standing } from "../../../core/safety/log-lines.ts";
import type { Shape, Used } from "../../../core/safety/lots-schema.ts";
import { firstOut, type LotStock } from "../../../core/safety/lots-stock.ts";
import { weighBy } from "../../../core/safety/lots-weigh.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { useLog, useRecord } from "../../offline/use-log.ts";
import { Fold } from "../../parts/fold.tsx";
import { useShape, useStock } from "./use-lots.ts";

/** Which lot was opened for which batch: a tap, the lot to be used first in front. */
export function LotsView() {
  const { say } = useWords();
  const { lines } = useLog();
  const { service } = useService();
  const { library } = useBook();
  const { amounts } = useTold();
  const { stock } = useStock();
  const names = useNames();
  const record = useRecord();
  const shape = useShape();
  if (!shape || !amounts) return <p className="page quiet">{say("lots.waiting")}</p>;
  const here = lines.filter((line) => line.service === service.id);
  const kept = standing<Shape>(here, ["shape"]).length > 0;
  const used = standing<Used>(here, ["used"]).map(({ now }) => now.body);
  const lotsIn = (preparation: string, batch: number, ingredient: string) =>
    used.filter(
      ({ lot, into }) =>
        lot?.ingredient === ingredient &&
        "preparation" in into &&
        into.preparation === preparation &&
        into.batch === batch,
    );
  const open = (lot: Openable, preparation: string, batch: number, grams: number | undefined) => {
    if (!kept) record(shape);
    // The log does not know it yet: what the service's stock says stands there is written down first.
    if (lot.inStore)
      record({
        ...{ kind: "counted", lot: lot.ref, amount: lot.inStore },
        ...(lot.useBy === undefined ? {} : { useBy: lot.useBy }),
      });
    // What the sheet says is taken as used, in the lot's own unit where that is mass.
    const amount =
      grams !== undefined && lot.unit === "g"
        ? { amount: { value: Number(grams.toFixed(1)), unit: "g" as const } }
        : {};
    record({ kind: "used", lot: lot.ref, into: { preparation, batch }, ...amount });
  };
  const weigh = weighBy(library.ingredients);
  const inStore = (ingredient: string): Openable[] =>
    service.stock.flatMap(({ item, amount, useBy, lot }) => {
      if (!("ingredient" in item) || item.ingredient !== ingredient || lot === undefined) return [];
      const known = [...stock.lots.values()].some(
        ({ ref }) => ref.ingredient === ingredient && ref.lot === lot,
      );
      const g = weigh(ingredient, amount);
      const size =
        g === undefined
          ? { onHand: numericValue(amount.value), unit: amount.unit }
          : { onHand: g, unit: "g" as const };
      return known ? [] : [{ ...size, key: lot, ref: { ingredient, lot }, useBy, inStore: amount }];
    });
  const sheets = amounts.batchSheets.map((sheet) => {
    const takes = new Map<string, number | undefined>();
    for (const line of sheet.lines) {
      if (!library.ingredients.has(line.item) || library.ingredients.get(line.item)!.free) continue;
      const before = takes.get(line.item);
      const grams = line.toTaste ? undefined : (line.apG ?? line.exactG);
      takes.set(line.item, before === undefined ? grams : before + (grams ?? 0));
    }
    const rows = [...takes].map(([ingredient, grams]) => ({
      ...{ ingredient, grams, noted: lotsIn(sheet.preparation, sheet.batch, ingredient) },
    }));
    return { sheet, rows, noted: rows.filter((row) => row.noted.length > 0).length };
  });
  return (
    <div className="page">
      <p className="large">{say("lots.what")}</p>
      <p className="quiet">
        {kept ? (
          say("lots.kept")
        ) : (
          <Button className="link-button" onPress={() => record(shape)}>
            {say("lots.keep")}
          </Button>
        )}
      </p>
      {sheets
        .filter(({ rows }) => rows.length > 0)
        .map(({ sheet, rows, noted }) => (
          <Fold
            key={`${sheet.preparation} ${sheet.batch}`}
            summary={
              <>
                {sheet.name}
                {sheet.of > 1 && (
                  <span className="quiet">
                    , {say("lots.batch", { batch: sheet.batch, of: sheet.of }).toLowerCase()}
                  </span>
                )}
                <span className={`small ${noted === rows.length ? "done" : "quiet"}`}>
                  {" "}
                  {noted === rows.length && "✓ "}
                  {say("lots.noted", { noted, all: rows.length })}
                </span>
              </>
            }
          >
            {rows.map(({ ingredient, grams, noted: lots }) => (
              <OneIngredient
                key={ingredient}
                name={names.ingredient(ingredient)}
                noted={lots}
                onHand={[...firstOut(stock, ingredient), ...inStore(ingredient)].sort(soonerFirst)}
                open={(lot) => open(lot, sheet.preparation, sheet.batch, grams)}
              />
            ))}
          </Fold>
        ))}
    </div>
  );
}

/** A lot that can be opened: by the log, or so far only by the service's own stock. */
type Openable = Pick<LotStock, "key" | "ref" | "unit" | "useBy" | "onHand"> & { readonly inStore?: Amount };

function soonerFirst(a: Openable, b: Openable): number {
  return (a.useBy ?? "9999").localeCompare(b.useBy ?? "9999");
}

function OneIngredient({
  name,
  noted,
  onHand,
  open,
}: {
  readonly name: string;
  readonly noted: readonly Used[];
  readonly onHand: readonly Openable[];
  readonly open: (lot: Openable) => void;
}) {
  const { say, write } = useWords();
  const left = onHand.filter(({ ref }) => !noted.some(({ lot }) => lot?.lot === ref.lot));
  return (
    <div className="lot-line">
      <span>
        {name}
        {noted.map(({ lot }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the same lot may be noted twice
          <span key={i} className="done block">
            ✓ {say("lots.opened", { lot: lot!.lot })}
          </span>
        ))}
        {noted.length === 0 && onHand.length === 0 && (
          <span className="quiet small block">{say("lots.none")}</span>
        )}
      </span>
      <span className="row wrap">
        {left.slice(0, 2).map((lot) => (
          <Button
            key={lot.key}
            className={`button ${noted.length > 0 ? "quiet-button" : ""}`}
            aria-label={`${name}: ${lot.ref.lot}`}
            onPress={() => open(lot)}
          >
            {say("lots.open", {
              ...{ lot: lot.ref.lot, amount: write.quantity({ value: lot.onHand, unit: lot.unit }) },
              date: lot.useBy ? write.shortDate(lot.useBy) : "?",
            })}
          </Button>
        ))}
      </span>
    </div>
  );
}
