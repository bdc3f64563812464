import type { Choice } from "./doubt.ts";
import type { ReadStep } from "./types.ts";

type Written = Extract<Choice, { kind: "text" }>;
const written = (text: string, label: string): Written => ({ kind: "text", text, label });

const BARE = /(?<![\d.,])(\d{2,3})\s?(?:°|º|degrees\b)(?!\s?(?:[cf]\b|fahrenheit|celsius|centigrade))/iu;
const OVERNIGHT =
  /(?<!\p{L})(?:overnight|over night|toute (?:une|la) nuit|une nuit|toda la noche|una noche|la víspera|tutta la notte|una notte|über nacht|eine nacht)(?!\p{L})/iu;
/** Ovens in words as doubted by the reader of steps: the middle of each range, °C. */
const MIDDLE: readonly (readonly [RegExp, string])[] = [
  [/a very slow oven/, "130 °C"],
  [/a slow oven/, "150 °C"],
  [/a moderate oven/, "180 °C"],
  [/a very hot oven/, "240 °C"],
  [/a hot oven/, "210 °C"],
];

/** The step written anew in the ways its doubt leaves open, the likeliest first; none where only a person can say. */
export function stepChoices({ text, doubt }: ReadStep): Written[] {
  const bare = doubt.includes("in °C or in °F?") ? BARE.exec(text) : null;
  if (bare) {
    const scales = Number(bare[1]) >= 260 ? ["°F", "°C"] : ["°C", "°F"];
    return scales.map((scale) => {
      const said = `${bare[1]} ${scale}`;
      return written(text.replace(bare[0], said), said);
    });
  }
  const oven = MIDDLE.find(([pattern]) => pattern.test(doubt));
  if (oven) return [written(`${text.replace(/[.\s]+$/, "")} (${oven[1]}).`, oven[1])];
  if (/^overnight is no number/.test(doubt))
    return ["8 h", "12 h"].map((long) =>
      written(
        text.replace(OVERNIGHT, (word) => `${word} (${long})`),
        long,
      ),
    );
  return [];
}

const EITHER = /^"(.+?)" is read as (.+?), not as (.+?): which is meant\?$/;
const EACH_OR_ALL = /^is "(.+?)" for each, or for all together \(as read\)\?$/;

/** The line written anew in the two ways a doubtful figure leaves open, as it was read first. */
export function lineChoices(text: string, doubt: string): Written[] {
  const either = EITHER.exec(doubt);
  if (either && text.includes(either[1]!))
    return [either[2]!, either[3]!].map((said) => written(text.replace(either[1]!, said), said));
  const each = EACH_OR_ALL.exec(doubt);
  if (each && text.includes(each[1]!))
    return [`${each[1]} in all`, `${each[1]} each`].map((said) =>
      written(text.replace(each[1]!, said), said),
    );
  return [];
}

/** A US stick of butter is a quarter of a pound: common practice, no source. */
const STICK_OZ = 4;

/** Butter by the stick, in ounces. */
export function stickChoices(text: string, sticks: number): Written[] {
  const ounces = `${sticks * STICK_OZ} oz`;
  const match = /^\S+(?:\s\S*\d\S*)?\s+sticks?\s+(?:of\s+)?/iu.exec(text);
  return match ? [written(`${ounces} ${text.slice(match[0].length)}`, ounces)] : [];
}
