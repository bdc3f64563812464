/** What every address may carry: the service in hand and what is tried on it. */
export interface ServiceSearch {
  readonly service?: string | undefined;
  readonly covers?: number | undefined;
  readonly kitchen?: string | undefined;
}

export const FEWEST_COVERS = 1;
export const MOST_COVERS = 2000;
/** Ends of the slider; the field takes any number of guests a hall holds. */
export const SLIDER_COVERS = [20, 700] as const;

/** Reads the address; what makes no sense is left out. */
export function readSearch(search: Record<string, unknown>): ServiceSearch {
  const covers = Number(search.covers);
  return {
    service: typeof search.service === "string" ? search.service : undefined,
    kitchen: typeof search.kitchen === "string" ? search.kitchen : undefined,
    covers: Number.isInteger(covers) && covers >= FEWEST_COVERS && covers <= MOST_COVERS ? covers : undefined,
  };
}
