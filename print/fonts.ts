import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import type { TFontDictionary } from "pdfmake/interfaces.js";

const require = createRequire(import.meta.url);
const folder = (name: string) => dirname(require.resolve(`@expo-google-fonts/${name}/package.json`));
const SANS = folder("source-sans-3");
const SERIF = folder("source-serif-4");
const sans = (face: string) => join(SANS, face, `SourceSans3_${face}.ttf`);
const serif = (face: string) => join(SERIF, face, `SourceSerif4_${face}.ttf`);

/** The faces of page and paper; whole fonts, so that fractions and accents are never borrowed from another. */
export const FONTS: TFontDictionary = {
  SourceSans3: {
    normal: sans("400Regular"),
    bold: sans("600SemiBold"),
    italics: sans("400Regular_Italic"),
    bolditalics: sans("600SemiBold_Italic"),
  },
  SourceSerif4: {
    normal: serif("400Regular"),
    bold: serif("600SemiBold"),
    italics: serif("400Regular_Italic"),
    bolditalics: serif("600SemiBold_Italic"),
  },
};

const FILES = new Set(Object.values(FONTS).flatMap((faces) => Object.values(faces)));

/** Whether a file is one of these fonts: the only files a pack may read. */
export function isFontFile(path: string): boolean {
  return FILES.has(path);
}

/** Marks the fonts do not have, by the nearest they have. */
const INSTEAD: Readonly<Record<string, string>> = { "✕": "✗", "◐": "○" };

/** A text or drawing with every mark in a shape the fonts have. */
export function inFont(text: string): string {
  return text.replace(/[✕◐]/g, (mark) => INSTEAD[mark]!);
}
