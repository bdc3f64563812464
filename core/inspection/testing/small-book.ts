import type { BookInput } from "../../book/schema.ts";
import { INVENTED } from "./draw.ts";

/**
 * A small service with a bit of everything, worked through by hand in `small-result.ts`: ten covers, two courses, a
 * stock and a sauce that share a kettle, tarts in two batches of frozen berries, a gratin that wants the oven cooler.
 */
export function smallBook(): BookInput {
  const g = (value: number) => ({ value, unit: "g" as const });
  const known = (contains: ("gluten" | "wheat" | "milk")[] = []) => ({ status: "known" as const, contains });
  const cold = { state: "cold" as const, days: 5 };
  const position = { form: "mound" as const, xMm: 0, yMm: 0, gesture: "put" };
  const plate = { outline: "round" as const, widthMm: 280, depthMm: 25, wellMm: 200 };
  const one = { least: 1, most: 1, split: "each" as const };
  return {
    format: "tournant-book",
    version: 1,
    ingredients: [
      { id: "water", name: "Water", free: true, origin: ["mineral"], allergens: known(), storage: cold },
      { id: "bones", name: "Bones", origin: ["meat"], allergens: known(), storage: cold },
      { id: "flour", name: "Flour", origin: ["plant"], allergens: known(["gluten", "wheat"]), storage: cold },
      { id: "butter", name: "Butter", origin: ["dairy"], allergens: known(["milk"]), storage: cold },
      {
        id: "berries",
        name: "Berries",
        origin: ["plant"],
        allergens: known(),
        storage: { state: "frozen", days: 90 },
      },
      {
        ...{ id: "carrot", name: "Carrot", origin: ["plant"], allergens: known(), storage: cold },
        cuts: [{ id: "peeled", name: "Peeled", trimYield: 0.8, source: INVENTED }],
      },
    ],
    suppliers: [
      {
        ...{
          id: "market",
          name: "Market",
          deliveryDays: ["fri", "sat"],
          cutoff: { daysBefore: 1, clock: "12:00" },
        },
        arrivesBy: "07:00",
        offers: ["bones", "flour", "butter", "berries", "carrot"].map((ingredient) => ({
          ...{ id: `o-${ingredient}`, ingredient, inner: g(500), innerPerPack: 1, price: "4.00" },
        })),
      },
    ],
    preparations: [
      {
        ...{ id: "stock", name: "Stock", yield: { amount: g(4000) } },
        lines: [
          { id: "bones", item: { ingredient: "bones" }, amount: g(2000), step: "simmer" },
          { id: "water", item: { ingredient: "water" }, amount: g(4000), step: "simmer" },
        ],
        steps: [
          {
            ...{ id: "simmer", name: "Simmer", text: "Simmer.", change: { factor: 0.8, as: "evaporated" } },
            work: { fixedMin: 8, hands: one, skill: "prep", station: "hot" },
            passive: { min: 120 },
            attended: { min: 2, every: 50 },
            uses: [{ kind: "kettle", during: "both", space: { value: 1, unit: "litre" }, per: "kg" }],
          },
          {
            ...{
              id: "strain",
              name: "Strain",
              text: "Strain.",
              from: ["simmer"],
              discard: { factor: 1 / 6, as: "strain" },
            },
            work: { fixedMin: 12, hands: one, skill: "prep", station: "hot" },
            pull: [{ smallware: "GN 1/1 pan 65 mm", count: 1 }],
            hold: { state: "cold", maxMin: 1500 },
          },
        ],
        life: [{ state: "cold", maxMinutes: 4320 }],
      },
      {
        ...{ id: "sauce", name: "Sauce", yield: { amount: g(1000) }, overage: 0.1 },
        lines: [
          { id: "stock", item: { preparation: "stock" }, amount: g(1500), step: "reduce" },
          { id: "butter", item: { ingredient: "butter" }, amount: g(100), step: "reduce" },
        ],
        steps: [
          {
            ...{ id: "reduce", name: "Reduce", text: "Reduce.", change: { toAmount: g(1000) } },
            work: { fixedMin: 4, perKgMin: 2.5, hands: one, skill: "sauces", station: "hot" },
            passive: { min: 20 },
            uses: [{ kind: "kettle", during: "both", space: { value: 1, unit: "litre" }, per: "kg" }],
            hold: { state: "hot", maxMin: 120 },
          },
        ],
      },
      {
        ...{
          id: "tart",
          name: "Tart",
          yield: { amount: g(2000), pieces: 20 },
          batch: { maxPieces: 8, policy: "even" },
        },
        lines: [
          { id: "flour", item: { ingredient: "flour" }, amount: g(1000), step: "mix" },
          { id: "berries", item: { ingredient: "berries" }, amount: g(1000), step: "mix" },
        ],
        steps: [
          {
            ...{ id: "mix", name: "Mix", text: "Mix." },
            work: {
              ...{ fixedMin: 4, perPieceMin: 1, hands: { least: 1, most: 2, split: "divides" } },
              ...{ skill: "prep", station: "cold", interruptible: true },
            },
            uses: [{ kind: "mixer", during: "work", space: { value: 1, unit: "kg" }, per: "kg" }],
          },
          {
            ...{ id: "bake", name: "Bake", text: "Bake.", from: ["mix"], passive: { min: 30 } },
            after: [{ step: "mix", leastMin: 20, mostMin: 90 }],
            uses: [
              {
                kind: "combi",
                during: "passive",
                space: { value: 1, unit: "shelf" },
                setC: 180,
                toleranceC: 5,
              },
              { kind: "combi", during: "passive", space: { value: 1, unit: "kg" }, per: "kg", setC: 180 },
            ],
            hold: { state: "ambient", maxMin: 600 },
          },
        ],
      },
      {
        ...{ id: "gratin", name: "Gratin", yield: { amount: g(1000) } },
        lines: [
          { id: "carrot", item: { ingredient: "carrot", cut: "peeled" }, amount: g(900), step: "slice" },
          { id: "butter", item: { ingredient: "butter" }, amount: g(100), step: "slice" },
        ],
        steps: [
          {
            ...{ id: "slice", name: "Slice", text: "Slice." },
            work: { fixedMin: 12, hands: one, skill: "prep", station: "cold" },
          },
          {
            ...{ id: "bake", name: "Bake", text: "Bake.", from: ["slice"], passive: { min: 45 } },
            uses: [
              {
                kind: "combi",
                during: "passive",
                space: { value: 1, unit: "shelf" },
                setC: 150,
                toleranceC: 5,
              },
            ],
            hold: { state: "hot", maxMin: 90 },
          },
        ],
      },
    ],
    dishes: [
      {
        ...{ id: "meat", name: "Meat", description: "Meat.", plate, windowMin: 10 },
        placements: [
          { n: 1, preparation: "gratin", amount: g(100), seconds: 15, ...position },
          { n: 2, preparation: "sauce", amount: g(50), seconds: 10, ...position },
        ],
      },
      {
        ...{ id: "green", name: "Green", description: "Green.", plate, windowMin: 10 },
        placements: [{ n: 1, preparation: "gratin", amount: g(120), seconds: 12, ...position }],
      },
      {
        ...{ id: "tart", name: "Tart", description: "Tart.", plate, windowMin: 10 },
        placements: [
          { n: 1, preparation: "tart", amount: { value: 1, unit: "piece" }, seconds: 10, ...position },
        ],
        variants: [
          {
            need: "coeliac",
            drop: [1],
            add: [{ n: 2, ingredient: "carrot", cut: "peeled", amount: g(40), seconds: 8, ...position }],
          },
        ],
      },
    ],
    menus: [
      {
        ...{ id: "menu", name: "Menu" },
        courses: [
          {
            ...{ id: "main", name: "Main", afterMin: 0 },
            options: [
              { dish: "meat", share: 2 },
              { dish: "green", share: 1 },
            ],
          },
          { id: "dessert", name: "Dessert", afterMin: 40, options: [{ dish: "tart", share: 1 }] },
        ],
      },
    ],
    kitchens: [
      {
        ...{
          id: "kitchen",
          name: "Kitchen",
          zone: "Europe/London",
          altitudeM: 100,
          currency: "GBP",
          around: 0.25,
        },
        stations: ["hot", "cold", "pass"].map((id) => ({ id, name: id })),
        skills: ["prep", "sauces", "plating", "lead"].map((id) => ({ id, name: id })),
        crew: [
          { id: "ana", name: "Ana", skills: ["prep", "sauces", "plating", "lead"] },
          { id: "ben", name: "Ben", skills: ["prep", "sauces", "plating"] },
          { id: "cas", name: "Cas", skills: [] },
        ].map((person) => ({
          ...person,
          shifts: [{ from: "D 08:00", to: "D 22:00", breaks: [{ from: "D 14:00", to: "D 14:30" }] }],
        })),
        equipment: [
          {
            ...{ id: "kettle", name: "Kettle", kind: "kettle", count: 2, cleanMin: 15 },
            capacity: [{ unit: "litre", value: 10 }],
          },
          { id: "mixer", name: "Mixer", kind: "mixer", capacity: [{ unit: "kg", value: 2 }] },
          {
            ...{ id: "combi", name: "Combi", kind: "combi", rangeC: [30, 250], toleranceC: 5 },
            changeover: { perKMin: 0.5, leastMin: 10 },
            capacity: [
              { unit: "shelf", value: 3 },
              { unit: "kg", value: 5 },
            ],
          },
          {
            id: "cold-room",
            name: "Cold room",
            kind: "cold-room",
            capacity: [{ unit: "position", value: 2 }],
          },
        ],
        suppliers: ["market"],
      },
    ],
    services: [
      {
        ...{ id: "supper", name: "Supper", menu: "menu", kitchen: "kitchen", at: "2027-01-30T19:30" },
        ...{ horizon: "D-1 08:00", covers: 10, tasting: 1, priceAsOf: "2027-01-15" },
        guests: [
          { id: "greens", count: 1, needs: ["vegetarian"], choices: [{ course: "main", dish: "green" }] },
          { id: "wheatless", count: 1, needs: ["coeliac"], seat: "4" },
          { id: "eaters", count: 2, needs: [], choices: [{ course: "main", dish: "meat" }] },
        ],
        pins: [{ task: "stock/simmer/1", start: "D 09:00", crew: ["ana"], equipment: ["kettle#1"] }],
      },
    ],
  };
}
