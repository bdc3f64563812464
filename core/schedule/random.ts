/** Seeded random numbers: Chris Doty-Humphrey's sfc32 (PractRand, public domain), from memory. */
export class Random {
  private a: number;
  private b: number;
  private c: number;
  private counter = 1;

  constructor(seed: number) {
    this.a = seed | 0;
    this.b = Math.floor(seed / 4294967296) | 0;
    this.c = 0x9e3779b9;
    for (let i = 0; i < 12; i++) this.word();
  }

  /** 32 random bits as a whole number from 0 to 2^32 - 1. */
  word(): number {
    const t = (((this.a + this.b) | 0) + this.counter) | 0;
    this.counter = (this.counter + 1) | 0;
    this.a = this.b ^ (this.b >>> 9);
    this.b = (this.c + (this.c << 3)) | 0;
    this.c = (this.c << 21) | (this.c >>> 11);
    this.c = (this.c + t) | 0;
    return t >>> 0;
  }

  /** A number from 0 up to, not including, 1. */
  next(): number {
    return this.word() / 4294967296;
  }

  /** A whole number from 0 to n - 1. */
  below(n: number): number {
    return Math.floor(this.next() * n);
  }

  /** A whole number from least to most. */
  between(least: number, most: number): number {
    return least + this.below(most - least + 1);
  }

  shuffle<T>(list: T[] | Int32Array): void {
    for (let i = list.length - 1; i > 0; i--) {
      const j = this.below(i + 1);
      const x = list[i]!;
      (list as T[])[i] = list[j] as T;
      (list as T[])[j] = x as T;
    }
  }
}
