import { useBook, useBookState, useRunState, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useCovers, useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Covers } from "../../parts/covers.tsx";
import { Figure } from "../../parts/figure.tsx";
import { pathWords } from "../../parts/path-words.ts";
import { Pick } from "../../parts/pick.tsx";
import { NewService } from "./new-service.tsx";
import { Planning } from "./planning.tsx";
import { useOrdered } from "./use-ordered.ts";

const sentence = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

const MARKS = { feasible: "✓", broken: "✕", none: "▲" } as const;
const TONES = { feasible: "done", broken: "harm", none: "decide" } as const;

/**
 * The sentence first, then covers, with the figures of the whole evening in the margin. On a phone a sheet other than
 * the plan is what one came for: the head is `short` there, the sentence and the covers alone.
 */
export function RunHead({ short }: { readonly short: boolean }) {
  const { service, kitchen, setKitchen, setService } = useService();
  const { book } = useBook();
  const { say, write } = useWords();
  const { amounts, plan, behind } = useTold();
  const { problems } = useRunState();
  const { told: ordered } = useOrdered();
  const planned = plan?.summary;
  const known = { book, result: amounts, names: useNames() };
  const status = planned?.status ?? "none";
  return (
    <div className="page run-head" data-short={short || undefined}>
      <div className="line">
        <div className="line-main">
          <h1>{service.name}</h1>
          <p className="run-when">
            <span>
              {write.date(service.at.slice(0, 10))}, {write.hour(`D ${service.at.slice(11)}`)}
            </span>
          </p>
          <p className={`sentence ${behind ? "behind" : ""}`} aria-live="polite">
            {planned && (
              <span className={TONES[status]} aria-hidden="true">
                {MARKS[status]}{" "}
              </span>
            )}
            {planned ? planned.sentence : say(problems.length > 0 ? "run.refused" : "run.planning")}
          </p>
          <Planning />
          {problems.map((problem) => (
            <p key={`${problem.path}${problem.what}`} className="harm problem" role="alert">
              ✕ {problem.what}. {sentence(problem.mend)}.{" "}
              <span className="quiet small">{pathWords(`book:${problem.path}`, known)}</span>
            </p>
          ))}
        </div>
        <dl className="line-margin figures">
          {amounts && (
            <>
              <dt>{say("figure.perCover")}</dt>
              <dd>
                <Figure at="/summary/costPerCover">
                  {write.money(amounts.summary.costPerCover, amounts.cost.currency)}
                </Figure>
                {amounts.summary.costShare !== undefined && (
                  <span className="quiet">
                    {" "}
                    {say("figure.ofPrice", { share: write.share(amounts.summary.costShare) })}
                  </span>
                )}
              </dd>
              <dt>{say("figure.orders")}</dt>
              <dd>
                <Figure at="/summary/orderTotal">
                  {write.money((ordered ?? amounts).summary.orderTotal, amounts.cost.currency)}
                </Figure>
              </dd>
              <dt>{say("figure.plates")}</dt>
              <dd>
                <Figure at="/summary/platesTotal">{write.number(amounts.summary.platesTotal, 0)}</Figure>
                <span className="quiet">
                  {" "}
                  {say("figure.preparations", { count: amounts.summary.preparations })}
                </span>
              </dd>
            </>
          )}
          {planned && (
            <>
              <dt>{say("figure.hands")}</dt>
              <dd className={behind ? "behind" : ""}>
                <Figure at="/summary/handsMinutes">{write.hours(planned.handsMinutes)}</Figure>
              </dd>
            </>
          )}
        </dl>
      </div>
      <div className="run-controls">
        <Covers />
        <div className="picks">
          <Pick
            label={say("run.kitchen")}
            value={kitchen.id}
            options={book.kitchens.map((k) => [k.id, k.name])}
            onChange={setKitchen}
          />
          <Pick
            label={say("run.service")}
            value={service.id}
            options={book.services.map((s) => [s.id, s.name])}
            onChange={setService}
          />
          <NewService />
          <Pack />
        </div>
      </div>
    </div>
  );
}

/** The printed pack: one document with everything the brigade needs, from what is kept in the book. */
function Pack() {
  const { service, kitchen } = useService();
  const { covers } = useCovers();
  const { trials } = useBookState();
  const { say } = useWords();
  const tried = new URLSearchParams();
  if (covers !== service.covers) tried.set("covers", String(covers));
  if (kitchen.id !== service.kitchen) tried.set("kitchen", kitchen.id);
  const query = tried.size > 0 ? `?${tried}` : "";
  return (
    <span className="pack">
      <a
        className="button"
        href={`/api/pack/${encodeURIComponent(service.id)}.pdf${query}`}
        target="_blank"
        rel="noopener"
      >
        {say("run.pack")}
      </a>
      {trials.size > 0 && <span className="quiet small block">{say("run.pack.kept")}</span>}
    </span>
  );
}
