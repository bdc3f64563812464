/** How a figure is looked at so that it is about normal: a yield by its logit, all that is positive by its logarithm. */
export interface Scale {
  readonly to: (value: number) => number;
  readonly back: (y: number) => number;
  /** How much the figure moves for a small step on the scale, at a value: spreads come back by it. */
  readonly slope: (value: number) => number;
}

export const LOGIT: Scale = {
  to: (share) => Math.log(share / (1 - share)),
  back: (y) => 1 / (1 + Math.exp(-y)),
  slope: (share) => share * (1 - share),
};

export const LOG: Scale = { to: Math.log, back: Math.exp, slope: (value) => value };
