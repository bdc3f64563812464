import { useContext, useEffect, useState } from "react";
import { Button } from "react-aria-components";
import type { TraceNode } from "../../core/ledger/ledger.ts";
import { isKey } from "../../words/catalogue.ts";
import { useBook, useHands, useTold } from "../app/hands.tsx";
import { useNames } from "../app/names.ts";
import { useWords } from "../app/settings.tsx";
import type { Traced } from "../compute/protocol.ts";
import { pathWords } from "./path-words.ts";
import { isMark, searchWords } from "./search-words.ts";
import { TraceSource } from "./trace-source.ts";

const MOST_INPUTS = 12;

/** How a figure came: the rule in words and what it was given, each of which unfolds in turn. */
export function TraceNote({ at, deep = 0 }: { readonly at: string; readonly deep?: number }) {
  const { runner } = useHands();
  const { amounts } = useTold();
  const { say } = useWords();
  const source = useContext(TraceSource);
  const [traced, setTraced] = useState<Traced | undefined | "looking">("looking");
  // A new result has new figures under the same paths.
  // biome-ignore lint/correctness/useExhaustiveDependencies: `amounts` is what makes the question new
  useEffect(() => {
    if (source) return setTraced(source.trace(at));
    let current = true;
    void runner.trace(at).then((answer) => current && setTraced(answer));
    return () => {
      current = false;
    };
  }, [runner, at, amounts, source]);
  if (traced === "looking") return <span className="trace quiet small">{say("trace.loading")}</span>;
  if (!traced) return <span className="trace quiet small">{say("trace.none")}</span>;
  return (
    <span className="trace">
      {deep === 0 && <Value node={traced.node} strong />}
      <span className="trace-rule">{ruleWords(traced.node.rule, say)}</span>
      <Source node={traced.node} />
      {traced.inputs.slice(0, MOST_INPUTS).map((input) => (
        <Input key={input.path} path={input.path} node={input.node} deep={deep + 1} />
      ))}
      {traced.inputs.length > MOST_INPUTS && (
        <span className="small quiet">
          {say("trace.more", { count: traced.inputs.length - MOST_INPUTS })}
        </span>
      )}
    </span>
  );
}

function Input({
  path,
  node,
  deep,
}: {
  readonly path: string;
  readonly node: TraceNode | undefined;
  readonly deep: number;
}) {
  const { book } = useBook();
  const { amounts, plan } = useTold();
  const names = useNames();
  const { say } = useWords();
  const [open, setOpen] = useState(false);
  const own = useContext(TraceSource)?.words(path);
  const name = own ?? searchWords(path, say) ?? pathWords(path, { book, result: plan ?? amounts, names });
  const leads = node !== undefined && (node.inputs.length > 0 || node.source !== undefined);
  const text = (
    <>
      <span className="trace-name">{name}</span>
      {node && !isMark(path) && <Value node={node} />}
    </>
  );
  if (!leads) return <span className="trace-input">{text}</span>;
  return (
    <span className="trace-step">
      <Button className="trace-input" aria-expanded={open} onPress={() => setOpen(!open)}>
        {text}
        <span className="unseen"> {say("trace.how")}</span>
      </Button>
      {open && <TraceNote at={path} deep={deep} />}
    </span>
  );
}

function Value({ node, strong }: { readonly node: TraceNode; readonly strong?: boolean }) {
  const { write } = useWords();
  const text =
    /^[A-Z]{3}$/.test(node.unit) || node.unit.includes("/")
      ? `${write.number(node.value, 4)} ${node.unit}`
      : node.unit === "" || node.unit === "1"
        ? write.number(node.value, 4)
        : write.quantity(node);
  return strong ? (
    <strong className="trace-value">{text}</strong>
  ) : (
    <span className="trace-value">{text}</span>
  );
}

function Source({ node }: { readonly node: TraceNode }) {
  const { say } = useWords();
  if (!node.source) return null;
  const { doc, table, kind } = node.source;
  return (
    <span className="small quiet">
      {say("trace.source", { doc, table: table ?? "none" })} ({say(`trace.kind.${kind}`)})
    </span>
  );
}

/** A rule in words. */
export function ruleWords(rule: string, say: ReturnType<typeof useWords>["say"]): string {
  const key = `rule.${rule}`;
  if (isKey(key)) return say(key);
  return rule.replace(/([a-z0-9])([A-Z])/g, "$1 $2").toLowerCase();
}
