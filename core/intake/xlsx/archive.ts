/** A spreadsheet file as sent by a supplier is far smaller. */
const LARGEST_FILE = 25 * 1024 * 1024;
/** Unpacked size of one part, and of all that are read; what is larger is a trap or no price list. */
const LARGEST_PART = 120 * 1024 * 1024;
const LARGEST_SUM = 200 * 1024 * 1024;
const MOST_ENTRIES = 5_000;

/** Parts of a spreadsheet file that are read: the others (pictures, macros, links) are never unpacked. */
const WANTED =
  /^xl\/(?:workbook\.xml|_rels\/workbook\.xml\.rels|sharedstrings\.xml|styles\.xml|worksheets\/[^/]+\.xml)$/;

/** Why a file could not be opened, and what to do. */
export interface NotOpened {
  readonly ok: false;
  readonly what: string;
  readonly mend: string;
}

/** Texts of the parts by their path in small letters. */
export type Opened = { readonly ok: true; readonly parts: ReadonlyMap<string, string> } | NotOpened;

/** True for the first bytes of a zip archive, which every XLSX file is. */
export const isArchive = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2]! <= 7;

const refused = (what: string, mend: string): NotOpened => ({ ok: false, what, mend });
const damaged = () =>
  refused("the file is damaged", "open it in a spreadsheet, save it again, or save it as CSV");
const tooLarge = (what: string) =>
  refused(
    `${what} unpacks to more than ${Math.round(LARGEST_PART / 1024 / 1024)} MB`,
    "save the sheet with the prices alone, or as CSV",
  );

/**
 * Opens an XLSX file (ECMA-376: XML parts in a zip archive). A part is unpacked piece by piece and given up as soon
 * as it grows beyond its bound, whatever size it declares. Never throws.
 */
export async function openArchive(bytes: Uint8Array): Promise<Opened> {
  if (bytes.length > LARGEST_FILE)
    return refused(
      `the file has ${Math.round(bytes.length / 1024 / 1024)} MB: more than ${LARGEST_FILE / 1024 / 1024} MB`,
      "save the sheet with the prices alone, or as CSV",
    );
  const entries = directory(bytes);
  if (!entries) return damaged();
  const parts = new Map<string, string>();
  let left = LARGEST_SUM;
  for (const entry of entries) {
    if (!WANTED.test(entry.path) || parts.has(entry.path)) continue;
    if (entry.locked) return refused("the file is locked by a password", "save it without one, or as CSV");
    const most = Math.min(LARGEST_PART, left);
    if (entry.size > most) return tooLarge(entry.path);
    const unpacked = await unpack(entry, most).catch(() => undefined);
    if (unpacked === undefined) return damaged();
    if (unpacked === "too large") return tooLarge(entry.path);
    left -= unpacked.length;
    parts.set(entry.path, new TextDecoder().decode(unpacked));
  }
  return { ok: true, parts };
}

interface Entry {
  readonly path: string;
  /** Unpacked size, as declared. */
  readonly size: number;
  readonly packed: Uint8Array;
  readonly method: number;
  readonly locked: boolean;
}

/** The archive's own directory (APPNOTE 4.3.12, 4.3.16); undefined when there is none that holds together. */
function directory(bytes: Uint8Array): Entry[] | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  const first = Math.max(0, end - 65_536);
  while (end >= first && view.getUint32(end, true) !== 0x06054b50) end--;
  if (end < first || end < 0) return undefined;
  const count = Math.min(view.getUint16(end + 10, true), MOST_ENTRIES);
  let at = view.getUint32(end + 16, true);
  const entries: Entry[] = [];
  for (let i = 0; i < count; i++) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== 0x02014b50) return undefined;
    const [packed, size] = [view.getUint32(at + 20, true), view.getUint32(at + 24, true)];
    const names = [28, 30, 32].map((place) => view.getUint16(at + place, true)) as [number, number, number];
    const local = view.getUint32(at + 42, true);
    if (local + 30 > bytes.length || view.getUint32(local, true) !== 0x04034b50) return undefined;
    const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    if (from + packed > bytes.length) return undefined;
    entries.push({
      path: new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + names[0])).toLowerCase(),
      ...{ size, packed: bytes.subarray(from, from + packed), method: view.getUint16(at + 10, true) },
      locked: (view.getUint16(at + 8, true) & 1) === 1,
    });
    at += 46 + names[0] + names[1] + names[2];
  }
  return entries;
}

async function unpack({ packed, method }: Entry, most: number): Promise<Uint8Array | "too large"> {
  if (method === 0) return packed;
  if (method !== 8) throw new Error("an unknown way of packing");
  const source = new Blob([packed as Uint8Array<ArrayBuffer>]).stream();
  const reader = source.pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  const pieces: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > most) {
      await reader.cancel().catch(() => undefined);
      return "too large";
    }
    pieces.push(value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
