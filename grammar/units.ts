/**
 * Dimensions and the units that a text may use for them. One table: reading, messages, completion and the reference use it.
 * Canonical units are SI, with levels in dB, angles in degrees, shares as fractions of one, rates in bit/s, data in bits.
 */
export type Dimension =
  | "length" | "area" | "time" | "level" | "rate" | "power" | "energy" | "charge" | "current" | "voltage" | "angle" | "share"
  | "illuminance" | "luminance" | "luminous-flux" | "count" | "ratio" | "data";

export interface Unit {
  readonly dimension: Dimension;
  /** Canonical value = factor × number. */
  readonly factor: number;
  /** Spread of the factor itself where the unit is no standard: a step. */
  readonly spread?: readonly [low: number, high: number];
}

/** How each dimension is named and shown. `tolerance`: what `about` means, relative, or in dB where the dimension is a level. */
export interface DimensionRow {
  readonly title: string;
  readonly example: string;
  readonly unit: string;
  readonly tolerance: number;
}

const u = (dimension: Dimension, factor: number): Unit => ({ dimension, factor });

/** A walking step: 0.75 m, 0.65 to 0.85 m between people. Common practice, no source. */
export const STEP: Unit = { dimension: "length", factor: 0.75, spread: [0.65, 0.85] };

export const UNITS: ReadonlyMap<string, Unit> = new Map<string, Unit>([
  ["m", u("length", 1)], ["cm", u("length", 0.01)], ["mm", u("length", 0.001)], ["km", u("length", 1000)],
  ["metre", u("length", 1)], ["metres", u("length", 1)], ["meter", u("length", 1)], ["meters", u("length", 1)],
  ["ft", u("length", 0.3048)], ["foot", u("length", 0.3048)], ["feet", u("length", 0.3048)], ["′", u("length", 0.3048)],
  ["in", u("length", 0.0254)], ["inch", u("length", 0.0254)], ["inches", u("length", 0.0254)], ["″", u("length", 0.0254)],
  ["yd", u("length", 0.9144)], ["yards", u("length", 0.9144)], ["step", STEP], ["steps", STEP],
  ["m2", u("area", 1)], ["m²", u("area", 1)], ["sqm", u("area", 1)], ["sqft", u("area", 0.09290304)], ["ft2", u("area", 0.09290304)],
  ["ft²", u("area", 0.09290304)],
  ["s", u("time", 1)], ["sec", u("time", 1)], ["second", u("time", 1)], ["seconds", u("time", 1)], ["ms", u("time", 0.001)],
  ["min", u("time", 60)], ["minute", u("time", 60)], ["minutes", u("time", 60)],
  ["h", u("time", 3600)], ["hours", u("time", 3600)], ["hour", u("time", 3600)], ["day", u("time", 86400)], ["days", u("time", 86400)],
  ["dB", u("level", 1)], ["dBA", u("level", 1)], ["dBm", u("level", 1)],
  ["Mb/s", u("rate", 1e6)], ["Mbit/s", u("rate", 1e6)], ["kb/s", u("rate", 1e3)], ["kbit/s", u("rate", 1e3)], ["Gb/s", u("rate", 1e9)],
  ["Mbps", u("rate", 1e6)], ["kbps", u("rate", 1e3)], ["Gbps", u("rate", 1e9)],
  // Amounts of data, in bits. The bit has its rows so that nobody's Gb is read as GB, eight times as much.
  ["MB", u("data", 8e6)], ["GB", u("data", 8e9)], ["TB", u("data", 8e12)], ["Mb", u("data", 1e6)], ["Gb", u("data", 1e9)],
  ["W", u("power", 1)], ["watts", u("power", 1)], ["kW", u("power", 1000)], ["mW", u("power", 0.001)],
  ["Wh", u("energy", 3600)], ["kWh", u("energy", 3.6e6)],
  ["mAh", u("charge", 3.6)], ["Ah", u("charge", 3600)],
  ["A", u("current", 1)], ["mA", u("current", 0.001)],
  ["V", u("voltage", 1)],
  ["deg", u("angle", 1)], ["degrees", u("angle", 1)], ["°", u("angle", 1)],
  ["%", u("share", 0.01)], ["percent", u("share", 0.01)],
  ["lx", u("illuminance", 1)], ["lux", u("illuminance", 1)],
  ["cd/m2", u("luminance", 1)], ["cd/m²", u("luminance", 1)], ["nit", u("luminance", 1)], ["nits", u("luminance", 1)],
  ["lm", u("luminous-flux", 1)], ["lumens", u("luminous-flux", 1)],
]);

export const DIMENSIONS: Readonly<Record<Dimension, DimensionRow>> = {
  length: { title: "a length", example: "3.2 m", unit: "m", tolerance: 0.15 },
  area: { title: "an area", example: "12 m2", unit: "m²", tolerance: 0.2 },
  time: { title: "a time", example: "2 h 30 min", unit: "s", tolerance: 0.2 },
  level: { title: "a level in dB", example: "38 dBA", unit: "dB", tolerance: 3 },
  rate: { title: "a bit rate", example: "4.0 Mb/s", unit: "bit/s", tolerance: 0.25 },
  power: { title: "a power", example: "65 W", unit: "W", tolerance: 0.25 },
  energy: { title: "an energy", example: "50 Wh", unit: "J", tolerance: 0.15 },
  charge: { title: "a charge", example: "5000 mAh", unit: "C", tolerance: 0.15 },
  current: { title: "a current", example: "2.5 A", unit: "A", tolerance: 0.1 },
  voltage: { title: "a voltage", example: "48 V", unit: "V", tolerance: 0.1 },
  angle: { title: "an angle", example: "60 deg", unit: "°", tolerance: 0.15 },
  share: { title: "a share in percent", example: "3 %", unit: "", tolerance: 0.25 },
  illuminance: { title: "an illuminance", example: "300 lx", unit: "lx", tolerance: 0.3 },
  luminance: { title: "a luminance", example: "350 cd/m2", unit: "cd/m²", tolerance: 0.25 },
  "luminous-flux": { title: "a luminous flux", example: "3000 lm", unit: "lm", tolerance: 0.2 },
  count: { title: "a number", example: "24", unit: "", tolerance: 0.2 },
  data: { title: "an amount of data", example: "5 GB", unit: "bit", tolerance: 0.25 },
  ratio: { title: "a ratio", example: "1.5", unit: "", tolerance: 0.1 },
};

/**
 * Words whose case says something else: a capital B is a byte, eight bits, and `MW`, `MA`, `Ms` are a million of what `W`, `A`
 * and `s` are, not a thousandth.
 */
const MEANT_OTHERWISE = /B(?:\/|ps|PS)|^M[WAs]$/;

/** The unit for a word, exactly as data sheets write it, else in any case where that is not ambiguous (`MB/s` is not `Mb/s`). */
export const unitOf = (word: string): Unit | undefined =>
  UNITS.get(word) ?? (MEANT_OTHERWISE.test(word) ? undefined : LOOSE.get(word.toLowerCase()));

const LOOSE: ReadonlyMap<string, Unit> = (() => {
  const seen = new Map<string, Unit | undefined>();
  for (const [word, unit] of UNITS) {
    const key = word.toLowerCase();
    seen.set(key, seen.has(key) ? undefined : unit);
  }
  return new Map([...seen].filter((entry): entry is [string, Unit] => entry[1] !== undefined));
})();
