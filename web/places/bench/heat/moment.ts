import type { CurvePoint, HeatResult, Profile } from "../../../../core/heat/heat.ts";

/** The two entries round a minute and how far it lies between them; both the same at the ends. */
function between<T extends { readonly minute: number }>(list: readonly T[], minute: number): [T, T, number] {
  const next = list.findIndex((each) => each.minute >= minute);
  if (next === -1) return [list.at(-1)!, list.at(-1)!, 0];
  if (next === 0) return [list[0]!, list[0]!, 0];
  const [a, b] = [list[next - 1]!, list[next]!];
  return [a, b, b.minute > a.minute ? (minute - a.minute) / (b.minute - a.minute) : 1];
}

/** The figures of a computed curve at a minute, on straight lines between its points. */
export function pointAt(curve: readonly CurvePoint[], minute: number): CurvePoint {
  const [a, b, part] = between(curve, minute);
  const mix = (key: keyof CurvePoint) => a[key] + part * (b[key] - a[key]);
  return {
    minute,
    coreC: mix("coreC"),
    surfaceC: mix("surfaceC"),
    meanC: mix("meanC"),
    log10: mix("log10"),
    worstLog10: mix("worstLog10"),
  };
}

/** The cross-section at a minute, between the two computed ones round it. */
export function profileAt(profiles: readonly Profile[], minute: number): Profile {
  const [a, b, part] = between(profiles, minute);
  return { minute, mm: a.mm, celsius: a.celsius.map((each, i) => each + part * (b.celsius[i]! - each)) };
}

/** Coldest and hottest figure of a trial, to round tens: the ends of its scales. */
export function rangeOf(result: HeatResult): readonly [number, number] {
  const all = [
    ...result.profiles.flatMap((profile) => profile.celsius),
    ...result.curve.map((point) => point.surfaceC),
  ];
  return [Math.floor(Math.min(...all) / 10) * 10, Math.ceil(Math.max(...all) / 10) * 10];
}
