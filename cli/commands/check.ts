import { indexBook, parseBookText } from "../../core/book/index.ts";
import { bookWarnings } from "../../core/run/book-warnings.ts";
import { EXIT, type Io, readArgs, readBook, readText, refuse, writeJson } from "../io.ts";

const help = `tournant check FILE [--json]

Judges a book file ("demo" for the demo): its shape, its references, its circles; then what is doubtful though
possible (a yield that does not agree with its balance, a missing density).

JSON: {ok: true, documents: {kind: count}, warnings: [{path, what, mend}]} or {ok: false, problems: [{path, what, mend}]}.
Paths are JSON Pointers (RFC 6901) into the file.
`;

function run(args: string[], io: Io): number {
  const { words, options } = readArgs(args, { json: "flag" }, { least: 1, most: 1 });
  const name = words[0]!;
  const text = name === "demo" ? undefined : readText(name);
  if (text && !text.ok) return refuse(text.problems, options.json, io);
  const read = text ? parseBookText(text.value) : readBook(name);
  if (!read.ok) return refuse(read.problems, options.json, io);
  const warnings = bookWarnings(indexBook(read.value));
  const documents = Object.fromEntries(
    Object.entries(read.value).flatMap(([kind, list]) => (Array.isArray(list) ? [[kind, list.length]] : [])),
  );
  if (options.json) writeJson({ ok: true, documents, warnings }, io);
  else {
    io.out(
      `A book: ${Object.entries(documents)
        .map(([kind, count]) => `${count} ${kind}`)
        .join(", ")}.\n`,
    );
    for (const { path, what, mend } of warnings) io.out(`${path}: ${what}. To mend: ${mend}.\n`);
  }
  return EXIT.computed;
}

export default { help, run };
