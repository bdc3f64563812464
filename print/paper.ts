import { indexBook, type Library } from "../core/book/index.ts";
import type { Book } from "../core/book/schema.ts";
import { type Clock, clockOf } from "../core/production/clock.ts";
import type { Kitchen, Menu, Service } from "../core/production/schema.ts";
import { unitsOf } from "../core/production/units.ts";
import type { Result } from "../core/run/result.ts";
import { type Say, wordFor, words } from "../words/catalogue.ts";
import { type Format, format, METRIC, type Preferences } from "../words/format.ts";
import { variantWords } from "../words/variant.ts";
import { inFont } from "./fonts.ts";

/** What every sheet is written from: the documents, the result, and how words and figures are put. */
export interface Paper {
  readonly library: Library;
  readonly result: Result;
  readonly service: Service;
  readonly kitchen: Kitchen;
  readonly menu: Menu;
  readonly clock: Clock;
  readonly write: Format;
  readonly say: Say;
  /** Names of preparations, ingredients, dishes, people; an id nobody knows is shown as it is. */
  readonly item: (id: string) => string;
  readonly dish: (id: string) => string;
  readonly person: (id: string) => string;
  /** A cook's name without what stands after its comma ("Sami Okar, garde-manger"), where that is still one person's. */
  readonly cook: (name: string) => string;
  readonly names: {
    readonly stations: ReadonlyMap<string, string>;
    readonly crew: ReadonlyMap<string, string>;
    readonly units: ReadonlyMap<string, string>;
  };
  /** "Sat 30 Jan 14:00" of "D 14:00"; what is no moment of the run stays as it is. */
  readonly moment: (clock: string) => string;
  /** "Saturday 30 January 2027" of "D". */
  readonly date: (day: string) => string;
  readonly shortDate: (day: string) => string;
  /** A text of the book or the result set for paper: marks the fonts have, figures kept to their units, real dates. */
  readonly set: (text: string, day?: string) => string;
  /** As `set`, and a moment of another day is "Sat 14:00" while that can only be one Saturday. */
  readonly setNear: (text: string, day: string) => string;
  /** Words of a variant: "" for the standard plate, else "vegetarian, coeliac". */
  readonly variant: (id: string) => string;
  readonly allergens: (ids: readonly string[]) => string;
}

/**
 * Opens the documents a result was computed from.
 * @throws RangeError when the book does not hold the result's service, kitchen or menu.
 */
export function paperOf(book: Book, result: Result, preferences: Preferences = METRIC): Paper {
  const library = indexBook(book);
  const service = known(library.services, result.summary.service, "service");
  const kitchen = known(library.kitchens, result.summary.kitchen, "kitchen");
  const menu = known(library.menus, service.menu, "menu");
  const clock = clockOf(service.at, kitchen.zone, service.horizon);
  const write = format(preferences);
  const told = words(preferences.locale).say;
  const say: Say = (key, values) => inFont(told(key, values));
  const crew = new Map(kitchen.crew.map((cook) => [cook.id, cook.name]));
  const date = (day: string) => write.date(clock.dateOf(day));
  const shortDate = (day: string) => write.shortDate(clock.dateOf(day));
  const moment = (text: string) =>
    MOMENT.test(text) ? `${shortDate(text.split(" ")[0]!)} ${write.hour(text)}` : text;
  const weekday = new Intl.DateTimeFormat(preferences.locale, { weekday: "short", timeZone: "UTC" });
  const dated = (text: string, day: string | undefined, other: (each: string) => string) =>
    keepUnits(inFont(text)).replace(MOMENTS, (each) =>
      each.startsWith(`${day} `) ? write.hour(each) : other(each).replaceAll(" ", "\u00a0"),
    );
  return {
    library,
    result,
    service,
    kitchen,
    menu,
    clock,
    write,
    say,
    item: (id) => library.preparations.get(id)?.name ?? library.ingredients.get(id)?.name ?? id,
    dish: (id) => library.dishes.get(id)?.name ?? id,
    person: (id) => crew.get(id) ?? id,
    cook: (name) => {
      const short = name.split(",")[0]!;
      const alike = kitchen.crew.filter((one) => one.name.split(",")[0] === short);
      return alike.length === 1 ? short : name;
    },
    names: {
      stations: new Map(kitchen.stations.map((station) => [station.id, station.name])),
      crew,
      units: new Map(unitsOf(kitchen).all.map((unit) => [unit.id, unit.name])),
    },
    moment,
    set: (text, day) => dated(text, day, moment),
    setNear: (text, day) =>
      dated(text, day, (each) => {
        const own = each.split(" ")[0]!;
        const days = Math.abs(daysOf(own) - daysOf(day));
        return days > 6 ? moment(each) : `${weekday.format(noonOf(clock.dateOf(own)))} ${write.hour(each)}`;
      }),
    date,
    shortDate,
    variant: (id) => variantWords(say, id) ?? "",
    allergens: (ids) => write.list(ids.map((id) => wordFor(say, "allergen", id))),
  };
}

/** "D-1" is one day before. */
const daysOf = (day: string) => Number(day.slice(1) || 0);
const noonOf = (isoDate: string) => new Date(`${isoDate}T12:00:00Z`);

/** A figure and its unit stay on one line, "1 h 30" too; a minus is a minus. */
function keepUnits(text: string): string {
  return text
    .replace(/(\d) (?=(?:°C|°F|%|[a-zµ]?g|m?L|[cm]?m|min|h|s|kg|pieces?)(?![\p{L}\d]))/gu, "$1\u00a0")
    .replace(/(\d) × /g, "$1\u00a0×\u00a0")
    .replace(/(\d\u00a0h) (?=\d\d?\b)/g, "$1\u00a0")
    .replace(/(^|[\s(])-(?=\d)/g, "$1−");
}

const MOMENTS = /\bD([-+]\d{1,2})? \d\d:\d\d\b/g;
const MOMENT = /^D([-+]\d{1,2})? \d\d:\d\d$/;

function known<T>(documents: ReadonlyMap<string, T>, id: string, kind: string): T {
  const found = documents.get(id);
  if (!found)
    throw new RangeError(`the book has no ${kind} "${id}": print with the book the result came from`);
  return found;
}
