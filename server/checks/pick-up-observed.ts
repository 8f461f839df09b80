/** What was noticed of a voice in the room, as those online heard it: `observed Ines clear`, `observed audience unclear at row 4`. */
import { canonical } from "../model/names";
import type { Observation } from "../model/observations";
import type { Voice } from "../model/setup";
import { Trial } from "../model/trial";
import { withUnit } from "../model/show";
import { FAR } from "../signal/pick-up/hearing";
import { micsOf } from "../signal/pick-up/mics";
import { listeners } from "../signal/air";
import { nameOfNode } from "../signal/edges";
import type { Opinion, Scene } from "./check";
import { pickUpOf } from "./pick-up-causes";
import { concerns, opinion, seatsMeant } from "./observes";

/** Whether it is said of this voice, or of a device that carries it, and not of somebody else or of what plays. */
function isOf({ graph, setup }: Scene, voice: Voice, seen: Observation): boolean {
  const { subject } = seen;
  if (subject === undefined || canonical(subject) === canonical(voice.name)) return true;
  if (setup.voices.has(canonical(subject)) || setup.floor.group(subject) !== undefined) return false;
  return micsOf(graph).some(({ path }) => path.some((edge) => concerns(seen, [nameOfNode(edge.from), nameOfNode(edge.to)])));
}

/** Of a voice as a whole. Where in the room something was noticed is a matter of seats. */
export function seenOfVoice(scene: Scene, voice: Voice, seen: Observation): Opinion | undefined {
  return seen.place !== undefined || !isOf(scene, voice, seen) ? undefined : opinion(seen, ["unclear", "quiet"], ["clear"]);
}

/** Of seats, or of some of them. */
export function seenOfSeats(scene: Scene, voice: Voice, seen: Observation): Opinion | undefined {
  const said = isOf(scene, voice, seen) ? opinion(seen, ["unclear", "quiet"], ["clear"]) : undefined;
  const meant = seatsMeant(scene.setup, seen);
  if (said === undefined || meant === undefined) return said;
  if (!listeners(scene.setup, new Trial()).some((ear) => ear.group === voice.seats?.name && meant(ear))) return undefined;
  return {
    ...said, part: {
      name: seen.place?.words ?? "",
      measure: (trial) => {
        const p = pickUpOf(scene.graph, voice, trial);
        const ratios = p?.seats?.seats.filter(meant).map((seat) => seat.ratio) ?? [];
        if (p === undefined || ratios.length === 0) return undefined;
        const ratio = Math.min(...ratios);
        return {
          severity: ratio < FAR.warning && p.repeated === undefined ? "warning" : undefined, badness: FAR.warning - ratio,
          words: `the voice ${withUnit(ratio, "dB")} over the sound of the room there, where ${withUnit(FAR.warning, "dB")} is needed`, off: withUnit(Math.abs(FAR.warning - ratio), "dB"),
        };
      },
    },
  };
}
