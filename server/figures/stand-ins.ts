/** What a connection that steps in for another can do: what fits on it, and how long its allowance and its battery last. */
import type { Internet, Setup } from "../model/setup";
import type { Trial } from "../model/trial";
import { lasts } from "../signal/endurance";
import { fittingSet, laddersOf, type FittingSet } from "../signal/giving-up";
import { standIns } from "../signal/load";
import { entryOf } from "../signal/network";
import { feeds } from "../signal/power";
import { receivedOver } from "../signal/received";
import { sendingIn, streamsOver, total, usableShare, usableUp, Wrap, type Sending } from "../signal/streams";
import { canonical } from "../model/names";

export interface StandIn {
  readonly internet: Internet;
  readonly insteadOf: Internet;
  /** What fits on it in the item in which most is sent; nothing where its uplink is not known. */
  readonly fits: FittingSet | undefined;
  /** bit/s that go over it then, both ways. */
  readonly rate: number;
  /** s until its allowance is used up at that rate. */
  readonly data: number | undefined;
  /** The device through which it comes in. */
  readonly device: string | undefined;
  /** s until that device's battery is empty; nothing where it has none, or no figure is known. */
  readonly battery: number | undefined;
}

/** Every connection that the text lets step in for another. */
export function standInsOf(setup: Setup, trial: Trial): StandIn[] {
  return setup.internets.flatMap((insteadOf) => standIns(setup, insteadOf).map((internet): StandIn => {
    const items: readonly (string | undefined)[] = setup.items.length === 0 ? [undefined] : setup.items.map((item) => item.name);
    const [sending] = items.map((item) => sendingIn(setup, item)).sort((a, b) => sentBy(b, insteadOf) - sentBy(a, insteadOf));
    const streams = sending === undefined ? [] : streamsOver(sending, insteadOf);
    const usable = usableUp(internet, trial);
    const fits = usable === undefined ? undefined : fittingSet(laddersOf(setup, streams, new Wrap(setup, internet)), usable);
    const down = sending === undefined ? 0 : total(receivedOver(sending, insteadOf, trial), "target");
    // What does not fit does not come in either.
    const may = internet.down === undefined ? down : Math.min(down, trial.value(internet.down) * trial.value(usableShare(internet)));
    const rate = (fits?.cost ?? total(streams, "target")) + may;
    const device = entryOf(setup, internet);
    const known = feeds(setup);
    const feed = device === undefined ? undefined : known.get(canonical(device.name));
    const life = device === undefined || feed === undefined || feed.by === "mains" ? undefined : lasts(setup, device, feed, known, trial);
    return {
      internet, insteadOf, fits, rate, device: device?.name, data: internet.allowance === undefined || rate === 0 ? undefined : trial.value(internet.allowance) / rate,
      battery: life === undefined || !Number.isFinite(life) ? undefined : life,
    };
  }));
}

const sentBy = (sending: Sending, internet: Internet): number => total(streamsOver(sending, internet), "target");
