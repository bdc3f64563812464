import { type ReactNode, useMemo } from "react";
import { figureKey } from "../../../core/learning/figures.ts";
import type { Estimate } from "../../../core/learning/learn.ts";
import { learnedAt, learnedTrace } from "../../../core/learning/trace.ts";
import { wordFor } from "../../../words/catalogue.ts";
import { useBook } from "../../app/hands.tsx";
import { useWords } from "../../app/settings.tsx";
import { useLog } from "../../offline/use-log.ts";
import { Figure } from "../../parts/figure.tsx";
import { type TraceFrom, TraceSource } from "../../parts/trace-source.ts";

/** Answers how the figures of one estimate came: worked out when the first of them is asked for. */
export function LearnedTrace({
  estimate,
  children,
}: {
  readonly estimate: Estimate;
  readonly children: ReactNode;
}) {
  const { book } = useBook();
  const { lines } = useLog();
  const { say } = useWords();
  const source = useMemo((): TraceFrom => {
    let nodes: ReturnType<typeof learnedTrace> | undefined;
    const known = () => {
      nodes ??= learnedTrace(book, lines, estimate);
      return nodes;
    };
    return {
      trace: (path) => {
        const node = known()[path];
        return node && { node, inputs: node.inputs.map((input) => ({ path: input, node: known()[input] })) };
      },
      words: (path) => {
        const [scheme, rest = ""] = path.startsWith("/") ? ["", path] : path.split(":");
        if (scheme === "book") return undefined;
        const parts = rest.split("/").filter((part) => !/^(learned|calc)$|~1/.test(part) && part !== "");
        if (scheme === "log") return wordFor(say, "learned.of", parts.at(-1)!);
        if (parts[0] === "number") return say("learned.of.number", { n: Number(parts[1]) + 1 });
        if (parts[0] === "measured") return say("learned.of.measured", { n: Number(parts[1]) + 1 });
        if (parts[0] === "cooks")
          return say("learned.of.cook", { who: estimate.cooks[Number(parts[1])]!.by });
        return wordFor(say, "learned.of", parts[0]!);
      },
    };
  }, [book, lines, estimate, say]);
  return <TraceSource value={source}>{children}</TraceSource>;
}

/** A number of an estimate that tells how it came. */
export function LearnedFigure({
  estimate,
  at,
  over = false,
  children,
}: {
  readonly estimate: Estimate;
  /** It unfolds over what stands below: in a table. */
  readonly over?: boolean;
  /** Place of the number in the estimate: "value", "cooks/0/known". */
  readonly at: string;
  readonly children: ReactNode;
}) {
  return (
    <Figure
      at={`${learnedAt(estimate.figure)}/${at}`}
      unfold={over ? "over" : "below"}
      label={figureKey(estimate.figure).split("/").at(-1)!}
    >
      {children}
    </Figure>
  );
}
