import type { SupplierInput } from "../types.ts";
import { pack } from "./pack.ts";

/** Wines and spirits for the kitchen. Invented, prices too. */
export const saltbeckWines = {
  id: "saltbeck-wines",
  name: "Saltbeck Wines",
  minimumOrder: "50.00",
  deliveryCharge: "10.00",
  deliveryDays: ["tue", "fri"],
  cutoff: { daysBefore: 3, clock: "10:00" },
  arrivesBy: "11:00",
  offers: [
    pack("sw-red-wine-5l", "red-wine", 1, 5, "L", "18.50"),
    pack("sw-red-wine-6x750ml", "red-wine", 6, 750, "mL", "27.00"),
    pack("sw-red-wine-750ml", "red-wine", 1, 750, "mL", "4.90"),
    pack("sw-white-wine-5l", "white-wine", 1, 5, "L", "17.90"),
    pack("sw-white-wine-750ml", "white-wine", 1, 750, "mL", "4.80"),
    pack("sw-dry-vermouth-1l", "dry-vermouth", 1, 1, "L", "9.20"),
    pack("sw-port-750ml", "port", 1, 750, "mL", "11.50"),
    pack("sw-madeira-750ml", "madeira", 1, 750, "mL", "12.90"),
    pack("sw-brandy-700ml", "brandy", 1, 700, "mL", "14.80"),
    pack("sw-brandy-6x700ml", "brandy", 6, 700, "mL", "84.00"),
  ],
} satisfies SupplierInput;
