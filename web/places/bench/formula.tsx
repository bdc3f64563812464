import { Link } from "@tanstack/react-router";
import { useState } from "react";
import { Button, ComboBox, Input, Label, ListBox, ListBoxItem, Popover } from "react-aria-components";
import type { Line as FormulaLine, Preparation } from "../../../core/formula/schema.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { AmountEntry } from "../../parts/amount-entry.tsx";
import { idOf } from "../../parts/id-of.ts";
import { Line } from "../../parts/line.tsx";
import { StandIns } from "../../parts/stand-ins.tsx";

/** Deeper than this a preparation is opened on its own sheet. */
const DEEPEST = 6;

/** The lines of a formula; a preparation used inside opens in place, as deep as needed. */
export function Formula({
  preparation,
  depth = 0,
}: {
  readonly preparation: Preparation;
  readonly depth?: number;
}) {
  const { store, library } = useBook();
  const { say } = useWords();
  const set = (lines: FormulaLine[], gesture?: string) =>
    store.edit("preparations", { ...preparation, lines }, gesture);
  const add = (ref: string) => {
    const item = library.preparations.has(ref) ? { preparation: ref } : { ingredient: ref };
    const taken = new Set(preparation.lines.map((line) => line.id));
    let id = idOf(ref);
    for (let n = 2; taken.has(id); n++) id = `${idOf(ref)}-${n}`;
    set([
      ...preparation.lines,
      { id, item, amount: { value: 100, unit: "g" }, step: preparation.steps[0]!.id },
    ]);
  };
  return (
    <div className="formula" data-depth={depth}>
      {preparation.lines.map((line, i) => (
        <OneLine
          key={line.id}
          preparation={preparation}
          line={line}
          depth={depth}
          onChange={(next, gesture) => set(preparation.lines.with(i, next), gesture)}
          onRemove={preparation.lines.length > 1 ? () => set(preparation.lines.toSpliced(i, 1)) : undefined}
        />
      ))}
      {depth === 0 && <AddLine label={say("formula.add")} without={preparation.id} onAdd={add} />}
    </div>
  );
}

function OneLine({
  preparation,
  line,
  depth,
  onChange,
  onRemove,
}: {
  readonly preparation: Preparation;
  readonly line: FormulaLine;
  readonly depth: number;
  readonly onChange: (line: FormulaLine, gesture?: string) => void;
  readonly onRemove: (() => void) | undefined;
}) {
  const { library } = useBook();
  const names = useNames();
  const { say, write } = useWords();
  const nested = "preparation" in line.item ? library.preparations.get(line.item.preparation) : undefined;
  const ingredient = "ingredient" in line.item ? library.ingredients.get(line.item.ingredient) : undefined;
  const cut =
    "ingredient" in line.item && line.item.cut
      ? ingredient?.cuts.find((c) => c.id === ("cut" in line.item ? line.item.cut : ""))
      : undefined;
  const name =
    "preparation" in line.item
      ? names.preparation(line.item.preparation)
      : names.ingredient(line.item.ingredient);
  const [open, setOpen] = useState(false);
  const [replacing, setReplacing] = useState(false);
  return (
    <>
      <Line
        className="formula-line"
        margin={
          <>
            <LineMargin preparation={preparation} line={line} />
            {ingredient && depth === 0 && (
              <Button
                className="link-button small"
                aria-expanded={replacing}
                aria-label={say("standIn.line.of", { name })}
                onPress={() => setReplacing(!replacing)}
              >
                {say("standIn.line")}
              </Button>
            )}
          </>
        }
        mark={<LineMark preparation={preparation} line={line} />}
      >
        <span className="formula-name">
          {nested && depth < DEEPEST ? (
            <Button className="nested-button" aria-expanded={open} onPress={() => setOpen(!open)}>
              <span className="fold-sign" aria-hidden="true">
                {open ? "−" : "+"}
              </span>
              {name}
            </Button>
          ) : nested ? (
            <Link to="/bench/preparation/$id" params={{ id: nested.id }}>
              {name}
            </Link>
          ) : (
            name
          )}
          {cut && <span className="quiet">, {cut.name}</span>}
          {line.as === "AP" && <span className="quiet">, {say("formula.ap")}</span>}
          {line.note && <span className="quiet small block">{line.note}</span>}
          {line.substitutes && line.substitutes.length > 0 && (
            <span className="quiet small block">
              {say("standIn.line.some", {
                list: write.list(line.substitutes.map((one) => names.ingredient(one.ingredient))),
              })}
            </span>
          )}
        </span>
        {line.amount === null ? (
          <span className="to-taste">{say("formula.toTaste")}</span>
        ) : (
          <AmountEntry
            label={say("formula.amount", { name })}
            amount={line.amount}
            onChange={(amount, gesture) => onChange({ ...line, amount }, gesture)}
          />
        )}
        {onRemove && depth === 0 && (
          <Button className="remove" aria-label={say("formula.remove", { name })} onPress={onRemove}>
            ✕
          </Button>
        )}
      </Line>
      {ingredient && replacing && (
        <div className="nested">
          <StandIns
            food={ingredient}
            said={line.substitutes ?? []}
            onChange={(substitutes) => {
              const { substitutes: _, ...rest } = line;
              onChange(substitutes.length > 0 ? { ...rest, substitutes } : rest);
            }}
          />
        </div>
      )}
      {nested && open && (
        <div className="nested">
          <Formula preparation={nested} depth={depth + 1} />
          <p className="quiet">
            <Link to="/bench/preparation/$id" params={{ id: nested.id }}>
              {say("formula.open", { name: nested.name })}
            </Link>
          </p>
        </div>
      )}
    </>
  );
}

/** What the line comes to for the service, batch by batch, and the allergens it brings. */
function LineMargin({
  preparation,
  line,
}: {
  readonly preparation: Preparation;
  readonly line: FormulaLine;
}) {
  const { amounts } = useTold();
  const { library } = useBook();
  const { say, write } = useWords();
  const sheets = (amounts?.batchSheets ?? []).filter((sheet) => sheet.preparation === preparation.id);
  const weighed = sheets.flatMap((sheet) => sheet.lines.filter((l) => l.line === line.id));
  const ingredient = "ingredient" in line.item ? library.ingredients.get(line.item.ingredient) : undefined;
  const allergens = ingredient?.allergens;
  const first = weighed[0];
  return (
    <div className="line-notes">
      {first && !first.toTaste && (
        <p>
          {say("formula.weigh", { text: first.text, count: sheets.length })}
          {first.apG !== undefined && Math.abs(first.apG - first.exactG) > 0.5 && (
            <span className="quiet block small">{say("formula.buys", { mass: write.mass(first.apG) })}</span>
          )}
        </p>
      )}
      {allergens?.status === "unknown" && <p className="decide">▲ {say("formula.unknown")}</p>}
      {allergens && allergens.contains.length > 0 && (
        <p className="small">{write.list(allergens.contains.map((a) => wordFor(say, "allergen", a)))}</p>
      )}
      {allergens && allergens.mayContain.length > 0 && (
        <p className="small quiet">
          {say("labels.may", {
            list: write.list(allergens.mayContain.map((a) => wordFor(say, "allergen", a))),
          })}
        </p>
      )}
    </div>
  );
}

function LineMark({ preparation, line }: { readonly preparation: Preparation; readonly line: FormulaLine }) {
  const { amounts } = useTold();
  const { library } = useBook();
  const ingredient = "ingredient" in line.item ? library.ingredients.get(line.item.ingredient) : undefined;
  if (ingredient?.allergens.status === "unknown") return <span className="decide">▲</span>;
  const sheet = amounts?.batchSheets.find((s) => s.preparation === preparation.id);
  const text = sheet?.lines.find((l) => l.line === line.id)?.text;
  return text ? text : <span aria-hidden="true">⋯</span>;
}

function AddLine({
  label,
  without,
  onAdd,
}: {
  readonly label: string;
  readonly without: string;
  readonly onAdd: (id: string) => void;
}) {
  const { book } = useBook();
  const items = [
    ...book.ingredients.map((i) => ({ id: i.id, name: i.name })),
    ...book.preparations.filter((p) => p.id !== without).map((p) => ({ id: p.id, name: p.name })),
  ].sort((a, b) => a.name.localeCompare(b.name));
  return (
    <ComboBox
      className="entry add-line"
      defaultItems={items}
      value={null}
      onChange={(key) => key !== null && onAdd(String(key))}
      menuTrigger="focus"
      allowsEmptyCollection={false}
    >
      <Label className="field-label">{label}</Label>
      <div className="add-line-row">
        <Input />
        <Button className="step" aria-label={label}>
          ▾
        </Button>
      </div>
      <Popover className="over">
        <ListBox<{ id: string; name: string }> className="pick-list">
          {(item) => (
            <ListBoxItem id={item.id} textValue={item.name} className="pick-item">
              {item.name}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}
