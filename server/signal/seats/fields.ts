/** What each seat gets of one source of speech: direct and reverberant sound band by band, and how far it is; all seats in one array. */
import { valueOf } from "../../model/bound";
import { holding } from "../../model/during";
import type { Vec3 } from "../../model/geometry";
import type { Setup, Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import type { Bands } from "../../physics/bands";
import { sourcePattern } from "../../physics/directivity";
import { toDb } from "../../physics/decibel";
import { between, cosineOffAxis, distance, type Vec3 as Triple } from "../../physics/geometry";
import { transfer, transferBands } from "../../physics/soundField";
import { SPEECH_SHARES } from "../../physics/speech";
import { enclosure } from "../acoustics";
import { directivityOf, listeners, mouths, SAME_CASE, TALKER_Q } from "../air";
import type { Ending, Graph } from "../graph";
import { aimOf, audienceCentre, facing, pointOf, standOf, triple } from "../stands";

/** Bands of one seat. */
export const BANDS = 7;
/** Ears come no nearer to a mouth than this, m. Common practice, no source. */
const ARM = 0.3;

/** One source at all `listeners`, in their order. Powers are ratios to the direct sound on its axis at 1 m. */
export interface SeatField {
  /** d of seat i in band k at 7i + k. */
  readonly direct: Float64Array;
  /** v, which is the same at every seat. */
  readonly reverberant: Bands;
  /** r, m. */
  readonly distance: Float64Array;
  /** H, A-weighted speech, and that of the direct sound alone, dB; and as powers. */
  readonly transfer: Float64Array;
  readonly directTransfer: Float64Array;
  readonly power: Float64Array;
  readonly directPower: Float64Array;
}

/** A source at `ears`. Nearer than `nearest` it counts as there. */
function fieldAt(ears: readonly { readonly at: Vec3 }[], source: Triple, axis: Triple, q: Bands, roomConstant: Bands, nearest: number): SeatField {
  const n = ears.length;
  const direct = new Float64Array(n * BANDS);
  const far = new Float64Array(n);
  const all = new Float64Array(n);
  const alone = new Float64Array(n);
  const power = new Float64Array(n);
  const directPower = new Float64Array(n);
  const { reverberant } = transferBands((k) => ({ distance: 1, q: q[k], roomConstant: roomConstant[k] }));
  let diffuse = 0;
  for (let k = 0; k < BANDS; k += 1) diffuse += (SPEECH_SHARES[k] ?? 0) * (reverberant[k] ?? 0);
  for (let i = 0; i < n; i += 1) {
    const ear = ears[i];
    if (ear === undefined) continue;
    const at = triple(ear.at);
    const apart = Math.max(nearest, distance(source, at));
    const cosine = cosineOffAxis(source, axis, at);
    far[i] = apart;
    let sum = 0;
    let last = NaN;
    let d = 0;
    for (let k = 0; k < BANDS; k += 1) {
      const here = q[k] ?? 1;
      // Bands of equal Q are worked out once.
      if (here !== last) d = transfer({ distance: apart, q: here, roomConstant: Infinity, sourceGain: sourcePattern(cosine, here) }).direct;
      last = here;
      direct[i * BANDS + k] = d;
      sum += (SPEECH_SHARES[k] ?? 0) * d;
    }
    power[i] = sum + diffuse;
    directPower[i] = sum;
    all[i] = toDb(sum + diffuse);
    alone[i] = toDb(sum);
  }
  return { direct, reverberant, distance: far, transfer: all, directTransfer: alone, power, directPower };
}

/** A loudspeaker at all listeners. */
export function loudspeakerSeats(setup: Setup, trial: Trial, { device, part }: Ending): SeatField {
  return trial.keep(`seat field ${part.id}`, () => {
    const source = triple(standOf(setup, device, trial));
    const axis = between(source, triple(aimOf(setup, device, trial, (t) => audienceCentre(setup, t))));
    return fieldAt(listeners(setup, trial), source, axis, directivityOf(part), enclosure(setup, trial).constant, SAME_CASE);
  });
}

/** The way somebody looks in an item: where the text says that they face something else, there. */
function looks(graph: Graph, voice: Voice, mouth: Vec3, trial: Trial): Triple {
  const faces = holding(voice.statements, "faces", graph.item).find((s) => !s.negated);
  const place = faces && valueOf(faces, "at", "place");
  return place === undefined ? facing(graph.setup, voice, mouth, trial) : between(triple(mouth), triple(pointOf(graph.setup, `${voice.name} faces`, place, trial)));
}

/** A voice from one of its mouths at all listeners, without help. */
export function voiceSeats(graph: Graph, trial: Trial, voice: Voice, mouth: number): SeatField {
  return trial.keep(`voice field ${voice.name} ${mouth} ${graph.item ?? ""}`, () => {
    const { setup } = graph;
    const at = mouths(setup, voice, trial)[mouth] ?? voice.position.at(trial);
    return fieldAt(listeners(setup, trial), triple(at), looks(graph, voice, at, trial), TALKER_Q, enclosure(setup, trial).constant, ARM);
  });
}
