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
}
export type WorkerAnswer =
  | { readonly ok: true; readonly result: Result; readonly pdf?: Uint8Array }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export type JobState =
  | { readonly state: "running" }
  | { readonly state: "done"; readonly result: Result }
  | { readonly state: "refused"; readonly problems: readonly Problem[] }
  | { readonly state: "cancelled" };

/** Finished jobs kept for those who have not asked yet. */
const KEEP = 20;

/** Long work, in workers of this process: it can be asked after and cancelled. */
export class Jobs {
  readonly #pool: Piscina;
  readonly #jobs = new Map<string, { state: JobState; abort: AbortController }>();

  constructor() {
    this.#pool = new Piscina({
      filename: join(import.meta.dirname, "run-worker.ts"),
      minThreads: 0,
      maxThreads: 2,
      idleTimeout: 30_000,
      maxQueue: 32,
    });
  }

  /** Starts a run; its name. */
  start(book: Book, service: string, request: RunRequest): string {
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

  /** The printed pack of a service. */
  async pack(book: Book, service: string, request: RunRequest) {
    const answer = await this.#ask({ book, service, request, pack: true });
    return answer.ok ? { ok: true as const, pdf: answer.pdf! } : answer;
  }

  async close(): Promise<void> {
    for (const { abort } of this.#jobs.values()) abort.abort();
    await this.#pool.destroy();
  }

  #ask(task: WorkerTask, signal?: AbortSignal): Promise<WorkerAnswer> {
    return this.#pool.run(task, signal ? { signal } : {});
  }
}
