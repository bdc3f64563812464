import { Temporal } from "temporal-polyfill";

/**
 * The time axis of a service (README, P1): whole minutes from the horizon, real elapsed minutes, so that a night
 * in which the clocks change is an hour shorter or longer. "D-1 14:00" is the kitchen's wall clock, D the date
 * of service. Of a wall time that comes twice the first is meant; one that is skipped moves on by the gap.
 */
export interface Clock {
  /** Minute of the first course. */
  readonly service: number;
  /** Minute of a wall time like "D-1 14:00". @throws RangeError when it is none. */
  minuteOf(text: string): number;
  /** Wall time of a minute, like "D-1 14:00". */
  textOf(minute: number): string;
  /** Day of a minute, like "D-1". */
  dayOf(minute: number): string;
  /** First minute of a day ("D-1") and of the day after it. */
  spanOf(day: string): { readonly from: number; readonly to: number };
  /** ISO date of a day, like "2027-01-29". */
  dateOf(day: string): string;
  /** ISO 8601 with offset and zone of a minute. */
  zonedOf(minute: number): string;
}

const TEXT = /^D([-+]\d{1,2})?(?: (\d\d):(\d\d))?$/;
const DAY_MIN = 1440;

interface Day {
  readonly from: number;
  readonly to: number;
}

/**
 * @param at local date and time of service, "2027-01-30T19:30"
 * @param zone IANA time zone of the kitchen
 * @param horizon wall time of minute 0
 * @throws RangeError when one of them is not a time or a zone.
 */
export function clockOf(at: string, zone: string, horizon: string): Clock {
  const local = Temporal.PlainDateTime.from(at);
  const date = local.toPlainDate();
  const epoch = (when: Temporal.ZonedDateTime) => Math.round(when.epochMilliseconds / 60_000);
  const wall = (day: number, hour: number, minute: number) =>
    date.add({ days: day }).toZonedDateTime({ timeZone: zone, plainTime: { hour, minute } });
  const [d0, h0 = 0, m0 = 0] = parse(horizon);
  const zero = epoch(wall(d0, h0, m0));
  const days = new Map<number, Day>();
  const day = (k: number): Day => {
    const known = days.get(k);
    if (known) return known;
    const start = (n: number) =>
      epoch(date.add({ days: n }).toZonedDateTime({ timeZone: zone }).startOfDay()) - zero;
    const made = { from: start(k), to: start(k + 1) };
    days.set(k, made);
    return made;
  };
  const regular = (d: Day) => d.to - d.from === DAY_MIN;
  const dayAt = (minute: number): number => {
    let k = Math.floor((minute - day(0).from) / DAY_MIN);
    while (minute < day(k).from) k--;
    while (minute >= day(k).to) k++;
    return k;
  };
  const zoned = (minute: number) =>
    Temporal.Instant.fromEpochMilliseconds((zero + minute) * 60_000).toZonedDateTimeISO(zone);

  return {
    service: epoch(local.toZonedDateTime(zone)) - zero,
    minuteOf(text) {
      const [k, h, m] = parse(text);
      if (h === undefined || m === undefined)
        throw new RangeError(`"${text}" names no hour: write "D-1 14:00"`);
      return regular(day(k)) ? day(k).from + h * 60 + m : epoch(wall(k, h, m)) - zero;
    },
    textOf(minute) {
      const k = dayAt(minute);
      const into = minute - day(k).from;
      if (regular(day(k))) return `${dayName(k)} ${two(Math.floor(into / 60))}:${two(into % 60)}`;
      const when = zoned(minute);
      return `${dayName(k)} ${two(when.hour)}:${two(when.minute)}`;
    },
    dayOf: (minute) => dayName(dayAt(minute)),
    spanOf: (name) => day(parse(name)[0]),
    dateOf: (name) => date.add({ days: parse(name)[0] }).toString(),
    zonedOf: (minute) => zoned(minute).toString({ smallestUnit: "minute" }),
  };
}

/** "D-1" for −1, "D" for 0, "D+1" for 1. */
export function dayName(day: number): string {
  return day === 0 ? "D" : `D${day > 0 ? "+" : ""}${day}`;
}

function parse(text: string): [day: number, hour?: number, minute?: number] {
  const found = TEXT.exec(text);
  if (!found) throw new RangeError(`"${text}" is not a moment: write "D-1 14:00"`);
  const day = Number(found[1] ?? 0);
  return found[2] === undefined ? [day] : [day, Number(found[2]), Number(found[3])];
}

const two = (n: number) => String(n).padStart(2, "0");
