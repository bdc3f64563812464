/**
 * A set of cells that is emptied in rising order while it grows at its far end. One bit a cell and one bit for
 * each word of bits: finding the next cell costs little, however many cells there are and however few are in it.
 */
export class CellSet {
  #bits = new Int32Array(32);
  #words = new Int32Array(1);

  /** Makes room for a cell. */
  reach(cell: number): void {
    if (cell >>> 5 < this.#bits.length) return;
    const bits = new Int32Array(this.#bits.length * 2);
    bits.set(this.#bits);
    this.#bits = bits;
    const words = new Int32Array(bits.length >>> 5);
    words.set(this.#words);
    this.#words = words;
  }

  /** Adds the cells that stand in `list` from `start` up to `end`. */
  add(list: Int32Array, start: number, end: number): void {
    const [bits, words] = [this.#bits, this.#words];
    for (let i = start; i < end; i++) {
      const cell = list[i]!;
      bits[cell >>> 5]! |= 1 << (cell & 31);
      words[cell >>> 10]! |= 1 << ((cell >>> 5) & 31);
    }
  }

  /** Takes out each cell in rising order; `visit` may add cells above the one it is given. Returns how many. */
  drain(visit: (cell: number) => void): number {
    const [bits, words] = [this.#bits, this.#words];
    let taken = 0;
    for (let w = 0; w < words.length; w++)
      while (words[w] !== 0) {
        const at = (w << 5) + lowest(words[w]!);
        while (bits[at] !== 0) {
          const bit = lowest(bits[at]!);
          bits[at]! &= ~(1 << bit);
          taken++;
          visit((at << 5) + bit);
        }
        words[w]! &= ~(1 << (at & 31));
      }
    return taken;
  }
}

/** Place of the lowest bit that is set. */
function lowest(word: number): number {
  return 31 - Math.clz32(word & -word);
}
