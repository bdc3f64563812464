declare const unit: unique symbol;
/** A number that knows its unit: it cannot stand where another unit is asked for. */
type In<U extends string> = number & { readonly [unit]: U };

export type Grams = In<"g">;
export type Millilitres = In<"mL">;
export type Pieces = In<"piece">;
export type Millimetres = In<"mm">;
export type Celsius = In<"°C">;
export type Minutes = In<"min">;
export type Quantity = Grams | Millilitres | Pieces | Millimetres | Celsius | Minutes;

/** Says that a bare number is in grams (and so on for the other makers). */
export const grams = (value: number) => value as Grams;
export const millilitres = (value: number) => value as Millilitres;
export const pieces = (value: number) => value as Pieces;
export const millimetres = (value: number) => value as Millimetres;
export const celsius = (value: number) => value as Celsius;
export const minutes = (value: number) => value as Minutes;

/** Sum of two quantities of one unit; two units do not compile. */
export function plus<Q extends Quantity>(a: Q, b: NoInfer<Q>): Q {
  return (a + b) as Q;
}
/** Difference of two quantities of one unit; two units do not compile. */
export function minus<Q extends Quantity>(a: Q, b: NoInfer<Q>): Q {
  return (a - b) as Q;
}
/** A quantity times a bare number. */
export function times<Q extends Quantity>(a: Q, factor: number): Q {
  return (a * factor) as Q;
}
