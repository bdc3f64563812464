import { describe, expect, it } from "vitest";
import { format, METRIC } from "./format.ts";

const nb = (text: string) => text.replaceAll("\u00a0", " ").replaceAll("\u2011", "-");
const metric = format();
const us = format({ locale: "en-US", units: "us", clock: "12", degrees: "F" });

describe("format", () => {
  it.each([
    [0.04, "0.04 g"],
    [7.46, "7.5 g"],
    [640.4, "640 g"],
    [999.4, "999 g"],
    [999.6, "1 kg"],
    [1254, "1.25 kg"],
    [18640, "18.6 kg"],
    [0, "0 g"],
  ])("W4 writes %d g as a scale shows it: %s", (g, text) => expect(nb(metric.mass(g))).toBe(text));

  it("W5 writes US measures", () => {
    expect(nb(us.mass(567))).toBe("1 lb 4 oz");
    expect(nb(us.mass(453.59237 * 2))).toBe("2 lb");
    expect(nb(us.mass(100))).toBe("3 ½ oz");
    expect(nb(us.volume(414.03))).toBe("1 ¾ cups");
    expect(nb(us.volume(5))).toBe("1 tsp");
    expect(nb(us.temperature(74))).toBe("165 °F");
    expect(nb(us.length(50.8))).toBe("2 in");
  });

  it("W5 writes the hour by 24 or 12", () => {
    expect(nb(metric.clock("D-1 14:05"))).toBe("D-1 14:05");
    expect(nb(us.clock("D-1 14:05"))).toBe("D-1 2:05 pm");
    expect(nb(us.hour("D 00:10"))).toBe("12:10 am");
    expect(nb(us.hour("D-2 12:00"))).toBe("12:00 pm");
  });

  it("W4 writes spans, shares, money, lengths", () => {
    expect(nb(metric.span(45))).toBe("45 min");
    expect(nb(metric.span(65))).toBe("1 h 05");
    expect(nb(metric.span(120))).toBe("2 h");
    expect(nb(metric.span(3060))).toBe("2 d 3 h");
    expect(nb(metric.span(-12))).toBe("−12 min");
    expect(metric.number(-1234.5, 1)).toBe("−1,234.5");
    expect(metric.quantity({ value: -0.25, unit: "ratio" })).toBe("−0.25");
    expect(nb(metric.quantity({ value: -18, unit: "°C" }))).toBe("−18 °C");
    expect(nb(metric.quantity({ value: -3.2, unit: "g" }))).toBe("−3.2 g");
    expect(metric.money("-4.50", "GBP")).toBe("−£4.50");
    expect(nb(metric.clock("D-1 14:00"))).toBe("D-1 14:00");
    expect(nb(metric.span(59.7))).toBe("1 h");
    expect(nb(metric.hours(3330))).toBe("55 h 30");
    expect(nb(metric.hours(59.7))).toBe("1 h");
    expect(nb(metric.share(0.285))).toBe("28.5 %");
    expect(metric.money("12.5", "EUR")).toBe("€12.50");
    expect(nb(metric.length(280))).toBe("280 mm");
    expect(nb(metric.quantity({ value: 3, unit: "piece" }))).toBe("3");
    expect(nb(metric.quantity({ value: 1.75, unit: "cup" }))).toBe("1 ¾ cups");
  });

  it("W4 writes numbers as the language does", () => {
    expect(nb(format({ ...METRIC, locale: "de-DE" }).mass(1254))).toBe("1,25 kg");
  });

  it("W6 writes measures used in fractions as fractions", () => {
    expect(nb(metric.quantity({ value: 1 / 3, unit: "cup" }))).toBe("⅓ cup");
    expect(nb(us.mass(-100))).toBe("−3 ½ oz");
  });

  it("W4 a weighed amount loses no digit the scale shows", () => {
    const metric = format(METRIC);
    expect(metric.weighed(40.6)).toBe("40.6\u00a0g");
    expect(metric.weighed(13320)).toBe("13.32\u00a0kg");
    expect(metric.weighed(4635)).toBe("4.635\u00a0kg");
    expect(metric.shortDate("2027-01-30")).toBe("Sat 30 Jan");
  });
});
