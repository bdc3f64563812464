import type { Book } from "../core/book/schema.ts";
import type { Result } from "../core/run/result.ts";
import type { Preferences } from "../words/format.ts";
import { type Paper, paperOf } from "./paper.ts";

interface Entry {
  readonly id: string;
  readonly title: string;
  /** Moments of the run, "D-1 14:00". */
  readonly from: string;
  readonly to: string;
  readonly note?: string;
}

export interface CalendarOptions {
  readonly preferences?: Preferences;
  /** When the file was written. */
  readonly writtenAt?: Date;
}

/**
 * The service as an iCalendar file (RFC 5545): orders, deliveries, shifts and courses, in UTC.
 * The same service gives the same event ids, so that a later file replaces an earlier one.
 */
export function writeCalendar(book: Book, result: Result, options: CalendarOptions = {}): string {
  const paper = paperOf(book, result, options.preferences);
  const stamp = utc(options.writtenAt ?? new Date());
  const lines = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Tournant//Tournant//EN",
    ...entries(paper).flatMap((entry) => [
      "BEGIN:VEVENT",
      `UID:${escaped(`${result.summary.service}-${entry.id}@tournant`)}`,
      `DTSTAMP:${stamp}`,
      `DTSTART:${momentUtc(paper, entry.from)}`,
      `DTEND:${momentUtc(paper, entry.to)}`,
      `SUMMARY:${escaped(entry.title)}`,
      ...(entry.note ? [`DESCRIPTION:${escaped(entry.note)}`] : []),
      "END:VEVENT",
    ]),
    "END:VCALENDAR",
  ];
  return `${lines.map(folded).join("\r\n")}\r\n`;
}

function entries({ result, kitchen, menu, clock, say, write }: Paper): Entry[] {
  const moment = (id: string, title: string, at: string, note?: string): Entry => ({
    id,
    title,
    from: at,
    to: at,
    ...(note ? { note } : {}),
  });
  return [
    ...result.orders.flatMap((order) => [
      moment(
        `order-${order.supplier}-${order.deliver.replace(/[ :]/g, "")}`,
        say("pack.calendar.order", { supplier: order.name }),
        order.orderBy,
        order.lines.map((line) => `${write.number(line.packs)} × ${line.pack} ${line.name}`).join("\n"),
      ),
      moment(
        `delivery-${order.supplier}-${order.deliver.replace(/[ :]/g, "")}`,
        say("pack.calendar.delivery", { supplier: order.name }),
        order.deliver,
      ),
    ]),
    ...kitchen.crew.flatMap((cook) =>
      cook.shifts.map(
        (shift): Entry => ({
          id: `shift-${cook.id}-${shift.from.replace(/[ :]/g, "")}`,
          title: say("pack.calendar.shift", { who: cook.name }),
          from: shift.from,
          to: shift.to,
        }),
      ),
    ),
    ...menu.courses.map((course) =>
      moment(
        `course-${course.id}`,
        `${result.summary.serviceName}: ${course.name}`,
        clock.textOf(Math.round(clock.service + course.afterMin)),
      ),
    ),
  ];
}

function momentUtc({ clock }: Paper, text: string): string {
  return utc(new Date(clock.zonedOf(clock.minuteOf(text)).replace(/\[.*\]$/, "")));
}

/** "20270130T193000Z". */
function utc(date: Date): string {
  return `${date.toISOString().replace(/[-:]/g, "").slice(0, 15)}Z`;
}

/** RFC 5545, 3.3.11: backslash, semicolon, comma and line ends of a text. */
function escaped(text: string): string {
  return text
    .replace(/[\\;,]/g, "\\$&")
    .replace(/\r\n|[\r\n]/g, "\\n")
    .replace(/\p{Cc}/gu, "");
}

/** RFC 5545, 3.1: lines of at most 75 octets, the rest on lines that begin with a space; letters stay whole. */
function folded(line: string): string {
  const parts: string[] = [];
  let part = "";
  let octets = 0;
  for (const letter of line) {
    const size = Buffer.byteLength(letter);
    if (octets + size > (parts.length === 0 ? 75 : 74)) {
      parts.push(part);
      part = "";
      octets = 0;
    }
    part += letter;
    octets += size;
  }
  return [...parts, part].join("\r\n ");
}
