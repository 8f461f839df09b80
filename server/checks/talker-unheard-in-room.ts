import { figure, withUnit } from "../model/show";
import type { Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { acoustics } from "../signal/acoustics";
import { listeners } from "../signal/air";
import { called } from "../signal/coverage";
import { groupNames, keyOfSpeaking, levelsOf, softest, sourcesOf } from "../signal/seats/heard";
import { strongestAt } from "../signal/seats/levels";
import { SEAT_NOISE } from "../signal/seats/limits";
import { mouthsAsked } from "../signal/seats/sources";
import type { Case, Check, Outcome, Scene } from "./check";
import { counted, graded, unheardKey, whereOf } from "./seat-causes";
import { amplify } from "./seat-remedies";
import { likewise, speakingOf, spokesmen, type Spokesman } from "./voices-in-room";

export const talkerUnheardInRoom: Check = {
  bearing: "beside",
  entry: {
    code: "talker-unheard-in-room", title: "Somebody in the room is not heard by the others in it", severity: "warning", group: "The room hears the people online",
    notice: "Somebody at the back calls: louder! – while the people online hear every word.",
    why: "A voice loses 6 dB with each doubling of the distance until only what the room throws back is left. Against noise that is too little; and what helps the people online does nothing for those in the room.",
    todo: ["Amplify the voice: hold its channel on the bus that feeds the loudspeakers, or hold it louder.", "Speak from nearer to the seats, and facing them.", "Let somebody repeat what is said from the floor.", "Less noise."],
    source: "common practice, no source; level of a voice: ISO 9921", symptoms: ["louder please", "cannot hear the speaker", "back row cannot hear", "questions are not heard in the room"],
    limit: `speech over noise at a seat: ${SEAT_NOISE.warning} dB; where it is amplified, ${SEAT_NOISE.hint} dB a hint`,
  },
  cases: (scene) => spokesmen(scene, (voice, trial) => softness(scene, voice, trial)).map((by): Case => ({
    key: `${keyOfSpeaking(scene.graph, speakingOf(by.voice, 0))} ${by.alike.map((voice) => voice.name).join(",")}`, ways: ["room-hears-online"],
    measure: (trial) => measure(scene, by, trial), remedies: () => amplify(scene, by.alike),
  })),
};

/** How far a voice is below what is needed at the seat that gets least of it, dB. */
function softness(scene: Scene, voice: Voice, trial: Trial): number | undefined {
  const worst = least(scene, voice, trial);
  return worst === undefined ? undefined : SEAT_NOISE.warning - worst.level + acoustics(scene.setup, trial).noise;
}

/** The mouth and the seat between which least is left of a voice. */
function least(scene: Scene, voice: Voice, trial: Trial): { readonly mouth: number; readonly seat: number; readonly level: number } | undefined {
  let worst: { readonly mouth: number; readonly seat: number; readonly level: number } | undefined;
  for (const mouth of mouthsAsked(scene.setup, voice, trial)) {
    for (const group of groupNames(scene.setup)) {
      const one = softest(scene.graph, speakingOf(voice, mouth), "level", group, trial);
      if (one !== undefined && (worst === undefined || one.level < worst.level)) worst = { mouth, ...one };
    }
  }
  return worst;
}

function measure(scene: Scene, by: Spokesman, trial: Trial): Outcome | undefined {
  const { setup, graph } = scene;
  const { voice, amplified } = by;
  const worst = least(scene, voice, trial);
  if (worst === undefined) return undefined;
  const { noise } = acoustics(setup, trial);
  const over = worst.level - noise;
  const speaking = speakingOf(voice, worst.mouth);
  const sources = sourcesOf(graph, speaking, trial);
  const { severity: level, limit } = graded(over, SEAT_NOISE);
  // A voice by itself is what everybody knows: that it is a little soft is no news.
  const severity = level === "error" || level === "warning" ? "warning" : amplified ? level : undefined;
  const strongest = strongestAt(sources, worst.seat);
  return {
    severity, badness: SEAT_NOISE.warning - over, measured: { value: over, unit: "dB" }, limit: { value: severity === "warning" ? SEAT_NOISE.warning : limit, unit: "dB" },
    cause: { key: unheardKey(amplified), subjects: [voice.name], where: voice.where ?? whereOf(scene, strongest, speaking) },
    say: () => {
      const needed = severity === "warning" ? SEAT_NOISE.warning : limit;
      const levels = levelsOf(graph, speaking, "level", trial);
      const all = [...listeners(setup, trial).keys()];
      const short = all.filter((i) => (levels[i] ?? -Infinity) - noise < needed);
      const name = called(voice.name);
      return {
        because: `the voice of ${name}${amplified ? `, with ${strongest?.ending === undefined ? "what amplifies it" : strongest.name},` : " by itself"} is ${over < 0 ? `${figure(-over)} dB under` : `${figure(over)} dB above`} the noise at ${listeners(setup, trial)[worst.seat]?.name ?? "the worst seat"}, where ${figure(needed)} dB is needed`,
        effect: `${counted(scene, trial, all, short, worst.seat, [`hardly hears ${name}`, `hardly hear ${name}`])}${likewise(by, (other) => (softness(scene, other, trial) ?? -1) > SEAT_NOISE.warning - needed)}`,
        summary: `${name} is ${figure(over)} dB above the noise at the worst seat`,
        chain: [`${figure(worst.level)} dBA there, ${withUnit(sources[0]?.field.distance[worst.seat] ?? NaN, "m")} from the mouth; the noise is ${figure(noise)} dBA`],
      };
    },
  };
}
