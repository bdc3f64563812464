import { deflateRawSync } from "node:zlib";

type Cell = string | number | null;

/** Packs files as an XLSX archive, with sizes as they are or as `declared` says. */
export function archive(files: Readonly<Record<string, string | Uint8Array>>, declared?: number): Uint8Array {
  const [locals, central]: [Uint8Array[], Uint8Array[]] = [[], []];
  let at = 0;
  for (const [path, content] of Object.entries(files)) {
    const plain = typeof content === "string" ? new TextEncoder().encode(content) : content;
    const packed = deflateRawSync(plain, { level: 1 });
    const name = new TextEncoder().encode(path);
    const head = (signature: number, size: number, place: number) => {
      const bytes = new Uint8Array(size + name.length);
      const view = new DataView(bytes.buffer);
      view.setUint32(0, signature, true);
      view.setUint16(place, 8, true);
      view.setUint32(place + 10, packed.length, true);
      view.setUint32(place + 14, declared ?? plain.length, true);
      view.setUint16(place + 18, name.length, true);
      bytes.set(name, size);
      return { bytes, view };
    };
    const local = head(0x04034b50, 30, 8);
    const entry = head(0x02014b50, 46, 10);
    entry.view.setUint32(42, at, true);
    locals.push(local.bytes, packed);
    central.push(entry.bytes);
    at += local.bytes.length + packed.length;
  }
  const end = new Uint8Array(22);
  const view = new DataView(end.buffer);
  view.setUint32(0, 0x06054b50, true);
  view.setUint16(8, central.length, true);
  view.setUint16(10, central.length, true);
  view.setUint32(
    12,
    central.reduce((sum, one) => sum + one.length, 0),
    true,
  );
  view.setUint32(16, at, true);
  return new Uint8Array(Buffer.concat([...locals, ...central, end]));
}

/** A workbook of sheets: rows of cells, merges such as "A1:C1", hidden or not. */
export function workbook(
  sheets: readonly {
    readonly name: string;
    readonly rows: readonly (readonly Cell[])[];
    readonly merges?: readonly string[];
    readonly hidden?: boolean;
  }[],
): Uint8Array {
  const escaped = (text: string) =>
    text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");
  const strings: string[] = [];
  const cell = (value: Cell, row: number, column: number) => {
    if (value === null) return "";
    const at = `${String.fromCharCode(65 + column)}${row + 1}`;
    if (typeof value === "number") return `<c r="${at}"><v>${value}</v></c>`;
    return `<c r="${at}" t="s"><v>${strings.push(value) - 1}</v></c>`;
  };
  const files: Record<string, string> = {};
  sheets.forEach(({ rows, merges = [] }, i) => {
    const data = rows.map(
      (cells, r) => `<row r="${r + 1}">${cells.map((c, k) => cell(c, r, k)).join("")}</row>`,
    );
    const merged = merges.map((ref) => `<mergeCell ref="${ref}"/>`).join("");
    files[`xl/worksheets/sheet${i + 1}.xml`] =
      `<?xml version="1.0"?><worksheet><sheetData>${data.join("")}</sheetData><mergeCells>${merged}</mergeCells></worksheet>`;
  });
  const entries = sheets.map(
    ({ name, hidden }, i) =>
      `<sheet name="${escaped(name)}" sheetId="${i + 1}"${hidden ? ' state="hidden"' : ""} r:id="rId${i + 1}"/>`,
  );
  const rels = sheets.map(
    (_, i) => `<Relationship Id="rId${i + 1}" Type="x" Target="worksheets/sheet${i + 1}.xml"/>`,
  );
  return archive({
    "[Content_Types].xml": "<Types/>",
    "xl/workbook.xml": `<workbook><sheets>${entries.join("")}</sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships>${rels.join("")}</Relationships>`,
    "xl/sharedStrings.xml": `<sst>${strings.map((text) => `<si><t>${escaped(text)}</t></si>`).join("")}</sst>`,
    ...files,
  });
}
