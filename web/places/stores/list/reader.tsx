import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { type Confirmed, PRICE_COLUMNS, type PriceColumn, SURE } from "../../../../core/intake/index.ts";
import type { Supplier } from "../../../../core/purchasing/schema.ts";
import { useWords } from "../../../app/settings.tsx";
import type { Kept } from "../../../book/api.ts";
import type { Intake, OpenedFile } from "../../../compute/intake-protocol.ts";
import { useAnswer, useIntake } from "../../../compute/use-intake.ts";
import { FileDrop } from "../../../parts/file-drop.tsx";
import { Pick } from "../../../parts/pick.tsx";
import { TextEntry } from "../../../parts/text-entry.tsx";
import { Unread } from "../../../parts/unread.tsx";
import { type KeptDocument, useKeepTogether } from "../keep-together.ts";
import { KeptNote } from "../kept-note.tsx";
import { ListRows } from "./rows.tsx";

type Told = Intake["list"]["told"];

/** Files a price list may come in. */
export const LIST_FILES = [".csv", ".txt", ".xlsx", "text/csv"];

/** Reads a supplier's price list: file, columns to confirm, rows to tie, then the prices are kept from a day on. */
export function PriceListReader({
  supplier,
  currency,
  opened: first,
  beside = [],
  onDone,
  onLeave = onDone,
}: {
  readonly supplier: Supplier;
  readonly currency: string;
  /** A file that is open already. */
  readonly opened?: OpenedFile;
  /** What is kept together with the prices: the kitchens that begin to buy there. */
  readonly beside?: readonly KeptDocument[];
  readonly onDone: () => void;
  readonly onLeave?: () => void;
}) {
  const { say } = useWords();
  const keepTogether = useKeepTogether();
  const ask = useIntake();
  const [file, setFile] = useState(first);
  const [sheet, setSheet] = useState<string>();
  const [confirmed, setConfirmed] = useState<Confirmed>({});
  const [from, setFrom] = useState(() => new Date().toISOString().slice(0, 10));
  const [ties, setTies] = useState<Readonly<Record<number, string | null>>>({});
  const [said, setSaid] = useState<Kept>();
  const { offers } = supplier;
  const question = useMemo(
    () => (file ? { ...{ file, sheet, confirmed, offers, from, ties }, currency } : undefined),
    [file, sheet, confirmed, offers, from, ties, currency],
  );
  const { told, failed, working } = useAnswer("list", question);
  const chosen = told ? sureRows(told) : [];
  const keep = async () => {
    if (!question) return;
    const taken = await ask("take", { ...question, chosen });
    const kept = await keepTogether([
      { kind: "suppliers", document: { ...supplier, offers: taken.offers } },
      ...beside,
    ]);
    setSaid(kept);
    if (kept.outcome !== "refused") onDone();
  };
  return (
    <section className="list-reader" aria-label={say("supplier.read")}>
      <FileDrop
        label={say("list.open")}
        accept={LIST_FILES}
        onOpen={([opened]) => {
          setFile(opened);
          setSheet(undefined);
          setConfirmed({});
          setTies({});
          setSaid(undefined);
        }}
      >
        <Button className="link-button" onPress={onLeave}>
          {say("list.leave")}
        </Button>
      </FileDrop>
      {failed && <p className="harm">✕ {say("list.failed", { why: failed })}</p>}
      {file && working && !told && <p className="quiet">{say("list.reading", { name: file.name })}</p>}
      {file && told && (
        <>
          <h2 className="part">{say("list.columns")}</h2>
          <p className="quiet">
            {say("list.columns.what", {
              name: file.name,
              sheet: told.sheet || "none",
              rows: told.rows.length,
            })}
          </p>
          <div className="list-columns">
            {told.sheets.length > 1 && (
              <Pick
                label={say("list.sheet")}
                value={told.sheet}
                options={told.sheets.map((one) => [
                  one.name,
                  say("list.sheet.of", { name: one.name, count: one.offers, hidden: String(one.hidden) }),
                ])}
                onChange={(name) => {
                  setSheet(name);
                  setConfirmed({});
                  setTies({});
                }}
              />
            )}
            {PRICE_COLUMNS.map((column) => (
              <ColumnPick
                key={column}
                column={column}
                told={told}
                onChange={(index) => setConfirmed({ ...confirmed, [column]: index })}
              />
            ))}
            <TextEntry
              label={say("list.from")}
              value={from}
              onChange={(text) => setFrom(text.trim())}
              check={(typed) =>
                /^\d{4}-\d\d-\d\d$/.test(typed.trim()) && !Number.isNaN(Date.parse(typed.trim()))
                  ? undefined
                  : say("list.from.wrong", { typed })
              }
            />
          </div>
          <Unread problems={told.problems} />
          <ListRows
            told={told}
            currency={currency}
            ties={ties}
            onTie={(row, ingredient) => setTies({ ...ties, [row]: ingredient })}
          />
          <div className="list-keep">
            <Button
              className="button"
              isDisabled={chosen.length === 0 || working}
              onPress={() => void keep()}
            >
              {say("list.keep", { count: chosen.length })}
            </Button>
            <span className="quiet">{say("list.keep.what")}</span>
          </div>
          <KeptNote said={said} />
        </>
      )}
    </section>
  );
}

/** Rows that will be kept: tied surely, or by a person. */
const sureRows = (told: Told) =>
  told.lines.flatMap(({ tie }, i) => (tie && tie.confidence >= SURE ? [i] : []));

function ColumnPick({
  column,
  told,
  onChange,
}: {
  readonly column: PriceColumn;
  readonly told: Told;
  readonly onChange: (index: number | null) => void;
}) {
  const { say } = useWords();
  const guess = told.columns[column];
  const options = told.headings.map(
    (heading, i) => [String(i), heading || say("list.column.bare", { n: i + 1 })] as const,
  );
  return (
    <div>
      <Pick
        label={say(`list.column.${column}`)}
        value={guess ? String(guess.index) : "none"}
        options={[["none", say("list.column.none")], ...options]}
        onChange={(id) => onChange(id === "none" ? null : Number(id))}
      />
      <p className={`small ${guess && guess.confidence < SURE ? "decide" : "quiet"}`}>
        {guess
          ? guess.confidence === 1
            ? say("list.column.said")
            : say(guess.confidence < SURE ? "list.column.unsure" : "list.column.sure")
          : column === "price" || column === "description"
            ? say("list.column.needed")
            : ""}
      </p>
    </div>
  );
}
