import { randomUUID } from "node:crypto";
import { join } from "node:path";
import { Piscina } from "piscina";
import { z } from "zod";
import type { Book, Problem } from "../core/book/index.ts";
import type { Result } from "../core/run/result.ts";

export const RunRequestSchema = z.strictObject({
  covers: z.number().int().positive().max(100_000).optional(),
  kitchen: z.string().optional(),
  seed: z.number().int().nonnegative().optional(),
  schedules: z.number().int().positive().max(1_000_000).optional(),
});
export type RunRequest = z.infer<typeof RunRequestSchema>;

/** What a worker is given and gives back. */
export interface WorkerTask {
  readonly book: Book;
  readonly service: string;
  readonly request: RunRequest;
  readonly pack: boolean;
  /** Folder of the plans found before. */
  readonly plans: string;
}
export type WorkerAnswer =
  | { readonly ok: true; readonly result: Result; readonly pdf?: Uint8Array }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export type JobState =
  | { readonly state: "running" }
  | { readonly state: "done"; readonly result: Result }
  | { readonly state: "refused"; readonly problems: readonly Problem[] }
  | { readonly state: "cancelled" };

/** As many may wait for a worker as anybody could mean to. */
const MOST_WAITING = 32;
/** Longer than any plan is worth waiting for: a forgotten job must not hold a worker for ever. */
const LONGEST_MS = 15 * 60_000;

/** There are too many jobs already. */
export class Busy extends Error {}

/** Finished jobs kept for those who have not asked yet. */
const KEEP = 20;

/** Long work, in workers of this process: it can be asked after and cancelled. */
export class Jobs {
  readonly #pool: Piscina;
  #waiting = 0;
  readonly #jobs = new Map<string, { state: JobState; abort: AbortController }>();

  readonly #plans: string;

  /** @param plans folder of the plans found before, which workers read and add to */
  constructor(plans: string) {
    this.#plans = plans;
    this.#pool = new Piscina({
      filename: join(import.meta.dirname, "run-worker.ts"),
      minThreads: 0,
      maxThreads: 2,
      idleTimeout: 30_000,
      maxQueue: 2 * MOST_WAITING,
    });
  }

  /** Starts a run; its name. @throws Busy */
  start(book: Book, service: string, request: RunRequest): string {
    this.#refuseWhenBusy();
    const id = randomUUID();
    const abort = new AbortController();
    const job: { state: JobState; abort: AbortController } = { state: { state: "running" }, abort };
    this.#jobs.set(id, job);
    for (const [old, { state }] of this.#jobs) {
      if (this.#jobs.size <= KEEP) break;
      if (state.state !== "running") this.#jobs.delete(old);
    }
    this.#ask({ book, service, request, pack: false }, abort.signal).then(
      (answer) => {
        job.state = answer.ok
          ? { state: "done", result: answer.result }
          : { state: "refused", problems: answer.problems };
      },
      (error) => {
        if (abort.signal.aborted) job.state = { state: "cancelled" };
        else {
          console.error(error);
          const problem = {
            path: "",
            what: "the computing broke off",
            mend: "try again; the server's own messages say more",
          };
          job.state = { state: "refused", problems: [problem] };
        }
      },
    );
    return id;
  }

  state(id: string): JobState | undefined {
    return this.#jobs.get(id)?.state;
  }

  /** Ends a running job; false when there is none. */
  cancel(id: string): boolean {
    const job = this.#jobs.get(id);
    if (job?.state.state !== "running") return false;
    job.abort.abort();
    return true;
  }

  /** The printed pack of a service; `gone` ends it when nobody waits for it any more. @throws Busy */
  async pack(book: Book, service: string, request: RunRequest, gone?: AbortSignal) {
    this.#refuseWhenBusy();
    const answer = await this.#ask({ book, service, request, pack: true }, gone);
    return answer.ok ? { ok: true as const, pdf: answer.pdf! } : answer;
  }

  async close(): Promise<void> {
    for (const { abort } of this.#jobs.values()) abort.abort();
    await this.#pool.destroy();
  }

  #refuseWhenBusy(): void {
    if (this.#waiting >= MOST_WAITING) throw new Busy();
  }

  async #ask(asked: Omit<WorkerTask, "plans">, signal?: AbortSignal): Promise<WorkerAnswer> {
    const late = AbortSignal.timeout(LONGEST_MS);
    this.#waiting++;
    try {
      return await this.#pool.run({ ...asked, plans: this.#plans } satisfies WorkerTask, {
        signal: signal ? AbortSignal.any([signal, late]) : late,
      });
    } finally {
      this.#waiting--;
    }
  }
}
