import { describe, expect, test } from "vitest";
import { Random } from "./random.ts";
import { Decoder } from "./rcpsp/decode.ts";
import { faultOf, type Project } from "./rcpsp/project.ts";

/** A project of activities that each wait for some before them, on resources of which one or more words are needed. */
function project(random: Random, n: number, resources: number, most: number): Project {
  const from: number[] = [];
  const to: number[] = [];
  for (let j = 1; j < n; j++)
    for (let i = 0; i < j; i++)
      if (random.next() < 1.5 / n) {
        from.push(i);
        to.push(j);
      }
  const duration = Int32Array.from({ length: n }, () => random.below(9));
  return {
    n,
    base: 1,
    duration,
    resources,
    capacity: Int32Array.from({ length: resources }, () => most),
    demand: Int32Array.from({ length: n * resources }, () => random.below(most + 1)),
    from: Int32Array.from(from),
    to: Int32Array.from(to),
    lag: Int32Array.from(from, (i) => duration[i]!),
  };
}

/** Use of a resource at a minute. */
const use = (p: Project, start: Int32Array, r: number, t: number, among = p.n) => {
  let sum = 0;
  for (let i = 0; i < among; i++)
    if (start[i]! <= t && t < start[i]! + p.duration[i]!) sum += p.demand[i * p.resources + r]!;
  return sum;
};

/** Earliest starts one by one, minute by minute. */
function oneByOne(p: Project): Int32Array {
  const start = new Int32Array(p.n);
  for (let i = 0; i < p.n; i++) {
    let t = 0;
    p.to.forEach((j, k) => {
      if (j === i) t = Math.max(t, start[p.from[k]!]! + p.duration[p.from[k]!]!);
    });
    const fits = () => {
      for (let u = t; u < t + p.duration[i]!; u++)
        for (let r = 0; r < p.resources; r++)
          if (use(p, start, r, u, i) + p.demand[i * p.resources + r]! > p.capacity[r]!) return false;
      return true;
    };
    while (!fits()) t++;
    start[i] = t;
  }
  return start;
}

const projects = [...Array(40).keys()].map((k) => {
  const random = new Random(k + 1);
  return project(random, 5 + random.below(30), 1 + (k % 4), k % 3 === 0 ? 300 : 9);
});
/** Starts of the list in the order of the numbers. */
function placed(p: Project, delay: number): Int32Array {
  const start = new Int32Array(p.n);
  new Decoder(p).place(Int32Array.from(start.keys()), start, false, delay);
  return start;
}

const delays = [0, 1, 3, 8, Number.POSITIVE_INFINITY];

describe("schedules of a list, with a delay", () => {
  test("whatever the delay and direction, every rule of the project is kept and the makespan is the last end", () => {
    for (const p of projects)
      for (const delay of delays)
        for (const backward of [false, true]) {
          const decoder = new Decoder(p);
          const list = Int32Array.from({ length: p.n }, (_, x) => (backward ? p.n - 1 - x : x));
          const start = new Int32Array(p.n);
          const makespan = decoder.place(list, start, backward, delay);
          expect(makespan).toBe(Math.max(...start.map((s, i) => s + p.duration[i]!)));
          if (backward) decoder.turn(start, makespan);
          expect(faultOf(p, start)).toBeNull();
          expect(decoder.count).toBe(1);
        }
  });

  test("any delay is serial generation: each at its earliest beside those before it in the list", () => {
    for (const p of projects) {
      const start = placed(p, Number.POSITIVE_INFINITY);
      expect([...start]).toEqual([...oneByOne(p)]);
    }
  });

  test("no delay is parallel generation: nothing waits at a minute at which it could begin", () => {
    for (const p of projects) {
      const start = placed(p, 0);
      for (let i = 0; i < p.n; i++) {
        if (p.duration[i] === 0) continue;
        let ready = 0;
        p.to.forEach((j, k) => {
          if (j === i) ready = Math.max(ready, start[p.from[k]!]! + p.duration[p.from[k]!]!);
        });
        for (let t = ready; t < start[i]!; t++) {
          const full = [...Array(p.resources).keys()].some(
            (r) => use(p, start, r, t) + p.demand[i * p.resources + r]! > p.capacity[r]!,
          );
          expect(full).toBe(true);
        }
      }
    }
  });
});
