import type { ReactNode } from "react";

/** A place without content: what it is for, and the first step (A9). */
export function Empty({
  title,
  children,
  step,
}: {
  readonly title: string;
  readonly children: ReactNode;
  readonly step?: ReactNode;
}) {
  return (
    <div className="empty">
      <h2>{title}</h2>
      <p className="large">{children}</p>
      {step && <p className="row">{step}</p>}
    </div>
  );
}
