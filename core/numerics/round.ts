/**
 * Named roundings. Ties: `half-even` to the even neighbour, `half-up` away from zero.
 * `up` and `down` are away from and towards zero; `ceiling` and `floor` towards +∞ and −∞.
 */
export type Rounding = "half-even" | "half-up" | "up" | "down" | "ceiling" | "floor";

/**
 * The integer that `rounding` gives for the exact quotient n/d.
 * @throws RangeError when d is zero.
 */
export function divideRounded(n: bigint, d: bigint, rounding: Rounding): bigint {
  if (d === 0n) throw new RangeError("division by zero");
  const [num, den] = d < 0n ? [-n, -d] : [n, d];
  const towardsZero = num / den;
  const rest = num - towardsZero * den;
  if (rest === 0n) return towardsZero;
  const away = num < 0n ? -1n : 1n;
  return awayFromZero(rounding, towardsZero, away * rest * 2n, den, away < 0n)
    ? towardsZero + away
    : towardsZero;
}

function awayFromZero(rounding: Rounding, towardsZero: bigint, twiceRest: bigint, den: bigint, neg: boolean) {
  switch (rounding) {
    case "up":
      return true;
    case "down":
      return false;
    case "ceiling":
      return !neg;
    case "floor":
      return neg;
    case "half-up":
      return twiceRest >= den;
    case "half-even":
      return twiceRest > den || (twiceRest === den && towardsZero % 2n !== 0n);
  }
}

/** `value` (a finite double, no unit) to the integer that `rounding` names. */
export function roundToInteger(value: number, rounding: Rounding): number {
  const down = Math.trunc(value);
  const rest = Math.abs(value - down);
  if (rest === 0) return down + 0;
  const away = value < 0 ? -1 : 1;
  const goesAway = () => {
    switch (rounding) {
      case "up":
        return true;
      case "down":
        return false;
      case "ceiling":
        return value > 0;
      case "floor":
        return value < 0;
      case "half-up":
        return rest >= 0.5;
      case "half-even":
        return rest > 0.5 || (rest === 0.5 && down % 2 !== 0);
    }
  };
  // "+ 0" turns -0 into 0, which would print as "-0" in a trace.
  return (goesAway() ? down + away : down) + 0;
}
