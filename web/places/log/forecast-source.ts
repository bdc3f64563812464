import type { TraceNode } from "../../../core/ledger/ledger.ts";
import { wordFor } from "../../../words/catalogue.ts";
import type { useWords } from "../../app/settings.tsx";
import type { TraceFrom } from "../../parts/trace-source.ts";

/** Answers how the figures of a forecast came, worked out when the first of them is asked for. */
export function forecastSource(
  made: () => Readonly<Record<string, TraceNode>>,
  dish: (place: number) => string,
  say: ReturnType<typeof useWords>["say"],
): TraceFrom {
  let nodes: Readonly<Record<string, TraceNode>> | undefined;
  const known = () => {
    nodes ??= made();
    return nodes;
  };
  return {
    trace: (path) => {
      const node = known()[path];
      return node && { node, inputs: node.inputs.map((input) => ({ path: input, node: known()[input] })) };
    },
    words: (path) => {
      const [scheme, rest] = path.startsWith("/") ? ["", path] : (path.split(":") as [string, string]);
      if (scheme === "book") return undefined;
      const parts = rest.split("/").filter((part) => part !== "");
      if (scheme === "log")
        return say(parts.at(-1) === "count" ? "forecast.of.count" : "forecast.of.promised");
      if (scheme === "const" && parts[0] === "number")
        return say("forecast.of.number", { n: Number(parts[1]) });
      if (scheme === "const" && parts[1] === "share")
        return say("forecast.of.end", { share: Math.round(100 * Number(parts[2])) });
      const place = parts.indexOf("dishes");
      if (place >= 0)
        return `${dish(Number(parts[place + 1]))}, ${wordFor(say, "forecast.of", parts.at(-1)!)}`;
      const past = parts.indexOf("past");
      if (past >= 0)
        return say("forecast.of.past", {
          n: Number(parts[past + 1]) + 1,
          what: wordFor(say, "forecast.of", parts[past + 2]!),
        });
      return wordFor(say, "forecast.of", parts.at(-1)!);
    },
  };
}
