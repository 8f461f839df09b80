/** What every record of a computed value is put together from. */
import type { Figure } from "../finding";
import { isAssumed, type Ranged } from "../model/ranged";
import type { Trial } from "../model/trial";
import { BAND_INDICES, OCTAVES, type Bands } from "../physics/bands";

export type Input = Figure["inputs"][number];

/** An input from an open or stated value. */
export function input(value: Ranged, trial: Trial, unit: string, scale = 1): Input {
  const { narrowed } = trial.known(value).from;
  return { name: value.label, value: round(trial.value(value) * scale), unit, ...(isAssumed(value) ? { assumed: true } : {}), ...(narrowed === undefined ? {} : { narrowed: narrowed.by }) };
}

/** An input that was computed. */
export const given = (name: string, value: number, unit: string): Input => ({ name, value: round(value), unit });

/** Six significant figures: enough to compute on with, few enough to read. */
export const round = (n: number): number => (Number.isFinite(n) ? Number(n.toPrecision(6)) : n);

/** A figure for each octave band. */
export function byBand(values: Bands, make: (value: number) => Omit<Figure, "band">): Figure[] {
  return BAND_INDICES.map((k) => ({ ...make(values[k]), band: OCTAVES[k] }));
}
