/** Numbers as people read them. One place, so that no figure is shown in two ways. */
import { DIMENSIONS, type Dimension } from "../../grammar/units";
import type { Ranged } from "./ranged";

/** As many figures as matter, without trailing zeros. */
export function figure(n: number): string {
  if (!Number.isFinite(n)) return n > 0 ? "without end" : "none";
  const size = Math.abs(n);
  const digits = size >= 100 ? 0 : size >= 1 ? 1 : 2;
  return String(Number(n.toFixed(digits)));
}

/** A figure and its unit: `12 dB`, `31°`. */
export const withUnit = (n: number, unit: string): string => (unit === "°" || unit === "" ? `${figure(n)}${unit}` : `${figure(n)} ${unit}`);

/** Seconds as hours and minutes, or shorter. */
export function duration(seconds: number): string {
  if (!Number.isFinite(seconds)) return "without end";
  if (seconds < 1) return `${Math.round(seconds * 1000)} ms`;
  if (seconds < 120) return `${figure(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  const h = Math.floor(minutes / 60);
  const m = minutes % 60;
  return [h > 0 ? `${h} h` : "", m > 0 ? `${m} min` : ""].filter((part) => part !== "").join(" ") || "0 min";
}

/** A value in canonical units with the unit that one would use for it. */
export function amount(value: number, dimension: Dimension): string {
  if (Number.isNaN(value)) return "unknown";
  switch (dimension) {
    case "time": return duration(value);
    case "rate": return rate(value);
    case "data": return data(value);
    case "energy": return `${figure(value / 3600)} Wh`;
    case "charge": return `${figure(value / 3.6)} mAh`;
    case "share": return `${figure(value * 100)} %`;
    case "level": return `${figure(value)} dB`;
    case "angle": return `${figure(value)}°`;
    case "count": return figure(value);
    case "ratio": return `× ${figure(value)}`;
    default: return `${figure(value)} ${DIMENSIONS[dimension].unit}`;
  }
}

/** Bits as bytes, the way data plans count them: 1 GB is 10⁹ bytes. */
export const data = (bits: number): string => (bits >= 8e9 ? `${figure(bits / 8e9)} GB` : `${Math.round(bits / 8e6)} MB`);

export const rate = (bits: number): string => (bits >= 1e6 ? `${(bits / 1e6).toFixed(bits >= 1e7 ? 0 : 1)} Mb/s` : `${Math.round(bits / 1000)} kb/s`);

/** `the noise in hall 40 dB (35 to 48)`. */
export function shown(value: Ranged): string {
  if (value.from.how === "unsaid") return value.label;
  const best = amount(value.best, value.dimension);
  const by = narrowedBy(value);
  return value.low < value.high ? `${value.label} ${best} (${amount(value.low, value.dimension)} to ${amount(value.high, value.dimension)}${by})` : `${value.label} ${best}`;
}

/** What is said of a range that what was noticed on an evening has made narrower: `, narrowed by “observed no echo”`. */
export const narrowedBy = ({ from }: Ranged): string => (from.narrowed === undefined ? "" : `, narrowed by “${from.narrowed.by}”`);

/** `a`, `a and b`, `a, b and c`; beyond `most`, `and n more`. */
export function list(parts: readonly string[], most = 3): string {
  if (parts.length > most) return `${parts.slice(0, most).join(", ")} and ${parts.length - most} more`;
  return parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1] ?? ""}`;
}

export const sentence = (text: string): string => {
  // A name keeps its letters: laptop.camera is not Laptop.camera.
  const first = /^[^\s]*[.\d-]/.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1);
  return /[.?!]$/.test(first) ? first : `${first}.`;
};
