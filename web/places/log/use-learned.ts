import { useEffect, useRef, useState } from "react";
import type { Estimate } from "../../../core/learning/learn.ts";
import { useBook } from "../../app/hands.tsx";
import { useCovers, useService } from "../../app/service.tsx";
import type { Effect, FromLearn, ToLearn } from "../../compute/learn-protocol.ts";
import { useLog } from "../../offline/use-log.ts";

type Wanted<T extends ToLearn["type"]> = Omit<Extract<ToLearn, { type: T }>, "id">;

/** Asks a worker of its own; it ends when the place is left. */
function useAsk() {
  const worker = useRef<Worker | undefined>(undefined);
  const waiting = useRef(new Map<number, (said: FromLearn) => void>());
  const count = useRef(0);
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = undefined;
    },
    [],
  );
  return useRef((asked: Wanted<"learn"> | Wanted<"effect">, then: (said: FromLearn) => void) => {
    if (!worker.current) {
      worker.current = new Worker(new URL("../../learn-worker.ts", import.meta.url), { type: "module" });
      worker.current.onmessage = ({ data }: MessageEvent<FromLearn>) => {
        waiting.current.get(data.id)?.(data);
        waiting.current.delete(data.id);
      };
    }
    const id = ++count.current;
    waiting.current.set(id, then);
    worker.current.postMessage({ ...asked, id });
  }).current;
}

/** What the log of all services tells of the book; undefined until it is computed. */
export function useLearned(): {
  readonly estimates: readonly Estimate[] | undefined;
  readonly offline: boolean;
  readonly effectOf: (estimate: Estimate, then: (effect: Effect | undefined) => void) => void;
} {
  const { book } = useBook();
  const { lines, ready, offline } = useLog();
  const { service, kitchen } = useService();
  const { covers } = useCovers();
  const ask = useAsk();
  const [estimates, setEstimates] = useState<readonly Estimate[]>();
  useEffect(() => {
    if (!ready) return;
    let current = true;
    ask({ type: "learn", book, lines }, (said) => {
      if (current && said.type === "learned") setEstimates(said.estimates);
    });
    return () => {
      current = false;
    };
  }, [ask, book, lines, ready]);
  return {
    estimates,
    offline,
    effectOf: (estimate, then) =>
      ask(
        {
          ...{ type: "effect", book, estimate, service: service.id, covers },
          ...(kitchen.id === service.kitchen ? {} : { kitchen: kitchen.id }),
        },
        (said) => {
          if (said.type === "effect") then(said.effect);
        },
      ),
  };
}
