/** What is given up first when the internet is thin, with the uplink below which each step is taken: pictures first, sound last. */
import { limitOf } from "../../checks/check";
import type { Internet, Setup } from "../../model/setup";
import { Trial } from "../../model/trial";
import { makeGraph } from "../../signal/graph";
import { stairs, modeOf, type Rung } from "../../signal/rungs";
import { streamsOver, total, usableShare, type Stream } from "../../signal/streams";

/** One picture turned down or off. */
export interface Turned {
  /** The joined device that sends it. */
  readonly device: string;
  /** `stage-camera`, `phone.camera`. */
  readonly picture: string;
  /** `360p15`; nothing where it is sent no more. */
  readonly to: string | undefined;
}

export interface Step {
  /** bit/s of measured uplink below which it is taken. */
  readonly below: number;
  /** What changes against the step before it. */
  readonly turned: readonly Turned[];
  /** No picture is left. */
  readonly soundOnly: boolean;
}

export interface Ladder {
  readonly internet: string;
  /** Devices whose streams go over it. */
  readonly devices: readonly string[];
  /** The item in which most is sent, where items differ. */
  readonly item: string | undefined;
  /** bit/s of uplink that the text states. */
  readonly up: number | undefined;
  /** Share of a measured uplink that can be counted on. */
  readonly share: number;
  /** bit/s of measured uplink that the plan wants. */
  readonly wanted: number;
  /** bit/s of measured uplink below which not even what no step gives up fits. */
  readonly least: number;
  readonly steps: readonly Step[];
  /** How many steps the stated uplink asks for from the start. */
  readonly taken: number;
  readonly sound: boolean;
}

/** More connections and items than any evening has. */
const MOST_INTERNETS = 3;
const MOST_ITEMS = 30;

/** One ladder for each connection over which anything is sent; on a good line too, since the line of the evening may be another one. */
export function laddersOf(setup: Setup): Ladder[] {
  const items: readonly (string | undefined)[] = setup.items.length === 0 ? [undefined] : setup.items.slice(0, MOST_ITEMS).map((item) => item.name);
  const graphs = items.map((item) => ({ item, graph: makeGraph(setup, item) }));
  const internets: readonly (Internet | undefined)[] = setup.internets.length === 0 ? [undefined] : setup.internets.slice(0, MOST_INTERNETS);
  return internets.flatMap((internet): Ladder[] => {
    const all = graphs.map(({ item, graph }) => ({ item, streams: streamsOver(graph, internet) }));
    const [most] = [...all].sort((a, b) => total(b.streams, "target") - total(a.streams, "target"));
    if (most === undefined || most.streams.length === 0) return [];
    const alike = all.every(({ streams }) => total(streams, "target") === total(most.streams, "target"));
    return [ladder(setup, internet, most.streams, alike ? undefined : most.item)];
  });
}

function ladder(setup: Setup, internet: Internet | undefined, streams: readonly Stream[], item: string | undefined): Ladder {
  const name = internet?.name ?? "the internet";
  const trial = new Trial();
  const share = trial.value(usableShare(internet ?? { name, reach: undefined })) * Math.min(1, limitOf(setup, "uplink-short", 1));
  const up = internet?.up === undefined ? undefined : trial.value(internet.up);
  const rungs = stairs(streams);
  // A step is taken where what is sent before it does not fit.
  const before = [streams, ...rungs.map((rung) => rung.left)];
  const steps = rungs.map((rung, i): Step => ({
    below: total(before[i] ?? [], "target") / share, turned: turnedBy(rung, rungs[i - 1]), soundOnly: rung.left.every((s) => s.picture === undefined),
  }));
  return {
    internet: name, item, up, share, steps, wanted: total(streams, "target") / share, least: total(before.at(-1) ?? [], "target") / share,
    devices: [...new Set(streams.map((s) => s.join.join.device))],
    taken: up === undefined ? 0 : steps.filter((step) => up < step.below).length, sound: streams.some((s) => s.what === "sound"),
  };
}

/** What a step changes that the one before it has not changed already. */
function turnedBy(rung: Rung, previous: Rung | undefined): Turned[] {
  const mode = (of: Rung | undefined, stream: Stream): string | undefined => {
    const change = of?.changes.find((one) => one.stream === stream);
    return change === undefined ? undefined : change.to === undefined ? "off" : modeOf(change.to);
  };
  return rung.changes.filter(({ stream }) => mode(rung, stream) !== mode(previous, stream)).map(({ stream, to }) => ({
    device: stream.join.join.device, picture: stream.picture?.name ?? "", to: to === undefined ? undefined : modeOf(to),
  }));
}
