import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import type { PlanTask } from "../../../core/run/result.ts";
import {
  type Entering,
  enteringAt,
  intoOf,
  notesOf,
  type Source,
  type Taken,
  type TaskAt,
  usedIn,
  usualFrom,
} from "../../../core/safety/lots-entering.ts";
import type { Used } from "../../../core/safety/lots-schema.ts";
import { weighBy } from "../../../core/safety/lots-weigh.ts";
import { useBook, useTold } from "../../app/hands.tsx";
import { useNames } from "../../app/names.ts";
import { useService } from "../../app/service.tsx";
import { useWords } from "../../app/settings.tsx";
import { useLotLog, useRecord } from "../../offline/use-log.ts";
import { useShape, useStock } from "../log/use-lots.ts";
import { useBoard } from "./live/use-live.ts";

/** What goes into a batch at a task, with its lots: one tap notes those that end first. */
export function TaskLots({ task }: { readonly task: PlanTask }) {
  const { say } = useWords();
  const { rehearsal } = useBoard().clock;
  const { entering, note } = useEntering(task);
  const usual = entering.flatMap((one) => (one.noted.length > 0 ? [] : usualFrom(one)));
  if (entering.length === 0) return null;
  return (
    <section className="task-lots" aria-label={say("lots.title")}>
      <ul className="task-lots-list">
        {entering.map((one) => (
          <OneEntering
            key={one.ingredient ?? one.preparation}
            of={one}
            note={rehearsal ? undefined : (taken) => note([taken])}
          />
        ))}
      </ul>
      {rehearsal ? (
        <p className="quiet">{say("lots.rehearsal")}</p>
      ) : (
        usual.length > 0 && (
          <Button className="button live-leave" onPress={() => note(usual)}>
            {say("lots.these", { count: usual.length })}
          </Button>
        )
      )}
    </section>
  );
}

/** The same for a task that is done, behind a button: whoever pressed "Done" first can still say it. */
export function DoneLots({ task }: { readonly task: PlanTask }) {
  const { say } = useWords();
  const { rehearsal } = useBoard().clock;
  const [open, setOpen] = useState(false);
  if (intoOf(task) === undefined || rehearsal) return null;
  return (
    <>
      <Button className="link-button" aria-expanded={open} onPress={() => setOpen(!open)}>
        {say("lots.of")}
        <span className="unseen"> {task.name}</span>
      </Button>
      {open && <TaskLots task={task} />}
    </>
  );
}

function OneEntering({
  of,
  note,
}: {
  readonly of: Entering;
  readonly note: ((taken: Taken) => void) | undefined;
}) {
  const { say, write } = useWords();
  const names = useNames();
  const [open, setOpen] = useState(false);
  const { ingredient, preparation, noted, from, grams } = of;
  const name = names.item(ingredient ?? preparation ?? "");
  const usual = usualFrom(of);
  const word = ({ lot, batch }: Pick<Used, "lot" | "batch">) =>
    lot ? say("lots.opened", { lot: lot.lot }) : say("lots.batchNo", { batch: batch!.batch });
  const left = from.filter(
    (source) => !noted.some(({ lot, batch }) => sameSource(source, lot?.lot, batch?.batch)),
  );
  const year = String(new Date().getFullYear());
  const dateOf = (date: string) => (date.startsWith(year) ? write.shortDate(date) : write.date(date));
  const detail = (source: Source) =>
    say("lots.detail", {
      ...{ what: word(source), amount: write.quantity({ value: source.onHand, unit: source.unit }) },
      date: source.useBy === undefined ? "none" : dateOf(source.useBy),
      past: String(source.past ?? false),
    });
  return (
    <li>
      <span>
        <strong>{name}</strong>{" "}
        {noted.length > 0 ? (
          <span className="done">✓ {write.list(noted.map(word))}</span>
        ) : usual.length > 0 ? (
          <span className="quiet">{write.list(usual.map(({ source }) => detail(source)))}</span>
        ) : (
          <span className={from.length > 0 ? "decide" : "quiet"}>
            {from.length > 0 ? `▲ ${say("lots.past")}` : say("lots.none")}
          </span>
        )}
      </span>
      {note && left.length > (noted.length > 0 ? 0 : usual.length > 0 ? 1 : 0) && (
        <Button className="link-button" aria-expanded={open} onPress={() => setOpen(!open)}>
          {say(noted.length > 0 ? "lots.more" : "lots.other")}
          <span className="unseen">, {name}</span>
        </Button>
      )}
      {note && open && (
        <span className="task-lots-others">
          {left.slice(0, 8).map((source) => (
            <Button
              key={source.key}
              className="button quiet-button"
              onPress={() => {
                note({ source, ...(grams === undefined || noted.length > 0 ? {} : { grams }) });
                setOpen(false);
              }}
            >
              {detail(source)}
            </Button>
          ))}
        </span>
      )}
    </li>
  );
}

const sameSource = ({ lot, batch }: Source, code: string | undefined, n: number | undefined) =>
  lot ? lot.lot === code : batch?.batch === n;

/** What enters at a task, and a way to write it down; what the service makes of what is kept with the first note. */
function useEntering(task: TaskAt): {
  readonly entering: readonly Entering[];
  readonly note: (taken: readonly Taken[]) => void;
} {
  const { library } = useBook();
  const { amounts, plan } = useTold();
  const { service } = useService();
  const { lines } = useLotLog();
  const { stock } = useStock();
  const shape = useShape();
  const record = useRecord();
  const told = plan ?? amounts;
  const entering = useMemo(() => {
    if (!told) return [];
    const { ingredients, dishes } = library;
    return enteringAt(
      {
        ...{ today: new Date().toISOString().slice(0, 10), service, ingredients, dishes, stock },
        ...{ made: { ...told, tasks: told.plan.tasks }, weigh: weighBy(ingredients) },
        used: usedIn(lines, service.id),
      },
      task,
    );
  }, [told, library, service, lines, stock, task]);
  const kept = lines.some(
    (line) => line.service === service.id && (line.body as { kind?: string }).kind === "shape",
  );
  return {
    entering,
    note: (taken) => {
      const into = intoOf(task);
      if (!into) return;
      if (!kept && shape) record(shape);
      for (const body of notesOf(taken, into)) record(body);
    },
  };
}
