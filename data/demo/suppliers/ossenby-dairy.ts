import type { SupplierInput } from "../types.ts";
import { pack } from "./pack.ts";

/** Milk, cream, butter, cheese and eggs. Invented, prices too. */
export const ossenbyDairy = {
  id: "ossenby-dairy",
  name: "Ossenby Dairy",
  minimumOrder: "90.00",
  deliveryCharge: "8.50",
  deliveryDays: ["tue", "thu", "sat"],
  cutoff: { daysBefore: 1, clock: "14:00" },
  arrivesBy: "10:15",
  offers: [
    pack("od-butter-20x250g", "butter", 20, 250, "g", "41.50", {
      breaks: [{ fromPacks: 4, price: "39.80" }],
    }),
    pack("od-butter-4x250g", "butter", 4, 250, "g", "9.20"),
    pack("od-butter-10x1kg-winter", "butter", 10, 1, "kg", "72.00", { until: "2027-01-15" }),
    pack("od-cream-6x1l", "cream", 6, 1, "L", "29.40"),
    pack("od-cream-5l", "cream", 1, 5, "L", "22.90", { breaks: [{ fromPacks: 6, price: "21.80" }] }),
    pack("od-cream-1l", "cream", 1, 1, "L", "5.20"),
    pack("od-milk-10l", "milk", 1, 10, "L", "12.20"),
    pack("od-milk-1l", "milk", 1, 1, "L", "1.45"),
    pack("od-buttermilk-6x1l", "buttermilk", 6, 1, "L", "9.90"),
    pack("od-buttermilk-1l", "buttermilk", 1, 1, "L", "1.85"),
    pack("od-creme-fraiche-1kg", "creme-fraiche", 1, 1, "kg", "5.60"),
    pack("od-yoghurt-5kg", "yoghurt", 1, 5, "kg", "13.90"),
    pack("od-yoghurt-1kg", "yoghurt", 1, 1, "kg", "3.20"),
    pack("od-butter-culture-10g", "butter-culture", 1, 10, "g", "6.90"),
    pack("od-hard-cheese-2kg", "hard-cheese", 1, 2, "kg", "37.00", { catchWeight: true }),
    pack("od-hard-cheese-500g", "hard-cheese", 1, 500, "g", "10.40", { catchWeight: true }),
    pack("od-eggs-30piece", "eggs", 1, 30, "piece", "8.10"),
    pack("od-eggs-180piece", "eggs", 1, 180, "piece", "43.20", {
      breaks: [{ fromPacks: 5, price: "41.40" }],
    }),
    pack("od-egg-yolk-past-1kg", "egg-yolk-past", 1, 1, "kg", "9.80"),
    pack("od-egg-white-past-1kg", "egg-white-past", 1, 1, "kg", "4.70"),
    pack("od-whole-egg-past-1kg", "whole-egg-past", 1, 1, "kg", "4.90"),
  ],
} satisfies SupplierInput;
