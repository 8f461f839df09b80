/** Voices as the others in the room hear them: of many that stand alike the one that is worst off is judged, and speaks for all. */
import type { Voice } from "../model/setup";
import { shelfOf, Trial } from "../model/trial";
import { repeaters } from "../signal/pick-up/repeaters";
import { sourcesOf, type Speaking } from "../signal/seats/heard";
import { called } from "../signal/coverage";
import { list } from "../model/show";
import type { Scene } from "./check";

/** Whoever speaks words in this item that nobody says again. */
export const inRoom = ({ graph }: Scene): readonly Voice[] => graph.voices.filter((voice) => !voice.music && repeaters(graph, voice).length === 0);

export const speakingOf = (voice: Voice, mouth: number): Speaking => ({ who: "voice", voice, mouth });

/** One that is judged, and those who stand alike. */
export interface Spokesman {
  readonly voice: Voice;
  readonly amplified: boolean;
  /** All of its kind, itself included, those first that are worst off at the best guess. */
  readonly alike: readonly Voice[];
}

/** Of those whom loudspeakers carry, and of those whom none does, the one with the greatest `badness` at the best guess. */
export function spokesmen(scene: Scene, badness: (voice: Voice, trial: Trial) => number | undefined): Spokesman[] {
  const trial = new Trial(new Map(), shelfOf(scene.setup));
  const all = inRoom(scene).map((voice) => ({ voice, amplified: sourcesOf(scene.graph, speakingOf(voice, 0), trial).length > 1, badness: badness(voice, trial) ?? -Infinity }));
  return [true, false].flatMap((amplified): Spokesman[] => {
    const own = all.filter((one) => one.amplified === amplified).sort((a, b) => b.badness - a.badness);
    return own[0] === undefined ? [] : [{ voice: own[0].voice, amplified, alike: own.map((one) => one.voice) }];
  });
}

/** `, and likewise Teo and Ines`: those others for whom `holds`. */
export function likewise({ voice, alike }: Spokesman, holds: (voice: Voice) => boolean): string {
  const others = alike.filter((other) => other !== voice && holds(other));
  return others.length === 0 ? "" : `, and likewise ${list(others.map((other) => called(other.name)))}`;
}
