import type { ReactNode } from "react";

/** A heading over a column: its words, and how it stands ("num" for figures, "wide-only"). */
export type Head = readonly [text: string, className?: string];

/** A table that people compare in: headings over its columns, and a page that never grows wider for it. */
export function Table({
  heads,
  className = "",
  children,
}: {
  readonly heads: readonly (Head | undefined)[];
  readonly className?: string;
  /** The bodies of the table. */
  readonly children: ReactNode;
}) {
  return (
    <div className="scroll-x">
      <table className={`table ${className}`.trim()}>
        <thead>
          <tr>
            {heads
              .filter((head) => head !== undefined)
              .map(([text, as]) => (
                <th key={text} className={as}>
                  {text}
                </th>
              ))}
          </tr>
        </thead>
        {children}
      </table>
    </div>
  );
}
