import type { ServiceInput } from "./types.ts";

type Guest = NonNullable<ServiceInput["guests"]>[number];
type Need = Guest["needs"][number];

/** One person at a seat: "3-2" is the second seat of the third table. */
function seat(at: string, main: string, ...needs: Need[]): Guest {
  return { id: `seat-${at}`, count: 1, seat: at, needs, choices: [{ course: "main", dish: main }] };
}

/** Fifteen people with needs at nine tables of eight; the other fifty-seven follow the shares. */
const guests: Guest[] = [
  seat("1-3", "pithivier", "vegetarian"),
  seat("1-4", "pithivier", "vegetarian"),
  seat("4-7", "pithivier", "vegetarian"),
  seat("6-1", "pithivier", "vegetarian"),
  seat("8-5", "pithivier", "vegetarian"),
  seat("3-2", "pithivier", "vegetarian", "coeliac"),
  seat("6-2", "pithivier", "vegan"),
  seat("2-6", "short-rib", "coeliac"),
  seat("7-4", "guinea-fowl", "coeliac"),
  seat("5-1", "short-rib", "no-tree-nut"),
  seat("9-8", "guinea-fowl", "no-tree-nut"),
  seat("2-1", "short-rib", "no-alcohol"),
  seat("2-2", "guinea-fowl", "no-alcohol"),
  seat("7-7", "short-rib", "no-alcohol"),
  seat("4-8", "short-rib", "no-alcohol", "pregnant"),
];

/** The same needs at seven hundred covers, in the same proportion. */
function group(id: string, count: number, main: string, ...needs: Need[]): Guest {
  return { id, count, needs, choices: [{ course: "main", dish: main }] };
}
const manyGuests: Guest[] = [
  group("vegetarians", 49, "pithivier", "vegetarian"),
  group("vegetarian-coeliacs", 10, "pithivier", "vegetarian", "coeliac"),
  group("vegans", 10, "pithivier", "vegan"),
  group("coeliacs-rib", 10, "short-rib", "coeliac"),
  group("coeliacs-fowl", 9, "guinea-fowl", "coeliac"),
  group("no-nuts-rib", 10, "short-rib", "no-tree-nut"),
  group("no-nuts-fowl", 9, "guinea-fowl", "no-tree-nut"),
  group("no-alcohol-rib", 20, "short-rib", "no-alcohol"),
  group("no-alcohol-fowl", 10, "guinea-fowl", "no-alcohol"),
  group("pregnant", 9, "short-rib", "no-alcohol", "pregnant"),
];

/** One thing in the store: how much, until when, and the lot on its pack. */
function kept(
  ingredient: string,
  value: number,
  unit: "g" | "kg" | "mL" | "L" | "piece",
  useBy: string,
  lot: string,
): NonNullable<ServiceInput["stock"]>[number] {
  return { item: { ingredient }, amount: { value, unit }, useBy, lot };
}

/** What stands in the observatory's store before the order is written: dry goods, and opened bottles. */
const stock: ServiceInput["stock"] = [
  kept("pearl-barley", 1.2, "kg", "2027-09-30", "PB-0914"),
  kept("sugar", 6, "kg", "2028-12-31", "SU-0377"),
  kept("salt", 4, "kg", "2029-12-31", "SA-0102"),
  kept("sea-salt-flakes", 350, "g", "2029-12-31", "SF-0031"),
  kept("honey", 1.8, "kg", "2028-03-31", "HO-0551"),
  kept("glucose-syrup", 700, "g", "2028-02-28", "GL-0120"),
  kept("buckwheat-flour", 0.7, "kg", "2027-05-31", "BF-0210"),
  kept("rice-flour", 600, "g", "2027-08-31", "RF-0088"),
  kept("potato-starch", 450, "g", "2028-01-31", "PS-0046"),
  kept("maize-starch", 300, "g", "2028-01-31", "MS-0052"),
  kept("psyllium", 120, "g", "2027-07-31", "PY-0017"),
  kept("rye-flour", 900, "g", "2027-05-31", "RY-0303"),
  kept("dry-yeast", 180, "g", "2027-06-30", "DY-0075"),
  kept("agar", 60, "g", "2028-06-30", "AG-0009"),
  kept("xanthan", 70, "g", "2028-06-30", "XA-0012"),
  kept("sorbet-stabiliser", 240, "g", "2027-12-31", "SS-0040"),
  kept("rapeseed-oil", 3, "L", "2027-10-31", "RO-0808"),
  kept("sunflower-oil", 800, "mL", "2027-10-31", "SO-0415"),
  kept("clarified-fat-veg", 600, "mL", "2027-09-30", "FF-0061"),
  kept("cider-vinegar", 1.4, "L", "2028-10-31", "CV-0210"),
  kept("verjus", 300, "mL", "2027-04-30", "VJ-0018"),
  kept("brandy", 500, "mL", "2029-12-31", "BR-0043"),
  kept("red-wine", 2.25, "L", "2029-12-31", "RW-0190"),
  kept("black-garlic", 150, "g", "2027-04-15", "BG-0019"),
  kept("dried-shiitake", 120, "g", "2027-11-30", "SH-0027"),
  kept("bay-leaf", 30, "g", "2027-12-31", "BL-0005"),
  kept("black-pepper", 150, "g", "2027-12-31", "BP-0081"),
  kept("white-pepper", 60, "g", "2027-12-31", "WP-0033"),
  kept("juniper", 40, "g", "2027-12-31", "JU-0014"),
  kept("star-anise", 45, "g", "2027-12-31", "SR-0022"),
  kept("coriander-seed", 90, "g", "2027-12-31", "CO-0067"),
  kept("fennel-seed", 110, "g", "2027-12-31", "FE-0058"),
  kept("caraway", 100, "g", "2027-12-31", "CA-0049"),
];

const firstLight = {
  menu: "first-light",
  at: "2027-01-30T19:30",
  horizon: "D-2 06:00",
  priceAsOf: "2027-01-20",
  sellPerCover: "48.00",
  pricing: { wantedShare: 0.25, step: "0.50" },
  budgetPerCover: "14.00",
} as const;

/** The supper, the same for seven hundred in two kitchens, and one plate at the bench. */
export const services: ServiceInput[] = [
  {
    id: "demo",
    name: "First Light supper",
    ...firstLight,
    kitchen: "corrie-fell",
    covers: 72,
    guests,
    tasting: 2,
    stock,
  },
  {
    id: "demo-700",
    name: "First Light for seven hundred, at the observatory",
    ...firstLight,
    kitchen: "corrie-fell",
    covers: 700,
    guests: manyGuests,
    tasting: 4,
    stock,
  },
  {
    id: "demo-banquet",
    name: "First Light for seven hundred, in the banquet kitchen",
    ...firstLight,
    kitchen: "banquet",
    covers: 700,
    guests: manyGuests,
    tasting: 4,
  },
  {
    id: "bench-trial",
    name: "Bench trial, one plate",
    menu: "bench-trial",
    kitchen: "corrie-fell",
    at: "2027-01-13T18:00",
    horizon: "D-2 06:00",
    covers: 1,
    priceAsOf: "2027-01-11",
  },
];
