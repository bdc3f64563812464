import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { shown } from "./io.ts";

const folder = mkdtempSync(join(tmpdir(), "tournant-cli-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = (name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const tournant = (...args: string[]) => {
  const done = spawnSync(process.execPath, [join(import.meta.dirname, "main.ts"), ...args], {
    encoding: "utf8",
    timeout: 25_000,
  });
  return { code: done.status, out: done.stdout, note: done.stderr };
};
const STACK = /^\s+at .*:\d+:\d+/m;
const deep = `${"[".repeat(100_000)}${"]".repeat(100_000)}`;

describe("hostile files at the command line", () => {
  test("a bad file of any command is refused in words: exit 1, no stack", { timeout: 60_000 }, () => {
    const files = [
      file("empty.json", ""),
      file("deep.json", deep),
      file("deep-format.json", `{"format":${deep},"version":1,"shape":${deep},"tasks":${deep}}`),
      folder,
    ];
    for (const command of ["check", "heat"])
      for (const path of files) {
        const { code, note } = tournant(command, path);
        expect(note).not.toMatch(STACK);
        expect(note).toContain("To mend");
        expect(code).toBe(1);
      }
  });

  test("a problem that cannot be meant is refused by name", { timeout: 30_000 }, () => {
    const problem = { horizon: 100, tasks: [{ id: "bake", modes: [{ duration: -5 }] }] };
    const { code, out, note } = tournant("schedule", file("problem.json", JSON.stringify(problem)), "--json");
    expect(note).toContain('"bake" lasts -5 min');
    expect(note).toContain("To mend");
    expect(out).not.toMatch(STACK);
    expect(code).toBe(1);
  });

  test.skipIf(process.platform === "win32")("a file without end is refused", { timeout: 30_000 }, () => {
    const { code, note } = tournant("check", "/dev/zero");
    expect(note).toContain("larger than 256 MB");
    expect(code).toBe(1);
  });

  test("words and numbers that no amount has are refused in words", { timeout: 60_000 }, () => {
    for (const [words, code] of [
      [["1 constructor"], 1],
      [["constructor g"], 1],
      [["1 cup", "--density", "1e308"], 2],
      [["1 cup", "--density", "1e-320"], 2],
    ] as const) {
      const answer = tournant("convert", ...words, "--to", "g");
      expect(answer.code).toBe(code);
      expect(answer.note).not.toMatch(/has failed/);
    }
  });

  test("what a file says cannot drive the terminal", () => {
    const { code, note } = tournant(
      "check",
      file("escape.json", '{"format":"tournant-book","version":1,"\\u001b[2J\\u202ex":1}'),
    );
    expect(code).toBe(1);
    expect(note).toContain("U+001B");
    expect(note).not.toContain("\u001b");
    expect(shown("a\u001b[2Jb\u202ec\r")).toBe("a\\u001b[2Jb\\u202ec\\u000d");
    expect(shown("line\n\ttab é 塩 \u200f")).toBe("line\n\ttab é 塩 \u200f");
  });
});
