/** What a drawing is drawn with. Page and paper give their own. */
export interface Ink {
  readonly ground: string;
  readonly ink: string;
  /** Second voice: notes, scales. */
  readonly quiet: string;
  readonly rule: string;
  /** Needs a decision now. */
  readonly decide: string;
  readonly harm: string;
  readonly done: string;
  /** A tint of the ink over the ground, 0 to 1. */
  tint(strength: number): string;
  readonly font: string;
}

/** Colours of the page, so that a dark ground turns them all at once. */
export const PAGE_INK: Ink = {
  ground: "var(--ground)",
  ink: "var(--ink)",
  quiet: "var(--quiet)",
  rule: "var(--rule)",
  decide: "var(--decide)",
  harm: "var(--harm)",
  done: "var(--done)",
  tint: (strength) => `color-mix(in srgb, var(--ink) ${Math.round(strength * 100)}%, var(--ground))`,
  font: "'Source Sans 3', sans-serif",
};

/** Black on white: everything must still be told apart. */
export const PAPER_INK: Ink = {
  ground: "#ffffff",
  ink: "#000000",
  quiet: "#3d3d3d",
  rule: "#808080",
  decide: "#000000",
  harm: "#000000",
  done: "#000000",
  tint: (strength) => {
    const level = Math.round(255 * (1 - strength))
      .toString(16)
      .padStart(2, "0");
    return `#${level}${level}${level}`;
  },
  font: "SourceSans3",
};
