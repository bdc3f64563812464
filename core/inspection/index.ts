export { inspect } from "./inspect.ts";
export type { Finding, InspectOptions, Judged, Report } from "./types.ts";
