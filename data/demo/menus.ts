import type { z } from "zod";
import type { MenuSchema } from "../../core/production/schema.ts";

export type MenuInput = z.input<typeof MenuSchema>;

/** The supper, and the one plate with which the rib is tried at the bench. */
export const menus: MenuInput[] = [
  {
    id: "first-light",
    name: "First Light supper",
    // Salt on the table and what the fryer drinks: on no plate of a formula, with every cover.
    surround: {
      items: [
        { item: { ingredient: "sea-salt-flakes" }, amount: { value: 0.8, unit: "g" } },
        { item: { ingredient: "rapeseed-oil" }, amount: { value: 6, unit: "g" } },
      ],
    },
    courses: [
      { id: "bread", name: "Bread", afterMin: 0, options: [{ dish: "bread-butter", share: 1 }] },
      { id: "char", name: "First", afterMin: 15, options: [{ dish: "char", share: 1 }] },
      { id: "soup", name: "Soup", afterMin: 48, options: [{ dish: "veloute", share: 1 }] },
      {
        id: "main",
        name: "Main",
        afterMin: 90,
        options: [
          { dish: "short-rib", share: 44 },
          { dish: "guinea-fowl", share: 21 },
          { dish: "pithivier", share: 0, for: ["vegetarian", "vegan"] },
        ],
      },
      { id: "dessert", name: "Dessert", afterMin: 135, options: [{ dish: "custard-tart", share: 1 }] },
    ],
  },
  {
    id: "bench-trial",
    name: "Bench trial: the rib plate",
    courses: [{ id: "main", name: "Main", afterMin: 0, options: [{ dish: "short-rib", share: 1 }] }],
  },
];
