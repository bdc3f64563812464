import { Link, useParams } from "@tanstack/react-router";
import { PAGE_INK, sectionDrawing } from "../../../drawing/index.ts";
import { Lost } from "../../app/frame.tsx";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import { AmountEntry } from "../../parts/amount-entry.tsx";
import { Drawing } from "../../parts/drawing.tsx";
import { Figure } from "../../parts/figure.tsx";
import { Line } from "../../parts/line.tsx";
import { NutritionMargin } from "../../parts/nutrition-label.tsx";
import { TextEntry } from "../../parts/text-entry.tsx";
import { AnotherFold } from "./another.tsx";
import { Formula } from "./formula.tsx";
import { Steps } from "./steps.tsx";

/** One preparation: formula and method to write, what it comes to in the margin. */
export function PreparationSheet() {
  const { id } = useParams({ strict: false }) as { id: string };
  const { library, store } = useBook();
  const { say, write } = useWords();
  const preparation = library.preparations.get(id);
  if (!preparation) return <Lost />;
  const edit = (more: Partial<typeof preparation>, gesture?: string) =>
    store.edit("preparations", { ...preparation, ...more }, gesture);
  return (
    <div className="page bench-sheet">
      <Line margin={<Worth id={id} />} mark={<NeedMark id={id} />}>
        <h1>
          <TextEntry
            label={say("bench.name")}
            hideLabel
            long
            className="title-entry"
            value={preparation.name}
            onChange={(name) => edit({ name })}
            check={(typed) => (typed.trim() === "" ? say("bench.name.empty") : undefined)}
          />
        </h1>
        {preparation.description && <p className="quiet">{preparation.description}</p>}
        <UsedBy id={id} />
      </Line>
      <h2 className="part">{say("bench.formula")}</h2>
      <Formula preparation={preparation} />
      <Line className="yield-line" margin={<Balance id={id} />}>
        <span className="formula-name">
          <strong>{say("bench.yield")}</strong>
          {preparation.yield.pieces !== undefined && (
            <span className="quiet"> {say("bench.pieces", { count: preparation.yield.pieces })}</span>
          )}
        </span>
        <AmountEntry
          label={say("bench.yield")}
          amount={preparation.yield.amount}
          onChange={(amount, gesture) => edit({ yield: { ...preparation.yield, amount } }, gesture)}
        />
      </Line>
      <AnotherFold preparation={preparation} />
      <h2 className="part">{say("bench.method")}</h2>
      <Steps preparation={preparation} />
      {preparation.piece && (preparation.piece.layers?.length ?? 0) > 0 && (
        <div className="section-place">
          <Drawing
            of={sectionDrawing(
              {
                piece: preparation.piece,
                title: say("bench.section", { name: preparation.name }),
                core: say("bench.core"),
                writeMm: write.length,
              },
              PAGE_INK,
            )}
          />
        </div>
      )}
      <p className="no-print">
        <Link to="/bench/preparation/$id/heat" params={{ id }} className="link-button">
          {say("heat.open")}
        </Link>
      </p>
      {preparation.life.length > 0 && (
        <p className="quiet">
          {preparation.life
            .map((life) =>
              say("bench.life", { state: say(`state.${life.state}`), long: write.span(life.maxMinutes) }),
            )
            .join(" · ")}
        </p>
      )}
      <p>
        <TextEntry
          label={say("bench.notes")}
          long
          value={preparation.notes ?? ""}
          onChange={(notes) => edit(notes === "" ? {} : { notes })}
        />
      </p>
    </div>
  );
}

/** What the service in hand needs of it, and what it costs. */
function Worth({ id }: { readonly id: string }) {
  const { amounts } = useTold();
  const { say, write } = useWords();
  const at = amounts?.needs.findIndex((n) => n.preparation === id) ?? -1;
  const need = amounts?.needs[at];
  const costAt = amounts?.cost.preparations.findIndex((p) => p.preparation === id) ?? -1;
  const cost = amounts?.cost.preparations[costAt];
  if (!amounts) return null;
  if (!need) return <span className="quiet">{say("bench.notServed")}</span>;
  const labelAt = amounts.nutrition.findIndex((label) => label.preparation === id);
  const label = amounts.nutrition[labelAt];
  return (
    <>
      <dl className="figures">
        <dt>{say("bench.needed")}</dt>
        <dd>
          <Figure at={`/needs/${at}/amount/value`}>{write.quantity(need.amount)}</Figure>
          {need.pieces !== undefined && (
            <span className="quiet"> {say("bench.pieces", { count: need.pieces })}</span>
          )}
        </dd>
        <dt>{say("bench.inBatches")}</dt>
        <dd>{need.batches.map((batch) => write.quantity(batch.amount)).join(" + ")}</dd>
        {cost && (
          <>
            <dt>{say("cost.perKg")}</dt>
            <dd>
              <Figure at={`/cost/preparations/${costAt}/perKg`}>
                {write.money(cost.perKg, amounts!.cost.currency)}
              </Figure>
            </dd>
          </>
        )}
      </dl>
      {label && <NutritionMargin label={label} at={labelAt} />}
    </>
  );
}

function NeedMark({ id }: { readonly id: string }) {
  const { amounts } = useTold();
  const { write } = useWords();
  const need = amounts?.needs.find((n) => n.preparation === id);
  return need ? write.quantity(need.amount) : <span aria-hidden="true">⋯</span>;
}

function UsedBy({ id }: { readonly id: string }) {
  const { amounts } = useTold();
  const names = useNames();
  const { say } = useWords();
  const used = amounts?.needs.find((n) => n.preparation === id)?.usedBy ?? [];
  const dishes = [...new Set(used.flatMap((u) => (u.dish ? [u.dish] : [])))];
  const preparations = [...new Set(used.flatMap((u) => (u.preparation ? [u.preparation] : [])))];
  const everyCover = used.some((u) => u.everyCover);
  if (dishes.length + preparations.length === 0 && !everyCover) return null;
  return (
    <p className="quiet">
      {say("bench.goesInto")}{" "}
      {dishes.map((dish, i) => (
        <span key={dish}>
          {i > 0 && ", "}
          <Link to="/bench/dish/$id" params={{ id: dish }} className="dish">
            {names.dish(dish)}
          </Link>
        </span>
      ))}
      {preparations.map((other, i) => (
        <span key={other}>
          {(i > 0 || dishes.length > 0) && ", "}
          <Link to="/bench/preparation/$id" params={{ id: other }}>
            {names.preparation(other)}
          </Link>
        </span>
      ))}
      {everyCover && (
        <>
          {dishes.length + preparations.length > 0 && ", "}
          {say("bench.everyCover")}
        </>
      )}
    </p>
  );
}

/** The mass balance of what is made for the service: in, lost by name, out, against the declared yield. */
function Balance({ id }: { readonly id: string }) {
  const { amounts } = useTold();
  const { say, write } = useWords();
  const at = amounts?.balance.findIndex((b) => b.preparation === id) ?? -1;
  const balance = amounts?.balance[at];
  if (!balance) return null;
  const off = balance.declaredG === 0 ? 0 : balance.outG / balance.declaredG - 1;
  return (
    <div className="small">
      <p>
        {say("bench.in")} <Figure at={`/balance/${at}/inG`}>{write.mass(balance.inG)}</Figure>
        {balance.waterG > 0 && <>, {say("bench.water", { mass: write.mass(balance.waterG) })}</>}
      </p>
      {balance.lost
        .filter((lost) => lost.g > 0.05)
        .map((lost) => (
          <p key={lost.how} className="quiet">
            − {write.mass(lost.g)} {say.bind(null)(`lost.${lost.how}` as "lost.trimmed")}
          </p>
        ))}
      <p>
        {say("bench.out")} <Figure at={`/balance/${at}/outG`}>{write.mass(balance.outG)}</Figure>
      </p>
      {Math.abs(off) > 0.02 && (
        <p className="decide">
          ▲ {say("bench.off", { off: write.share(off), declared: write.mass(balance.declaredG) })}
        </p>
      )}
    </div>
  );
}
