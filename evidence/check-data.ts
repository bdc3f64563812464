import { existsSync } from "node:fs";
import { join } from "node:path";

/**
 * Paths of published bulk data that is kept outside the repository, in the folder that CHECK_DATA names; undefined,
 * said aloud, when they are not there. Tests that need them are then skipped, and counted.
 * @param tests how many tests hang on them, in words
 * @param names paths below the folder, like "reference/yields.json"
 */
export function checkData<const N extends readonly string[]>(
  tests: string,
  ...names: N
): { [K in keyof N]: string } | undefined {
  const folder = process.env.CHECK_DATA;
  const paths = names.map((name) => join(folder ?? "", name));
  if (folder !== undefined && paths.every((path) => existsSync(path)))
    return paths as { [K in keyof N]: string };
  console.warn(
    `SKIPPED: ${tests}: CHECK_DATA ${folder === undefined ? "is not set" : `holds no ${names.join(", ")}`}`,
  );
  return undefined;
}
