import type { Decoder } from "./decode.ts";
import type { Project } from "./project.ts";

/**
 * Parallel generation: at every minute at which something ends, starts what fits, lowest key first. Returns
 * the makespan. Better than serial generation when only a few schedules are made, though it may miss the best.
 */
export function parallel(p: Project, d: Decoder, key: Float64Array, start: Int32Array): number {
  const { n, resources } = p;
  const waits = new Int32Array(n);
  const ready: number[] = [];
  for (let i = 0; i < n; i++) {
    waits[i] = d.predFirst[i + 1]! - d.predFirst[i]!;
    if (waits[i] === 0) ready.push(i);
  }
  const free = p.capacity.slice();
  const running: number[] = [];
  let makespan = 0;
  const finish = (i: number) => {
    for (let k = d.succFirst[i]!; k < d.succFirst[i + 1]!; k++) {
      const j = d.succs[k]!;
      waits[j]!--;
      if (waits[j] === 0) ready.push(j);
    }
  };
  const fits = (i: number) => {
    for (let r = 0; r < resources; r++) if (p.demand[i * resources + r]! > free[r]!) return false;
    return true;
  };
  for (let t = 0, left = n; left > 0; ) {
    for (;;) {
      let at = -1;
      for (let k = 0; k < ready.length; k++)
        if ((at < 0 || key[ready[k]!]! < key[ready[at]!]!) && fits(ready[k]!)) at = k;
      if (at < 0) break;
      const i = ready[at]!;
      ready[at] = ready[ready.length - 1]!;
      ready.pop();
      start[i] = t;
      left--;
      makespan = Math.max(makespan, t + p.duration[i]!);
      if (p.duration[i] === 0) finish(i);
      else {
        for (let r = 0; r < resources; r++) free[r]! -= p.demand[i * resources + r]!;
        running.push(i);
      }
    }
    if (left === 0) break;
    t = Number.POSITIVE_INFINITY;
    for (const i of running) t = Math.min(t, start[i]! + p.duration[i]!);
    for (let k = 0; k < running.length; ) {
      const i = running[k]!;
      if (start[i]! + p.duration[i]! > t) {
        k++;
        continue;
      }
      for (let r = 0; r < resources; r++) free[r]! += p.demand[i * resources + r]!;
      running[k] = running[running.length - 1]!;
      running.pop();
      finish(i);
    }
  }
  d.count++;
  return makespan;
}
