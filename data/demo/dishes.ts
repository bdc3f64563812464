import type { z } from "zod";
import type { DishSchema } from "../../core/plating/schema.ts";

export type DishInput = z.input<typeof DishSchema>;
type PlacementInput = DishInput["placements"][number];

const g = (value: number) => ({ value, unit: "g" }) as const;
const COLD = { atMost: 8 };
const HOT = { atLeast: 60 };

/** The same place on the plate, with something else on it. */
function instead(
  of: PlacementInput,
  preparation: string,
  grams: number,
  changes: Partial<PlacementInput> = {},
): { n: number; placement: PlacementInput } {
  return { n: of.n, placement: { ...of, preparation, amount: g(grams), ...changes } };
}

const bread: PlacementInput = {
  n: 1,
  preparation: "sourdough",
  amount: g(53),
  form: "slice",
  sizeMm: [95, 55],
  xMm: -8,
  yMm: 6,
  turnDeg: 20,
  gesture: "lay the slice, crust away from the guest",
  seconds: 8,
};
const butter: PlacementInput = {
  n: 2,
  preparation: "cultured-butter",
  amount: g(14),
  form: "slice",
  sizeMm: [40, 40],
  xMm: 34,
  yMm: -28,
  gesture: "set the disc at the front right, paper off, a few flakes of salt on it",
  seconds: 6,
  serveC: { atLeast: 10, atMost: 17 },
};

const fish: PlacementInput = {
  n: 1,
  preparation: "salted-char",
  amount: g(55),
  form: "fan",
  count: 5,
  sizeMm: [62, 30],
  xMm: -14,
  yMm: 14,
  turnDeg: 15,
  gesture: "fold five slices loosely into one another in an arc, dark edge out",
  seconds: 18,
  serveC: COLD,
};
const sauce: PlacementInput = {
  n: 2,
  preparation: "horseradish-buttermilk",
  amount: g(30),
  form: "pool",
  sizeMm: [64, 58],
  xMm: 24,
  yMm: -26,
  gesture: "pour into the hollow before the fish, let it run to its edge",
  seconds: 6,
  serveC: COLD,
};
const crumb: PlacementInput = {
  n: 4,
  preparation: "rye-crumb",
  amount: g(8),
  form: "line",
  sizeMm: [80, 14],
  xMm: -30,
  yMm: 48,
  turnDeg: 15,
  gesture: "strew in one line behind the fish",
  seconds: 5,
};

const pear: PlacementInput = {
  n: 1,
  preparation: "dressed-pear",
  amount: g(20),
  form: "mound",
  sizeMm: [48, 44],
  xMm: 0,
  yMm: 10,
  gesture: "drain on the spoon, heap in the middle",
  seconds: 7,
};
const nutButter: PlacementInput = {
  n: 2,
  preparation: "hazelnut-brown-butter",
  amount: g(12),
  form: "pool",
  sizeMm: [42, 34],
  xMm: 0,
  yMm: -14,
  gesture: "stir up, one spoon before the pear",
  seconds: 6,
  serveC: { atLeast: 45 },
};
const soup: PlacementInput = {
  n: 3,
  preparation: "celeriac-veloute",
  amount: g(185),
  form: "pool",
  sizeMm: [140, 140],
  xMm: 0,
  yMm: 0,
  gesture: "froth, pour round the pear from the jug at the pass; the pear stands out of it",
  seconds: 12,
  serveC: HOT,
};

const grain: PlacementInput = {
  n: 1,
  preparation: "barley-kale",
  amount: g(120),
  form: "layer",
  sizeMm: [90, 90],
  xMm: -34,
  yMm: 14,
  gesture: "fill the ring level, lift",
  seconds: 12,
  serveC: HOT,
};
const rib: PlacementInput = {
  n: 2,
  preparation: "short-rib-glazed",
  amount: g(140),
  form: "slice",
  sizeMm: [84, 40],
  xMm: 18,
  yMm: 0,
  turnDeg: -20,
  gesture: "lean the block on the grain, glazed face up, grain towards the guest",
  seconds: 10,
  serveC: HOT,
};
const salsify: PlacementInput = {
  n: 3,
  preparation: "roast-salsify",
  amount: g(72),
  form: "line",
  count: 4,
  sizeMm: [70, 13],
  xMm: 30,
  yMm: 52,
  turnDeg: 10,
  gesture: "four sticks side by side behind the meat, the brownest on top",
  seconds: 9,
  serveC: HOT,
};
const jus: PlacementInput = {
  n: 4,
  preparation: "black-garlic-jus",
  amount: g(50),
  form: "pool",
  sizeMm: [74, 40],
  xMm: 26,
  yMm: -50,
  gesture: "one ladle over the front edge of the meat, let it pool",
  seconds: 6,
  serveC: HOT,
};
const noWineJus = instead(jus, "black-garlic-jus-without-alcohol", 50, {
  gesture: "from the marked pot with its own ladle, over the front edge, let it pool",
});
const noGlutenGrain = instead(grain, "buckwheat-kale", 120, {
  gesture: "from the marked pan, clean ring, level, lift",
});

const bird: PlacementInput = {
  ...rib,
  preparation: "guinea-fowl-crisped",
  amount: g(147),
  count: 2,
  sizeMm: [80, 30],
  gesture: "halve lengthways, lean the halves on the grain, one cut face and one skin up",
  seconds: 14,
  serveC: { atLeast: 55 },
};

const pie: PlacementInput = {
  n: 1,
  preparation: "pithivier",
  amount: g(191),
  form: "mound",
  sizeMm: [112, 112],
  xMm: -24,
  yMm: 12,
  gesture: "set whole, the scored middle up",
  seconds: 6,
  serveC: HOT,
};

const slice: PlacementInput = {
  n: 1,
  preparation: "burnt-honey-tart",
  amount: g(86),
  form: "slice",
  sizeMm: [102, 62],
  xMm: -20,
  yMm: 12,
  turnDeg: 90,
  gesture: "slide off the slice with the point towards the guest",
  seconds: 9,
  serveC: { atLeast: 8, atMost: 18 },
};
const quince: PlacementInput = {
  n: 2,
  preparation: "quince-brandy",
  amount: g(30),
  form: "mound",
  count: 2,
  sizeMm: [42, 16],
  xMm: 40,
  yMm: -22,
  turnDeg: 40,
  gesture: "two wedges leaning on one another, only the glaze that clings to them",
  seconds: 8,
};
const noAlcoholQuince = instead(quince, "quince-without-alcohol", 30, {
  gesture: "from the marked pot with its own spoon: two wedges leaning on one another",
});
const tuile: PlacementInput = {
  n: 3,
  preparation: "buckwheat-tuile",
  amount: g(6),
  form: "crisp",
  sizeMm: [88, 34],
  xMm: 34,
  yMm: 52,
  turnDeg: -30,
  gesture: "lean on the sorbet at the very end",
  seconds: 5,
};
const sorbet: PlacementInput = {
  n: 4,
  preparation: "yoghurt-sorbet",
  amount: g(34),
  form: "quenelle",
  sizeMm: [54, 28],
  xMm: 48,
  yMm: 24,
  turnDeg: -20,
  gesture: "one quenelle with a warm spoon, behind the quince, last but the wafer",
  seconds: 9,
  serveC: { atMost: -8 },
};

/** The plates of the First Light supper, with what changes on them for a guest's need. */
export const dishes: DishInput[] = [
  {
    id: "bread-butter",
    name: "Sourdough and cultured butter",
    description: "A slice of the day's loaf, butter from our own ripened cream.",
    plate: { outline: "round", name: "side plate", widthMm: 175, depthMm: 12, wellMm: 140 },
    placements: [bread, butter],
    variants: [
      { need: "coeliac", replace: [instead(bread, "buckwheat-loaf", 55, { sizeMm: [90, 60] })] },
      {
        need: "vegan",
        replace: [
          instead(butter, "bean-spread", 20, {
            form: "quenelle",
            sizeMm: [40, 22],
            gesture: "one quenelle at the front right",
            serveC: COLD,
          }),
        ],
      },
    ],
    windowMin: 25,
  },
  {
    id: "char",
    name: "Salted char, horseradish buttermilk, cucumber",
    description: "Farmed char salted with plain salt and served raw, with horseradish, dill and toasted rye.",
    plate: {
      outline: "round",
      name: "coupe plate, chilled",
      widthMm: 270,
      depthMm: 28,
      wellMm: 190,
      plateC: 6,
    },
    placements: [
      fish,
      sauce,
      {
        n: 3,
        preparation: "pickled-cucumber",
        amount: g(26),
        form: "mound",
        count: 4,
        sizeMm: [40, 8],
        xMm: 44,
        yMm: 22,
        turnDeg: -30,
        gesture: "four batons, drained, stacked crosswise",
        seconds: 8,
        serveC: COLD,
      },
      crumb,
      {
        n: 5,
        preparation: "dill-oil",
        amount: g(5),
        form: "dot",
        count: 5,
        sizeMm: [8, 8],
        xMm: 24,
        yMm: -30,
        gesture: "five drops into the buttermilk",
        seconds: 5,
        serveC: COLD,
      },
      {
        n: 6,
        ingredient: "dill",
        cut: "picked-fine",
        amount: g(1),
        form: "mound",
        count: 3,
        sizeMm: [22, 14],
        xMm: -6,
        yMm: 20,
        gesture: "three tips on the fish",
        seconds: 5,
      },
    ],
    variants: [
      {
        need: "pregnant",
        replace: [
          instead(fish, "cooked-char", 55, {
            count: 1,
            form: "slice",
            sizeMm: [70, 42],
            gesture: "one block, flaked in three along its lines, from the marked tray",
            seconds: 12,
          }),
        ],
      },
      {
        need: "vegetarian",
        replace: [instead(fish, "salt-baked-carrot", 60, { gesture: "fold five slices loosely in an arc" })],
      },
      {
        need: "vegan",
        replace: [
          instead(fish, "salt-baked-carrot", 60, { gesture: "fold five slices loosely in an arc" }),
          instead(sauce, "horseradish-seed-cream", 30, {
            gesture: "from the marked bottle, into the hollow",
          }),
        ],
      },
      { need: "coeliac", replace: [instead(crumb, "buckwheat-crumb", 8)] },
    ],
    windowMin: 30,
  },
  {
    id: "veloute",
    name: "Celeriac velouté, hazelnut brown butter, pear",
    description:
      "A smooth soup of celeriac with cream and no flour, over raw pear and brown butter with hazelnuts.",
    plate: { outline: "bowl", name: "soup bowl, warmed", widthMm: 230, depthMm: 48, wellMm: 150, plateC: 60 },
    placements: [pear, nutButter, soup],
    variants: [
      {
        need: "no-tree-nut",
        replace: [
          instead(nutButter, "pumpkin-seed-dressing", 12, {
            gesture: "from the marked pot, one spoon before the pear",
            serveC: { atLeast: 15 },
          }),
        ],
      },
      {
        need: "vegan",
        replace: [
          instead(nutButter, "pumpkin-seed-dressing", 12, {
            gesture: "from the marked pot, one spoon before the pear",
            serveC: { atLeast: 15 },
          }),
          instead(soup, "celeriac-veloute-vegan", 185, {
            gesture: "froth, pour from the marked jug round the pear",
          }),
        ],
      },
    ],
    windowMin: 14,
  },
  {
    id: "short-rib",
    name: "Braised short rib, black-garlic jus, barley and kale, salsify",
    description:
      "Beef salted overnight, braised on the bone and glazed; barley and kale, roast salsify, a jus with red wine.",
    plate: {
      outline: "round",
      name: "main plate, warmed",
      widthMm: 295,
      depthMm: 26,
      wellMm: 210,
      plateC: 60,
    },
    placements: [grain, rib, salsify, jus],
    variants: [
      { need: "coeliac", replace: [noGlutenGrain] },
      { need: "no-alcohol", replace: [noWineJus] },
      { need: "pregnant", replace: [noWineJus] },
    ],
    windowMin: 16,
  },
  {
    id: "guinea-fowl",
    name: "Guinea-fowl breast, black-garlic jus, barley and kale, salsify",
    description:
      "The breast cooked gently to 63 °C, its skin crisped in the pan; barley and kale, roast salsify, a jus with red wine.",
    plate: {
      outline: "round",
      name: "main plate, warmed",
      widthMm: 295,
      depthMm: 26,
      wellMm: 210,
      plateC: 60,
    },
    placements: [grain, bird, salsify, jus],
    variants: [
      { need: "coeliac", replace: [noGlutenGrain] },
      { need: "no-alcohol", replace: [noWineJus] },
    ],
    windowMin: 16,
  },
  {
    id: "pithivier",
    name: "Mushroom and barley pithivier, black garlic, buckwheat and kale, salsify",
    description:
      "Farmed mushrooms and barley in butter puff pastry; buckwheat and kale, roast salsify, a jus of mushrooms.",
    plate: {
      outline: "round",
      name: "main plate, warmed",
      widthMm: 295,
      depthMm: 26,
      wellMm: 210,
      plateC: 60,
    },
    placements: [
      pie,
      {
        ...grain,
        n: 2,
        preparation: "buckwheat-kale",
        amount: g(80),
        sizeMm: [80, 80],
        xMm: 50,
        yMm: -28,
        seconds: 10,
      },
      { ...salsify, xMm: 44, yMm: 56 },
      {
        ...jus,
        preparation: "mushroom-jus",
        amount: g(50),
        xMm: -20,
        yMm: -66,
        gesture: "one ladle of the marked pot before the pastry, not on it",
      },
    ],
    variants: [
      {
        need: "coeliac",
        replace: [
          instead(pie, "mushroom-bean-parcel", 180, {
            sizeMm: [88, 88],
            gesture: "set whole, seam down, brush with oil",
          }),
        ],
      },
      {
        need: "vegan",
        replace: [
          instead(pie, "mushroom-bean-parcel", 180, {
            sizeMm: [88, 88],
            gesture: "set whole, seam down, brush with oil",
          }),
        ],
      },
    ],
    windowMin: 16,
  },
  {
    id: "custard-tart",
    name: "Burnt-honey custard tart, quince, buckwheat, yoghurt sorbet",
    description:
      "Custard of honey taken to the edge of bitter; quince with brandy, a buckwheat wafer, yoghurt sorbet.",
    plate: {
      outline: "round",
      name: "dessert plate, cool",
      widthMm: 265,
      depthMm: 22,
      wellMm: 190,
      plateC: 16,
    },
    placements: [slice, quince, tuile, sorbet],
    variants: [
      {
        need: "coeliac",
        replace: [
          instead(slice, "burnt-honey-tartlet", 86, {
            sizeMm: [80, 80],
            gesture: "set the tartlet, marked tray",
            turnDeg: 0,
          }),
        ],
      },
      {
        need: "vegan",
        replace: [
          instead(slice, "burnt-sugar-tartlet", 86, {
            sizeMm: [80, 80],
            gesture: "set the tartlet, marked tray",
            turnDeg: 0,
            serveC: { atMost: 18 },
          }),
          instead(sorbet, "pear-sorbet", 34, { gesture: "one quenelle from the marked box, clean spoon" }),
        ],
      },
      { need: "no-alcohol", replace: [noAlcoholQuince] },
      { need: "pregnant", replace: [noAlcoholQuince] },
    ],
    windowMin: 18,
  },
];
