import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rational } from "../numerics/rational.ts";
import {
  add,
  allocate,
  CurrencySchema,
  compare,
  format,
  type Money,
  MoneyTextSchema,
  money,
  roundMoney,
  scale,
  subtract,
  sum,
  toDecimalString,
  zero,
} from "./index.ts";

const SEED = { seed: 20261125 };
const euros = fc
  .tuple(fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }), fc.integer({ min: 0, max: 6 }))
  .map(([digits, places]): Money<"EUR"> => ({ currency: "EUR", digits, places }));

describe("M1 money is an exact decimal", () => {
  test("text in, the same text out", () => {
    for (const text of ["12.50", "0", "-0.05", "1000000000000.000001", "3"]) {
      expect(toDecimalString(money(text, "EUR"))).toBe(text);
    }
  });
  test("what is no decimal is refused with the mend", () => {
    for (const text of ["", "12,50", "1e3", "€5", "1.", ".5", " 1", "9".repeat(16), "0.1234567890123"]) {
      expect(() => money(text, "EUR"), text).toThrow('write a decimal such as "12.50"');
    }
    expect(() => money("1", "euro")).toThrow('three-letter code such as "EUR"');
  });
  test("ten dimes make one: 0.10 ten times is 1.00", () => {
    const dimes = Array.from({ length: 10 }, () => money("0.10", "USD"));
    expect(toDecimalString(sum("USD", dimes))).toBe("1.00");
  });
});

describe("M2 sums are exact and of one currency", () => {
  test("addition is commutative and undone by subtraction", () => {
    fc.assert(
      fc.property(euros, euros, (a, b) => {
        expect(compare(add(a, b), add(b, a))).toBe(0);
        expect(compare(subtract(add(a, b), b), a)).toBe(0);
        expect(compare(add(a, zero("EUR")), a)).toBe(0);
      }),
      SEED,
    );
  });
  test("euros plus dollars does not compile", () => {
    // @ts-expect-error two currencies known to the compiler
    expect(() => add(money("1", "EUR"), money("1", "USD"))).toThrow("EUR and USD do not add up");
    // @ts-expect-error nor does a comparison
    expect(() => compare(money("1", "EUR"), money("1", "USD"))).toThrow("do not add up");
    // @ts-expect-error nor a bare number
    expect(() => add(money("1", "EUR"), 1)).toThrow();
  });
  test("currencies known only at run time are refused then", () => {
    const [a, b]: [Money, Money] = [money("1", "EUR"), money("1", "USD")];
    expect(() => add(a, b)).toThrow("EUR and USD do not add up");
  });
});

describe("M3 every rounding is named", () => {
  test("scaling rounds once, from the exact product", () => {
    expect(toDecimalString(scale(money("10.00", "EUR"), rational(1, 3), "half-even"))).toBe("3.33");
    expect(toDecimalString(scale(money("10.00", "EUR"), rational(2, 3), "half-even"))).toBe("6.67");
    expect(toDecimalString(scale(money("0.05", "EUR"), 0.5, "half-even"))).toBe("0.02");
    expect(toDecimalString(scale(money("0.05", "EUR"), 0.5, "half-up"))).toBe("0.03");
    // 1.005 as a double lies below 1.005; as the decimal it prints as it does not
    expect(toDecimalString(scale(money("1", "EUR"), 1.005, "half-up", 2))).toBe("1.01");
  });
  test("rounding to the coin: cents, yen, fils", () => {
    expect(toDecimalString(roundMoney(money("2.345", "EUR"), "half-even"))).toBe("2.34");
    expect(toDecimalString(roundMoney(money("2.5", "JPY"), "half-up"))).toBe("3");
    expect(toDecimalString(roundMoney(money("2.5", "KWD"), "up"))).toBe("2.500");
  });
  test("scaling by a whole number is repeated addition", () => {
    fc.assert(
      fc.property(euros, fc.integer({ min: 0, max: 20 }), (a, n) => {
        const added = sum("EUR", Array<Money<"EUR">>(n).fill(a));
        expect(compare(scale(a, n, "down"), added)).toBe(0);
      }),
      SEED,
    );
  });
});

describe("M4 sharing out loses nothing", () => {
  test("parts add back to the whole and lie within one smallest unit of their share", () => {
    const weights = fc
      .array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 10 })
      .filter((list) => list.some((w) => w > 0));
    fc.assert(
      fc.property(euros, weights, (a, list) => {
        const parts = allocate(a, list);
        expect(compare(sum("EUR", parts), a)).toBe(0);
      }),
      SEED,
    );
  });
  test("a hundred in three", () => {
    const parts = allocate(money("100.00", "EUR"), [1, 1, 1]).map((part) => toDecimalString(part));
    expect(parts).toEqual(["33.34", "33.33", "33.33"]);
  });
});

describe("M5 writing for people", () => {
  test("by locale, exact beyond what doubles hold", () => {
    expect(format(money("1234.5", "EUR"))).toBe("€1,234.50");
    expect(format(money("900719925474099.37", "USD"), "en-US")).toBe("$900,719,925,474,099.37");
    expect(format(money("2.345", "EUR"))).toBe("€2.34");
    expect(format(money("1500", "JPY"), "ja-JP")).toMatch(/1,500$/);
  });
});

describe("M6 money in a document", () => {
  test("is a decimal text that is not negative; a currency is three capitals", () => {
    expect(MoneyTextSchema.safeParse("12.50").success).toBe(true);
    for (const bad of ["-1", "1,5", 12.5, ""]) expect(MoneyTextSchema.safeParse(bad).success).toBe(false);
    expect(CurrencySchema.safeParse("EUR").success).toBe(true);
    expect(CurrencySchema.safeParse("eur").success).toBe(false);
  });
});
