import { createContext, useContext } from "react";
import type { Problem } from "../../../../core/heat/problem.ts";
import { useWords } from "../../../app/settings.tsx";

/** What is wrong with a trial, for the fields of its form. */
export const Problems = createContext<readonly Problem[]>([]);

/** What is wrong at one of these places of the trial, in a sentence; nothing when it is well. */
export function useProblem(paths: readonly string[]): string | undefined {
  const problems = useContext(Problems);
  const { say } = useWords();
  const found = problems.find((problem) => paths.includes(problem.path));
  return found && say("heat.problem.short", sentence(found));
}

/** A problem of the heat room with a capital and without a full stop, to stand in a sentence. */
export function sentence({ what, mend }: Problem): { readonly what: string; readonly mend: string } {
  const bare = what.replace(/[.\s]+$/, "");
  return { what: bare.charAt(0).toUpperCase() + bare.slice(1), mend: mend.replace(/[.\s]+$/, "") };
}
