import { kelderVoss } from "./suppliers/kelder-voss.ts";
import { ossenbyDairy } from "./suppliers/ossenby-dairy.ts";
import { quernsideGreens } from "./suppliers/quernside-greens.ts";
import { saltbeckWines } from "./suppliers/saltbeck-wines.ts";
import { tarrenmoorProvisions } from "./suppliers/tarrenmoor-provisions.ts";
import type { SupplierInput } from "./types.ts";

/** Five invented suppliers; every price is invented and in euro. */
export const suppliers: SupplierInput[] = [
  ossenbyDairy,
  kelderVoss,
  quernsideGreens,
  tarrenmoorProvisions,
  saltbeckWines,
];
