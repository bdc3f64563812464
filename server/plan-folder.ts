import { createHash } from "node:crypto";
import { readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { threadId } from "node:worker_threads";
import { z } from "zod";
import type { Found, FoundPlans } from "../core/schedule/index.ts";

const Minute = z.number().int().nonnegative();
/** A found plan as a page sends it; whether it keeps the rules is judged by whoever takes it. */
export const FoundSchema: z.ZodType<Found> = z.strictObject({
  schedule: z.strictObject({
    placements: z
      .array(
        z.strictObject({
          task: z.string(),
          start: Minute,
          end: Minute,
          mode: Minute,
          persons: z.array(z.string()),
          resources: z.array(z.string()),
        }),
      )
      .max(20_000),
    spans: z.array(z.string()).max(20_000),
  }),
  reason: z.enum(["proved", "schedules"]),
  schedules: Minute,
  bounds: z
    .array(
      z.tuple([
        z.enum(["makespan", "late", "early", "hold", "changes", "peak", "pauses", "walk", "modes"]),
        z.number().nonnegative(),
      ]),
    )
    .max(9),
});

/** Plans kept; the oldest give way. */
const MOST = 400;

/** Plans that pages and workers of this server found, a file each, named by the hash of what was asked. */
export class PlanFolder implements FoundPlans {
  readonly #folder: string;

  constructor(folder: string) {
    this.#folder = folder;
  }

  find(asked: string): Found | undefined {
    try {
      return JSON.parse(readFileSync(this.#fileOf(asked), "utf8")) as Found;
    } catch {
      return undefined;
    }
  }

  keep(asked: string, found: Found): void {
    const file = this.#fileOf(asked);
    try {
      // Another thread may be reading: a file is there whole or not at all.
      const half = `${file}.${threadId}`;
      writeFileSync(half, JSON.stringify(found));
      renameSync(half, file);
      this.#letGo();
    } catch {
      // A full disk costs a search the next time, nothing else.
    }
  }

  #fileOf(asked: string): string {
    return join(this.#folder, `${createHash("sha256").update(asked).digest("hex")}.json`);
  }

  #letGo(): void {
    const kept = readdirSync(this.#folder).filter((name) => name.endsWith(".json"));
    if (kept.length <= MOST) return;
    const byAge = kept
      .map((name) => ({
        name,
        at: statSync(join(this.#folder, name), { throwIfNoEntry: false })?.mtimeMs ?? 0,
      }))
      .sort((a, b) => a.at - b.at);
    for (const { name } of byAge.slice(0, kept.length - MOST))
      rmSync(join(this.#folder, name), { force: true });
  }
}
