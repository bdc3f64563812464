import type { Library } from "../../core/book/index-book.ts";
import type { Kitchen } from "../../core/production/schema.ts";
import { unitsOf } from "../../core/production/units.ts";
import { useBook } from "./hands.tsx";
import { useMaybeService } from "./service.tsx";

/** Names of what ids stand for; an id nobody knows is shown as it is. */
export interface Names {
  readonly preparation: (id: string) => string;
  readonly ingredient: (id: string) => string;
  /** A preparation or an ingredient. */
  readonly item: (id: string) => string;
  readonly dish: (id: string) => string;
  readonly supplier: (id: string) => string;
  readonly station: (id: string) => string;
  readonly person: (id: string) => string;
  readonly equipment: (unitId: string) => string;
  readonly stations: ReadonlyMap<string, string>;
  readonly crew: ReadonlyMap<string, string>;
  readonly units: ReadonlyMap<string, string>;
}

export function namesOf(library: Library, kitchen: Kitchen | undefined): Names {
  const stations = new Map(kitchen?.stations.map((s) => [s.id, s.name]));
  const crew = new Map(kitchen?.crew.map((c) => [c.id, c.name]));
  const units = new Map(kitchen ? unitsOf(kitchen).all.map((u) => [u.id, u.name]) : []);
  const preparation = (id: string) => library.preparations.get(id)?.name ?? id;
  const ingredient = (id: string) => library.ingredients.get(id)?.name ?? id;
  return {
    preparation,
    ingredient,
    item: (id) => library.preparations.get(id)?.name ?? library.ingredients.get(id)?.name ?? id,
    dish: (id) => library.dishes.get(id)?.name ?? id,
    supplier: (id) => library.suppliers.get(id)?.name ?? id,
    station: (id) => stations.get(id) ?? id,
    person: (id) => crew.get(id) ?? id,
    equipment: (id) => units.get(id) ?? id,
    stations,
    crew,
    units,
  };
}

const known = new WeakMap<Library, Map<Kitchen | undefined, Names>>();

/** Every line of a list asks for them: they are made once. */
function remembered(library: Library, kitchen: Kitchen | undefined): Names {
  const ofLibrary = known.get(library) ?? new Map<Kitchen | undefined, Names>();
  known.set(library, ofLibrary);
  const names = ofLibrary.get(kitchen) ?? namesOf(library, kitchen);
  ofLibrary.set(kitchen, names);
  return names;
}

export function useNames(): Names {
  const { library } = useBook();
  const kitchen = useMaybeService()?.kitchen;
  return remembered(library, kitchen);
}
