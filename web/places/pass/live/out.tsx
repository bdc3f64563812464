import { memo, useState } from "react";
import { Button } from "react-aria-components";
import { useEntries } from "../../../app/hands.tsx";
import { useNames } from "../../../app/names.ts";
import { useService } from "../../../app/service.tsx";
import { useSettings } from "../../../app/settings.tsx";
import { useBoard, useLive } from "./use-live.ts";

/** Who is away and what is out, and the two buttons that say so. */
export const Out = memo(function Out() {
  const { say } = useSettings();
  const [asking, setAsking] = useState<"absent" | "closed">();
  return (
    <section className="live-out" aria-label={say("live.happens")}>
      <OutNow />
      {asking ? (
        <Ask kind={asking} onEnd={() => setAsking(undefined)} />
      ) : (
        <div className="board-do">
          <Button className="board-button live-step" onPress={() => setAsking("absent")}>
            {say("live.away")}
          </Button>
          <Button className="board-button live-step" onPress={() => setAsking("closed")}>
            {say("live.out")}
          </Button>
        </div>
      )}
    </section>
  );
});

function OutNow() {
  const board = useBoard();
  const { clock } = useService();
  const names = useNames();
  const { list } = useEntries();
  const { say, write } = useSettings();
  const told = useLive().live;
  if (!told) return null;
  const lines = [
    ...told.away.map((one) => ({ ...one, kind: "absent" as const, name: names.person(one.id) })),
    ...told.closed.map((one) => ({ ...one, kind: "closed" as const, name: names.equipment(one.id) })),
  ].filter((one) => one.to > board.clock.now);
  return (
    <ul>
      {lines.map(({ entry, kind, id, name, from, to }) => {
        const written = list.find((one) => one.id === entry);
        const values = {
          ...{ name, from: write.hour(clock.textOf(from)) },
          until: Number.isFinite(to) ? write.hour(clock.textOf(to)) : "none",
        };
        return (
          <li key={entry} className="live-out-line">
            <span className="board-text harm">
              ✕ {say(kind === "absent" ? "live.isAway" : "live.isOut", values)}
            </span>
            {board.clock.now > from && (
              <Button
                className="button live-leave"
                onPress={() =>
                  board.say({
                    ...{ kind, corrects: entry, from: written?.from ?? clock.textOf(from) },
                    to: clock.textOf(board.clock.now),
                    ...(kind === "absent" ? { person: id } : { unit: id }),
                  })
                }
              >
                {say("live.back")}
              </Button>
            )}
            <Button
              className="button live-leave"
              onPress={() => board.say({ kind: "withdrawn", corrects: entry })}
            >
              {say("live.back.mistake")}
            </Button>
          </li>
        );
      })}
    </ul>
  );
}

/** First who or what, then until when: two taps. */
function Ask({ kind, onEnd }: { readonly kind: "absent" | "closed"; readonly onEnd: () => void }) {
  const live = useLive();
  const board = useBoard();
  const { clock, kitchen } = useService();
  const names = useNames();
  const { say, write } = useSettings();
  const [id, setId] = useState<string>();
  const { now } = board.clock;
  const at = write.hour(clock.textOf(now));
  const inUse = new Set(
    live.plan.tasks.filter((t) => t.endMin > now).flatMap((t) => t.equipment.map((e) => e.id)),
  );
  const hands = new Set(live.plan.tasks.filter((t) => t.endMin > now).flatMap((t) => t.hands));
  const choices: readonly (readonly [string, string])[] =
    kind === "absent"
      ? kitchen.crew.filter((cook) => hands.has(cook.id)).map((cook) => [cook.id, cook.name])
      : [...names.units].filter(([unit]) => inUse.has(unit));
  const end = (minutes: number | undefined) => {
    board.say({
      ...{ kind, from: clock.textOf(now) },
      ...(kind === "absent" ? { person: id! } : { unit: id! }),
      ...(minutes === undefined ? {} : { to: clock.textOf(now + minutes) }),
    });
    onEnd();
  };
  return (
    <div className="live-ask">
      <p className="board-text">
        <strong>
          {id === undefined
            ? say(kind === "absent" ? "live.away.who" : "live.out.what", { at })
            : `${kind === "absent" ? names.person(id) : names.equipment(id)}. ${say("live.until")}`}
        </strong>
      </p>
      <div className="live-choices">
        {id === undefined
          ? choices.map(([one, name]) => (
              <Button key={one} className="board-button live-choice" onPress={() => setId(one)}>
                {name}
              </Button>
            ))
          : [undefined, 15, 30, 60, 120].map((minutes) => (
              <Button key={minutes ?? 0} className="board-button live-choice" onPress={() => end(minutes)}>
                {minutes === undefined
                  ? say("live.until.open")
                  : `${write.hour(clock.textOf(now + minutes))} (${write.span(minutes)})`}
              </Button>
            ))}
      </div>
      <Button className="button live-leave" onPress={onEnd}>
        {say("live.never")}
      </Button>
    </div>
  );
}
