import { Finder } from "../core/book/find.ts";
import { linkRecipe, PantryIndex, readListFile, readSource, tieList } from "../core/intake/index.ts";
import { IngredientSchema } from "../core/pantry/schema.ts";
import { demoBook } from "../data/demo/book.ts";
import { starterPantry } from "../data/pantry/index.ts";

interface StoresRow {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal: string;
  readonly ok: boolean;
}

/** Processor time of some work, ms: the least of `runs`. */
async function cpuMs(runs: number, work: () => unknown): Promise<number> {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i++) {
    const from = process.cpuUsage();
    await work();
    const { user, system } = process.cpuUsage(from);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

/** Reading, finding and pricing at the size of a large house. */
export async function storesBench(): Promise<StoresRow[]> {
  const pantry = starterPantry.map((one) => IngredientSchema.parse(one));
  const index = new PantryIndex(pantry);
  const recipe = (n: number) => `Broth ${n}
Serves ${4 + (n % 9)}

For the base:
${600 + n} g leeks, sliced
1-2 shallots, peeled
2 x 400 g tins white beans
3 c. à s. d'huile d'olive
1 lb 4 oz celeriac
Salt and pepper

For the crumb:
50 g butter
1 3/4 cups rye bread crumbs

Method
Sweat the leeks for 10 minutes, cover and simmer 25 to 30 minutes at 95 °C.
Toast the crumb at 160 °C for 12 minutes.
`;
  const thousand = Array.from({ length: 1000 }, (_, i) => recipe(i));
  const reading = await cpuMs(1, () => {
    for (const text of thousand) linkRecipe(readSource(text).recipes[0]!, index);
  });
  const names = (demoBook.preparations ?? []).map((one) => one.name);
  const preparations = Array.from({ length: 10_000 }, (_, i) => ({
    id: `p${i}`,
    name: `${names[i % names.length]} ${i}`,
  }));
  const finder = new Finder(preparations);
  const typed = ["c", "cel", "celeriac 9", "jus", "zzz", "crème", "a"];
  const searches: number[] = [];
  for (const words of typed) searches.push(await cpuMs(5, () => finder.find(words)));
  const starter = new Finder(pantry);
  const begun = await cpuMs(5, () => starter.find("be"));
  const rows = Array.from(
    { length: 10_000 },
    (_, i) =>
      `A${i};${pantry[i % pantry.length]!.name.replaceAll(";", ",")} ${i % 7};${(i % 6) + 1}x${(i % 5) + 1}kg;${((i % 900) / 10 + 1).toFixed(2)}`,
  );
  const bytes = new TextEncoder().encode(`Code;Description;Pack;Price\n${rows.join("\n")}\n`);
  const list = await cpuMs(2, () => readListFile(bytes));
  const read = await readListFile(bytes);
  if (read.rows.length !== 10_000) throw new Error(`bench: ${read.rows.length} rows were read, not 10,000`);
  const side = { index, pantry: new Map(pantry.map((one) => [one.id, one])), offers: [], from: "2027-01-31" };
  const tying = await cpuMs(1, () => tieList(read.rows, { ...side, cutOf: () => undefined }));
  const row = (name: string, value: number, most: number): StoresRow => ({
    ...{ name, value, unit: "ms", goal: `under ${most} ms of processor time`, ok: value < most },
  });
  return [
    row("1,000 recipes read and linked to 833 ingredients", reading, 10_000),
    row("search in 10,000 preparations, the slowest of seven", Math.max(...searches), 50),
    row("search in the starter pantry", begun, 50),
    row("price list of 10,000 rows read", list, 5_000),
    row("its rows tied to 833 ingredients", tying, 10_000),
  ];
}
