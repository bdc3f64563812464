import type { KitchenInput } from "../types.ts";
import { can, shift } from "./common.ts";

type Person = KitchenInput["crew"][number];
type Day = "D-2" | "D-1" | "D";

const early = (day: Day) => shift(day, "07:00", "16:00", ["11:30", "12:00"], ["14:00", "14:15"]);
const late = (day: Day) => shift(day, "10:00", "19:00", ["13:30", "14:00"], ["16:30", "16:45"]);
const evening = (sitting: number) =>
  shift(
    "D",
    "12:00",
    "23:30",
    ["15:00", "15:15"],
    sitting % 2 === 0 ? ["16:45", "17:15"] : ["17:15", "17:45"],
  );
const baking = shift("D", "07:00", "17:30", ["11:30", "12:00"], ["15:00", "15:30"]);

/** So many alike: the first `d2` of them also work on D-2, the first `d1` also on D-1. */
function team(
  id: string,
  name: string,
  station: string,
  skills: string[],
  count: number,
  d2: number,
  d1: number,
) {
  return Array.from({ length: count }, (_, i): Person => {
    const shifts = [evening(i)];
    if (i < d1) shifts.unshift(i % 2 === 0 ? early("D-1") : late("D-1"));
    if (i < d2) shifts.unshift(i % 2 === 0 ? late("D-2") : early("D-2"));
    return { id: `${id}-${i + 1}`, name: `${name} ${i + 1}`, skills, station, shifts };
  });
}

/** Forty-eight people on the day, thirty the day before, eighteen two days before. */
export const banquetCrew: Person[] = [
  ...team("chef", "Chef", "pass", can.chef, 2, 1, 2),
  ...team("sauce", "Sauce cook", "sauce", can.sauce, 6, 4, 5),
  ...team("roast", "Roast cook", "roast", can.roast, 6, 2, 4),
  ...team("larder", "Larder cook", "larder", can.larder, 5, 4, 5),
  ...team("cold", "Cold cook", "garde-manger", can.cold, 6, 2, 4),
  ...team("veg", "Vegetable cook", "veg", can.veg, 6, 1, 4),
  ...team("pastry", "Pastry cook", "pastry", can.pastry, 6, 2, 4),
  ...[1, 2, 3].map(
    (n): Person => ({
      id: `baker-${n}`,
      name: `Baker ${n}`,
      skills: can.baker,
      station: "bakery",
      shifts: n === 1 ? [late("D-2"), early("D-1"), baking] : [early("D-1"), baking],
    }),
  ),
  ...team("commis", "Commis", "pass", can.commis, 8, 1, 0),
];
