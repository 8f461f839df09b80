/** Arrivals that are heard apart at a seat: one loudspeaker well behind another, or behind the voice itself. */
import { LATE_FROM, LATE_WITHIN, lateArrival } from "../../physics/arrivals";
import { timeAt } from "./clarity";
import type { Source } from "./sources";

export interface Late {
  readonly seat: number;
  readonly first: Source;
  readonly later: Source;
  /** s */
  readonly gap: number;
  /** How far the later is below the first, dB. */
  readonly below: number;
}

/**
 * The widest gap at a seat between two that are heard apart. Levels are those of the direct sound: what reverberates has no moment of
 * its own (model choice). One that is more than 10 dB below the strongest of all is covered by that.
 */
export function lateAt(sources: readonly Source[], seat: number): Late | undefined {
  if (sources.length < 2) return undefined;
  let most = -Infinity;
  for (const source of sources) {
    const level = source.level + (source.field.directTransfer[seat] ?? -Infinity);
    if (level > most) most = level;
  }
  const heard: Source[] = [];
  let [earliest, latest] = [Infinity, -Infinity];
  for (const source of sources) {
    if (source.level + (source.field.directTransfer[seat] ?? -Infinity) < most - LATE_WITHIN) continue;
    heard.push(source);
    const time = timeAt(source, seat);
    if (time < earliest) earliest = time;
    if (time > latest) latest = time;
  }
  // Most seats end here: what they hear comes together.
  if (heard.length < 2 || latest - earliest < LATE_FROM) return undefined;
  const pair = lateArrival(heard.map((source) => ({ time: timeAt(source, seat), level: source.level + (source.field.directTransfer[seat] ?? -Infinity) })));
  const [first, later] = [heard[pair?.first ?? -1], heard[pair?.later ?? -1]];
  return pair === undefined || first === undefined || later === undefined ? undefined : { seat, first, later, gap: pair.gap, below: pair.below };
}

/** All seats of `seats` at which two are heard apart. */
export const lateSeats = (sources: readonly Source[], seats: readonly number[]): readonly Late[] => seats.flatMap((i) => lateAt(sources, i) ?? []);
