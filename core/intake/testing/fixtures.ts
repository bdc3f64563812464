import { readFileSync } from "node:fs";
import { parseRational, toNumber } from "../../numerics/rational.ts";
import type { ReadRecipe } from "../types.ts";

/** What a line of a fixture should be read as. */
interface ExpectedLine {
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: string;
  readonly ingredient: string;
  readonly note: string;
}

type Expected =
  | { kind: "line"; lines: ExpectedLine[] }
  | { kind: "step"; minutes: number | null; temperatureC: number | null }
  | { kind: "part"; name: string }
  | { kind: "yield"; low: number; high: number; unit: string; what: string }
  | { kind: "title" | "other" };

export interface Fixture {
  readonly name: string;
  readonly text: string;
  readonly rows: readonly { readonly text: string; readonly expected: Expected }[];
}

/**
 * Reads a file of fixtures: recipes parted by "=== name", each line with its answer after "  => "; two lines
 * written in one have both answers, parted by "||".
 */
export function fixtures(file: string): Fixture[] {
  const source = readFileSync(new URL(file, import.meta.url), "utf8");
  return source
    .split(/^=== /m)
    .slice(1)
    .map((block) => {
      const [name, ...lines] = block.trimEnd().split("\n");
      const rows = lines.map((line) => {
        const [text, answer] = line.split("  => ");
        return { text: text!.trimEnd(), expected: expectedOf(answer) };
      });
      return { name: name!, text: rows.map((row) => row.text).join("\n"), rows };
    });
}

function expectedOf(answer: string | undefined): Expected {
  if (answer === undefined) return { kind: "other" };
  const [kind, ...rest] = answer.trim().split(" ");
  if (kind === "title") return { kind };
  if (kind === "part") return { kind, name: rest.join(" ") };
  if (kind === "step") return { kind, minutes: figure(rest[0]!), temperatureC: figure(rest[1]!) };
  if (kind === "yield") {
    const [amount, what] = rest.join(" ").split("|");
    const { low, high, unit } = amountOf(amount!);
    return { kind, low: low!, high: high!, unit, what: what!.trim() };
  }
  return { kind: "line", lines: answer.split("||").map(lineOf) };
}

function lineOf(answer: string): ExpectedLine {
  const [amount, ingredient, note] = answer.split("|").map((text) => text.trim());
  const { low, high, unit } = amountOf(amount!);
  return { low, high, unit, ingredient: ingredient!, note: note ?? "" };
}

const figure = (text: string) => (text === "-" ? null : Number(text));

function amountOf(text: string) {
  const [number, ...unit] = text.trim().split(" ");
  const [low, high] = number!.split("..");
  const value = (one: string) => (one === "-" ? null : toNumber(parseRational(one)!));
  return { low: value(low!), high: value(high ?? low!), unit: unit.join(" ") };
}

/** Words regardless of order, marks and capitals. */
const bag = (text: string) =>
  text
    .toLowerCase()
    .split(/[\s,;()[\]–—-]+/)
    .filter(Boolean)
    .sort()
    .join(" ");
/** The text of a line is the row's, or, where the row holds several, a part of it, word for word. */
const isOf = (line: string, row: string, several: boolean) =>
  several ? row.includes(line) && line !== row.trim() : line === row.trim();
const close = (a: number | null, b: number | null, within = 1e-9) =>
  a === null || b === null ? a === b : Math.abs(a - b) <= within * Math.max(1, Math.abs(b));

export interface Score {
  readonly lines: { right: number; of: number };
  readonly notes: { right: number; of: number };
  readonly steps: { right: number; of: number };
  readonly headings: { right: number; of: number };
  readonly wrong: string[];
}

/** How many lines (amount, unit, ingredient), notes, steps, and titles with parts and yields were read right. */
export function score(all: readonly Fixture[], read: (text: string) => ReadRecipe): Score {
  const tally = () => ({ right: 0, of: 0 });
  const result: Score = { lines: tally(), notes: tally(), steps: tally(), headings: tally(), wrong: [] };
  for (const fixture of all) {
    const recipe = read(fixture.text);
    const count = (at: { right: number; of: number }, right: boolean, say: string) => {
      at.of++;
      if (right) at.right++;
      else result.wrong.push(`${fixture.name}: ${say}`);
    };
    fixture.rows.forEach(({ text, expected }, i) => {
      const at = i + 1;
      const lines = recipe.lines.filter((one) => one.at === at);
      const step = recipe.steps.find((one) => one.at === at);
      if (expected.kind === "line") {
        expected.lines.forEach((one, k) => {
          const line = lines[k];
          const right =
            line !== undefined &&
            isOf(line.text, text, expected.lines.length > 1) &&
            line.unit === one.unit &&
            close(line.low, one.low) &&
            close(line.high, one.high) &&
            line.ingredient === one.ingredient;
          const got = line
            ? `${line.low}..${line.high} ${line.unit} | ${line.ingredient} | ${line.note}`
            : step
              ? "a step"
              : "no line";
          count(result.lines, right, `${text}  -> ${got}`);
          count(
            result.notes,
            line !== undefined && bag(line.note) === bag(one.note),
            `note of ${text}  -> ${line?.note}`,
          );
        });
        for (const more of lines.slice(expected.lines.length))
          count(result.lines, false, `${text}  -> is one line more: ${more.text}`);
        return;
      }
      const line = lines[0];
      if (line) count(result.lines, false, `${text}  -> is no ingredient (${expected.kind})`);
      if (expected.kind === "step") {
        const right =
          step !== undefined &&
          close(step.minutes, expected.minutes, 0.01) &&
          close(step.temperatureC, expected.temperatureC, 0.005);
        count(
          result.steps,
          right,
          `${text}  -> ${step ? `${step.minutes} ${step.temperatureC}` : "no step"}`,
        );
      } else if (step) count(result.steps, false, `${text}  -> is no step (${expected.kind})`);
      if (expected.kind === "title")
        count(
          result.headings,
          recipe.title !== "" && text.includes(recipe.title),
          `title ${text} -> ${recipe.title}`,
        );
      if (expected.kind === "part") {
        const part = recipe.parts.find((one) => one.at === at);
        count(
          result.headings,
          part?.name.toLowerCase() === expected.name.toLowerCase(),
          `part ${text} -> ${part?.name}`,
        );
      }
      if (expected.kind === "yield") {
        const made = recipe.yields.find((one) => one.at === at);
        const right =
          made !== undefined &&
          close(made.low, expected.low) &&
          close(made.high, expected.high) &&
          made.unit === expected.unit &&
          bag(made.what) === bag(expected.what);
        count(
          result.headings,
          right,
          `yield ${text} -> ${made && `${made.low}..${made.high} ${made.unit} | ${made.what}`}`,
        );
      }
    });
  }
  return result;
}
