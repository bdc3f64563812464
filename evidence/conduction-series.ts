import { besselJ0, besselJ1 } from "../core/numerics/bessel.ts";
import { findRoot } from "../core/numerics/root.ts";

/**
 * Exact series for one-dimensional transient conduction with a convective surface, from the eigenvalue equations
 * printed in Cengel, Heat Transfer: A Practical Approach, table 4-2, and Incropera and DeWitt, section 5.5:
 * slab z tan z = Bi, cylinder z J1/J0 = Bi, sphere 1 - z cot z = Bi; Biot by half thickness or radius.
 */
export type Solid = "slab" | "cylinder" | "sphere";

const found = new Map<string, number[]>();

/** The first `count` eigenvalues. */
export function eigenvalues(solid: Solid, biot: number, count: number): number[] {
  const key = `${solid} ${biot} ${count}`;
  const known = found.get(key);
  if (known) return known;
  const roots: number[] = [];
  const f = equationOf(solid, biot);
  if (solid === "cylinder") {
    let from = 1e-9;
    while (roots.length < count) {
      let a = from;
      let fa = f(a);
      for (;;) {
        const b = a + 0.05;
        const fb = f(b);
        if (fa > 0 !== fb > 0) {
          roots.push(findRoot(f, a, b, 1e-13).x);
          from = b;
          break;
        }
        a = b;
        fa = fb;
      }
    }
  } else {
    for (let n = 0; n < count; n++) {
      const low = solid === "slab" ? n * Math.PI + 1e-12 : Math.max(1e-6, n * Math.PI);
      const high = solid === "slab" ? (n + 0.5) * Math.PI : (n + 1) * Math.PI;
      roots.push(findRoot(f, low, high, 1e-13).x);
    }
  }
  found.set(key, roots);
  return roots;
}

function equationOf(solid: Solid, biot: number): (z: number) => number {
  if (solid === "slab") return (z) => z * Math.sin(z) - biot * Math.cos(z);
  if (solid === "cylinder") return (z) => z * besselJ1(z) - biot * besselJ0(z);
  return (z) => (1 - biot) * Math.sin(z) - z * Math.cos(z);
}

/** Coefficient A of a term with eigenvalue z. */
export function coefficientOf(solid: Solid, z: number): number {
  if (solid === "slab") return (4 * Math.sin(z)) / (2 * z + Math.sin(2 * z));
  if (solid === "cylinder") return (2 * besselJ1(z)) / (z * (besselJ0(z) ** 2 + besselJ1(z) ** 2));
  return (4 * (Math.sin(z) - z * Math.cos(z))) / (2 * z - Math.sin(2 * z));
}

/** (T - T_medium) / (T_start - T_medium) at x of the half thickness or radius, after a Fourier number. */
export function unaccomplished(solid: Solid, biot: number, fourier: number, x: number, terms = 60): number {
  let sum = 0;
  for (const z of eigenvalues(solid, biot, terms)) {
    const decay = Math.exp(-z * z * fourier);
    sum += coefficientOf(solid, z) * decay * shapeOf(solid, z * x);
    if (decay < 1e-18) break;
  }
  return sum;
}

/** The mean of the same over the volume. */
export function meanUnaccomplished(solid: Solid, biot: number, fourier: number, terms = 60): number {
  let sum = 0;
  for (const z of eigenvalues(solid, biot, terms)) {
    const mean =
      solid === "slab"
        ? Math.sin(z) / z
        : solid === "cylinder"
          ? (2 * besselJ1(z)) / z
          : (3 * (Math.sin(z) - z * Math.cos(z))) / z ** 3;
    sum += coefficientOf(solid, z) * Math.exp(-z * z * fourier) * mean;
  }
  return sum;
}

function shapeOf(solid: Solid, y: number): number {
  if (solid === "slab") return Math.cos(y);
  if (solid === "cylinder") return besselJ0(y);
  return y === 0 ? 1 : Math.sin(y) / y;
}

/** Fourier number at which the place x has a given unaccomplished share. */
export function fourierFor(solid: Solid, biot: number, share: number, x: number): number {
  return findRoot((fo) => unaccomplished(solid, biot, fo, x) - share, 1e-3, 200, 1e-10).x;
}
