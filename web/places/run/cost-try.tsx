import { useState } from "react";
import { Button } from "react-aria-components";
import type { PlateCosts } from "../../../core/costing/cost-types.ts";
import { variantWords } from "../../../words/variant.ts";
import { useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import type { Tried } from "../../compute/protocol.ts";
import { CountEntry } from "../../parts/count-entry.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Pick } from "../../parts/pick.tsx";
import { firstTry, type Triable, type TriableKind, useTriables } from "./triable.ts";

const KINDS: readonly TriableKind[] = ["price", "trim", "portion", "making"];
/** How a number is typed: of a yield in percent, of money in cents. */
const TYPED = {
  price: { per: 1, step: 0.01 },
  trim: { per: 100, step: 0.5 },
  portion: { per: 1, step: 0.5 },
  making: { per: 1, step: 0.01 },
} as const;

export type Changes = ReadonlyMap<string, number>;

/** Prices, yields and portions tried without keeping them, and how plates and menu move. */
export function CostTry({
  changes,
  tried,
  onChange,
}: {
  readonly changes: Changes;
  readonly tried: Tried | undefined;
  readonly onChange: (changes: Changes) => void;
}) {
  const { say, write } = useWords();
  const triables = useTriables();
  const set = (path: string, value: number) => onChange(new Map(changes).set(path, value));
  const without = (path: string) => onChange(new Map([...changes].filter(([at]) => at !== path)));
  const chosen = [...changes].flatMap(([path, value]) => {
    const of = triables.find((each) => each.path === path);
    return of ? [{ of, value }] : [];
  });
  return (
    <section aria-labelledby="cost-try">
      <h2 className="part" id="cost-try">
        {say("cost.try")}
      </h2>
      <p className="quiet measure">{say("cost.try.what")}</p>
      <ul className="cost-changes">
        {chosen.map(({ of, value }) => {
          const { per, step } = TYPED[of.kind];
          return (
            <li key={of.path} className="row wrap">
              <CountEntry
                label={say(`cost.try.value.${of.kind}`, { name: of.name, unit: of.unit, currency: of.unit })}
                value={Number((value * per).toPrecision(10))}
                least={of.kind === "price" ? 0 : step}
                {...(of.kind === "trim" ? { most: 100 } : {})}
                step={step}
                onChange={(typed) => set(of.path, typed / per)}
              />
              <span className="quiet">{say("cost.try.now", { value: nowOf(of, write) })}</span>
              <Button
                className="remove"
                aria-label={say("cost.try.remove", { name: of.name })}
                onPress={() => without(of.path)}
              >
                ✕
              </Button>
            </li>
          );
        })}
      </ul>
      <Add
        triables={triables.filter(({ path }) => !changes.has(path))}
        onAdd={(of) => set(of.path, firstTry(of))}
      />
      {changes.size > 0 && tried?.refused !== undefined && <p className="decide">▲ {tried.refused}</p>}
      {changes.size > 0 && tried?.cost && <Moved after={tried.cost} />}
      {changes.size > 0 && (
        <Button className="button" onPress={() => onChange(new Map())}>
          {say("cost.try.clear")}
        </Button>
      )}
    </section>
  );
}

function nowOf({ kind, now, unit }: Triable, write: ReturnType<typeof useWords>["write"]): string {
  if (kind === "price") return write.money(now, unit);
  return kind === "trim" ? write.share(now) : write.quantity({ value: now, unit });
}

function Add({
  triables,
  onAdd,
}: {
  readonly triables: readonly Triable[];
  readonly onAdd: (of: Triable) => void;
}) {
  const { say } = useWords();
  const [kind, setKind] = useState<TriableKind>("price");
  const [path, setPath] = useState("");
  const fitting = triables.filter((each) => each.kind === kind);
  const chosen = fitting.find((each) => each.path === path) ?? fitting[0];
  return (
    <div className="picks">
      <Pick
        label={say("cost.try.kind")}
        value={kind}
        options={KINDS.map((each) => [each, say(`cost.try.${each}`)] as const)}
        onChange={(next) => setKind(next as TriableKind)}
      />
      <Pick
        label={say("cost.try.of")}
        value={chosen?.path ?? ""}
        options={fitting.map((each) => [each.path, each.name] as const)}
        onChange={setPath}
      />
      <Button className="button" isDisabled={!chosen} onPress={() => chosen && onAdd(chosen)}>
        {say("cost.try.add")}
      </Button>
    </div>
  );
}

/** Menu and plates before and after; plates that stay are left out. */
function Moved({ after }: { readonly after: PlateCosts }) {
  const { amounts } = useTold();
  const names = useNames();
  const { say, write } = useWords();
  if (!amounts) return null;
  const { cost } = amounts;
  const money = (value: number) => write.money(value, cost.currency);
  const rows = after.perPlate
    .map((plate, i) => ({ ...plate, i, before: cost.perPlate[i]?.plate ?? plate.plate }))
    .filter(({ plate, before }) => Math.abs(plate - before) >= 0.005);
  const difference = (now: number, then: number) => `${then < now ? "−" : "+"}${money(Math.abs(then - now))}`;
  return (
    <div className="scroll-x" aria-live="polite">
      <table className="table cost-moved">
        <thead>
          <tr>
            <th>{say("guests.dish")}</th>
            <th className="num">{say("cost.try.before")}</th>
            <th className="num">{say("cost.try.after")}</th>
            <th className="num">{say("cost.try.diff")}</th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">
              <strong>{say("cost.try.menu")}</strong>
            </th>
            <td className="num quiet">{money(cost.menu)}</td>
            <td className="num">
              <Figure at="/tried/menu" unfold="over" label={say("cost.try.menu")}>
                <strong>{money(after.menu)}</strong>
              </Figure>
            </td>
            <td className="num">{difference(cost.menu, after.menu)}</td>
          </tr>
          {rows.map(({ dish, variant, plate, before, i }) => (
            <tr key={dish + variant}>
              <th scope="row" className="dish">
                {names.dish(dish)}
                {variant !== "standard" && <span className="quiet"> {variantWords(say, variant)}</span>}
              </th>
              <td className="num quiet">{money(before)}</td>
              <td className="num">
                <Figure at={`/tried/perPlate/${i}/plate`} unfold="over" label={names.dish(dish)}>
                  {money(plate)}
                </Figure>
              </td>
              <td className="num">{difference(before, plate)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {rows.length === 0 && <p className="quiet">{say("cost.try.same")}</p>}
    </div>
  );
}
