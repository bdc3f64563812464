/** Advance widths of Source Sans 3 Regular (SourceSans3_400Regular.ttf, hmtx), U+0020 to U+007E, in 1/1000 em. */
const ADVANCE = [
  200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497, 497, 497,
  497, 497, 497, 497, 497, 249, 249, 497, 497, 497, 425, 847, 543, 588, 571, 615, 527, 494, 617, 652, 263,
  479, 579, 486, 727, 647, 664, 566, 664, 569, 534, 536, 645, 515, 786, 513, 476, 539, 303, 350, 303, 497,
  500, 542, 504, 553, 456, 555, 496, 292, 504, 544, 246, 247, 495, 255, 829, 547, 542, 555, 555, 347, 419,
  338, 544, 467, 719, 446, 467, 425, 303, 241, 303, 497,
];
/** Letters beyond ASCII are taken as wide as a wide small letter, so that a label errs to the short side. */
const OTHER = 620;

/** Width of a text in the drawing's length unit, set at `size`. */
export function textWidth(text: string, size: number): number {
  let sum = 0;
  for (const letter of text)
    sum += ADVANCE[letter.codePointAt(0)! - 32] ?? (letter === "\u00a0" ? 200 : OTHER);
  return (sum / 1000) * size;
}

/** The text, cut with "…" to fit a width; nothing when not even three letters and the mark fit (D10). */
export function fitText(text: string, size: number, width: number): string {
  if (textWidth(text, size) <= width) return text;
  const letters = [...text];
  for (let keep = letters.length - 1; keep >= 3; keep--) {
    const cut = `${letters.slice(0, keep).join("").trimEnd()}…`;
    if (textWidth(cut, size) <= width) return cut;
  }
  return "";
}

/** The text in lines no wider than `width`, at most `most` of them, the last one cut where it must. */
export function wrapText(text: string, size: number, width: number, most: number): string[] {
  const lines: string[] = [];
  let line = "";
  const words = text.split(" ");
  for (let i = 0; i < words.length; i++) {
    const longer = line === "" ? words[i]! : `${line} ${words[i]}`;
    if (textWidth(longer, size) <= width) {
      line = longer;
      continue;
    }
    if (line !== "" && lines.length < most - 1) {
      lines.push(line);
      line = words[i]!;
      continue;
    }
    line = [line, ...words.slice(i)].filter(Boolean).join(" ");
    break;
  }
  const last = fitText(line, size, width);
  return last === "" ? lines : [...lines, last];
}
