import type { ReadOptions } from "../quantity/index.ts";
import { bareParts } from "./bare-parts.ts";
import { partName, type Row, rowOf } from "./layout.ts";
import { greets, signsOff } from "./letters.ts";
import { readLines } from "./line/pieces.ts";
import { LONGEST_LINE, readLine } from "./read-line.ts";
import { LONGEST_STEP, readStep } from "./read-step.ts";
import { readYield, yieldWithin } from "./read-yield.ts";
import { SEASONING } from "./split-note.ts";
import type { ReadLine, ReadPart, ReadProblem, ReadRecipe, ReadStep, ReadYield } from "./types.ts";
import { META, PART_KEY } from "./words.ts";
import { isWork } from "./work-words.ts";

/** Lines of one recipe that are read; a recipe is far shorter. */
export const MOST_LINES = 5_000;
const MOST_PROBLEMS = 100;

/**
 * Reads a recipe in plain text: title, yields, parts, lines, steps. Never throws, linear in the text; what cannot
 * be placed is kept under `other`, what is too long is named by its line.
 */
export function readText(source: string, options: ReadOptions = {}): ReadRecipe {
  const { rows, problems } = rowsOf(source, options);
  return new Placing(rows, problems, options).read();
}

function rowsOf(source: string, options: ReadOptions): { rows: Row[]; problems: ReadProblem[] } {
  const rows: Row[] = [];
  const problems: ReadProblem[] = [];
  let blank = false;
  let at = 0;
  for (let start = 0; start <= source.length; ) {
    const newline = source.indexOf("\n", start);
    const end = newline < 0 ? source.length : newline;
    const line = source.slice(start, end).replace(/\r$/, "");
    start = end + 1;
    at++;
    if (line.trim() === "" || /^\s*[-=_*~|:+\s]{3,}$/.test(line.slice(0, 200))) {
      blank = true;
      continue;
    }
    if (rows.length >= MOST_LINES) {
      const what = `more than ${MOST_LINES} lines: what follows is not read`;
      problems.push({ at, what, mend: "give one recipe at a time" });
      break;
    }
    if (line.includes("\uFFFD") && problems.length < MOST_PROBLEMS)
      problems.push({
        at,
        what: "a letter was lost in an earlier encoding (�)",
        mend: "correct the word, or save the file as UTF-8",
      });
    if (line.length > LONGEST_STEP && problems.length < MOST_PROBLEMS)
      problems.push({
        at,
        what: `a line of ${line.length} characters is kept but not read`,
        mend: "part it into lines",
      });
    rows.push(rowOf(line, at, blank, options));
    blank = false;
  }
  return { rows, problems };
}

/** "Simmer 20 min.": however short, what takes a time and ends as a sentence is a step. */
const TIMED =
  /^\p{L}.{0,120}\d\s?(?:min(?:ut(?:es?|en?|os?|i))?|h|hours?|heures?|stunden?|ore|horas?)(?![\p{L}]).{0,80}[.!]$/iu;

const LABELLED = /^[\p{L} ]{2,24}[:：]/u;
const SERVED_WITH =
  /(?:,\s*(?:to|for) \p{L}+|,\s*(?:pour|para|per|zum) \p{L}+|to taste|q\.\s?b\.|al gusto|au goût|nach geschmack)\)?$/iu;
const inColumns = (row: Row) => /\S\s{2,}\S/.test(row.body);
/** "Two 18cm tins, greased": a tool, no food. */
const TOOL =
  /^(?:(?:\d|an?|one|two|une?|un|eine?)\s)?(?:x\s)?(?:(?:deep|loose-bottomed|non-stick)\s)?\d{1,2}(?:[.,]\d)?[\s-]?(?:cm|in|inch(?:es)?|")\s(?:[\p{L}-]+\s){0,2}(?:tins?|pans?|moulds?|molds?|trays?|dish(?:es)?|rings?|cutters?|ramekins?)(?=$|,|\s\()/iu;
/** The foot of a sheet of costs. */
const TOTALS =
  /^(?:(?:sub|grand)[\s-]?)?(?:totals?|totale?|total cost|food cost|cost (?:per|a) \p{L}+|selling price|margin|summe|gesamt\p{L}*|suma|somme)(?:\s|:|$)/iu;

type State = "head" | "ingredients" | "method" | "notes";

/** Goes through the rows once and puts each in its place. */
class Placing {
  private title = "";
  private state: State = "head";
  /** The row that may be the title: the first that greets nobody. */
  private first = 0;
  /** A heading said so; otherwise the change to the method is a guess that an ingredient may undo. */
  private declared = false;
  private part: number | null = null;
  private readonly yields: ReadYield[] = [];
  private readonly parts: ReadPart[] = [];
  private readonly lines: ReadLine[] = [];
  private readonly steps: { text: string; at: number; part: number | null }[] = [];
  private lastStepRow = 0;
  private readonly other: { at: number; text: string }[] = [];
  private readonly anyAmount: boolean;
  private readonly bareParts: ReadonlySet<number>;
  private readonly rows: readonly Row[];
  private readonly problems: ReadProblem[];
  private readonly options: ReadOptions;

  constructor(rows: readonly Row[], problems: ReadProblem[], options: ReadOptions) {
    this.rows = rows;
    this.problems = problems;
    this.options = options;
    this.bareParts = bareParts(rows);
    this.anyAmount = rows.some((row) => row.amount);
  }

  read(): ReadRecipe {
    for (let i = 0; i < this.rows.length; i++)
      this.place(this.rows[i]!, this.rows[i + 1], this.rows[i - 1], i);
    const steps: ReadStep[] = this.steps.map(({ text, at, part }) => ({ ...readStep(text), at, part }));
    const title = yieldWithin(this.title, this.options);
    if (title) this.yields.unshift({ ...title, at: this.rows[this.first]!.at });
    if (this.yields.length === 0) {
      const last = this.steps.at(-1);
      const said = last && yieldWithin(last.text, this.options);
      if (said) this.yields.push({ ...said, at: last.at });
    }
    const { yields, parts, lines, other, problems } = this;
    return { title: this.title, yields, parts, lines, steps, other, problems };
  }

  private place(row: Row, next: Row | undefined, previous: Row | undefined, index: number): void {
    if (row.section) {
      this.open(row);
      return;
    }
    if (this.state === "notes" && !partName(row, next, previous)) {
      this.keep(row);
      return;
    }
    if (META.test(row.body) || row.text.includes("|")) {
      const said = row.text.split(/[|·•]/u).map((piece) => readYield(piece, this.options));
      for (const one of said) if (one) this.yields.push({ ...one, at: row.at });
      if (META.test(row.body) || said.some(Boolean)) {
        this.keep(row);
        return;
      }
    }
    // A letter: its greeting and what leads to the recipe are no title, what follows its end is no step.
    const greeting = index === this.first && (greets(row.body) || (index > 0 && row.prose));
    if (greeting || (this.lines.length > 0 && signsOff(row.body))) {
      if (greeting) this.first++;
      else this.state = "notes";
      this.keep(row);
      return;
    }
    if (index === this.first && this.isTitle(row, next)) {
      this.title = row.body.replace(/^#+\s*/, "").replace(/[\s:]+$/, "");
      return;
    }
    if (!row.prose || row.words <= 12) {
      // Among the steps only a label says so: "Yield: 1.2 L" after the last, never "Serves 4 to the pass".
      const step = this.state === "method" && this.declared && !LABELLED.test(row.body);
      const made = step ? undefined : readYield(row.text, this.options);
      if (made && !(PART_KEY.test(row.body) && made.what === "portions" && made.unit !== "")) {
        this.yields.push({ ...made, at: row.at });
        // "Zutaten für 4 Portionen", "Ingredienti per 4 persone:" open the list as well.
        if (/^(?:ingr|zutaten)/iu.test(row.body)) this.state = "ingredients";
        return;
      }
    }
    const plain = partName(row, next, previous);
    const name = plain ?? (this.bareParts.has(row.at) ? row.body : undefined);
    if (name !== undefined && this.opensPart(row, next)) {
      this.openPart(row, name, plain === undefined);
      return;
    }
    if (this.continues(row, previous)) return;
    if (this.isIngredient(row, next)) {
      this.addLine(row);
      return;
    }
    if ((this.state === "head" && this.anyAmount) || TOTALS.test(row.body) || TOOL.test(row.body)) {
      this.keep(row);
      return;
    }
    this.addStep(row, previous);
  }

  private keep(row: Row): void {
    this.other.push({ at: row.at, text: row.text });
  }

  private open(row: Row): void {
    if (row.section === "mark") return;
    // "Ingredientes (4 personas):"
    const held = /\(([^()]{1,80})\)\s*:?$/.exec(row.body.slice(0, 200));
    const made = held ? readYield(held[1]!, this.options) : undefined;
    if (made) this.yields.push({ ...made, text: row.text, at: row.at });
    this.state = row.section as State;
    this.declared = true;
    if (row.section === "ingredients" && this.lines.length === 0) this.part = null;
    if (row.section === "method") this.part = null;
  }

  private isTitle(row: Row, next: Row | undefined): boolean {
    if (row.bulleted && row.amount) return false;
    if (PART_KEY.test(row.body) && next?.amount && !next.afterBlank) return false;
    if (/^#\s/.test(row.text)) return true;
    if (row.amount && !/^\p{L}/u.test(row.body)) return false;
    if (/^\p{L}/u.test(row.body) && yieldWithin(row.body, this.options)) return true;
    // "Vol-au-vents x 200"; a line without columns over a table.
    if (/\s[x×]\s?\d{2,4}$/u.test(row.body) || (!inColumns(row) && this.columns())) return true;
    // A list without a title: its first line carries an amount, or is salt.
    if (row.amount && next?.amount && !next.afterBlank && !this.numbersFirst()) return false;
    return (
      !(SEASONING.test(row.body) && row.words <= 3) &&
      !(row.prose && row.words > 14) &&
      !readYield(row.text, this.options)?.what.startsWith("portions")
    );
  }

  /** Most amounts stand first in this text: a first line that ends in a count is its title ("Country loaf, 2 loaves"). */
  private numbersFirst(): boolean {
    const amounts = this.rows.slice(1, 30).filter((row) => row.amount);
    return amounts.filter((row) => /^[\d¼½¾⅓⅔]/u.test(row.body)).length * 3 > amounts.length * 2;
  }

  private columns(): boolean {
    const rows = this.rows.slice(1, 30);
    return rows.length > 2 && rows.filter(inColumns).length * 3 > rows.length * 2;
  }

  /** In the method a short line is a heading of a part only where ingredients or steps of its own follow. */
  private opensPart(row: Row, next: Row | undefined): boolean {
    if (next === undefined) return false;
    if (this.state === "method" && this.declared)
      return next.amount ? row.afterBlank : /[:：]\**$/u.test(row.text) && !row.prose;
    return true;
  }

  private openPart(row: Row, name: string, guessed: boolean): void {
    const known = this.parts.findIndex((part) => part.name.toLowerCase() === name.toLowerCase());
    if (known >= 0) this.part = known;
    else {
      this.parts.push({ name, text: row.text, at: row.at, ...(guessed ? { guessed } : {}) });
      this.part = this.parts.length - 1;
    }
    if (this.state !== "method") this.state = "ingredients";
  }

  private isIngredient(row: Row, next: Row | undefined): boolean {
    if (row.text.length > LONGEST_LINE) return false;
    const sentence = row.prose && row.words > 8;
    if (this.state === "method" && this.declared) return false;
    if (TOTALS.test(row.body) || TOOL.test(row.body) || (row.amount && isWork(row.body))) return false;
    if (row.amount) return !(sentence && this.state === "method") && !(row.numbered && row.prose);
    if (row.numbered) return false;
    // A list that a guess had ended goes on: "calamansi and sambal, to serve".
    if (this.state === "method") return !row.prose && row.words <= 8 && SERVED_WITH.test(row.body);
    if (TIMED.test(row.body) || isWork(row.body)) return false;
    if (this.state === "head" && !this.declared) {
      // Before the first amount only what stands directly over it can be a line without one.
      return !row.prose && row.words <= 6 && next?.amount === true && this.lines.length > 0;
    }
    if (row.bulleted && row.words <= 14 && !sentence) return true;
    if (row.prose && row.words > 4) return false;
    return row.words <= 8 || (row.words <= 12 && next?.amount === true);
  }

  /** A long line of a list that was wrapped: indented, in small letters, without an amount. */
  private continues(row: Row, previous: Row | undefined): boolean {
    const last = this.lines.at(-1);
    if (!last || !previous || previous.at !== row.at - 1 || last.at > previous.at) return false;
    if (this.state !== "ingredients" || !row.indented || previous.indented || row.amount) return false;
    if (!/^[\p{Ll}(]/u.test(row.text)) return false;
    this.lines[this.lines.length - 1] = {
      ...readLine(`${last.text}\n${row.text}`, this.options),
      at: last.at,
      part: last.part,
    };
    return true;
  }

  private addLine(row: Row): void {
    if (this.state === "method") this.state = "ingredients";
    if (this.state === "head") this.state = "ingredients";
    for (const line of readLines(row.text, this.options))
      this.lines.push({ ...line, at: row.at, part: this.part });
  }

  private addStep(row: Row, previous: Row | undefined): void {
    if (this.state !== "method") {
      this.state = "method";
      this.declared = this.declared && this.lines.length === 0;
      // A method that follows a list in parts is that of the whole.
      if (this.parts.length > 1) this.part = null;
    }
    const last = this.steps.at(-1);
    // A paragraph that was wrapped goes on where the line before it stops without a stop.
    const joined =
      last !== undefined &&
      previous !== undefined &&
      this.lastStepRow === previous.at &&
      previous.at === row.at - 1 &&
      !row.numbered &&
      !row.bulleted &&
      !/[.!?…:)"”]$/u.test(last.text);
    this.lastStepRow = row.at;
    if (joined) last.text = `${last.text}\n${row.text}`;
    else this.steps.push({ text: stepText(row.text), at: row.at, part: this.part });
  }
}

/** A step without its number or list mark. */
const stepText = (text: string) =>
  text
    .replace(/^(?:(?:step|étape|paso|fase|schritt)\s+)?\d{1,2}\s*(?:[.):]|\s[-–])\s+/iu, "")
    .replace(/^(?:[-–—*•·▪◦‣☐☑✓✔✅👉]|\p{Extended_Pictographic}\uFE0F?)\s*/u, "");
