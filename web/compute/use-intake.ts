import { useCallback, useEffect, useRef, useState } from "react";
import { ovensOf } from "../../core/intake/ovens.ts";
import { useBook } from "../app/hands.tsx";
import type { Asked, FromIntake, Intake, ToIntake } from "./intake-protocol.ts";

/** A worker of intake with the questions that wait for it. */
class IntakeHand {
  readonly #worker = new Worker(new URL("../intake-worker.ts", import.meta.url), { type: "module" });
  readonly #waiting = new Map<number, { told: (told: never) => void; failed: (why: Error) => void }>();
  #next = 1;

  constructor() {
    this.#worker.onmessage = ({ data }: MessageEvent<FromIntake>) => {
      const waits = this.#waiting.get(data.id);
      this.#waiting.delete(data.id);
      if ("failed" in data) waits?.failed(new Error(data.failed));
      else waits?.told(data.told as never);
    };
  }

  tell(message: ToIntake): void {
    this.#worker.postMessage(message);
  }

  ask<Q extends Asked>(what: Q, asked: Intake[Q]["asked"]): Promise<Intake[Q]["told"]> {
    const id = this.#next++;
    return new Promise((told, failed) => {
      this.#waiting.set(id, { told, failed });
      this.tell({ type: "ask", id, what, asked });
    });
  }

  close(): void {
    this.#worker.terminate();
  }
}

/** Asks the worker of intake; it lives as long as the part of the page that uses it, and knows the book in hand. */
export function useIntake(): <Q extends Asked>(
  what: Q,
  asked: Intake[Q]["asked"],
) => Promise<Intake[Q]["told"]> {
  const { book } = useBook();
  const hand = useRef<IntakeHand>(undefined);
  const known = useRef<unknown>(undefined);
  useEffect(
    () => () => {
      hand.current?.close();
      hand.current = undefined;
    },
    [],
  );
  return useCallback(
    (what, asked) => {
      hand.current ??= new IntakeHand();
      if (known.current !== book) {
        const { ingredients, preparations, kitchens } = book;
        hand.current.tell({
          type: "book",
          book: {
            ingredients,
            preparations: preparations.map(({ id, lines }) => ({ id, lines })),
            ovens: ovensOf(kitchens.flatMap(({ equipment }) => equipment)),
          },
        });
        known.current = book;
      }
      return hand.current.ask(what, asked);
    },
    [book],
  );
}

/** Keeps a question answered: asked anew when it changes, the newest answer wins, the last stays meanwhile. */
export function useAnswer<Q extends Asked>(
  what: Q,
  asked: Intake[Q]["asked"] | undefined,
): {
  readonly told: Intake[Q]["told"] | undefined;
  readonly failed: string | undefined;
  readonly working: boolean;
} {
  const ask = useIntake();
  const [state, setState] = useState<{ told?: Intake[Q]["told"]; failed?: string; working: boolean }>({
    working: false,
  });
  const newest = useRef(0);
  useEffect(() => {
    const turn = ++newest.current;
    if (asked === undefined) {
      setState({ working: false });
      return;
    }
    setState((before) => ({ ...before, working: true }));
    ask(what, asked).then(
      (told) => turn === newest.current && setState({ told, working: false }),
      (why: Error) => turn === newest.current && setState({ failed: why.message, working: false }),
    );
  }, [ask, what, asked]);
  return { told: state.told, failed: state.failed, working: state.working };
}
