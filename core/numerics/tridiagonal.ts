/**
 * Solves a tridiagonal system in place by elimination without pivoting (Thomas).
 * Row i reads lower[i] x[i-1] + diagonal[i] x[i] + upper[i] x[i+1] = right[i]; lower[0] and upper[n-1] are not read.
 * Safe for diagonally dominant rows, which is what implicit conduction makes.
 * On return `right` holds x; `upper` is overwritten. Only the first n entries are used.
 * Throws RangeError when a pivot is zero or not a number.
 */
export function solveTridiagonal(
  lower: Float64Array,
  diagonal: Float64Array,
  upper: Float64Array,
  right: Float64Array,
  n: number,
): void {
  let pivot = diagonal[0]!;
  if (!(Math.abs(pivot) > 0)) throw new RangeError(`tridiagonal: pivot 0 is ${pivot}`);
  upper[0] = upper[0]! / pivot;
  right[0] = right[0]! / pivot;
  for (let i = 1; i < n; i++) {
    const low = lower[i]!;
    pivot = diagonal[i]! - low * upper[i - 1]!;
    if (!(Math.abs(pivot) > 0)) throw new RangeError(`tridiagonal: pivot ${i} is ${pivot}`);
    const inverse = 1 / pivot;
    upper[i] = upper[i]! * inverse;
    right[i] = (right[i]! - low * right[i - 1]!) * inverse;
  }
  for (let i = n - 2; i >= 0; i--) right[i] = right[i]! - upper[i]! * right[i + 1]!;
}
