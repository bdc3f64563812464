import { useWords } from "../app/settings.tsx";
import { Fold } from "./fold.tsx";

/** Told at once; more are no longer read by anyone. */
const MOST = 100;

/** What could not be read: the line, or the name of the file or thing. */
interface Problem {
  readonly at: number | string;
  readonly what: string;
  readonly mend: string;
}

/** What of a file was not read, by line or by name, with how to mend it; the first ones, folded. */
export function Unread({ problems }: { readonly problems: readonly Problem[] }) {
  const { say } = useWords();
  if (problems.length === 0) return null;
  return (
    <Fold summary={say("list.unread", { count: problems.length })}>
      <ul className="plain">
        {problems.slice(0, MOST).map(({ at, what, mend }) => (
          <li key={`${at}${what}`}>
            <span className="quiet">{typeof at === "number" ? say("list.line", { at }) : at}</span> {what}.{" "}
            <span className="quiet">{mend}.</span>
          </li>
        ))}
      </ul>
    </Fold>
  );
}
