import { Link, useParams } from "@tanstack/react-router";
import { useState } from "react";
import { Button } from "react-aria-components";
import { Lost } from "../../../app/frame.tsx";
import { useBook, useRunState, useTold } from "../../../app/hands.tsx";
import { useMaybeService } from "../../../app/service.tsx";
import { useWords } from "../../../app/settings.tsx";
import { Compare } from "./compare.tsx";
import { type Draft, FIRST, inputOf, trialOf } from "./draft.ts";
import { draftOf } from "./from-preparation.ts";
import { keep, kept } from "./kept.ts";
import { rangeOf } from "./moment.ts";
import { scalesOf } from "./pictures.tsx";
import { Trial } from "./trial.tsx";
import { useTrial } from "./use-heat.ts";

/** Heat trials from scratch. */
export function HeatPlace() {
  const here = useMaybeService();
  return <Trials name={undefined} at="" first={{ ...FIRST, altitudeM: here?.kitchen.altitudeM ?? 0 }} />;
}

/** Heat trials of a preparation: begun from its piece, its composition and its heat target. */
export function PreparationHeat() {
  const { id } = useParams({ strict: false }) as { id: string };
  const { book, library } = useBook();
  const { amounts } = useTold();
  const { problems } = useRunState();
  const { say } = useWords();
  const here = useMaybeService();
  const preparation = library.preparations.get(id);
  if (!preparation) return <Lost />;
  // The composition comes from the amounts of the service in hand, where there is one.
  if (here && !amounts && problems.length === 0) return <p className="page quiet">{say("heat.working")}</p>;
  const altitudeM = here?.kitchen.altitudeM ?? book.kitchens[0]?.altitudeM ?? 0;
  return (
    <Trials
      key={id}
      name={preparation.name}
      at={id}
      first={draftOf(preparation, library, amounts, altitudeM)}
    />
  );
}

function Trials({
  name,
  at,
  first,
}: {
  readonly name: string | undefined;
  readonly at: string;
  readonly first: Draft;
}) {
  const { say } = useWords();
  const [drafts, setDrafts] = useState<readonly Draft[]>(() => kept(at) ?? [first]);
  const [round, setRound] = useState(0);
  const set = (next: readonly Draft[]) => {
    setDrafts(next);
    keep(at, next);
  };
  const [a, b] = drafts as readonly [Draft, Draft?];
  const left = useTrial(trialOf(a));
  const right = useTrial(b && trialOf(b));
  const told = [left.state.told, b && right.state.told].filter((each) => each !== undefined);
  const scales = told.length > 0 ? scalesOf(told, rangeOf) : undefined;
  return (
    <div className="page heat">
      {name !== undefined && (
        <p>
          <Link to="/bench/preparation/$id" params={{ id: at }}>
            {say("heat.back", { name })}
          </Link>
        </p>
      )}
      <div className="place-head">
        <h1>{name === undefined ? say("heat.title") : say("heat.of", { name })}</h1>
        <div className="row wrap">
          {!b && (
            <Button className="button" onPress={() => set([a, a])}>
              {say("heat.duplicate")}
            </Button>
          )}
          <Button
            className="button quiet-button"
            onPress={() => {
              set([first]);
              setRound(round + 1);
            }}
          >
            {say("heat.again")}
          </Button>
        </div>
      </div>
      <p className="heat-caution">
        <strong>▲ {say("heat.caution")}</strong>
      </p>
      {b && left.state.told && right.state.told && (
        <Compare trials={[inputOf(a), inputOf(b)]} told={[left.state.told, right.state.told]} />
      )}
      <div className="heat-sides" data-two={b !== undefined} key={round}>
        <Trial
          name={b && "A"}
          draft={a}
          onChange={(next) => set(drafts.with(0, next))}
          {...left}
          scales={scales}
        />
        {b && (
          <Trial
            name="B"
            draft={b}
            onChange={(next) => set([a, next])}
            {...right}
            scales={scales}
            close={() => set([a])}
          />
        )}
      </div>
    </div>
  );
}
