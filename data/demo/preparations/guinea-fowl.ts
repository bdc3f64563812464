import { cold, g, HOUR, invented, made, of, on, type PreparationInput, pull, work } from "./words.ts";

/** Main course, the bird: cooked slowly in the bath, crisped to order. */
export const guineaFowl: PreparationInput[] = [
  {
    id: "guinea-fowl-bath",
    name: "Guinea-fowl breast from the water bath",
    description: "Below 74 °C: it needs the authority's variance and a plan for reduced-oxygen packing.",
    yield: { amount: g(3850), pieces: 24 },
    lines: [
      of("guinea-fowl-breast", 4080, "salt", { cut: "trimmed" }),
      of("salt", 45, "salt"),
      of("butter", 120, "bag"),
      of("thyme", 12, "bag"),
    ],
    steps: [
      {
        id: "salt",
        name: "Trim and salt",
        text: "Trim, scrape the wing bone, even the thickness at 32 mm. Salt with 1.1 %, skin up on racks, uncovered, cold room over the night: the skin must dry.",
        change: { factor: 0.99, as: "drained", source: invented },
        work: work("larder", "butchery", { fixed: 6, perPiece: 1.6, most: 4, breaks: true }),
        passive: { min: 12 * HOUR },
        uses: [on("cold-room", 0.48, "position", { per: "kg", during: "passive" })],
        pull: [pull("GN 1/1 tray with rack, 65 mm", 2)],
        hold: cold(30 * HOUR),
      },
      {
        id: "bag",
        name: "Bag",
        text: "Three to a bag in one layer, butter and thyme, seal at 98 %. Label each bag with its time.",
        from: ["salt"],
        work: work("larder", "vacuum", { fixed: 6, perPiece: 0.9, most: 2 }),
        uses: [on("sealer", 3, "kg")],
        pull: [pull("vacuum bag, 250 × 350 mm", 0.34, "piece")],
        hold: cold(10 * HOUR),
      },
      {
        id: "bath",
        name: "Water bath",
        text: "Bath at 64.5 °C, bags clipped apart, water over them. Start the clock when the bath is back at 64.5 °C. When the log shows core and hold, turn down to 60 °C: the bags wait in it.",
        from: ["bag"],
        change: { factor: 0.915, as: "drained", source: invented },
        work: work("roast", "vacuum", { fixed: 6 }),
        target: {
          startC: 4,
          stages: [
            { name: "to the core", medium: "water-bath", mediumC: 64.5, coefficient: 150, untilCoreC: 63 },
            { name: "hold", medium: "water-bath", mediumC: 64.5, coefficient: 150, minutes: 15 },
          ],
          spread: { thicknessMm: 2, startC: 1, mediumC: 0.3, coefficient: 0.2 },
        },
        uses: [on("bath", 1, "kg", { per: "kg", setC: 64.5, toleranceC: 0.5 })],
        pull: [pull("probe with foam seal", 1), pull("bag clip", 0.34, "piece")],
        hold: { state: "hot", maxMin: 100, atLeastC: 60 },
        control: {
          hazard: "Salmonella, Campylobacter and Listeria in a bird below 74 °C",
          limit: { what: "coreC", op: ">=", value: 63 },
          and: [{ what: "minutes", op: ">=", value: 15 }],
          level: "critical",
          localLimit:
            "variance and HACCP plan for cooking below 74 °C and for reduced-oxygen packing (Food Code 3-502.11)",
          monitor: "Needle probe through the foam seal in the thickest breast; bath recorder.",
          corrective:
            "Bath below 63 °C: bring back and start the hold again. No record: cook to 74 °C or discard.",
          record: "Bath log: bag, core, start and end of the hold.",
          source: {
            doc: "FSIS-GD-2021-14",
            table: "chicken, 7 log, 12 % fat (no table names guinea fowl)",
            kind: "published",
          },
        },
      },
    ],
    batch: { maxAmount: { value: 19, unit: "kg" }, maxPieces: 120, vessel: "bath, a quarter of its litres" },
    piece: { kind: "slab", thicknessMm: 32 },
    life: [{ state: "hot", maxMinutes: 110, atLeastC: 60 }],
    density: { kgPerL: 1.05, source: invented },
    specification: [{ what: "salt", least: 0.9, most: 1.2, unit: "%" }],
  },
  {
    id: "guinea-fowl-crisped",
    name: "Guinea-fowl breast, crisped",
    yield: { amount: g(3530), pieces: 24 },
    lines: [
      made("guinea-fowl-bath", 3850, "crisp"),
      of("clarified-fat-veg", 60, "crisp"),
      of("sea-salt-flakes", 10, "crisp"),
    ],
    steps: [
      {
        id: "crisp",
        name: "Crisp the skin",
        text: "Open the bags as they are needed, wipe very dry. Skin down in a thin film of fat, press 20 s, 4 min until like glass; turn for 10 s. Two cooks at once, so that none waits long. Rest skin up on a rack, salt, halve lengthways at the pass.",
        change: { factor: 0.9, as: "evaporated", source: invented },
        work: work("roast", "hot", { fixed: 6, perPiece: 1.3, least: 2, most: 5 }),
        uses: [on("burner", 0.06, "burner", { per: "piece" })],
        pull: [pull("iron pan, 360 mm", 0.06, "piece"), pull("rack, 400 mm", 2)],
        hold: { state: "hot", maxMin: 30, atLeastC: 57 },
      },
    ],
    batch: {
      maxAmount: { value: 12, unit: "kg" },
      maxPieces: 75,
      vessel: "iron pans, four breasts each, by rounds",
    },
    overage: 0.03,
    life: [{ state: "hot", maxMinutes: 60, atLeastC: 57 }],
    bestWithinMinutes: 15,
    density: { kgPerL: 1.05, source: invented },
  },
];
