import { CurrencySchema } from "../../../core/money/schema.ts";
import type { Kitchen } from "../../../core/production/schema.ts";
import { type Supplier, SupplierSchema, WallClockSchema, WEEKDAYS } from "../../../core/purchasing/schema.ts";
import type { Key, Values } from "../../../words/catalogue.ts";
import { idOf } from "../../parts/id-of.ts";

/** A supplier as it is typed: nothing is read before it is kept. */
export interface SupplierDraft {
  readonly name: string;
  readonly days: readonly string[];
  readonly daysBefore: number;
  readonly cutoff: string;
  readonly arrivesBy: string;
  readonly minimum: string;
  readonly charge: string;
  readonly currency: string;
  /** Kitchens that buy there. */
  readonly kitchens: readonly string[];
}

export type SupplierField = keyof SupplierDraft;
export type Wrong = Partial<Record<SupplierField, { readonly key: Key; readonly values: Values }>>;

/** The documents a draft comes to: the supplier, and the kitchens that begin or cease to buy there. */
export interface SupplierDocuments {
  readonly supplier: Supplier;
  readonly kitchens: readonly Kitchen[];
}

interface There {
  readonly suppliers: readonly Supplier[];
  readonly kitchens: readonly Kitchen[];
}

/** What stands in the form at first: the supplier's own words, or those of a new one for the kitchen in hand. */
export function supplierDraft(of: Supplier | undefined, { kitchens }: There, here?: Kitchen): SupplierDraft {
  const buying = of
    ? kitchens.filter((one) => one.suppliers.includes(of.id))
    : kitchens.filter((one) => one.id === (here ?? kitchens[0])?.id);
  return {
    name: of?.name ?? "",
    days: of?.deliveryDays ?? [],
    daysBefore: of?.cutoff.daysBefore ?? 1,
    cutoff: of?.cutoff.clock ?? "",
    arrivesBy: of?.arrivesBy ?? "08:00",
    minimum: of?.minimumOrder ?? "0",
    charge: of?.deliveryCharge ?? "0",
    currency: of?.currency ?? buying[0]?.currency ?? kitchens[0]?.currency ?? "",
    kitchens: buying.map((one) => one.id),
  };
}

/** Reads a draft, or says of each field what is wrong and how to mend it. */
export function readSupplier(
  draft: SupplierDraft,
  there: There,
  of?: Supplier,
): SupplierDocuments | { readonly wrong: Wrong } {
  const name = draft.name.trim();
  const [cutoff, arrivesBy] = [clockIn(draft.cutoff), clockIn(draft.arrivesBy)];
  const [minimum, charge] = [moneyIn(draft.minimum), moneyIn(draft.charge)];
  const currency = draft.currency.trim().toUpperCase();
  const deliveryDays = WEEKDAYS.filter((day) => draft.days.includes(day));
  const buying = there.kitchens.filter((one) => draft.kitchens.includes(one.id));
  const other = buying.find((one) => one.currency !== currency);
  const wrong: { -readonly [F in SupplierField]?: Wrong[F] } = {};
  const say = (field: SupplierField, key: Key, values: Values = {}) => {
    wrong[field] ??= { key, values };
  };
  if (name === "") say("name", "supplier.name.empty");
  if (there.suppliers.some((one) => one.id !== of?.id && same(one.name, name)))
    say("name", "supplier.name.taken", { name });
  if (deliveryDays.length === 0) say("days", "supplier.days.none");
  if (cutoff === undefined) say("cutoff", "supplier.clock.wrong", { typed: draft.cutoff.trim() || "none" });
  if (arrivesBy === undefined)
    say("arrivesBy", "supplier.clock.wrong", { typed: draft.arrivesBy.trim() || "none" });
  if (minimum === undefined) say("minimum", "supplier.money.wrong", { typed: draft.minimum.trim() });
  if (charge === undefined) say("charge", "supplier.money.wrong", { typed: draft.charge.trim() });
  if (!CurrencySchema.safeParse(currency).success)
    say("currency", "supplier.currency.wrong", { typed: draft.currency.trim() });
  else if (other)
    say("currency", "supplier.currency.other", { currency, kitchen: other.name, pays: other.currency });
  if (Object.keys(wrong).length > 0) return { wrong };
  const supplier = SupplierSchema.parse({
    ...{ id: of?.id ?? freshId(name, there.suppliers), name, currency, deliveryDays, arrivesBy },
    ...{ minimumOrder: minimum, deliveryCharge: charge, offers: of?.offers ?? [] },
    cutoff: { daysBefore: draft.daysBefore, clock: cutoff },
  });
  return { supplier, kitchens: changedKitchens(supplier.id, draft.kitchens, there.kitchens) };
}

/** The supplier and the kitchens that buy there, as they are kept together. */
export function documentsOf({ supplier, kitchens }: SupplierDocuments) {
  return [
    { kind: "suppliers" as const, document: supplier },
    ...kitchens.map((document) => ({ kind: "kitchens" as const, document })),
  ];
}

/** Kitchens whose list of suppliers is no longer what it was. */
function changedKitchens(id: string, buying: readonly string[], kitchens: readonly Kitchen[]): Kitchen[] {
  return kitchens.flatMap((kitchen) => {
    const has = kitchen.suppliers.includes(id);
    if (has === buying.includes(kitchen.id)) return [];
    const suppliers = has ? kitchen.suppliers.filter((one) => one !== id) : [...kitchen.suppliers, id];
    return [{ ...kitchen, suppliers }];
  });
}

/** An id of its name; of a name without letters an id can have, a number. */
function freshId(name: string, suppliers: readonly Supplier[]): string {
  const taken = new Set(suppliers.map((one) => one.id));
  const base = idOf(name) || "supplier";
  let id = base;
  for (let n = 2; taken.has(id); n++) id = `${base}-${n}`;
  return id;
}

const same = (a: string, b: string) => a.trim().toLocaleLowerCase("en") === b.trim().toLocaleLowerCase("en");

/** "9:30" or "09.30" as "09:30"; undefined when it is no time of a day. */
function clockIn(typed: string): string | undefined {
  const text = typed.trim().replace(".", ":").padStart(5, "0");
  return WallClockSchema.safeParse(text).success ? text : undefined;
}

/** "12", "12.5" or "12,50" as a decimal text; "1,250" could be either and is none. */
function moneyIn(typed: string): string | undefined {
  const read = /^(\d{1,9})(?:\.(\d{1,4})|,(\d{1,2}))?$/.exec(typed.trim());
  if (!read) return undefined;
  const coins = read[2] ?? read[3];
  return coins === undefined ? read[1]! : `${read[1]}.${coins}`;
}
