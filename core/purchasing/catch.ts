import type { Ledger } from "../ledger/ledger.ts";
import { CRUMB_G, coverRows } from "./packs.ts";
import type { ItemQuestion, OfferAt } from "./question.ts";
import { catchShare } from "./rules.ts";
import { cutsVary, type When } from "./timed-needs.ts";

/**
 * Whether the packs chosen for one ingredient are enough with the chance wanted, as they really mix: each set of needs against
 * what can serve it. `catchShare` counts on one offer alone; of two that vary differently, or of few packs for an early
 * need, it may count on too much.
 */
export function enoughByWeight(
  ledger: Ledger,
  of: ItemQuestion,
  packs: readonly number[],
  when: When,
  coversSpread: number,
): boolean {
  const spreadOf = ({ offer }: OfferAt) => ledger.value(offer.spread);
  if (of.offers.every((at, o) => packs[o] === 0 || spreadOf(at) === 0)) return true;
  return coverRows(of.need).every(({ needG, offers }) => {
    let [there, variance] = [0, 0];
    for (const o of offers) {
      const at = of.offers[o]!;
      const nominal = at.brings / at.counted;
      there += packs[o]! * nominal;
      variance += packs[o]! * (nominal * spreadOf(at)) ** 2;
    }
    if (there <= CRUMB_G || variance === 0) return true;
    const spread = Math.sqrt(variance) / there;
    const share = catchShare(when.chance, coversSpread, spread, 1, ...cutsVary(ledger, of.needs));
    return there * share >= needG - CRUMB_G - 1e-9 * needG;
  });
}
