import { DIMENSIONS, type Dimension } from "./units";

/** The unit in which people give a quantity of that dimension, and how many canonical units it is. */
function everyday(value: number, dimension: Dimension): { readonly unit: string; readonly factor: number } {
  switch (dimension) {
    case "time": return value >= 172800 ? { unit: "days", factor: 86400 } : value >= 3600 ? { unit: "h", factor: 3600 } : value >= 60 ? { unit: "min", factor: 60 }
      : value >= 1 || value === 0 ? { unit: "s", factor: 1 } : { unit: "ms", factor: 0.001 };
    case "rate": return value >= 1e9 ? { unit: "Gb/s", factor: 1e9 } : value >= 1e6 ? { unit: "Mb/s", factor: 1e6 } : { unit: "kb/s", factor: 1e3 };
    case "data": return value >= 8e9 ? { unit: "GB", factor: 8e9 } : { unit: "MB", factor: 8e6 };
    case "length": return value > 0 && value < 0.1 ? { unit: "cm", factor: 0.01 } : { unit: "m", factor: 1 };
    case "energy": return { unit: "Wh", factor: 3600 };
    case "charge": return { unit: "mAh", factor: 3.6 };
    case "share": return { unit: "%", factor: 0.01 };
    case "angle": return { unit: "deg", factor: 1 };
    case "area": return { unit: "m2", factor: 1 };
    case "level": case "power": case "current": case "voltage": case "illuminance": case "luminance": case "luminous-flux": case "count": case "ratio":
      return { unit: DIMENSIONS[dimension].unit, factor: 1 };
  }
}

const digits = (n: number): string => String(Number(n.toPrecision(3)));

/** A value in canonical units as one would write it in a text: `30 min`, `2.3 %`, `9 m`. */
export function shownValue(value: number, dimension: Dimension): string {
  const { unit, factor } = everyday(value, dimension);
  return `${digits(value / factor)} ${unit}`.trim();
}

/** A range in canonical units, the unit once where both ends have the same: `6 to 14 m`, `1 kb/s to 1000 Gb/s`. */
export function shownRange(low: number, high: number, dimension: Dimension): string {
  const [from, to] = [shownValue(low, dimension), shownValue(high, dimension)];
  const same = everyday(low, dimension).unit === everyday(high, dimension).unit;
  return `${same ? from.split(" ")[0] ?? "" : low === 0 ? "0" : from} to ${to}`;
}
