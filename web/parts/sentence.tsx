import { Fragment, type ReactNode } from "react";
import { Figure } from "./figure.tsx";

/** A value of a sentence that is a figure to open: what is shown, and where it stands in the trace. */
export interface Opens {
  readonly at: string;
  readonly shown: ReactNode;
  readonly label?: string;
}

// Marks that no catalogue writes: they stand around the name of a figure while the sentence is put together.
const [BEGINS, ENDS] = ["\u2063", "\u2064"];

/** What fills the blank of a figure while the sentence is put together. */
export const blank = (name: string) => `${BEGINS}${name}${ENDS}`;

/** A sentence of the catalogue, made with `blank`s in place of its figures, each of which opens over what stands below. */
export function Sentence({
  text,
  figures,
}: {
  readonly text: string;
  readonly figures: Readonly<Record<string, Opens>>;
}) {
  let at = 0;
  return text.split(BEGINS!).map((part, i) => {
    const end = i === 0 ? -1 : part.indexOf(ENDS!);
    const figure = end < 0 ? undefined : figures[part.slice(0, end)];
    // A part has no name of its own: where it begins in the sentence is one.
    const key = at;
    at += part.length + 1;
    return (
      <Fragment key={key}>
        {figure && (
          <Figure at={figure.at} unfold="over" {...(figure.label ? { label: figure.label } : {})}>
            {figure.shown}
          </Figure>
        )}
        {part.slice(end + 1)}
      </Fragment>
    );
  });
}
