import type { SupplierInput } from "../types.ts";
import { pack } from "./pack.ts";

/** Meat, birds, bones and fish; most of it by catch weight. Invented, prices too. */
export const kelderVoss = {
  id: "kelder-voss",
  name: "Kelder and Voss, meat and fish",
  minimumOrder: "150.00",
  deliveryCharge: "12.00",
  deliveryDays: ["tue", "thu", "fri"],
  cutoff: { daysBefore: 2, clock: "12:00" },
  arrivesBy: "10:15",
  offers: [
    pack("kv-char-fillet-10x450g", "char-fillet", 10, 450, "g", "162.00", {
      breaks: [{ fromPacks: 6, price: "156.00" }],
      catchWeight: true,
    }),
    pack("kv-char-fillet-2x450g", "char-fillet", 2, 450, "g", "35.10", { catchWeight: true }),
    pack("kv-short-rib-4x1600g", "short-rib", 4, 1600, "g", "115.20", {
      breaks: [{ fromPacks: 4, price: "110.40" }],
      catchWeight: true,
    }),
    pack("kv-short-rib-1600g", "short-rib", 1, 1600, "g", "31.00", { catchWeight: true }),
    pack("kv-guinea-fowl-breast-10x180g", "guinea-fowl-breast", 10, 180, "g", "52.20", {
      breaks: [{ fromPacks: 5, price: "49.80" }],
      catchWeight: true,
    }),
    pack("kv-guinea-fowl-breast-2x180g", "guinea-fowl-breast", 2, 180, "g", "11.10", { catchWeight: true }),
    pack("kv-guinea-fowl-crown-6x620g", "guinea-fowl-crown", 6, 620, "g", "63.20", { catchWeight: true }),
    pack("kv-guinea-fowl-bones-5kg", "guinea-fowl-bones", 1, 5, "kg", "9.50"),
    pack("kv-chicken-bones-10kg", "chicken-bones", 1, 10, "kg", "14.00"),
    pack("kv-chicken-bones-5kg", "chicken-bones", 1, 5, "kg", "8.00"),
    pack("kv-veal-bones-10kg", "veal-bones", 1, 10, "kg", "26.00"),
    pack("kv-veal-bones-5kg", "veal-bones", 1, 5, "kg", "13.50"),
    pack("kv-beef-bones-10kg", "beef-bones", 1, 10, "kg", "18.50"),
    pack("kv-beef-bones-5kg", "beef-bones", 1, 5, "kg", "10.50"),
    pack("kv-beef-trim-2-5kg", "beef-trim", 1, 2.5, "kg", "27.50", { catchWeight: true }),
    pack("kv-calf-foot-4x700g", "calf-foot", 4, 700, "g", "13.20"),
    pack("kv-calf-foot-700g", "calf-foot", 1, 700, "g", "3.60"),
  ],
} satisfies SupplierInput;
