import { Temporal } from "temporal-polyfill";
import type { Book } from "../book/schema.ts";
import type { Preparation } from "../formula/schema.ts";
import type { Ingredient } from "../pantry/schema.ts";
import type { Dish } from "../plating/schema.ts";
import type { Kitchen, Menu, Service } from "../production/schema.ts";
import type { Supplier } from "../purchasing/schema.ts";
import type { InspectOptions } from "./types.ts";

/** The documents of one service, looked up. */
export interface Scope {
  readonly service: Service;
  readonly menu: Menu;
  readonly kitchen: Kitchen;
  readonly covers: number;
  readonly ingredients: ReadonlyMap<string, Ingredient>;
  readonly preparations: ReadonlyMap<string, Preparation>;
  readonly dishes: ReadonlyMap<string, Dish>;
  /** Of the kitchen. */
  readonly suppliers: readonly Supplier[];
  /** Whole minutes from the horizon to a clock like "D-1 14:00", as real time passes. */
  minuteOf(clock: string): number;
  /** The clock at a minute, as a plan writes it. */
  textOf(minute: number): string;
  /** Minute of the first course. */
  readonly serviceMin: number;
  /** ISO date of the service. */
  readonly date: string;
  /** In the middle of a day: when each task that has begun did, though it may have been broken off and gone on since. */
  readonly begun?: ReadonlyMap<string, number>;
}

/** @throws RangeError when the book has no such service or kitchen: a mistake of the caller. */
export function scopeOf(book: Book, options: InspectOptions): Scope {
  const service = found(book.services, options.service, "service");
  const kitchen = found(book.kitchens, options.kitchen ?? service.kitchen, "kitchen");
  const [date = "", time = ""] = service.at.split("T");
  const instant = (days: number, at: string) =>
    Temporal.PlainDate.from(date).add({ days }).toZonedDateTime({ timeZone: kitchen.zone, plainTime: at })
      .epochMilliseconds / 60_000;
  const absolute = (clock: string) => {
    const read = /^D([-+]\d+)? (\d\d:\d\d)$/.exec(clock);
    if (!read) throw new RangeError(`"${clock}" is no moment like "D-1 14:00"`);
    return instant(Number(read[1] ?? 0), read[2]!);
  };
  const zero = absolute(service.horizon);
  // The same shifts are asked for again and again, and reading a clock is dear.
  const minutes = new Map<string, number>();
  const minuteOf = (clock: string) => {
    const known = minutes.get(clock) ?? absolute(clock) - zero;
    minutes.set(clock, known);
    return known;
  };
  return {
    service,
    kitchen,
    menu: found(book.menus, service.menu, "menu"),
    covers: options.covers ?? service.covers,
    ingredients: byId(book.ingredients),
    preparations: byId(book.preparations),
    dishes: byId(book.dishes),
    suppliers: book.suppliers.filter((supplier) => kitchen.suppliers.includes(supplier.id)),
    minuteOf,
    textOf(minute) {
      const at = Temporal.Instant.fromEpochMilliseconds((zero + minute) * 60_000).toZonedDateTimeISO(
        kitchen.zone,
      );
      const days = Temporal.PlainDate.from(date).until(at.toPlainDate(), { largestUnit: "days" }).days;
      const day = days === 0 ? "D" : days > 0 ? `D+${days}` : `D${days}`;
      return `${day} ${at.toPlainTime().toString({ smallestUnit: "minute" })}`;
    },
    serviceMin: instant(0, time) - zero,
    date,
  };
}

function byId<T extends { id: string }>(list: readonly T[]): ReadonlyMap<string, T> {
  return new Map(list.map((each) => [each.id, each]));
}

function found<T extends { id: string }>(list: readonly T[], id: string, kind: string): T {
  const one = list.find((each) => each.id === id);
  if (!one) throw new RangeError(`the book has no ${kind} "${id}"`);
  return one;
}
