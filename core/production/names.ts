import type { Site } from "./site.ts";
import type { Task } from "./tasks.ts";

/** "Rye crumb: Toast (2 of 3)". */
export function nameOf(site: Site, task: Task): string {
  const batches = site.amounts.preparations.get(task.preparation)?.batches.length ?? 1;
  const load =
    task.share < 1 ? `, load ${/\.(\d+)/.exec(task.id)?.[1] ?? 1} of ${Math.round(1 / task.share)}` : "";
  const batch = task.batch > 0 && batches > 1 ? `${task.batch} of ${batches}` : "";
  const which = `${batch}${load}`.replace(/^, /, "");
  return which === "" ? task.name : `${task.name} (${which})`;
}

/** Grams as a cook reads them: "850 g", "3.71 kg". */
export function massText(grams: number): string {
  if (grams < 1) return `${Math.round(grams * 100) / 100} g`;
  if (grams < 1000) return `${grams < 10 ? Math.round(grams * 10) / 10 : Math.round(grams)} g`;
  return `${Math.round(grams / 10) / 100} kg`;
}

/** Minutes as a cook reads them: "45 min", "3 h", "16 h 30 min". */
export function minutesText(minutes: number): string {
  const [h, m] = [Math.floor(minutes / 60), minutes % 60];
  if (h === 0) return `${m} min`;
  return m === 0 ? `${h} h` : `${h} h ${m} min`;
}

/** Room as a cook reads it: "1 shelf", "6 shelves", "22.78 litres", "45 kg". */
export function roomText(value: number, unit: string): string {
  const figure = Math.round(value * 100) / 100;
  if (figure === 1 || unit === "kg" || unit === "room") return `${figure} ${unit}`;
  return `${figure} ${unit === "shelf" ? "shelves" : `${unit}s`}`;
}
