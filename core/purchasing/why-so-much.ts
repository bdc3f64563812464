import type { OrderLine } from "./order-lines.ts";
import type { ItemQuestion } from "./question.ts";
import { costOfShort, lostOnLeft, meanStray } from "./rules.ts";

/** Why so much is ordered, g as purchased whole of what was asked for, and what one pack more or less costs. */
export interface WhySoMuch {
  /** By the means of covers and yields. */
  readonly meanG: number;
  /** More, for the chance wanted; less when the chance is below a half. */
  readonly surerG: number;
  /** Of this the store covers. */
  readonly storeG: number;
  /** How far what cooking makes of it strays, by its mean; 0 where nothing says so. */
  readonly cooking: number;
  /** Lost on one pack too many, and what one too few costs at the chance wanted, in the currency. */
  readonly left: number;
  readonly short: number;
}

/** The sums of all needs of an item. */
export function needsOf({ all }: ItemQuestion) {
  const meanG = all.reduce((total, need) => total + need.epG / need.trim, 0);
  const sureG = all.reduce((total, need) => total + need.sureG / need.sureTrim, 0);
  const netG = all.reduce((total, need) => total + need.wholeG, 0);
  const cooking = meanStray(...all.flatMap((need) => [need.epG / need.trim, need.cook]));
  return { meanG, sureG, netG, cooking };
}

/** Goods that do not keep are lost whole; of others the share they are worth is not. */
export function whySoMuch(line: OrderLine, worthShare: number, chance: number): WhySoMuch {
  const { meanG, sureG, netG, cooking } = needsOf(line.of);
  const left = lostOnLeft(Number(line.price), line.of.worthPerG > 0 ? worthShare : 0);
  return {
    ...{ meanG, surerG: sureG - meanG, storeG: sureG - netG, cooking },
    ...{ left, short: costOfShort(left, chance) },
  };
}
