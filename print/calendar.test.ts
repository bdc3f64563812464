import { describe, expect, it } from "vitest";
import { parseBook } from "../core/book/index.ts";
import { run } from "../core/run/run.ts";
import { demoBook } from "../data/demo/book.ts";
import { writeCalendar } from "./calendar.ts";

const parsed = parseBook(demoBook);
if (!("value" in parsed)) throw new Error("the demo does not parse");
const book = parsed.value;
const result = run(book, "demo", { plan: false, trace: false });
const writtenAt = new Date("2027-01-20T10:00:00Z");

describe("calendar", () => {
  const text = writeCalendar(book, result, { writtenAt });
  const unfolded = text.replaceAll("\r\n ", "");

  it("N10 ends lines with CRLF and folds them at 75 octets (RFC 5545, 3.1)", () => {
    expect(text.endsWith("END:VCALENDAR\r\n")).toBe(true);
    const lines = text.split("\r\n");
    expect(Math.max(...lines.map((line) => Buffer.byteLength(line)))).toBeLessThanOrEqual(75);
    expect(lines.some((line) => line.startsWith(" "))).toBe(true);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  });

  it("N10 escapes commas, semicolons, backslashes and line ends (RFC 5545, 3.3.11)", () => {
    const odd = structuredClone(book);
    odd.kitchens.find((kitchen) => kitchen.id === "corrie-fell")!.crew[0]!.name = "Mi;ra, \\Holt\nEND:VEVENT";
    const shift = writeCalendar(odd, result, { writtenAt }).replaceAll("\r\n ", "");
    expect(shift).toContain("SUMMARY:Mi\\;ra\\, \\\\Holt\\nEND:VEVENT at work\r\n");
  });

  it("N10 has each order, delivery, shift and course once, at its instant", () => {
    const events = unfolded.split("BEGIN:VEVENT").slice(1);
    const kitchen = book.kitchens.find((one) => one.id === result.summary.kitchen)!;
    const shifts = kitchen.crew.flatMap((cook) => cook.shifts).length;
    const courses = book.menus.find((menu) => menu.id === "first-light")!.courses.length;
    expect(events).toHaveLength(result.orders.length * 2 + shifts + courses);
    expect(new Set(events.map((event) => /UID:(.*)\r/.exec(event)![1])).size).toBe(events.length);
    // Ireland keeps UTC in January: 19:30 there is 19:30Z.
    expect(unfolded).toContain(
      "UID:demo-course-bread@tournant\r\nDTSTAMP:20270120T100000Z\r\nDTSTART:20270130T193000Z",
    );
  });
});
