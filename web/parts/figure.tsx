import { type ReactNode, useState } from "react";
import { Button, Dialog, DialogTrigger, Popover } from "react-aria-components";
import { useWords } from "../app/settings.tsx";
import { TraceNote } from "./trace.tsx";

/**
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
  const how = (
    <span className="unseen">
      {label ? `, ${label}` : ""}, {say("trace.how")}
    </span>
  );
  if (unfold === "over")
    return (
      <DialogTrigger>
        <Button className="figure">
          {children}
          {how}
        </Button>
        <Popover className="over" placement="bottom end">
          <Dialog aria-label={say("trace.how")}>
            <TraceNote at={at} />
          </Dialog>
        </Popover>
      </DialogTrigger>
    );
  return (
    <span className="figure-below">
      <Button className="figure" aria-expanded={open} onPress={() => setOpen(!open)}>
        {children}
        {how}
      </Button>
      {open && <TraceNote at={at} />}
    </span>
  );
}
