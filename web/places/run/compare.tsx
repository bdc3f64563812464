import { useState } from "react";
import { Button } from "react-aria-components";
import { differences, type KeptFigure, type KeptPlan, keptPlan, placeOf } from "../../../core/run/compare.ts";
import { useBook, useHands, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useWords } from "../../app/settings.tsx";
import type { Told } from "../../compute/protocol.ts";
import { Figure } from "../../parts/figure.tsx";
import { useFirst } from "../../parts/first.tsx";
import { pathWords } from "../../parts/path-words.ts";
import { MOST_GHOSTS, otherPlaces } from "./ghosts.ts";
import { cameOf, KeptFigureView } from "./kept-figure.tsx";
import { dropPlan, keepPlan, useKeptPlans } from "./kept-plans.ts";

const MOST = 8;

/** Plans kept by name beside the one that stands: figures in a small table, what moved below. */
export function Compare({
  told,
  against,
  onAgainst,
  onChoose,
}: {
  readonly told: Told;
  readonly against: KeptPlan | undefined;
  readonly onAgainst: (plan: KeptPlan | undefined) => void;
  readonly onChoose: (task: string) => void;
}) {
  const { say, write } = useWords();
  const { behind } = useTold();
  const { runner } = useHands();
  const { book } = useBook();
  const names = useNames();
  const kept = useKeptPlans(told.summary.service);
  const [name, setName] = useState("");
  const usual = () => {
    const now = new Date();
    const two = (n: number) => String(n).padStart(2, "0");
    return say("compare.usual", { hour: write.hour(`D ${two(now.getHours())}:${two(now.getMinutes())}`) });
  };
  return (
    <section className="note compare">
      <h2 className="note-title">{say("compare.title")}</h2>
      <div className="row compare-keep">
        <input
          className="compare-name"
          aria-label={say("compare.name")}
          placeholder={say("compare.name")}
          value={name}
          onChange={(event) => setName(event.target.value)}
        />
        <Button
          className="button quiet-button"
          isDisabled={behind}
          onPress={() => {
            const plan = keptPlan(name.trim() || usual(), told);
            const nameOf = (path: string) => pathWords(path, { book, result: told, names });
            void cameOf(told, (at) => runner.trace(at), nameOf).then((came) => keepPlan({ ...plan, came }));
            setName("");
          }}
        >
          {say("compare.keep")}
        </Button>
      </div>
      {kept.length > 0 && (
        <ul className="rows">
          {kept.map((plan) => (
            <li key={plan.name} className="good-row">
              <Button
                className="link-button"
                aria-pressed={against?.name === plan.name}
                onPress={() => onAgainst(against?.name === plan.name ? undefined : plan)}
              >
                {against?.name === plan.name ? "✓ " : ""}
                {plan.name}
              </Button>
              <Button
                className="link-button quiet"
                onPress={() => {
                  dropPlan(plan.name);
                  if (against?.name === plan.name) onAgainst(undefined);
                }}
              >
                {say("compare.drop", { name: plan.name })}
              </Button>
            </li>
          ))}
        </ul>
      )}
      {against && (
        <Beside
          before={against}
          after={keptPlan("", told)}
          told={told}
          currency={told.cost.currency}
          onChoose={onChoose}
        />
      )}
    </section>
  );
}

function Beside({
  before,
  after,
  told,
  currency,
  onChoose,
}: {
  readonly told: Told;
  readonly before: KeptPlan;
  readonly after: KeptPlan;
  readonly currency: string;
  readonly onChoose: (task: string) => void;
}) {
  const { say, write } = useWords();
  const { library } = useBook();
  const span = (minutes: number | undefined) => (minutes === undefined ? "–" : write.span(minutes));
  const count = (n: number | undefined) => (n === undefined ? "–" : write.number(n, 0));
  const rows: [string, (plan: KeptPlan) => string, KeptFigure?][] = [
    [say("compare.covers"), (plan) => count(plan.covers), "covers"],
    [say("compare.kitchen"), (plan) => library.kitchens.get(plan.kitchen)?.name ?? plan.kitchen],
    [say("compare.spare"), (plan) => span(plan.spareMin), "spareMin"],
    [say("compare.breaches"), (plan) => count(plan.breaches), "breaches"],
    [say("compare.hands"), (plan) => write.hours(plan.handsMinutes), "handsMinutes"],
    [say("compare.peak"), (plan) => count(plan.peakHands), "peakHands"],
    [say("compare.heatUps"), (plan) => count(plan.heatUps), "heatUps"],
    [say("compare.holds"), (plan) => count(plan.holdsNearlyUsed), "holdsNearlyUsed"],
    [say("compare.cost"), (plan) => write.money(plan.costPerCover, currency), "costPerCover"],
  ];
  const at = new Map(told.plan.tasks.map((task, i) => [task.id, i]));
  const moved = differences(before, after);
  const { shown, more } = useFirst(moved, MOST);
  const elsewhere = otherPlaces(before, told.plan).size;
  return (
    <>
      <table className="table small-table">
        <thead>
          <tr>
            <th />
            <th scope="col">{before.name}</th>
            <th scope="col">{say("compare.now")}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([label, read, figure]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td className="num">
                <KeptFigureView came={figure && before.came?.[figure]}>{read(before)}</KeptFigureView>
              </td>
              <td className="num">
                {figure && read(after) !== "–" ? (
                  <Figure at={placeOf(figure, told)} unfold="over" label={label}>
                    {read(after)}
                  </Figure>
                ) : (
                  read(after)
                )}
                {read(after) !== read(before) && <span aria-hidden="true"> ≠</span>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>{say("compare.moved", { count: moved.length })}</p>
      <ul className="rows">
        {shown.map((each) => (
          <li key={each.task}>
            <Button className="link-button why-link" onPress={() => onChoose(each.task)}>
              {each.name}
            </Button>{" "}
            <span className="num">
              {each.before ? (
                <KeptFigureView came={before.came?.starts}>{write.clock(each.before)}</KeptFigureView>
              ) : (
                "–"
              )}{" "}
              →{" "}
              {each.after ? (
                <Figure at={`/plan/tasks/${at.get(each.task)}/startMin`} label={each.name}>
                  {write.clock(each.after)}
                </Figure>
              ) : (
                "–"
              )}
            </span>
          </li>
        ))}
      </ul>
      {more}
      {moved.length > 0 && (
        <p className="quiet small">
          {elsewhere > MOST_GHOSTS
            ? say("ghosts.many", { count: elsewhere, all: told.plan.tasks.length })
            : say("compare.ghosts")}
        </p>
      )}
    </>
  );
}
