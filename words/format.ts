import { UNIT_SYMBOLS, type Unit, writeAmount } from "../core/quantity/index.ts";
import { clockMinutes, clockText } from "./clock.ts";

/** How figures are written; none of it changes what is computed (W5). */
export interface Preferences {
  readonly locale: string;
  readonly units: "metric" | "us";
  readonly clock: "24" | "12";
  readonly degrees: "C" | "F";
}

export const METRIC: Preferences = { locale: "en-GB", units: "metric", clock: "24", degrees: "C" };

export interface Format {
  readonly preferences: Preferences;
  /** A plain number with at most `digits` decimals. */
  number(value: number, digits?: number): string;
  /** A mass in grams, in steps a scale can show: "7.5 g", "640 g", "1.25 kg"; "1 lb 6 oz" in US measures. */
  mass(g: number): string;
  /** A volume in millilitres: "80 mL", "2.4 L"; "1 ¾ cup", "2 qt" in US measures. */
  volume(mL: number): string;
  /** Any quantity with its unit; g, kg, mL, L, °C, min and mm follow the preferences, others stay as they are. */
  quantity(quantity: { readonly value: number; readonly unit: string }): string;
  /** A span in minutes: "45 min", "1 h 05", "2 d 3 h". */
  span(minutes: number): string;
  /** Work of hands, in hours however long: "55 h 30". */
  hours(minutes: number): string;
  /** A moment of the run: "D-1 14:00" or "D-1 2:00 pm". */
  clock(clock: string): string;
  /** The hour alone of a moment of the run: "14:00". */
  hour(clock: string): string;
  temperature(celsius: number): string;
  /** A difference of temperatures, kelvin in. */
  kelvin(kelvin: number): string;
  /** A length in millimetres; inches to an eighth in US measures. */
  length(mm: number): string;
  /** Money: a decimal text or a number in a currency, two decimals unless the currency has others. */
  money(amount: string | number, currency: string): string;
  /** A ratio as a percentage: 0.285 is "28.5 %". */
  share(ratio: number): string;
  /** A calendar date "2027-01-30" in words. */
  date(isoDate: string): string;
  /** A calendar date in short: "Sat 30 Jan". */
  shortDate(isoDate: string): string;
  /** A mass as the scale shows it, no digit less: "40.6 g", "13.32 kg"; as `mass` in US measures. */
  weighed(g: number): string;
  list(items: readonly string[]): string;
}

/** Between a figure and its unit: a space that does not break. */
const NB = "\u00a0";
const KNOWN: ReadonlySet<string> = new Set(UNIT_SYMBOLS);

/** A hyphen reads as a dash before a figure: frost, or a loss, must not be missed. */
const trueMinus = (figure: string) => figure.replace("-", "−");

/** Writes figures by the given preferences. */
export function format(preferences: Preferences = METRIC): Format {
  const { locale, units } = preferences;
  const plain = new Map<number, Intl.NumberFormat>();
  const number = (value: number, digits = 2): string => {
    let writer = plain.get(digits);
    if (!writer) {
      writer = new Intl.NumberFormat(locale, { maximumFractionDigits: digits });
      plain.set(digits, writer);
    }
    return trueMinus(writer.format(Object.is(value, -0) ? 0 : value));
  };

  const metric = (base: number, small: string, large: string): string => {
    const size = Math.abs(base);
    if (size >= 9995) return `${number(base / 1000, 1)}${NB}${large}`;
    if (size >= 999.5) return `${number(base / 1000, 2)}${NB}${large}`;
    if (size >= 9.95) return `${number(base, 0)}${NB}${small}`;
    return `${number(base, size >= 0.095 || size === 0 ? 1 : 2)}${NB}${small}`;
  };
  const measured = (value: number, unit: string, system: "us" | "given"): string =>
    writeAmount({ value: Math.abs(value), unit: unit as Unit }, { system, figures: 4 }).text.replace(
      /^/,
      value < 0 ? "−" : "",
    );
  const mass = (g: number): string => (units === "metric" ? metric(g, "g", "kg") : measured(g, "g", "us"));
  const volume = (mL: number): string =>
    units === "metric" ? metric(mL, "mL", "L") : measured(mL, "mL", "us");
  const temperature = (celsius: number): string => {
    const [degrees, unit] =
      preferences.degrees === "C" ? [number(celsius, 1), "°C"] : [number(celsius * 1.8 + 32, 0), "°F"];
    return `${degrees}${NB}${unit}`;
  };
  const length = (mm: number): string => {
    if (units === "us") return measured(mm, "mm", "us");
    return Math.abs(mm) >= 1000 ? `${number(mm / 1000, 2)}${NB}m` : `${number(mm, 1)}${NB}mm`;
  };
  const span = (minutes: number): string => {
    const sign = minutes < 0 ? "−" : "";
    const whole =
      Math.abs(minutes) < 10 ? Math.round(Math.abs(minutes) * 10) / 10 : Math.round(Math.abs(minutes));
    if (whole < 60) return `${sign}${number(whole, 1)}${NB}min`;
    const hours = Math.floor(whole / 60);
    const rest = Math.round(whole % 60);
    if (hours < 24) return `${sign}${hours}${NB}h${rest ? `${NB}${String(rest).padStart(2, "0")}` : ""}`;
    return `${sign}${Math.floor(hours / 24)}${NB}d${hours % 24 ? `${NB}${hours % 24}${NB}h` : ""}`;
  };

  const hour = (clock: string): string => {
    const minutes = clockMinutes(clock);
    const ofDay = ((minutes % 1440) + 1440) % 1440;
    const h = Math.floor(ofDay / 60);
    const m = String(Math.floor(ofDay % 60)).padStart(2, "0");
    if (preferences.clock === "24") return `${String(h).padStart(2, "0")}:${m}`;
    return `${h % 12 === 0 ? 12 : h % 12}:${m}${NB}${h < 12 ? "am" : "pm"}`;
  };
  const clock = (text: string): string => {
    // The hyphen of "D-1" must not break either.
    const day = clockText(clockMinutes(text)).split(" ")[0]!.replace("-", "\u2011");
    return `${day}${NB}${hour(text)}`;
  };

  const quantity = ({ value, unit }: { readonly value: number; readonly unit: string }): string => {
    switch (unit) {
      case "g":
        return mass(value);
      case "kg":
        return mass(value * 1000);
      case "mL":
        return volume(value);
      case "L":
        return volume(value * 1000);
      case "°C":
        return temperature(value);
      case "K":
        return preferences.degrees === "C" ? `${number(value, 1)}${NB}K` : `${number(value * 1.8, 1)}${NB}°F`;
      case "min":
        return span(value);
      case "mm":
        return length(value);
      case "ratio":
        return `${number(value, 4)}`;
      case "piece":
        return number(value, 2);
      default:
        return KNOWN.has(unit) ? measured(value, unit, "given") : `${number(value, 3)}${NB}${unit}`;
    }
  };

  // Writers of the platform are dear to make and cheap to use.
  const currencies = new Map<string, Intl.NumberFormat>();
  const money = (amount: string | number, currency: string): string => {
    let writer = currencies.get(currency);
    if (!writer) {
      writer = new Intl.NumberFormat(locale, {
        style: "currency",
        currency,
        currencyDisplay: "narrowSymbol",
      });
      currencies.set(currency, writer);
    }
    return trueMinus(writer.format(Number(amount)));
  };
  const lists = new Intl.ListFormat(locale, { type: "conjunction" });
  const day = (short: boolean) =>
    new Intl.DateTimeFormat(locale, {
      weekday: short ? "short" : "long",
      day: "numeric",
      month: short ? "short" : "long",
      ...(short ? {} : { year: "numeric" }),
      timeZone: "UTC",
    });
  const days = { long: day(false), short: day(true) };
  const noon = (isoDate: string) => new Date(`${isoDate}T12:00:00Z`);

  return {
    preferences,
    number,
    mass,
    volume,
    quantity,
    span,
    hours: (minutes) =>
      minutes < 59.5
        ? span(minutes)
        : `${number(Math.floor(Math.round(minutes) / 60), 0)}${NB}h${Math.round(minutes) % 60 ? `${NB}${String(Math.round(minutes) % 60).padStart(2, "0")}` : ""}`,
    clock,
    hour,
    temperature,
    kelvin: (kelvin) => quantity({ value: kelvin, unit: "K" }),
    length,
    money,
    share: (ratio) => `${number(ratio * 100, 1)}${NB}%`,
    date: (isoDate) => days.long.format(noon(isoDate)),
    shortDate: (isoDate) => days.short.format(noon(isoDate)).replace(",", ""),
    weighed: (g) => {
      if (units === "us") return mass(g);
      return Math.abs(g) >= 1000 ? `${number(g / 1000, 5)}${NB}kg` : `${number(g, 2)}${NB}g`;
    },
    list: (items) => lists.format(items),
  };
}
