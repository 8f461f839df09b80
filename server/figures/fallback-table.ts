/** What still fits for every uplink, and what is turned down on the way: the tables that figures, drawing and hand-out show. */
import type { Internet, Setup } from "../model/setup";
import { Trial } from "../model/trial";
import { fittingSets, laddersOf, stepsDown, type FittingSet, type Ladders } from "../signal/giving-up";
import { standIns } from "../signal/load";
import { sendingIn, streamsOver, total, usableShare, Wrap, type Stream } from "../signal/streams";

export interface FallbackTable {
  readonly internet: string;
  /** For which connection it steps in, where it carries nothing of the plan itself. */
  readonly insteadOf: string | undefined;
  /** Devices whose streams go over it. */
  readonly devices: readonly string[];
  /** The item in which most is sent, where items differ. */
  readonly item: string | undefined;
  /** bit/s of uplink that the text states. */
  readonly up: number | undefined;
  /** Share of a measured uplink that can be counted on. */
  readonly share: number;
  readonly ladders: Ladders;
  /** The best set for every uplink, everything first and nothing last. */
  readonly best: readonly FittingSet[];
  /** For whoever walks down: nothing is turned on again. */
  readonly steps: readonly FittingSet[];
  readonly streams: readonly Stream[];
}

/** More connections and items than any evening has. */
const MOST_INTERNETS = 4;
const MOST_ITEMS = 30;

/** One table for each connection over which anything is sent or would be; on a good line too, since the line of the evening may be another one. */
export function fallbackTables(setup: Setup): FallbackTable[] {
  const items: readonly (string | undefined)[] = setup.items.length === 0 ? [undefined] : setup.items.slice(0, MOST_ITEMS).map((item) => item.name);
  const sendings = items.map((item) => sendingIn(setup, item));
  const table = (internet: Internet | undefined, insteadOf: Internet | undefined): FallbackTable[] => {
    const all = sendings.map((sending) => ({ item: sending.item, streams: streamsOver(sending, insteadOf ?? internet) }));
    const [most] = [...all].sort((a, b) => total(b.streams, "target") - total(a.streams, "target"));
    if (most === undefined || most.streams.length === 0) return [];
    const alike = all.every(({ streams }) => total(streams, "target") === total(most.streams, "target"));
    const name = internet?.name ?? "the internet";
    const trial = new Trial();
    const ladders = laddersOf(setup, most.streams, new Wrap(setup, internet));
    const limit = setup.limits.find((one) => one.code === "uplink-short")?.value ?? 1;
    return [{
      internet: name, insteadOf: insteadOf?.name, item: alike ? undefined : most.item, streams: most.streams, devices: [...new Set(most.streams.map((s) => s.join.join.device))],
      up: internet?.up === undefined ? undefined : trial.value(internet.up), share: trial.value(usableShare(internet ?? { name, reach: undefined })) * Math.min(1, limit),
      ladders, best: fittingSets(ladders), steps: stepsDown(ladders),
    }];
  };
  const internets: readonly (Internet | undefined)[] = setup.internets.length === 0 ? [undefined] : setup.internets.slice(0, MOST_INTERNETS);
  return internets.flatMap((internet) => [
    ...table(internet, undefined), ...(internet === undefined ? [] : standIns(setup, internet).slice(0, MOST_INTERNETS).flatMap((other) => table(other, internet))),
  ]);
}
