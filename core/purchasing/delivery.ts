import { Temporal } from "temporal-polyfill";
import { type Clock, dayName } from "../production/clock.ts";
import { type Supplier, WEEKDAYS } from "./schema.ts";

export interface Delivery {
  /** Day of delivery from service, like -2. */
  readonly day: number;
  /** Latest arrival, "D-2 08:00". */
  readonly deliver: string;
  /** ISO date of delivery. */
  readonly date: string;
  /** Latest moment to order, "D-3 14:00". */
  readonly orderBy: string;
}

/** A supplier has a delivery day in every week; two weeks back there is surely one. */
const MOST_DAYS_BACK = 14;

/**
 * The last delivery that is there when goods are needed.
 * @param need moment of the use, like "D-2 07:30".
 * @returns undefined when no delivery day is left before it (a supplier always has one a week).
 */
export function deliveryFor(supplier: Supplier, need: string, clock: Clock): Delivery | undefined {
  const minute = clock.minuteOf(need);
  const last = dayNumber(need);
  for (let day = last; day >= last - MOST_DAYS_BACK; day--) {
    const name = dayName(day);
    const date = clock.dateOf(name);
    const weekday = WEEKDAYS[Temporal.PlainDate.from(date).dayOfWeek - 1]!;
    const deliver = `${name} ${supplier.arrivesBy}`;
    if (!supplier.deliveryDays.includes(weekday) || clock.minuteOf(deliver) > minute) continue;
    const { daysBefore, clock: cutoff } = supplier.cutoff;
    return { day, deliver, date, orderBy: `${dayName(day - daysBefore)} ${cutoff}` };
  }
  return undefined;
}

/** Day of a moment from the service: −2 for "D-2 07:30". */
export function dayNumber(moment: string): number {
  return Number(/^D([-+]\d+)?/.exec(moment)?.[1] ?? 0);
}
