import { type ReactNode, useId, useState } from "react";
import { Button } from "react-aria-components";

/** A line that opens in place, with what belongs to it below. */
export function Fold({
  summary,
  children,
  open: given,
  onOpen,
}: {
  readonly summary: ReactNode;
  readonly children: ReactNode;
  readonly open?: boolean;
  readonly onOpen?: (open: boolean) => void;
}) {
  const [own, setOwn] = useState(false);
  const open = given ?? own;
  const id = useId();
  return (
    <div className="fold" data-open={open || undefined}>
      <Button
        className="fold-summary"
        aria-expanded={open}
        aria-controls={id}
        onPress={() => {
          setOwn(!open);
          onOpen?.(!open);
        }}
      >
        <span className="fold-sign" aria-hidden="true">
          {open ? "−" : "+"}
        </span>
        <span className="fold-text">{summary}</span>
      </Button>
      {open && (
        <div className="fold-body" id={id}>
          {children}
        </div>
      )}
    </div>
  );
}
