import { type ReactNode, useRef, useState } from "react";
import { Dialog, Popover } from "react-aria-components";
import { useWords } from "../app/settings.tsx";
import { TraceNote } from "./trace.tsx";

/**
 * A page has hundreds of these, so it is a plain button.
 * A computed figure that tells how it came. In a margin it unfolds below itself; in a table, over it.
 * @param at JSON Pointer of the figure in the result
 */
export function Figure({
  at,
  children,
  unfold = "below",
  label,
}: {
  readonly at: string;
  readonly children: ReactNode;
  readonly unfold?: "below" | "over";
  /** What the figure is, for those who can't see where it stands. */
  readonly label?: string;
}) {
  const { say } = useWords();
  const [open, setOpen] = useState(false);
  const button = useRef<HTMLButtonElement>(null);
  const how = (
    <span className="unseen">
      {label ? `, ${label}` : ""}, {say("trace.how")}
    </span>
  );
  if (unfold === "over")
    return (
      <>
        <button
          ref={button}
          type="button"
          className="figure"
          aria-expanded={open}
          onClick={() => setOpen(true)}
        >
          {children}
          {how}
        </button>
        {open && (
          <Popover className="over" placement="bottom end" triggerRef={button} isOpen onOpenChange={setOpen}>
            <Dialog aria-label={say("trace.how")}>
              <TraceNote at={at} />
            </Dialog>
          </Popover>
        )}
      </>
    );
  return (
    <span className="figure-below">
      <button type="button" className="figure" aria-expanded={open} onClick={() => setOpen(!open)}>
        {children}
        {how}
      </button>
      {open && <TraceNote at={at} />}
    </span>
  );
}
