/** Whether what goes round in a net of loops grows: its gain in each octave band, the peaks of the room, and the loudest loop link by link. */
import type { Trial } from "../../model/trial";
import { bands, flat, OCTAVES, type BandIndex, type Bands } from "../../physics/bands";
import { CANCELLER_LOSS } from "../../physics/coupling";
import { toDb, toPower } from "../../physics/decibel";
import { loopMatrixOfPowers, loudestLoop, mostPeakAllowance, peakAllowance } from "../../physics/howl";
import { mostSpectralRadius, spectralRadius } from "../../physics/spectralRadius";
import { acoustics } from "../acoustics";
import { loudspeakerAtMicrophone } from "../air";
import type { Edge } from "../edges";
import { nominal, speaking } from "../echo";
import { carries, gainOf, type Ending, type Graph } from "../graph";
import { playersKey, playingLevel } from "../seats/turned-up";
import { netOf, type Net, type Outlet, type Place } from "./net";
import { remoteLoss } from "./remote";
import { once, oncePair } from "../../model/watching/once";

/** One link of a loop: by wire, mixer or call to a loudspeaker, and through the air to the next microphone. */
export interface Link {
  readonly from: Place;
  readonly outlet: Outlet;
  readonly to: Place;
  readonly path: readonly Edge[];
  readonly call: boolean;
  /** By wire from the outlet back, where it is no loudspeaker. */
  readonly back: readonly Edge[];
  /** dB: to the loudspeaker, and from it into the microphone beside the voice that this is turned up for. */
  readonly wired: number;
  readonly air: number;
  /** m; nothing where it is not the air of this room. */
  readonly metres: number | undefined;
}

export interface Howl {
  /** Mean gain of all loops together in the worst band, dB, and what the peaks of the room add to it. */
  readonly gain: number;
  readonly peak: number;
  /** Hz */
  readonly band: number;
  /** The loudest loop. */
  readonly links: readonly Link[];
  /** Microphones that are open at once. */
  readonly open: number;
}

/** Bands in which it is decided: 250 Hz to 4 kHz. */
const DECIDING: readonly BandIndex[] = [1, 2, 3, 4, 5];

/** Ways of a net as powers, worked out once; those with a gap are open questions of each trial. */
interface Wired {
  readonly gains: Float64Array;
  readonly gaps: readonly { readonly at: number; readonly path: readonly Edge[] }[];
}

const wiredOf = once((net: Net): Wired => {
  const { places, outlets } = net;
  const gains = new Float64Array(places.length * outlets.length);
  const gaps: { at: number; path: readonly Edge[] }[] = [];
  places.forEach((place, i) => {
    outlets.forEach((outlet, l) => {
      const way = net.way(place, outlet);
      if (way === undefined) return;
      const at = i * outlets.length + l;
      gains[at] = toPower(gainOf(way.path));
      if (way.path.some((edge) => edge.gap !== undefined)) gaps.push({ at, path: way.path });
    });
  });
  return { gains, gaps };
});

/** The loops of a net in this trial; nothing where nothing goes round. */
export function howlOf(graph: Graph, which: "local" | "whole", trial: Trial): Howl | undefined {
  const net = netOf(graph, which);
  if (net.places.length === 0 || net.outlets.length === 0) return undefined;
  return trial.keep(`howl ${which} ${spokenKey(graph, net)}`, () => compute(graph, net, which, trial));
}
const spokenKey = oncePair((graph: Graph, net: Net) => `${net.key} ${playersKey(graph)} ${speaking(graph).map((voice) => voice.name).join(",")}`);

function compute(graph: Graph, net: Net, which: "local" | "whole", trial: Trial): Howl | undefined {
  const { places, outlets } = net;
  const n = places.length;
  const m = outlets.length;
  const wired = wiredOf(net);
  const shut = wired.gaps.filter(({ path }) => !carries(path, trial));
  const gains = shut.length === 0 ? wired.gains : wired.gains.slice();
  for (const { at } of shut) gains[at] = 0;
  const reach = (i: number, l: number): number => gains[i * m + l] ?? 0;
  // Only what something reaches and what is reached by something can go round.
  const heard = outlets.map((_, l) => places.some((__, i) => reach(i, l) > 0));
  if (!heard.includes(true)) return undefined;
  const air = airOf(graph, net, which, trial);
  const back = outlets.map((outlet, l) => places.map((place) => (heard[l] === true ? couplingOf(net, air, outlet, place, trial) : undefined)));
  if (!back.some((row) => row.some((coupled) => coupled !== undefined))) return undefined;
  const { time } = acoustics(graph.setup, trial);
  const bandsOf = DECIDING.map((k) => {
    const into = (l: number, j: number): number => back[l]?.[j]?.[k] ?? 0;
    const matrix = loopMatrixOfPowers(n, m, reach, into);
    const silent = takingTurns(places, matrix, n);
    return { k, into, matrix, silent, most: toDb(mostSpectralRadius(matrix, n)) };
  }).sort((x, y) => y.most - x.most);
  let worst: Howl | undefined;
  for (const { k, into, matrix, silent, most } of bandsOf) {
    // What goes round and the loudest loop take longest to find: not where nothing could make this band the worst.
    const peaks = mostPeakAllowance(OCTAVES[k], time[k]);
    const beaten = (gain: number): boolean => worst !== undefined && gain + peaks <= worst.gain + worst.peak;
    if (beaten(most)) continue;
    const gain = toDb(spectralRadius(matrix, n).value);
    if (beaten(gain)) continue;
    const loop = loudestLoop(matrix, n);
    if (loop.length === 0) continue;
    const links = loop.map(({ from, to }): Link => {
      let l = 0;
      for (let other = 1; other < m; other += 1) if (reach(from, other) * into(other, to) > reach(from, l) * into(l, to)) l = other;
      return link(graph, net, places[from], outlets[l], places[to], reach(from, l), toDb(into(l, to)), trial);
    });
    const peak = links.reduce((sum, one) => sum + peakOf(graph, one, k, trial), 0) / links.length;
    if (worst === undefined || gain + peak > worst.gain + worst.peak) worst = { gain, peak, band: OCTAVES[k], links, open: openIn(places, silent) };
  }
  return worst;
}

/** How many microphones are open at once. */
const openIn = (places: readonly Place[], silent: ReadonlySet<number>): number => new Set(places.flatMap((place, i) => (silent.has(i) || place.mic === undefined ? [] : [place.mic]))).size;

/**
 * Leaves of the microphones of each automatic mixer the one that by itself goes round loudest: one is open at a time, so that many
 * add nothing. Takes the others out of the matrix, and says which.
 */
function takingTurns(places: readonly Place[], matrix: Float64Array, n: number): ReadonlySet<number> {
  const silent = new Set<number>();
  for (const mixer of new Set(places.flatMap((place) => place.turns))) {
    const turns = places.flatMap((place, i) => (place.turns.includes(mixer) ? [i] : []));
    const loud = (i: number): number => matrix[i * n + i] ?? 0;
    const first = turns.reduce((a, b) => (loud(b) > loud(a) ? b : a), turns[0] ?? 0);
    for (const i of turns) {
      if (places[i]?.mic === places[first]?.mic) continue;
      silent.add(i);
      for (let j = 0; j < n; j += 1) matrix[i * n + j] = matrix[j * n + i] = 0;
    }
  }
  return silent;
}

function link(graph: Graph, net: Net, from: Place | undefined, outlet: Outlet | undefined, to: Place | undefined, power: number, air: number, trial: Trial): Link {
  if (from === undefined || outlet === undefined || to === undefined) throw new RangeError("a link leads from a place by an outlet to a place");
  const way = net.way(from, outlet);
  const metres = outlet.speaker === undefined || to.mic === undefined ? undefined : loudspeakerAtMicrophone(graph.setup, trial, outlet.speaker, to.mic).distance;
  return { from, outlet, to, path: way?.path ?? [], call: way?.call ?? false, back: net.wire(outlet, to) ?? [], wired: toDb(power), air, metres };
}

/** How far the loudest peak of the room stands above the mean on a link; 0 where it is not the air of this room. */
function peakOf(graph: Graph, { outlet, to }: Link, k: BandIndex, trial: Trial): number {
  if (outlet.speaker === undefined || to.mic === undefined) return 0;
  const { arrival } = loudspeakerAtMicrophone(graph.setup, trial, outlet.speaker, to.mic);
  return peakAllowance(arrival.direct[k], arrival.reverberant[k], OCTAVES[k], acoustics(graph.setup, trial).time[k]);
}

/** From an outlet into a place, beside what that is turned up for, band by band as powers; nothing where it does not get there. */
function couplingOf(net: Net, air: Air, outlet: Outlet, place: Place, trial: Trial): Bands | undefined {
  // What a join plays and sends itself, its own canceller holds; local reinforcement it never does.
  const same = outlet.plays !== undefined && outlet.plays === place.sends;
  const held = (at: Bands, unit: boolean): Bands => (same && (unit || trial.holds(place.sends.cancels)) ? capped(at) : at);
  if (outlet.remote !== undefined) {
    return outlet.remote === place.remote ? flat(toPower(-remoteLoss(outlet.remote, trial))) : undefined;
  }
  if (outlet.speaker !== undefined && place.mic !== undefined) {
    const own = place.mic.device === outlet.speaker.device && place.mic.device.cancels;
    return held(air(outlet.speaker, place.mic), own);
  }
  const path = net.wire(outlet, place);
  if (path === undefined || !carries(path, trial)) return undefined;
  return held(flat(toPower(gainOf(path))), false);
}

const CANCELLED = toPower(-CANCELLER_LOSS);
const capped = (powers: Bands): Bands => bands((k) => Math.min(powers[k], CANCELLED));

/** Coupling from each loudspeaker of a net into each of its microphones, as powers. */
type Air = (speaker: Ending, mic: Ending) => Bands;

/** What the air does hangs on where things stand; how loud they are turned up is another matter and tried by itself. */
function airOf(graph: Graph, net: Net, which: "local" | "whole", trial: Trial): Air {
  const { setup } = graph;
  const { speakers, mics } = endsOf(net);
  const transfers = trial.keep(`loop air ${net.key}`, () => speakers.map((speaker) => mics.map((mic) => loudspeakerAtMicrophone(setup, trial, speaker, mic).powers)));
  const loud = speakers.map((speaker) => toPower(playingLevel(graph, trial, speaker, which === "local" ? "room" : "call")));
  const voices = speaking(graph);
  // As `coupling` has it, L_S1 − L_N1 + H_S − H_N: of powers a product.
  const gains = mics.map((mic) => {
    const near = nominal(setup, mic, voices, trial);
    return toPower(-near.talker - near.transfer);
  });
  const known = new Map(speakers.map((speaker, l) => [speaker, new Map(mics.map((mic, j) => {
    const gain = (loud[l] ?? NaN) * (gains[j] ?? NaN);
    const air = transfers[l]?.[j];
    return [mic, bands((k) => gain * (air?.[k] ?? NaN))] as const;
  }))] as const));
  return (speaker, mic) => known.get(speaker)?.get(mic) ?? flat(0);
}

/** The loudspeakers and the microphones of a net, each once. */
const endsOf = once((net: Net): { readonly speakers: readonly Ending[]; readonly mics: readonly Ending[] } =>
  ({ speakers: [...new Set(net.outlets.flatMap((outlet) => outlet.speaker ?? []))], mics: [...new Set(net.places.flatMap((place) => place.mic ?? []))] }));
