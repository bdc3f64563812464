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

/** What stands in the observatory's store before the order is written. */
const stock: ServiceInput["stock"] = [
  {
    item: { ingredient: "pearl-barley" },
    amount: { value: 1.2, unit: "kg" },
    useBy: "2027-09-30",
    lot: "PB-0914",
  },
  { item: { ingredient: "sugar" }, amount: { value: 6, unit: "kg" }, useBy: "2028-12-31", lot: "SU-0377" },
  { item: { ingredient: "salt" }, amount: { value: 4, unit: "kg" }, useBy: "2029-12-31", lot: "SA-0102" },
  { item: { ingredient: "honey" }, amount: { value: 1.8, unit: "kg" }, useBy: "2028-03-31", lot: "HO-0551" },
  {
    item: { ingredient: "buckwheat-flour" },
    amount: { value: 0.7, unit: "kg" },
    useBy: "2027-05-31",
    lot: "BF-0210",
  },
  {
    item: { ingredient: "rapeseed-oil" },
    amount: { value: 3, unit: "L" },
    useBy: "2027-10-31",
    lot: "RO-0808",
  },
  { item: { ingredient: "brandy" }, amount: { value: 500, unit: "mL" }, useBy: "2029-12-31", lot: "BR-0043" },
  {
    item: { ingredient: "black-garlic" },
    amount: { value: 150, unit: "g" },
    useBy: "2027-04-15",
    lot: "BG-0019",
  },
];

const firstLight = {
  menu: "first-light",
  at: "2027-01-30T19:30",
  horizon: "D-2 06:00",
  priceAsOf: "2027-01-20",
  sellPerCover: "48.00",
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
