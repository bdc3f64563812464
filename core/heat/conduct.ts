import type { Body, Faces, State } from "./body.ts";
import { type Bench, benchFor, conductLine } from "./line.ts";

export type Conductor = {
  /** Carries `state` forward in place; false when it would not settle and the step must be shorter. */
  advance: (state: State, faces: readonly Faces[], from: number, seconds: number) => boolean;
};

/**
 * Conduction through a whole body: along each axis in turn, each line by `conductLine`, in the symmetric order
 * half x, half y, z, half y, half x (G. Strang, SIAM J. Numer. Anal. 5, 1968), of second order in time. With
 * constant properties and one medium all round the axes do not disturb each other and the splitting is exact.
 */
export function conductor(body: Body): Conductor {
  const { axes } = body;
  const bench = benchFor(Math.max(...axes.map((axis) => axis.n)));
  const order = axes.map((_, which) => which);
  const sweeps = [
    ...order.slice(0, -1).map((which) => ({ which, share: 0.5 })),
    { which: axes.length - 1, share: 1 },
    ...order
      .slice(0, -1)
      .reverse()
      .map((which) => ({ which, share: 0.5 })),
  ];
  return {
    advance(state, faces, from, seconds) {
      let done = axes.map(() => 0);
      for (const { which, share } of sweeps) {
        const at = from + done[which]!;
        if (!sweep(body, bench, which, state, faces[which]!, at, share * seconds)) return false;
        done = done.map((d, i) => (i === which ? d + share * seconds : d));
      }
      return true;
    },
  };
}

function sweep(
  body: Body,
  bench: Bench,
  which: number,
  state: State,
  faces: Faces,
  from: number,
  seconds: number,
): boolean {
  const { axes, substances, substance, linear, cells } = body;
  const axis = axes[which]!;
  let stride = 1;
  for (let a = 0; a < which; a++) stride *= axes[a]!.n;
  const dried: [number, number] = [state.dried[2 * which]!, state.dried[2 * which + 1]!];
  const block = stride * axis.n;
  let section = 0;
  let outerJ = 0;
  let innerJ = 0;
  for (let start = 0; start < cells; start += block) {
    for (let offset = start; offset < start + stride; offset++) {
      for (let i = 0, cell = offset; i < axis.n; i++, cell += stride) {
        bench.heat[i] = state.heat[cell]!;
        bench.substance[i] = substance[cell]!;
      }
      if (!conductLine(bench, axis, substances, linear, faces, from, seconds, dried)) return false;
      for (let i = 0, cell = offset; i < axis.n; i++, cell += stride) state.heat[cell] = bench.heat[i]!;
      const across = body.volume[offset]! / axis.volume[0]!;
      section += across;
      state.heatIn += bench.heatIn * across;
      outerJ += bench.evaporatedOuterJ * across;
      innerJ += bench.evaporatedInnerJ * across;
    }
  }
  if (faces.outer.evaporation)
    state.dried[2 * which] = dried[0] + (outerJ / section) * faces.outer.evaporation.kgPerJ;
  if (faces.inner?.evaporation)
    state.dried[2 * which + 1] = dried[1] + (innerJ / section) * faces.inner.evaporation.kgPerJ;
  return true;
}
