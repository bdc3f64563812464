/** Widths of letters of Source Sans 3 in parts of its size, a little on the wide side; others as wide as most. */
const NARROW = new Set(" .,;:'’|!()[]ijlIft-\u00a0");
const WIDE = new Set("mwMWQO@%ÆŒ—×°");

function widthOf(letter: string): number {
  if (NARROW.has(letter)) return 0.29;
  if (WIDE.has(letter)) return 0.8;
  return letter >= "A" && letter <= "Z" ? 0.6 : 0.515;
}

/**
 * Lines a text takes in a column, broken between words: for deciding what fits a page before it is set.
 * @param size points. @param width of the column, points
 */
export function linesOf(text: string, size: number, width: number): number {
  let lines = 1;
  let used = 0;
  for (const word of text.split(/ +/)) {
    let long = 0;
    for (const letter of word) long += widthOf(letter) * size;
    const space = used === 0 ? 0 : 0.21 * size;
    if (used > 0 && used + space + long > width) {
      lines += 1;
      used = 0;
    } else used += space;
    lines += Math.floor(long / width);
    used += long % width;
  }
  return lines;
}
