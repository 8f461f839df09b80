/** What comes back: from what a joined device plays, through air and wires, to what a joined device sends. */
import { assumed } from "../model/make-ranged";
import type { Ranged } from "../model/ranged";
import type { Setup, Voice } from "../model/setup";
import { shelfOf, Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { bands, flat, travelTime, weightedSum, type Bands } from "../physics/bands";
import { cancelledLoss, coupling, ECHO_WEIGHTS, talkerEchoLoudnessRating } from "../physics/coupling";
import { toDb, toPower } from "../physics/decibel";
import { distance } from "../physics/geometry";
import { speechTransfer, transferBands } from "../physics/soundField";
import { acceptableTelr } from "../physics/talkerEcho";
import { acoustics } from "./acoustics";
import { listeners, loudspeakerAtMicrophone, loudspeakerAtSeats, mouths, nearTalker, pickUps, TALKER_Q, type Crossing } from "./air";
import type { JoinState } from "./call-state";
import { node, type Edge } from "./edges";
import { callDelay, carries, delayOf, gainOf, type Ending, type Graph } from "./graph";
import { playersKey, playingLevel } from "./seats/turned-up";
import { triple } from "./stands";
import { once, oncePair } from "../model/watching/once";

interface Route {
  readonly ending: Ending;
  readonly path: readonly Edge[];
}

/** Everything through which what one join plays can come back through what one join sends. */
export interface Loop {
  readonly plays: JoinState;
  readonly sends: JoinState;
  readonly speakers: readonly Route[];
  readonly mics: readonly Route[];
  /** A way through wires alone. */
  readonly wire: readonly Edge[] | undefined;
}

/** How loud and how late the echo is, and how loud it may be. */
export interface Echo {
  /** Terminal coupling loss, dB: before cancellers, and behind them. */
  readonly uncancelled: number;
  readonly loss: number;
  /** Talker echo loudness rating, dB, and what ITU-T G.131 accepts at this delay. */
  readonly telr: number;
  readonly needed: number;
  /** Half the whole round trip, s. */
  readonly delay: number;
  /** What cancellers hold of it, before them, dB; nothing where none holds any. */
  readonly held: number | undefined;
  /** Most of it comes back through wires, not through air. */
  readonly wired: boolean;
  /** The strongest pair, where the echo passes through air. */
  readonly pair: { readonly speaker: Ending; readonly mic: Ending; readonly metres: number; readonly coupling: Bands; readonly talkerTransfer: number } | undefined;
}

const noCall = (path: readonly Edge[] | undefined): path is readonly Edge[] => path !== undefined && path.length > 0 && path.every((edge) => edge.via !== "call");

/** All pairs of a join that plays and a join that sends, each with itself too. */
export const loops = once((graph: Graph): readonly Loop[] => {
  const ends = graph.joins.map((state) => ({ state, speakers: routes(graph, state, "loudspeaker"), mics: routes(graph, state, "microphone") }));
  return ends.flatMap((a) => ends.flatMap((b): Loop[] => {
    const wire = graph.ways("sound", node("out", a.state.join.device)).get(node("in", b.state.join.device));
    const loop = { plays: a.state, sends: b.state, speakers: a.speakers, mics: b.mics, wire: noCall(wire) ? wire : undefined };
    return (loop.speakers.length > 0 && loop.mics.length > 0) || loop.wire !== undefined ? [loop] : [];
  }));
});

function routes(graph: Graph, state: JoinState, type: "loudspeaker" | "microphone"): Route[] {
  const end = type === "loudspeaker" ? node("out", state.join.device) : node("in", state.join.device);
  const ways = graph.ways("sound", end, type === "loudspeaker" ? "forth" : "back");
  return [...graph.endings.values()].flatMap((ending): Route[] => {
    if (ending.part.type !== type) return [];
    const path = ways.get(node(type, ending.part.id));
    return noCall(path) ? [{ ending, path }] : [];
  });
}

/**
 * The loops that are worth judging: each join with itself, and for each join that plays the one that sends it back worst. With
 * forty joins in a room the other fifteen hundred say nothing that these do not.
 */
export const worstLoops = once((graph: Graph): readonly Loop[] => {
  const trial = new Trial(new Map(), shelfOf(graph.setup));
  const own: Loop[] = [];
  const across = new Map<JoinState, { loop: Loop; short: number }>();
  for (const loop of loops(graph)) {
    if (loop.plays === loop.sends) {
      own.push(loop);
      continue;
    }
    const echo = echoOf(graph, loop, trial);
    // What carries only once an open question is answered counts, too.
    const short = echo === undefined ? -Infinity : echo.needed - echo.telr;
    const known = across.get(loop.plays);
    if (known === undefined || short > known.short) across.set(loop.plays, { loop, short });
  }
  return [...own, ...[...across.values()].map((worst) => worst.loop)];
});

/** What decides a loop besides the trial: equal keys, equal echoes. */
export const loopKey = once((loop: Loop): string =>
  `${loop.plays.join.device}>${loop.sends.join.device} ${[...loop.speakers, ...loop.mics].map((r) => `${r.ending.part.id}${gainOf(r.path)}${r.path.some((e) => e.gap) ? "!" : ""}`).join(" ")} ${loop.wire ? gainOf(loop.wire) : "-"} ${loop.plays.cancels.best}${loop.sends.cancels.best}`);

/** Automatic gain raises what is not cancelled when nobody speaks. Model choice. */
const automaticGain = (device: string): Ranged =>
  assumed(`${device}.automatic-gain`, `how far ${device} turns its microphone up by itself`, "level", { best: 0, low: 0, high: 20, source: "model choice" });

/** `loopKey` together with who speaks and what is turned up together. */
const spokenLoopKey = oncePair((graph: Graph, loop: Loop): string => `${loopKey(loop)} ${playersKey(graph)} ${namesOf(graph.voices)}`);

/** The echo of a loop in this trial; nothing where no part of it carries. */
export function echoOf(graph: Graph, loop: Loop, trial: Trial): Echo | undefined {
  return trial.keep(`echo ${spokenLoopKey(graph, loop)}`, () => computeEcho(graph, loop, trial));
}

/** One loudspeaker as one microphone hears it, whatever either is turned up to: its crossing, and all of that together, dB. */
interface Heard {
  readonly air: Crossing;
  readonly strength: number;
}

/** One loudspeaker at some microphones, in their order. Kept by itself: most values that are tried at an end leave the air as it is. */
const heardAt = (setup: Setup, speaker: Ending, mics: readonly TurnedUp[], key: string, trial: Trial): readonly Heard[] =>
  trial.keep(`heard ${speaker.part.id} ${key}`, () => mics.map(({ mic }): Heard => {
    const air = loudspeakerAtMicrophone(setup, trial, speaker, mic.ending);
    return { air, strength: toDb(weightedSum(ECHO_WEIGHTS, air.powers)) };
  }));

/** Powers band by band, added up as they come. */
class Sum {
  #bands: Bands | undefined;

  add(powers: Bands, factor = 1): void {
    const so = this.#bands;
    this.#bands = so === undefined ? bands((k) => powers[k] * factor) : bands((k) => so[k] + powers[k] * factor);
  }

  /** Nothing where nothing was added. */
  get powers(): Bands | undefined {
    return this.#bands;
  }
}

function computeEcho(graph: Graph, loop: Loop, trial: Trial): Echo | undefined {
  const { setup } = graph;
  const same = loop.plays === loop.sends;
  const programHolds = same && trial.holds(loop.sends.cancels);
  const held = new Sum();
  const free = new Sum();
  let strongest: { readonly speaker: Route; readonly one: TurnedUp; readonly air: Crossing; readonly level: number } | undefined;
  let most = -Infinity;
  let late = 0;
  let wired = false;
  for (const speaker of loop.speakers) {
    if (!carries(speaker.path, trial) || !loop.mics.some((mic) => carries(mic.path, trial))) continue;
    const level = playingLevel(graph, trial, speaker.ending);
    const { mics, key } = turnedUp(graph, loop, trial);
    const loud = toPower(level + gainOf(speaker.path));
    for (const [j, { air, strength }] of heardAt(setup, speaker.ending, mics, key, trial).entries()) {
      const one = mics[j];
      if (one === undefined) continue;
      const unitHolds = one.mic.ending.device.cancels && one.mic.ending.device === speaker.ending.device && same;
      (programHolds || unitHolds ? held : free).add(air.powers, loud * one.power);
      const together = level + gainOf(speaker.path) + one.gain + strength;
      if (together > most) {
        most = together;
        strongest = { speaker, one, air, level };
        late = delayOf(speaker.path, trial) + travelTime(air.distance) + delayOf(one.mic.path, trial);
      }
    }
  }
  if (loop.wire !== undefined && carries(loop.wire, trial)) {
    const power = flat(toPower(gainOf(loop.wire)));
    wired = gainOf(loop.wire) > -lossOf(held.powers, free.powers);
    (programHolds ? held : free).add(power);
    if (wired) {
      strongest = undefined;
      late = delayOf(loop.wire, trial);
    }
  }
  if (held.powers === undefined && free.powers === undefined) return undefined;
  const uncancelled = lossOf(held.powers, free.powers);
  const before = held.powers === undefined ? undefined : lossOf(held.powers);
  const behind = before === undefined ? undefined : cancelledLoss(before);
  let open = free.powers === undefined ? Infinity : lossOf(free.powers);
  // Automatic gain brings an echo up to nominal at most.
  if (free.powers !== undefined && open > 0) open = Math.max(0, open - trial.value(automaticGain(loop.sends.join.device)));
  const loss = -toDb(toPower(-(behind?.loss ?? Infinity)) + toPower(-open));
  const d1 = trial.value(callDelay(setup, loop.plays));
  const d2 = trial.value(callDelay(setup, loop.sends));
  const delay = (d1 + late + d2) / 2;
  return { uncancelled, loss, telr: talkerEchoLoudnessRating(loss), needed: acceptableTelr(delay), delay, held: before, wired, pair: strongest && paired(strongest) };
}

function paired({ speaker, one, air, level }: { readonly speaker: Route; readonly one: TurnedUp; readonly air: Crossing; readonly level: number }): NonNullable<Echo["pair"]> {
  return {
    speaker: speaker.ending, mic: one.mic.ending, metres: air.distance, talkerTransfer: one.transfer,
    coupling: coupling({ loudspeakerLevel: level, talkerLevel: one.talker, loudspeakerTransfer: air.levels, talkerTransfer: one.transfer, extraGain: gainOf(speaker.path) + gainOf(one.mic.path) }),
  };
}

/** Echo loss of powers together; Infinity of none. */
const lossOf = (...powers: readonly (Bands | undefined)[]): number =>
  -toDb(weightedSum(ECHO_WEIGHTS, bands((k) => powers.reduce<number>((sum, one) => sum + (one?.[k] ?? 0), 0))));

/** A microphone that carries, and the talker that it is turned up for: how loud at 1 m, and how well it hears that. */
interface TurnedUp {
  readonly mic: Route;
  readonly talker: number;
  readonly transfer: number;
  /** What a level at 1 m that reaches it whole becomes in it, dB and as a power: beside nominal, with what is added on its way. */
  readonly gain: number;
  readonly power: number;
}

/** The microphones that carry, and a key of which these are. */
function turnedUp(graph: Graph, loop: Loop, trial: Trial): { readonly mics: readonly TurnedUp[]; readonly key: string } {
  return trial.keep(`turned up ${spokenLoopKey(graph, loop)}`, () => {
    const { setup } = graph;
    const voices = speaking(graph);
    const mics = loop.mics.filter((mic) => carries(mic.path, trial)).map((mic): TurnedUp => {
      const { talker, transfer } = nominal(setup, mic.ending, voices, trial);
      const gain = gainOf(mic.path) - talker - transfer;
      return { mic, talker, transfer, gain, power: toPower(gain) };
    });
    return { mics, key: mics.map(({ mic }) => mic.ending.part.id).join(" ") };
  });
}

/** Whom the microphones are turned up for: who speaks, else whoever is there. */
export const speaking = (graph: Graph): readonly Voice[] => (graph.voices.length > 0 ? graph.voices : [...graph.setup.voices.values()]);

/** What a microphone is turned up for: how loud its talker is at 1 m, dBA, and how well it hears that, A-weighted, dB. */
export function nominal(setup: Setup, mic: Ending, voices: readonly Voice[], trial: Trial): { readonly talker: number; readonly transfer: number } {
  const { device, part } = mic;
  const near = nearTalker(setup, device, voices, trial) ?? setup.lectern;
  // Of seats, the one that it hears best.
  const transfer = Math.max(...pickUps(setup, trial, near, device, part).map((one) => one.transfer));
  return { talker: trial.value(near.level), transfer };
}

/** A voice by itself at all `listeners`, in their order: its transfer, A-weighted, dB. */
function voiceAtSeats(setup: Setup, trial: Trial, voice: Voice): readonly number[] {
  return trial.keep(`voice at seats ${voice.name}`, () => {
    const mouth = triple(mouths(setup, voice, trial)[0] ?? voice.position.at(trial));
    const room = acoustics(setup, trial);
    return listeners(setup, trial).map((ear) => {
      const apart = Math.max(0.3, distance(mouth, triple(ear.at)));
      return speechTransfer(transferBands((k) => ({ distance: apart, q: TALKER_Q[k], roomConstant: room.constant[k] })));
    });
  });
}

/** A voice in the room that comes back to the room through a second device. */
export interface Return {
  readonly voice: Voice;
  /** How loud it comes back, beside the voice itself, where that is worst: dB. */
  readonly over: number;
  /** The seat where it is, and how loud both are there, dBA. */
  readonly seat: string;
  readonly played: number;
  readonly spoken: number;
  /** How late, s. */
  readonly delay: number;
  readonly speaker: Ending;
}

/** The voice that a loop brings back to the room most audibly; nothing where it brings back none, or where one join does both. */
export function returnOf(graph: Graph, loop: Loop, trial: Trial): Return | undefined {
  if (loop.plays === loop.sends) return undefined;
  const speaker = loop.speakers.find((s) => carries(s.path, trial));
  const mic = loop.mics.find((m) => carries(m.path, trial));
  if (speaker === undefined || mic === undefined) return undefined;
  return trial.keep(`return ${spokenLoopKey(graph, loop)}`, () => {
    const { setup } = graph;
    const voice = nearTalker(setup, mic.ending.device, graph.voices, trial) ?? setup.lectern;
    const level = playingLevel(graph, trial, speaker.ending);
    const heard = loudspeakerAtSeats(setup, trial, speaker.ending.device, speaker.ending.part);
    const own = voiceAtSeats(setup, trial, voice);
    let worst = { over: -Infinity, seat: "", played: -Infinity, spoken: 0 };
    for (const [i, ear] of listeners(setup, trial).entries()) {
      const played = level + (heard[i] ?? -Infinity);
      const spoken = trial.value(voice.level) + (own[i] ?? 0);
      if (played - spoken > worst.over) worst = { over: played - spoken, seat: ear.name, played, spoken };
    }
    const delay = trial.value(callDelay(setup, loop.sends)) + trial.value(callDelay(setup, loop.plays)) + delayOf(speaker.path, trial) + delayOf(mic.path, trial);
    return { voice, ...worst, delay, speaker: speaker.ending };
  });
}

