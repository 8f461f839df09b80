import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse";
import { readQuantity, type Quantity, type QuantityError } from "../../grammar/quantity";
import { DIMENSIONS, type Dimension } from "../../grammar/units";

/** What the words behind a head say as a quantity, and how many of them are left over. */
function read(words: string, dimension: Dimension, ranges = true): { value: Quantity | QuantityError; left: number } {
  const items = parse(`x ${words}`).root.facts[0]?.items ?? [];
  const found = readQuantity(items, 0, dimension, ranges);
  if (found === undefined) throw new Error(`“${words}” is no quantity`);
  return { value: found.value, left: items.length - found.next };
}
/** Low, best and high, as numbers of a few digits. */
function range(words: string, dimension: Dimension): readonly number[] {
  const { value, left } = read(words, dimension);
  expect(left).toBe(0);
  if (value.kind === "quantity-error") throw new Error(value.message);
  return [value.low, value.best, value.high].map((n) => Number(n.toPrecision(6)));
}
function message(words: string, dimension: Dimension): string {
  const { value } = read(words, dimension);
  return value.kind === "quantity-error" ? value.message : `read as ${value.low} to ${value.high}`;
}

describe("a quantity is read in SI units", () => {
  it.each<[string, Dimension, number]>([
    ["9 m", "length", 9], ["6.4m", "length", 6.4], ["90 cm", "length", 0.9], ["9 metres", "length", 9], ["0.2 km", "length", 200],
    ["12 m2", "area", 12], ["12 m²", "area", 12], ["2 h", "time", 7200], ["28 ms", "time", 0.028], ["90 minutes", "time", 5400],
    ["38 dBA", "level", 38], ["-6 dB", "level", -6], ["−6 dB", "level", -6], ["4.0 Mb/s", "rate", 4e6], ["4 Mbps", "rate", 4e6], ["800 kbit/s", "rate", 8e5],
    ["240 W", "power", 240], ["52 Wh", "energy", 187200], ["5000 mAh", "charge", 18000], ["2.5 A", "current", 2.5], ["48 V", "voltage", 48],
    ["60 deg", "angle", 60], ["60°", "angle", 60], ["0.4 %", "share", 0.004], ["300 lx", "illuminance", 300], ["3000 lm", "luminous-flux", 3000],
    ["8 people", "count", 8], ["24", "count", 24], ["1.5", "ratio", 1.5],
  ])("%s is %s: %d", (words, dimension, best) => {
    expect(range(words, dimension)).toEqual([best, best, best].map((n) => Number(n.toPrecision(6))));
  });

  it.each<[string, Dimension, number]>([
    // By definition since 1959: one inch is 25.4 mm, one foot twelve, one yard thirty-six.
    ["1 inch", "length", 0.0254], ["11 ft", "length", 3.3528], ["11′", "length", 3.3528], ["6″", "length", 0.1524], ["3 yd", "length", 2.7432], ["3 in", "length", 0.0762],
    ["90 sqft", "area", 8.361274],
  ])("imperial, by definition: %s is %s of %d", (words, dimension, best) => {
    expect(range(words, dimension)[1]).toBeCloseTo(best, 4);
  });

  it("two units together, the smaller behind the larger", () => {
    expect(range("2 h 30 min", "time")).toEqual([9000, 9000, 9000]);
    expect(range("5 ft 4 inch", "length")[1]).toBeCloseTo(1.6256, 6);
    expect(range("3 m 20 cm", "length")).toEqual([3.2, 3.2, 3.2]);
    expect(read("30 min 2 h", "time").left).toBe(2);
    expect(read("2 h -30 min", "time").left).toBe(2);
    expect(read("2 h −30 min", "time").left).toBe(2);
  });

  it("the case of a unit is let go only where nothing else can be meant", () => {
    expect(range("38 dba", "level")[1]).toBe(38);
    expect(range("9 M", "length")[1]).toBe(9);
    expect(message("4 MB/s", "rate")).toMatch(/bit rate with its unit/);
    expect(message("4 MW", "power")).toMatch(/power with its unit/);
  });
});

describe("a quantity has a range", () => {
  it("steps differ from one person to the next", () => {
    expect(range("13 steps", "length")).toEqual([8.45, 9.75, 11.05]);
    expect(range("12 to 14 steps", "length")).toEqual([7.8, 9.85, 11.9]);
  });

  it("about: a tolerance that goes with the dimension, three decibels for a level", () => {
    expect(range("about 8 m", "length")).toEqual([6.8, 8, 9.2]);
    expect(range("about 40 dBA", "level")).toEqual([37, 40, 43]);
    expect(range("about 8 people", "count")).toEqual([6, 8, 10]);
    expect(range("about -6 dB", "level")).toEqual([-9, -6, -3]);
    for (const dimension of Object.keys(DIMENSIONS) as Dimension[]) {
      const [low = 0, best = 0, high = 0] = range(`about ${DIMENSIONS[dimension].example}`, dimension);
      expect(low).toBeLessThan(best);
      expect(high).toBeGreaterThan(best);
    }
  });

  it("from … to, the unit once or twice, either way round", () => {
    expect(range("8 m to 10 m", "length")).toEqual([8, 9, 10]);
    expect(range("8 to 10 m", "length")).toEqual([8, 9, 10]);
    expect(range("10 m to 8 m", "length")).toEqual([8, 9, 10]);
    expect(range("90 cm to 2 m", "length")).toEqual([0.9, 1.45, 2]);
    expect(range("3 to 6", "count")).toEqual([3, 4.5, 6]);
    expect(read("8 to 10 m", "length").value).toMatchObject({ said: "range" });
    // Where the statement has its own use for the word.
    expect(read("1 to 12", "count", false).left).toBe(2);
  });

  it("within: a best guess and its range, or so much either way", () => {
    expect(range("22 W within 15 to 50 W", "power")).toEqual([15, 22, 50]);
    expect(range("3 within 3 to 6", "count")).toEqual([3, 3, 6]);
    expect(range("22 W within 5 W", "power")).toEqual([17, 22, 27]);
    expect(range("38 dBA within 2 dB", "level")).toEqual([36, 38, 40]);
    expect(range("-6 dB within -2 dB", "level")).toEqual([-8, -6, -4]);
    expect(range("3 ft within 0.9144 to 1 m", "length")[0]).toBeCloseTo(0.9144, 9);
    expect(message("22 W within 30 to 50 W", "power")).toMatch(/outside the range/);
    expect(message("22 W within unknown", "power")).toMatch(/power after “within” is wanted/);
    expect(message("22 W within", "power")).toMatch(/power after “within” is wanted/);
    expect(message("22 W within 3 to 30 m", "power")).toMatch(/not a length/);
  });

  it("unknown is no number at all, and says so", () => {
    const { value, left } = read("unknown", "rate");
    expect(value).toMatchObject({ said: "unknown", best: NaN });
    expect(left).toBe(0);
  });
});

describe("a comma in a number has its own message and is read as it was meant", () => {
  it.each([["3,2 m", 3.2], ["1,000 m", 1000], ["1,234.5 m", 1234.5], ["1,000,000 m", 1e6], ["0,500 m", 0.5], ["-3,2 m", -3.2], ["−1,000 m", -1000], ["12,34,5 m", 12.345]])("%s", (words, best) => {
    expect(range(words, "length")[1]).toBe(best);
    expect(parse(`x ${words}`).problems.map((problem) => problem.code)).toEqual(["decimal-comma"]);
  });
});

describe("what is not wanted has one message, which says what is and shows one", () => {
  it.each<[string, Dimension, string]>([
    ["9 dBA", "length", "A length is wanted here, not a level in dB: write it like 3.2 m."],
    ["9", "length", "A length with its unit is wanted here: write it like 3.2 m."],
    ["8 to 10", "length", "A length with its unit is wanted here: write it like 3.2 m."],
    ["8 dBA to 10 m", "length", "A length is wanted here, not a level in dB: write it like 3.2 m."],
    ["about", "length", "A length after “about” is wanted here: write it like 3.2 m."],
    ["2.5", "count", "A number that is whole is wanted here: write it like 24."],
    [`${"9".repeat(40)} m`, "length", "A length within reason is wanted here: write it like 3.2 m."],
    [`${"9".repeat(400)} m`, "length", "A length within reason is wanted here: write it like 3.2 m."],
  ])("%s as %s", (words, dimension, expected) => {
    expect(message(words, dimension)).toBe(expected);
  });

  it("every dimension shows an example that it reads itself", () => {
    for (const dimension of Object.keys(DIMENSIONS) as Dimension[]) expect(range(DIMENSIONS[dimension].example, dimension)).toHaveLength(3);
  });
});
