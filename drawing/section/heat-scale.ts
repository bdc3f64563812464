/**
 * Colours of a temperature: from dark blue to light yellow, lighter with every step, so that it is read alike with
 * any colour vision and in black print. After cividis (Nuñez, Anderton and Renslow 2018, PLoS ONE 13:e0199239), the
 * stops from memory.
 */
const STOPS: readonly (readonly [r: number, g: number, b: number])[] = [
  [0, 34, 78],
  [18, 53, 112],
  [59, 73, 108],
  [87, 93, 109],
  [112, 113, 115],
  [138, 134, 120],
  [165, 156, 116],
  [195, 179, 105],
  [225, 204, 85],
  [254, 232, 56],
];

/** The colour at a share of the scale, 0 coldest to 1 hottest; beyond it that of the nearer end. */
export function heatColour(share: number): string {
  const place = Math.min(1, Math.max(0, share)) * (STOPS.length - 1);
  const i = Math.min(STOPS.length - 2, Math.floor(place));
  const [a, b] = [STOPS[i]!, STOPS[i + 1]!];
  const mixed = a.map((part, k) => Math.round(part + (place - i) * (b[k]! - part)));
  return `rgb(${mixed.join(" ")})`;
}

/** Black or white, whichever is read better on that colour. */
export function inkOnHeat(share: number): string {
  return share > 0.45 ? "#000000" : "#ffffff";
}
