import { Button } from "react-aria-components";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { Pick } from "../../parts/pick.tsx";
import { othersFor, replaceable } from "./instead.ts";
import { type Move, movable, stepped } from "./use-move.ts";

const MOST = 8;

/** What gives while a task is dragged: where it would stand, who else moves, what breaks, what is spare. */
export function MoveNote({ move }: { readonly move: Move }) {
  const { say, write } = useWords();
  const { clock, kitchen } = useService();
  const names = useNames();
  const { moving, tried, asking } = move;
  if (!moving) return null;
  const { task, startMin, instead } = moving;
  const nameOf = (kind: "person" | "equipment", id: string) =>
    kind === "person" ? names.person(id) : names.equipment(id);
  const others = tried?.moved.filter((each) => each.task !== task.id) ?? [];
  const by = (minutes: number) => move.to(task, stepped(startMin + minutes), instead);
  return (
    <section className="note task-note move-note" aria-label={say("move.title")}>
      <h2 className="note-title">{task.name}</h2>
      <p className="large" aria-live="polite">
        {write.clock(task.start)} → <strong>{write.clock(clock.textOf(startMin))}</strong>
        {instead && (
          <span className="block">
            {nameOf(instead.kind, instead.from)} → <strong>{nameOf(instead.kind, instead.to)}</strong>
          </span>
        )}
      </p>
      <div className="row move-do">
        {movable(task) && (
          <>
            <Button className="button quiet-button" aria-label={say("move.earlier")} onPress={() => by(-5)}>
              −5
            </Button>
            <Button className="button quiet-button" aria-label={say("move.later")} onPress={() => by(5)}>
              +5
            </Button>
          </>
        )}
        <Button className="button" onPress={move.keep}>
          {say("move.keep")}
        </Button>
        <Button className="button quiet-button" onPress={move.cancel}>
          {say("move.cancel")}
        </Button>
      </div>
      {replaceable(kitchen, task).map(({ kind, from }) => (
        <Pick
          key={from}
          label={say(kind === "person" ? "move.person" : "move.equipment", { name: nameOf(kind, from) })}
          value={instead?.from === from ? instead.to : from}
          options={othersFor(kitchen, kind, from)
            .filter((id) => id === from || !task.hands.includes(id))
            .map((id) => [id, nameOf(kind, id)])}
          onChange={(to) => move.to(task, startMin, { kind, from, to })}
        />
      ))}
      {tried ? (
        <div className="move-gives" data-asking={asking || undefined} aria-live="polite">
          <p className={tried.fits ? "done" : "harm"}>
            {tried.fits ? "✓" : "✕"}{" "}
            {say(tried.fits ? "move.fits" : "move.breaks", {
              count: others.length,
              broken: tried.broken.length,
            })}
            {tried.spareMin !== undefined &&
              tried.spareBeforeMin !== undefined &&
              ` ${say("move.spare", {
                before: write.span(tried.spareBeforeMin),
                after: write.span(tried.spareMin),
              })}`}
          </p>
          <ul className="rows">
            {tried.broken.slice(0, MOST).map((broken) => (
              <li key={broken.what}>
                <span className="harm">✕</span> {broken.what}
              </li>
            ))}
            {others.slice(0, MOST).map((each) => (
              <li key={each.task}>
                {each.name}{" "}
                <span className="num">
                  {write.clock(each.before)} → {write.clock(each.start)}
                </span>
                {each.others && <span className="quiet"> {write.list(each.hands.map(names.person))}</span>}
              </li>
            ))}
          </ul>
          {others.length > MOST && (
            <p className="quiet">{say("plan.more", { count: others.length - MOST })}</p>
          )}
        </div>
      ) : (
        <p className="quiet">{say(asking ? "move.asking" : "move.waiting")}</p>
      )}
      <p className="quiet small">{say("move.quick")}</p>
    </section>
  );
}
