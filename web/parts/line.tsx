import { type ReactNode, useId, useState } from "react";
import { Button } from "react-aria-components";
import { useWords } from "../app/settings.tsx";

/**
 * A line of the column with its margin: what the chef writes on the left, what is computed from it on the right.
 * On a narrow screen the margin folds to a mark at the end of the line (`mark`, the one figure worth seeing).
 */
export function Line({
  children,
  margin,
  mark,
  className = "",
}: {
  readonly children: ReactNode;
  readonly margin?: ReactNode;
  readonly mark?: ReactNode;
  readonly className?: string;
}) {
  const { say } = useWords();
  const [open, setOpen] = useState(false);
  const id = useId();
  return (
    <div className={`line ${className}`} data-open={open || undefined}>
      <div className="line-main">{children}</div>
      {margin !== undefined && margin !== null && (
        <>
          <Button
            className="line-mark"
            aria-expanded={open}
            aria-controls={id}
            onPress={() => setOpen(!open)}
          >
            {mark ?? <span aria-hidden="true">⋯</span>}
            <span className="unseen"> {say(open ? "margin.close" : "margin.open")}</span>
          </Button>
          <div className="line-margin" id={id}>
            {margin}
          </div>
        </>
      )}
    </div>
  );
}
