const GLYPHS: Readonly<Record<string, string>> = {
  "1/2": "½",
  "1/3": "⅓",
  "2/3": "⅔",
  "1/4": "¼",
  "3/4": "¾",
  "1/8": "⅛",
  "3/8": "⅜",
  "5/8": "⅝",
  "7/8": "⅞",
};

/**
 * A number as a whole and a fraction a measuring set has ("1 ¾"), nearest of halves, thirds and quarters, and of
 * eighths when `finest` is 8. What is too small for the finest is written with two decimals.
 */
export function fractionText(value: number, finest: 4 | 8): string {
  const sign = value < 0 ? "−" : "";
  const size = Math.abs(value);
  if (size === 0) return "0";
  if (size < 1 / (2 * finest)) return `${sign}${size.toFixed(2)}`;
  let best: readonly [number, number] = [Math.round(size), 1];
  for (const below of finest === 8 ? [2, 3, 4, 8] : [2, 3, 4]) {
    const above = Math.round(size * below);
    if (Math.abs(above / below - size) < Math.abs(best[0] / best[1] - size) - 1e-9) best = [above, below];
  }
  const whole = Math.floor(best[0] / best[1]);
  const rest = best[0] - whole * best[1];
  if (rest === 0) return `${sign}${whole}`;
  const glyph = GLYPHS[`${rest}/${best[1]}`] ?? `${rest}/${best[1]}`;
  return whole === 0 ? `${sign}${glyph}` : `${sign}${whole} ${glyph}`;
}
