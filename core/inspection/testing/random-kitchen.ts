import type { Random } from "../../numerics/random.ts";
import { between, chance, type Docs } from "./draw.ts";

export const SKILLS = ["prep", "hot", "cold", "pastry"] as const;
export const STATIONS = ["store", "hot", "cold", "pass"] as const;

type Piece = Docs<"kitchens">["equipment"][number];

/** Three kitchens of growing size with the same kinds of equipment, stations and skills. */
export function randomKitchens(random: Random, suppliers: readonly string[]): Docs<"kitchens">[] {
  return (["small", "middle", "large"] as const).map((id, i) =>
    kitchen(random.derive(id), id, i + 1, suppliers),
  );
}

function kitchen(random: Random, id: string, size: number, suppliers: readonly string[]): Docs<"kitchens"> {
  const zones = ["Europe/London", "Europe/Zurich", "America/New_York", "Asia/Tokyo"] as const;
  return {
    ...{
      id,
      name: `Kitchen ${size}`,
      zone: random.pick(zones),
      altitudeM: between(random, 0, 1500),
      currency: "EUR",
    },
    stations: STATIONS.map((station) => ({ id: station, name: station })),
    skills: [...SKILLS, "plating", "lead"].map((skill) => ({ id: skill, name: skill })),
    crew: Array.from({ length: 3 + 3 * size }, (_, k) => person(random, k)),
    equipment: equipmentOf(random, size),
    walk: chance(random, 0.5) ? [{ from: "store", to: "hot", min: 1 }] : [],
    around: random.pick([0, 0.1, 0.22, 0.25]),
    suppliers: [...suppliers],
  };
}

function person(random: Random, k: number): Docs<"kitchens">["crew"][number] {
  const days = ["D-2", "D-1", "D"].filter((day, i) => i > 0 || chance(random, 0.5) || day === "D");
  return {
    ...{ id: `cook-${k + 1}`, name: `Cook ${k + 1}` },
    // The first two can do everything, so that no skill is quite missing.
    skills: k < 2 ? [...SKILLS, "plating", "lead"] : ["prep", random.pick(SKILLS), "plating"],
    ...(chance(random, 0.6) ? { station: random.pick(STATIONS) } : {}),
    shifts: days.map((day) => {
      const from = between(random, 7, 11);
      const rest = from + 4;
      const clock = (hour: number, minute = "00") => `${day} ${String(hour).padStart(2, "0")}:${minute}`;
      return {
        from: clock(from),
        to: day === "D" ? clock(23, "30") : clock(from + 9),
        breaks: [{ from: clock(rest), to: clock(rest, "30") }],
      };
    }),
  };
}

function equipmentOf(random: Random, size: number): Piece[] {
  const oven = (id: string, count: number, shelves: number): Piece => ({
    ...{ id, name: id, kind: id, station: "hot", count },
    capacity: [
      { unit: "shelf", value: shelves },
      { unit: "kg", value: shelves * 5 },
    ],
    rangeC: [30, 280],
    changeover: { perKMin: random.pick([0.1, 0.2]), leastMin: random.pick([0, 5]) },
    toleranceC: random.pick([0, 5]),
  });
  return [
    oven("combi", size, 5 * size),
    oven("deck", 1, 4),
    {
      ...{ id: "burners", name: "Burners", kind: "burner" },
      capacity: [{ unit: "burner", value: 3 + 2 * size }],
    },
    {
      ...{ id: "kettle", name: "Kettle", kind: "kettle", count: size, cleanMin: random.pick([0, 10]) },
      capacity: [{ unit: "litre", value: 30 * size }],
      rangeC: [30, 120],
    },
    {
      ...{ id: "mixer", name: "Mixer", kind: "mixer", count: size, cleanMin: random.pick([0, 5]) },
      capacity: [{ unit: "kg", value: 8 * size }],
    },
    {
      ...{ id: "chiller", name: "Chiller", kind: "chiller", maxDepthMm: 50 },
      capacity: [
        { unit: "kg", value: 15 * size },
        { unit: "position", value: 5 * size },
      ],
    },
    { ...{ id: "bench", name: "Bench", kind: "bench" }, capacity: [{ unit: "piece", value: 4 * size }] },
    {
      ...{ id: "cold-room", name: "Cold room", kind: "cold-room" },
      capacity: [{ unit: "position", value: 40 * size }],
    },
    {
      ...{ id: "freezer", name: "Freezer", kind: "freezer" },
      capacity: [{ unit: "position", value: 12 * size }],
    },
    {
      ...{ id: "hot-cabinet", name: "Hot cabinet", kind: "hot-cabinet" },
      capacity: [{ unit: "position", value: 8 * size }],
      ...(chance(random, 0.3) ? { days: [{ from: "D-1 06:00", to: "D 23:59" }] } : {}),
    },
  ];
}
