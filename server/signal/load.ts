/** What goes over each connection, minute by minute of the programme, and how much data that is in all. */
import { canonical } from "../model/names";
import type { Internet, Setup } from "../model/setup";
import type { Trial } from "../model/trial";
import { receivedOver } from "./received";
import { joinsOver, sendingIn, streamsOver, total } from "./streams";

/** One stretch of the programme in which nothing changes. Times in minutes since midnight of the day of the meeting. */
export interface Stretch {
  readonly item: string | undefined;
  readonly from: number | undefined;
  readonly to: number | undefined;
  /** bit/s at the target rates. */
  readonly up: number;
  readonly down: number;
}

/** More items than any evening has. */
const MOST_ITEMS = 100;

/** The stretches of the programme with what is sent and received over a connection; one where there is no programme. */
export function stretchesOver(setup: Setup, internet: Internet | undefined, trial: Trial): Stretch[] {
  const items = setup.items.length === 0 ? [{ name: undefined, from: setup.start, to: setup.end }] : setup.items.slice(0, MOST_ITEMS);
  return items.map((item): Stretch => {
    const sending = sendingIn(setup, item.name);
    return { item: item.name, from: item.from, to: item.to, up: total(streamsOver(sending, internet), "target"), down: total(receivedOver(sending, internet, trial), "target") };
  });
}

/**
 * Bits that pass a connection over the meeting, both ways, at the target rates; nothing where the times are not known. What lies
 * between two items, a break, runs on as the item before it does.
 */
export function dataOver(setup: Setup, internet: Internet | undefined, trial: Trial): number | undefined {
  const stretches = stretchesOver(setup, internet, trial);
  let sum = 0;
  for (const [i, { from, to, up, down }] of stretches.entries()) {
    const end = stretches[i + 1]?.from ?? to;
    if (from === undefined || end === undefined || end < from) return undefined;
    sum += (up + down) * (end - from) * 60;
  }
  return sum;
}

/** Connections over which something goes in some item; `undefined` stands for one that the text does not name. */
export function internetsInUse(setup: Setup): (Internet | undefined)[] {
  const all: (Internet | undefined)[] = setup.internets.length > 0 ? [...setup.internets] : [undefined];
  const sending = sendingIn(setup, undefined);
  return all.filter((internet) => joinsOver(sending, internet).length > 0);
}

/** The connections that step in for one, as the text states it. */
export const standIns = (setup: Setup, internet: Internet): readonly Internet[] => setup.fallbacks
  .filter((fallback) => canonical(fallback.for) === canonical(internet.name))
  .flatMap((fallback) => setup.internets.filter((other) => canonical(other.name) === canonical(fallback.device)));
