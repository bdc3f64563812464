import { parentPort, workerData } from "node:worker_threads";
import { runSchedule } from "../../core/schedule/command.ts";

/** What the search is given by the command, which stays free to hear Ctrl-C. */
export interface Asked {
  readonly text: string;
  readonly options: { readonly seed?: number; readonly schedules?: number; readonly seconds?: number };
  /** Not 0 once the search is to end with the best so far. */
  readonly stopped: SharedArrayBuffer;
}

const { text, options, stopped } = workerData as Asked;
const stop = new Int32Array(stopped);
parentPort?.postMessage({
  answer: runSchedule(text, {
    ...options,
    clock: () => performance.now(),
    stop: () => Atomics.load(stop, 0) !== 0,
    onProgress: (best, lowerBound, count) =>
      parentPort?.postMessage({ note: `${count} schedules: ${best}, at least ${lowerBound}\n` }),
  }),
});
