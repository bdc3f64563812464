/**
 * Seeded random numbers: xoshiro128** 1.1 (Blackman and Vigna, 2018). The same seed gives the same numbers
 * on every machine. Not for secrets.
 */
export class Random {
  readonly #seed: number;
  readonly #state: Uint32Array;

  private constructor(seed: number, state: Uint32Array) {
    this.#seed = seed;
    this.#state = state;
  }

  /** A generator from any number or text. */
  static of(seed: number | string): Random {
    return Random.#from(hash(2166136261, String(seed)));
  }

  /** A generator at a given inner state (four 32-bit words, not all zero). */
  static atState(state: readonly [number, number, number, number]): Random {
    if (state.every((word) => word >>> 0 === 0)) throw new RangeError("a state of four zeros never moves");
    return new Random(state[0] >>> 0, Uint32Array.from(state));
  }

  static #from(seed: number): Random {
    // Words of one counter through a full-avalanche mixer: never four zeros, and near seeds share nothing.
    const words = [1, 2, 3, 4].map((i) => mix(seed + Math.imul(i, 0x9e3779b9)));
    return new Random(seed, Uint32Array.from(words));
  }

  /** The next 32 random bits, as an integer from 0 to 2^32 - 1. */
  bits(): number {
    const s = this.#state as unknown as [number, number, number, number];
    const result = Math.imul(rotl(Math.imul(s[1], 5), 7), 9) >>> 0;
    const t = s[1] << 9;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = rotl(s[3], 11);
    return result;
  }

  /** A double from 0 up to but not including 1, in steps of 2^-53. */
  next(): number {
    const high = this.bits() >>> 5;
    const low = this.bits() >>> 6;
    return (high * 67108864 + low) / 9007199254740992;
  }

  /**
   * An integer from 0 to n - 1, each equally likely. @throws RangeError unless n is an integer from 1 to 2^32.
   */
  below(n: number): number {
    if (!Number.isInteger(n) || n < 1 || n > 4294967296) {
      throw new RangeError(`cannot draw below ${n}: give an integer from 1 to 2^32`);
    }
    // Draws past the last full multiple of n are thrown away, else small results would be favoured.
    const limit = 4294967296 - (4294967296 % n);
    for (;;) {
      const draw = this.bits();
      if (draw < limit) return draw % n;
    }
  }

  /** One of `items`. @throws RangeError when there is none. */
  pick<T>(items: readonly T[]): T {
    return items[this.below(items.length)]!;
  }

  /** A new array with the same items in random order, each order equally likely. */
  shuffled<T>(items: readonly T[]): T[] {
    const out = [...items];
    for (let i = out.length - 1; i > 0; i--) {
      const j = this.below(i + 1);
      [out[i], out[j]] = [out[j]!, out[i]!];
    }
    return out;
  }

  /** A normal deviate of mean 0 and standard deviation 1 (Box and Muller, 1958). */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next());
  }

  /** A generator for a named purpose: depends on this one's seed and the name, not on what was drawn. */
  derive(name: string | number): Random {
    return Random.#from(hash(mix(this.#seed ^ 0x5bd1e995), String(name)));
  }

  /** A generator that goes on apart; uses up one draw of this one. */
  split(): Random {
    return Random.#from(this.bits());
  }
}

const rotl = (x: number, k: number) => (x << k) | (x >>> (32 - k));

/** FNV-1a over UTF-16 units. */
function hash(start: number, text: string): number {
  let h = start >>> 0;
  for (let i = 0; i < text.length; i++) {
    h = Math.imul(h ^ text.charCodeAt(i), 16777619);
  }
  return h >>> 0;
}

/** Finaliser of MurmurHash3 (Appleby): every input bit moves every output bit. */
function mix(x: number): number {
  let h = x >>> 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
