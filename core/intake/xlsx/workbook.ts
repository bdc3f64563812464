import { type NotOpened, openArchive } from "./archive.ts";
import { attribute, letters, tagsOf } from "./tags.ts";

/** A sheet of a workbook, not yet read. */
export interface SheetEntry {
  readonly name: string;
  readonly hidden: boolean;
  readonly xml: string;
}

/** What the sheets of a workbook share. */
export interface Shared {
  readonly strings: readonly string[];
  /** Places in the list of cell styles whose number is a date or a time. */
  readonly dates: ReadonlySet<number>;
  readonly percents: ReadonlySet<number>;
}

export interface Workbook {
  readonly sheets: readonly SheetEntry[];
  readonly shared: Shared;
}

/** Texts of cells that are kept. */
const MOST_STRINGS = 1_000_000;
const LONGEST_TEXT = 2_000;

/** Opens a workbook: its sheets in order, and what they share. Never throws. */
export async function openWorkbook(bytes: Uint8Array): Promise<Workbook | NotOpened> {
  const opened = await openArchive(bytes);
  if (!opened.ok) return opened;
  const part = (path: string) => opened.parts.get(path.toLowerCase());
  const book = part("xl/workbook.xml");
  if (book === undefined)
    return { ok: false, what: "the file is no XLSX workbook", mend: "save it as XLSX or as CSV" };
  const targets = targetsOf(part("xl/_rels/workbook.xml.rels") ?? "");
  const sheets: SheetEntry[] = [];
  for (const tag of tagsOf(book)) {
    if (tag.name !== "sheet" || tag.closing) continue;
    const name = attribute(book, tag, "name") ?? `Sheet ${sheets.length + 1}`;
    const target =
      targets.get(attribute(book, tag, "id") ?? "") ?? `worksheets/sheet${sheets.length + 1}.xml`;
    const xml = part(target.startsWith("/") ? target.slice(1) : `xl/${target.replace(/^\.\//, "")}`);
    const hidden = /hidden/i.test(attribute(book, tag, "state") ?? "");
    if (xml !== undefined) sheets.push({ name, hidden, xml });
  }
  if (sheets.length === 0)
    return { ok: false, what: "the workbook holds no sheet of cells", mend: "save the sheet as CSV" };
  const styles = stylesOf(part("xl/styles.xml") ?? "");
  return { sheets, shared: { strings: stringsOf(part("xl/sharedStrings.xml") ?? ""), ...styles } };
}

function targetsOf(rels: string): Map<string, string> {
  const targets = new Map<string, string>();
  for (const tag of tagsOf(rels)) {
    if (tag.name !== "Relationship") continue;
    const [id, target] = [attribute(rels, tag, "Id"), attribute(rels, tag, "Target")];
    if (id !== undefined && target !== undefined) targets.set(id, target);
  }
  return targets;
}

/** Texts that cells point at: the plain runs joined, phonetic hints left out. */
function stringsOf(xml: string): string[] {
  const strings: string[] = [];
  let text = "";
  let phonetic = false;
  let open = -1;
  for (const tag of tagsOf(xml)) {
    if (tag.name === "t") {
      if (!tag.closing && !tag.empty) open = tag.to;
      else if (tag.closing && open >= 0) {
        if (!phonetic && text.length < LONGEST_TEXT) text += letters(xml.slice(open, tag.from));
        open = -1;
      }
    } else if (tag.name === "rPh") phonetic = !tag.closing;
    else if (tag.name === "si" && (tag.closing || tag.empty)) {
      strings.push(text.slice(0, LONGEST_TEXT));
      if (strings.length >= MOST_STRINGS) break;
      text = "";
    }
  }
  return strings;
}

/** Built-in formats of dates and times (ECMA-376 part 1, 18.8.30). */
const isDateFormat = (id: number) => (id >= 14 && id <= 22) || (id >= 45 && id <= 47);

function stylesOf(xml: string): Pick<Shared, "dates" | "percents"> {
  const [custom, percentFormats] = [new Set<number>(), new Set([9, 10])];
  const [dates, percents] = [new Set<number>(), new Set<number>()];
  let inCells = false;
  let place = 0;
  for (const tag of tagsOf(xml)) {
    if (tag.name === "cellXfs") inCells = !tag.closing;
    else if (tag.name === "numFmt" && !tag.closing) {
      const id = Number(attribute(xml, tag, "numFmtId"));
      const code = (attribute(xml, tag, "formatCode") ?? "").replace(/"[^"]*"|\[[^\]]*\]|\\./g, "");
      if (/[ymdhs]/i.test(code) && !/[#0]/.test(code)) custom.add(id);
      if (code.includes("%")) percentFormats.add(id);
    } else if (tag.name === "xf" && !tag.closing && inCells) {
      const id = Number(attribute(xml, tag, "numFmtId") ?? 0);
      if (isDateFormat(id) || custom.has(id)) dates.add(place);
      if (percentFormats.has(id)) percents.add(place);
      place++;
    }
  }
  return { dates, percents };
}
