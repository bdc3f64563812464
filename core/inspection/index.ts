export { inspect, inspectAt } from "./inspect.ts";
export type { Moment } from "./moment.ts";
export type { Finding, InspectOptions, Judged, Report } from "./types.ts";
