import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { runSchedule } from "../core/schedule/command.ts";
import { EXAMPLE } from "../core/schedule/example.ts";
import { readArgs, wholeNumber } from "./io.ts";

const folder = mkdtempSync(join(tmpdir(), "tournant-schedule-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const MAIN = join(import.meta.dirname, "main.ts");
const file = (name: string, text: string | Uint8Array) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const tournant = (args: string[], input?: string) => {
  const done = spawnSync(process.execPath, [MAIN, "schedule", ...args], {
    encoding: "utf8",
    timeout: 25_000,
    ...(input === undefined ? {} : { input }),
  });
  return { code: done.status, out: done.stdout, note: done.stderr };
};

/** Ninety tasks of many lengths for three pairs of hands, without an end that is easily proved. */
const hard = JSON.stringify({
  horizon: 5000,
  tasks: Array.from({ length: 90 }, (_, i) => ({
    id: `t${i}`,
    modes: [
      {
        duration: 11 + ((i * 37) % 53),
        people: [{ count: 1 + (i % 2) }],
        resources: [{ of: ["oven"], amount: [1 + ((i * 7) % 3)] }],
      },
    ],
  })),
  resources: [{ id: "oven", capacity: [4] }],
  persons: ["a", "b", "c"].map((id) => ({ id, skills: [], shifts: [{ from: 0, to: 5000 }] })),
  objective: { makespan: 1 },
});

describe("tournant schedule, as a stranger finds it", () => {
  test("the example of help and docs is one, is read, and is planned by all its rules", () => {
    const docs = readFileSync(join(import.meta.dirname, "../docs/problem-file.md"), "utf8");
    const told = /```json\n([\s\S]*?)```/.exec(docs)![1]!;
    expect(JSON.parse(told)).toEqual(EXAMPLE);
    const answer = runSchedule(told, { schedules: 100 });
    expect(answer).toMatchObject({ ok: true, value: { status: "optimal", result: { violations: [] } } });
  });

  test("it is printed, and goes in again by standard input; JSON alone on standard output", {
    timeout: 60_000,
  }, () => {
    const printed = tournant(["--example"]);
    expect(printed.code).toBe(0);
    const { code, out } = tournant(["-", "--json", "--schedules", "20"], printed.out);
    expect(code).toBe(0);
    const keys = Object.keys(JSON.parse(out));
    expect(keys).toEqual(["status", "makespan", "lowerBound", "starts", "schedules", "seconds", "result"]);
  });

  test("what is no problem is refused in a sentence: bytes, a folder, ten megabytes of rubbish", {
    timeout: 90_000,
  }, () => {
    const bytes = Uint8Array.from({ length: 4096 }, (_, i) => (i * 151 + (i >> 3)) & 255);
    const rubbish = "a9 \n".repeat(2_500_000);
    for (const path of [
      file("bytes.sm", bytes),
      folder,
      file("rubbish.sch", rubbish),
      join(folder, "none"),
    ]) {
      const { code, note, out } = tournant([path, "--json"]);
      expect(code).toBe(1);
      expect(note).toContain("To mend");
      expect(note.length).toBeLessThan(400);
      expect(JSON.parse(out)).toMatchObject({ ok: false });
    }
  });

  test("numbers out of range are misuse, named as they were written", () => {
    for (const [option, value] of [
      ["schedules", "-1"],
      ["schedules", "0"],
      ["seed", "x"],
      ["seed", "-3"],
    ] as const) {
      const { options } = readArgs([`--${option}`, value], { [option]: "text" }, { least: 0, most: 0 });
      expect(options[option]).toBe(value);
      expect(() => wholeNumber(option, value, 1, 9)).toThrow(`--${option} is "${value}"`);
    }
  });

  test.skipIf(process.platform === "win32")("Ctrl-C gives the best so far", { timeout: 40_000 }, async () => {
    const child = spawn(process.execPath, [
      MAIN,
      "schedule",
      file("hard.json", hard),
      "--json",
      "--seconds",
      "600",
    ]);
    let out = "";
    let begun = false;
    child.stdout.on("data", (data: Buffer) => {
      out += data;
    });
    child.stderr.on("data", () => {
      if (!begun) child.kill("SIGINT");
      begun = true;
    });
    const code = await new Promise((resolve) => child.on("close", resolve));
    expect(code).toBe(0);
    const answer = JSON.parse(out);
    expect(answer.starts).toHaveLength(90);
    expect(answer.result.violations).toEqual([]);
  });
});
