import type { Supplier } from "../purchasing/schema.ts";
import { WEEKDAYS } from "../purchasing/schema.ts";
import type { Ordering, OrderLine, SupplierOrder } from "../run/result.ts";
import { named } from "./named.ts";
import type { Scope } from "./scope.ts";
import type { Finding } from "./types.ts";

type Offer = Supplier["offers"][number];

const millionths = (money: string | number) => Math.round(Number(money) * 1e6);

const say = (by: number, unit: string, what: string, rule = "money"): Finding => ({
  ...{ rule, tasks: [], by, unit, what },
});

/** Judges the price of a line: the one that holds from so many packs on, times the packs. */
export function judgePrice(offer: Offer, line: OrderLine): Finding[] {
  const price = offer.breaks.reduce(
    (last, each) => (line.packs >= each.fromPacks ? each.price : last),
    offer.price,
  );
  const found: Finding[] = [];
  const off = millionths(line.price) - millionths(price);
  if (off !== 0)
    found.push(
      say(
        Math.abs(off) / 1e6,
        "money",
        `${line.packs} packs of ${named(line.offer, "offer")} cost ${price} each, not ${line.price}`,
      ),
    );
  const sum = millionths(line.total) - line.packs * millionths(line.price);
  if (sum !== 0)
    found.push(
      say(Math.abs(sum) / 1e6, "money", `${named(line.offer, "offer")} does not come to ${line.total}`),
    );
  return found;
}

/** Judges the sums of an order, and that it is placed and delivered when the supplier takes and brings orders. */
export function judgeOrderSums(scope: Scope, supplier: Supplier, order: SupplierOrder): Finding[] {
  const found: Finding[] = [];
  const same = (told: string, is: number, what: string) => {
    const off = Math.abs(millionths(told) - is);
    if (off !== 0)
      found.push(
        say(
          off / 1e6,
          "money",
          `the ${what} of ${named(order.supplier, "supplier")}, ${order.deliver}, is not ${told}`,
        ),
      );
  };
  const goods = order.lines.reduce((sum, line) => sum + millionths(line.total), 0);
  same(order.goods, goods, "goods");
  same(order.charge, millionths(supplier.deliveryCharge), "charge");
  same(order.total, goods + millionths(supplier.deliveryCharge), "total");
  same(order.belowMinimum, Math.max(0, millionths(supplier.minimumOrder) - goods), "missing to the minimum");
  const [day = 0, clock] = [dayOf(order.deliver), order.deliver.split(" ")[1]];
  const weekday = WEEKDAYS[(new Date(`${scope.date}T00:00:00Z`).getUTCDay() + 6 + day + 70) % 7]!;
  if (!supplier.deliveryDays.includes(weekday) || clock !== supplier.arrivesBy)
    found.push(
      say(
        1,
        "delivery",
        `${named(order.supplier, "supplier")} does not deliver at ${order.deliver}`,
        "delivery",
      ),
    );
  const { daysBefore, clock: until } = supplier.cutoff;
  const latest = `${writeDay(day - daysBefore)} ${until}`;
  if (scope.minuteOf(order.orderBy) > scope.minuteOf(latest)) {
    const late = scope.minuteOf(order.orderBy) - scope.minuteOf(latest);
    found.push(
      say(late, "min", `${order.supplier} takes orders for ${order.deliver} until ${latest}`, "cut-off"),
    );
  }
  return found;
}

/**
 * Judges what is said of all orders together: that they come to the value told (orders, what is missing to minimums, less
 * the worth of what is left), and that the bound is not above it.
 */
export function judgeOrdering(orders: readonly SupplierOrder[], ordering: Ordering): Finding[] {
  const spent = orders.reduce((sum, each) => sum + Number(each.total) + Number(each.belowMinimum), 0);
  const worth = ordering.left.reduce((sum, each) => sum + each.worth, 0);
  const found: Finding[] = [];
  const off = Math.abs(spent - worth - ordering.value);
  if (off > 0.01 + 1e-6 * spent)
    found.push(say(off, "money", `the orders come to ${spent - worth}, not ${ordering.value}`));
  if (ordering.bound > ordering.value + 1e-6)
    found.push(say(ordering.bound - ordering.value, "money", "the bound is above what the orders come to"));
  if (ordering.proved && ordering.value - ordering.bound > 0.005)
    found.push(say(ordering.gap, "money", "the orders are not proven cheapest"));
  for (const { ingredient, worth: told, keeps } of ordering.left)
    if (told > 0 && !keeps)
      found.push(
        say(told, "money", `${named(ingredient, "ingredient")} does not keep: left over it is worth nothing`),
      );
  return found;
}

const dayOf = (moment: string) => Number(/^D([-+]\d+)?/.exec(moment)?.[1] ?? 0);
const writeDay = (day: number) => (day === 0 ? "D" : `D${day > 0 ? "+" : ""}${day}`);
