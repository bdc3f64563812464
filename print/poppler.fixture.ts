import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Whether the tools that read a PDF back are on this machine. */
export const POPPLER = ["pdftotext", "pdffonts", "pdftoppm"].every(
  (tool) => spawnSync(tool, ["-v"]).status === 0,
);

/** Runs one of poppler's tools on a PDF; `{}` among the arguments is its file. */
export function poppler(tool: string, pdf: Uint8Array, args: readonly string[]): Buffer {
  const folder = mkdtempSync(join(tmpdir(), "pack-"));
  try {
    const file = join(folder, "pack.pdf");
    writeFileSync(file, pdf);
    const done = spawnSync(
      tool,
      args.map((arg) => (arg === "{}" ? file : arg)),
      {
        maxBuffer: 512 * 1024 * 1024,
      },
    );
    if (done.status !== 0) throw new Error(`${tool}: ${done.stderr}`);
    return done.stdout;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Text of each page in the order it was written, without any white space. */
export function pagesOf(pdf: Uint8Array): string[] {
  const text = poppler("pdftotext", pdf, ["-raw", "{}", "-"]).toString("utf8");
  return text.split("\f").slice(0, -1).map(compact);
}

/** A text without white space, so that it is found however it was broken into lines. */
export function compact(text: string): string {
  return text.replace(/[\s\u00a0\u00ad]+/g, "");
}
