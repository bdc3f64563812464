import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { EXIT } from "../io.ts";
import read from "./read.ts";

const folder = mkdtempSync(join(tmpdir(), "tournant-read-"));

async function call(content: string | Uint8Array, ...options: string[]) {
  const file = join(folder, "recipe");
  writeFileSync(file, content);
  let [out, notes] = ["", ""];
  const io = {
    out: (text: string) => {
      out += text;
    },
    note: (text: string) => {
      notes += text;
    },
  };
  const exit = await read.run([file, ...options], io);
  return { exit, out, notes };
}

describe("tournant read", () => {
  test("JSON holds lines, parts, steps and yields, with exactly the promised keys", async () => {
    const text =
      "Carrot soup\nServes 4\n- 1 lb 4 oz carrots, sliced\n- Salt to taste\nFor the oil:\n- 2-3 tbsp dill oil\nSimmer 20 minutes at 95 °C.";
    const { exit, out } = await call(text, "--json");
    expect(exit).toBe(EXIT.computed);
    const answer = JSON.parse(out);
    expect(answer.lines[0]).toEqual({
      ...{ text: "- 1 lb 4 oz carrots, sliced", low: 20, high: 20, unit: "oz", ingredient: "carrots" },
      ...{ item: { ingredient: "carrot", confidence: 1 }, note: "sliced", doubt: "", part: null },
    });
    expect(answer.lines[1]).toMatchObject({
      low: null,
      high: null,
      unit: "",
      ingredient: "Salt",
      note: "to taste",
    });
    expect(answer.lines[2]).toMatchObject({ low: 2, high: 3, unit: "tbsp", part: "oil" });
    expect(answer.parts).toEqual([{ name: "oil", text: "For the oil:", lines: [2], steps: [0] }]);
    expect(answer.steps[0]).toMatchObject({
      text: "Simmer 20 minutes at 95 °C.",
      minutes: 20,
      temperatureC: 95,
    });
    expect(answer.yields).toEqual([{ text: "Serves 4", low: 4, high: 4, unit: "", what: "portions" }]);
  });
  test("--draft adds documents", async () => {
    const { out } = await call("Carrot salad\n500 g carrots\n5 g salt\nGrate.", "--draft", "--json");
    expect(JSON.parse(out).preparations).toMatchObject([
      { id: "carrot-salad", lines: [{ item: { ingredient: "carrot" } }, {}] },
    ]);
  });
  test("a file without a recipe, or none at all, is refused in words", async () => {
    const empty = await call("", "--json");
    expect(empty.exit).toBe(EXIT.refused);
    expect(JSON.parse(empty.out).problems[0].path).toBe("line 1");
    const page = await call("<html><body>hello</body></html>", "--json");
    expect(page.exit).toBe(EXIT.refused);
    expect(page.notes).toMatch(/no schema.org Recipe/);
    await expect(read.run([join(folder, "none")], { out() {}, note() {} })).resolves.toBe(EXIT.refused);
  });
  test("bytes that are no UTF-8 are read, and the line is named", async () => {
    const { exit, notes } = await call(
      new Uint8Array([0x32, 0x20, 0x67, 0x20, 0x63, 0x72, 0xe8, 0x6d, 0x65]),
      "--json",
    );
    expect(exit).toBe(EXIT.computed);
    expect(notes).toMatch(/^line 1: this is not UTF-8/);
  });
});
