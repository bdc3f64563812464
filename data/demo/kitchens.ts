import { banquet } from "./kitchens/banquet.ts";
import { corrieFell } from "./kitchens/corrie-fell.ts";
import { valley } from "./kitchens/valley.ts";
import type { KitchenInput } from "./types.ts";

/** The observatory, the smaller kitchen in the valley, and one that can serve seven hundred. */
export const kitchens: KitchenInput[] = [corrieFell, valley, banquet];
