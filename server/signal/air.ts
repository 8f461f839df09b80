/** Sound through the air: from mouths and loudspeakers to microphones and ears. */
import type { Device, Part } from "../model/device";
import type { Vec3 } from "../model/geometry";
import { assumed } from "../model/make-ranged";
import { canonical } from "../model/names";
import type { Ranged } from "../model/ranged";
import type { Setup, Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { bands, flat, type Bands } from "../physics/bands";
import { toPower } from "../physics/decibel";
import { coverageBands, microphonePattern, PATTERNS, randomEnergyEfficiency, sourcePattern, type PatternName } from "../physics/directivity";
import { between, cosineOffAxis, distance, type Vec3 as Triple } from "../physics/geometry";
import { directToReverberant, speechTransfer, transfer, transferBands, transferLevels, type ArrivalBands } from "../physics/soundField";
import { acoustics } from "./acoustics";
import { aimOf, audienceCentre, facing, positionOf, standOf, triple } from "./stands";
import { oncePair } from "../model/watching/once";

/** Q of a talker, 125 Hz to 8 kHz. Model choice near the factor 2 that handbooks give for speech as a whole. */
export const TALKER_Q: Bands = [1.2, 1.4, 1.8, 2, 2.5, 3.2, 4];

/** Microphone and loudspeaker in one case are this far apart. Common practice, no source. */
export const SAME_CASE = 0.2;

/** Q of a loudspeaker. */
export function directivityOf(part: Part): Bands {
  const q = part.directivity;
  if (q !== undefined && q.length === 7) return q as unknown as Bands;
  if (part.coverage !== undefined) return coverageBands((part.coverage.horizontal * Math.PI) / 180, (part.coverage.vertical * Math.PI) / 180);
  return flat(2);
}

const patternOf = (part: Part): number => PATTERNS[part.pattern as PatternName] ?? 1;

/** Power of a source off its axis in all bands; bands of equal Q are worked out once. */
function sourcePatterns(cosine: number, q: Bands): Bands {
  let last = NaN;
  let power = 1;
  return bands((k) => {
    if (q[k] !== last) {
      last = q[k];
      power = sourcePattern(cosine, last);
    }
    return power;
  });
}

/** How far a mouth is from a microphone that it is meant for. Common practice, no source. */
function mouthTo(part: Part, held: "worn" | "handed" | undefined): Ranged {
  const best = held === "worn" ? 0.2 : held === "handed" ? 0.1 : 0.3;
  return part.mouth ?? assumed(`${part.id}.mouth`, `the distance from mouth to ${part.id}`, "length", { best, low: best / 2, high: best * 2, source: "common practice, no source" });
}

/** The voice that a microphone is meant for: its holder, else the nearest of `voices`. */
export function nearTalker(setup: Setup, device: Device, voices: readonly Voice[], trial: Trial): Voice | undefined {
  const held = positionOf(setup, device).held;
  if (held !== undefined) {
    const holder = setup.voices.get(canonical(held.by));
    if (holder !== undefined) return holder;
  }
  return trial.keep(`near ${device.name} of ${namesOf(voices)}`, () => {
    const at = standOf(setup, device, trial);
    let best: Voice | undefined;
    let least = Infinity;
    for (const voice of voices) {
      for (const mouth of mouths(setup, voice, trial)) {
        const far = (mouth.x - at.x) ** 2 + (mouth.y - at.y) ** 2 + (mouth.z - at.z) ** 2;
        if (far < least) {
          least = far;
          best = voice;
        }
      }
    }
    return best;
  });
}

/** Where a voice comes from: one mouth, or one for each seat. */
export function mouths(setup: Setup, voice: Voice, trial: Trial): readonly Vec3[] {
  return voice.seats === undefined ? [voice.position.at(trial)] : setup.floor.seats(voice.seats, trial).map((seat) => seat.mouth);
}

/** Direct and reverberant sound of one mouth at a microphone. `face`: the way the talker looks. */
export function voiceAtMicrophone(setup: Setup, trial: Trial, voice: Voice, mouth: Vec3, device: Device, mic: Part, face: Triple = facing(setup, voice, mouth, trial)): ArrivalBands {
  const room = acoustics(setup, trial);
  const a = patternOf(mic);
  const ree = randomEnergyEfficiency(a);
  const held = positionOf(setup, device).held;
  const holder = held === undefined ? undefined : setup.voices.get(canonical(held.by));
  const holds = holder !== undefined && (holder === voice || (holder.seats !== undefined && holder.seats === voice.seats));
  const at = standOf(setup, device, trial);
  const apart = distance(triple(at), triple(mouth));
  const flatApart = Math.hypot(at.x - mouth.x, at.y - mouth.y);
  const used = holds ? trial.value(mouthTo(mic, held?.how)) : undefined;
  // A microphone on a stand at somebody's place is used at the distance that its kind is used at.
  const stand = !holds && mic.mouth !== undefined && flatApart < 0.7 ? trial.value(mic.mouth) : undefined;
  const close = used ?? stand;
  if (close !== undefined) return transferBands((k) => ({ distance: close, q: TALKER_Q[k], roomConstant: room.constant[k], ree }));
  const cosine = cosineOffAxis(triple(mouth), face, triple(at));
  const receiver = microphonePattern(micCosine(setup, trial, device, at, mouth), a);
  const gains = sourcePatterns(cosine, TALKER_Q);
  return transferBands((k) => ({
    distance: apart, q: TALKER_Q[k], roomConstant: room.constant[k], ree, sourceGain: gains[k], receiverGain: receiver,
  }));
}

/** How a microphone hears a voice from one mouth: its direct over its reverberant sound, and its transfer, A-weighted, dB. */
export interface PickUp {
  readonly ratio: number;
  readonly transfer: number;
}

/** How a microphone hears a voice from each of its `mouths`, in their order. */
export function pickUps(setup: Setup, trial: Trial, voice: Voice, device: Device, mic: Part): readonly PickUp[] {
  return trial.keep(pickUpKey(voice, mic), () => mouths(setup, voice, trial).map((mouth) => {
    const arrival = voiceAtMicrophone(setup, trial, voice, mouth, device, mic);
    return { ratio: directToReverberant(arrival), transfer: speechTransfer(arrival) };
  }));
}

const pickUpKey = oncePair((voice: Voice, mic: Part) => `pick-up ${voice.name} ${mic.id}`);

/** Cosine between a microphone's axis and the way to a source. Without an aim it points at the audience, or up from a table. */
function micCosine(setup: Setup, trial: Trial, device: Device, at: Vec3, source: Vec3): number {
  const axis = trial.keep(`axis ${device.name}`, () => {
    const aim = aimOf(setup, device, trial, () => {
      const near = nearTalker(setup, device, [...setup.voices.values()], trial);
      return near === undefined ? audienceCentre(setup, trial) : nearestMouth(setup, near, at, trial);
    });
    return between(triple(at), triple(aim));
  });
  return cosineOffAxis(triple(at), axis, triple(source));
}

function nearestMouth(setup: Setup, voice: Voice, at: Vec3, trial: Trial): Vec3 {
  let best = voice.position.at(trial);
  let least = Infinity;
  for (const mouth of mouths(setup, voice, trial)) {
    const far = distance(triple(at), triple(mouth));
    if (far < least) {
      least = far;
      best = mouth;
    }
  }
  return best;
}

const airKey = oncePair((from: Part, to: Part) => `air ${from.id} ${to.id}`);

/** Sound of a loudspeaker at a microphone. */
export interface Crossing {
  /** H, dB, and as a power gain. */
  readonly levels: Bands;
  readonly powers: Bands;
  /** d and v. */
  readonly arrival: ArrivalBands;
  /** m */
  readonly distance: number;
}

/** Sound of a loudspeaker at a microphone, band by band in dB, its direct and its reverberant part, and how far apart they are in metres. */
export function loudspeakerAtMicrophone(setup: Setup, trial: Trial, from: { device: Device; part: Part }, to: { device: Device; part: Part }): Crossing {
  return trial.keep(airKey(from.part, to.part), () => {
    const room = acoustics(setup, trial);
    const a = patternOf(to.part);
    const ree = randomEnergyEfficiency(a);
    const q = directivityOf(from.part);
    if (from.device === to.device) {
      const arrival = transferBands((k) => ({ distance: SAME_CASE, q: q[k], roomConstant: room.constant[k], ree }));
      return crossing(SAME_CASE, arrival);
    }
    const source = triple(standOf(setup, from.device, trial));
    const at = standOf(setup, to.device, trial);
    const aim = aimOf(setup, from.device, trial, (t) => audienceCentre(setup, t));
    const cosine = cosineOffAxis(source, between(source, triple(aim)), triple(at));
    const receiver = a === 1 ? 1 : microphonePattern(micCosine(setup, trial, to.device, at, { x: source[0], y: source[1], z: source[2] }), a);
    const apart = Math.max(SAME_CASE, distance(source, triple(at)));
    const gains = sourcePatterns(cosine, q);
    const arrival = transferBands((k) => ({ distance: apart, q: q[k], roomConstant: room.constant[k], ree, sourceGain: gains[k], receiverGain: receiver }));
    return crossing(apart, arrival);
  });
}

function crossing(metres: number, arrival: ArrivalBands): Crossing {
  const levels = transferLevels(arrival);
  return { distance: metres, levels, powers: bands((k) => toPower(levels[k])), arrival };
}

/** Sound of a loudspeaker at ears, relative to its level at 1 m, A-weighted speech, dB. */
export function loudspeakerField(setup: Setup, trial: Trial, device: Device, part: Part): (ear: Vec3) => number {
  return trial.keep(`field ${part.id}`, () => {
    const room = acoustics(setup, trial);
    const q = directivityOf(part);
    const source = triple(standOf(setup, device, trial));
    const axis = between(source, triple(aimOf(setup, device, trial, (t) => audienceCentre(setup, t))));
    // What reverberates is the same at every ear.
    const { reverberant } = transferBands((k) => ({ distance: 1, q: q[k], roomConstant: room.constant[k] }));
    return (ear) => {
      const cosine = cosineOffAxis(source, axis, triple(ear));
      const apart = Math.max(SAME_CASE, distance(source, triple(ear)));
      const gains = sourcePatterns(cosine, q);
      const direct = bands((k) => transfer({ distance: apart, q: q[k], roomConstant: Infinity, sourceGain: gains[k] }).direct);
      return speechTransfer({ direct, reverberant });
    };
  });
}

/** `loudspeakerField` at all `listeners`, in their order. */
export function loudspeakerAtSeats(setup: Setup, trial: Trial, device: Device, part: Part): readonly number[] {
  return trial.keep(`seated ${part.id}`, () => {
    const field = loudspeakerField(setup, trial, device, part);
    return listeners(setup, trial).map((ear) => field(ear.at));
  });
}

export interface Listener {
  readonly name: string;
  readonly group: string;
  readonly row: number;
  readonly at: Vec3;
}

/** Everybody who listens from a seat; where no seats are stated, those who speak. */
export function listeners(setup: Setup, trial: Trial): readonly Listener[] {
  return trial.keep("listeners", () => {
    const seats = setup.room.seats.flatMap((group) => setup.floor.seats(group, trial).map((seat) => ({ name: seat.name, group: group.name, row: seat.row, at: seat.at })));
    if (seats.length > 0) return seats;
    return [{ name: "the middle of the room", group: "the room", row: 1, at: audienceCentre(setup, trial) }];
  });
}

/** How loud a loudspeaker is turned up, beside what the middle seat wants: people differ. Common practice, no source. */
export const turnedUp = (part: Part): Ranged =>
  assumed(`${part.id}.volume`, `how loud ${part.id} is turned up`, "level", { best: 0, low: -6, high: 6, source: "common practice, no source" });

/** The loudest clean speech of a loudspeaker at 1 m, dBA. */
export function loudest(part: Part, trial: Trial): number {
  return trial.value(part.speechLevel ?? assumed(`${part.id}.speech-level`, `the loudest speech that ${part.id} plays cleanly`, "level", { best: 78, low: 66, high: 94, source: "common practice, no source" }));
}
