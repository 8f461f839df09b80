import { canonical } from "../model/names";
import { withUnit } from "../model/show";
import type { Trial } from "../model/trial";
import { distance } from "../physics/geometry";
import { microphoneSeparation, SPACING_RATIO, wellSpaced } from "../physics/openMicrophones";
import { hearings, type Hearing } from "../signal/pick-up/hearing";
import { isGated, liveMics, micsOf, sentBy } from "../signal/pick-up/mics";
import { standOf, triple } from "../signal/stands";
import type { Case, Check, Scene } from "./check";
import { voiceKey } from "./pick-up-causes";
import { automatic } from "./pick-up-remedies";

/** Nearer than this two microphones are as good as one. Common practice, no source. */
const NEAREST = 0.05;

export const micSpacing: Check = {
  silentInOrder: true,
  entry: {
    code: "mic-spacing", title: "Microphones stand too near to each other", severity: "hint", group: "The people online hear the room",
    notice: "Online a voice sounds thin and as if through a pipe, and changes whenever the talker moves.",
    why: "The same voice reaches two microphones at different times, and their sum takes some tones out. Three times as far apart as the talker is from the own one, the second copy is 9.5 dB weaker.",
    todo: ["Set them farther apart, or each nearer to its talker.", "Open one at a time: automatic mixing, or by hand."],
    source: "common practice (a microphone maker's guide), 3:1", symptoms: ["thin voice", "like through a pipe", "hollow with two microphones"], limit: "3 : 1",
  },
  cases: (scene) => {
    const { graph } = scene;
    const voices = graph.voices.filter((voice) => voice.seats === undefined);
    if (voices.length === 0 || micsOf(graph).length < 2) return [];
    return voices.map((voice): Case => ({
      key: voiceKey(graph, voice), ways: ["online-hears-room"],
      measure: (trial) => {
        const near = nearest(scene, hearingsOf(scene, voice, trial), trial);
        if (near === undefined) return undefined;
        const { own, other, apart } = near;
        const ok = wellSpaced(own.apart, apart);
        const ratio = apart / own.apart;
        return {
          severity: ok ? undefined : "hint", badness: SPACING_RATIO - ratio, measured: { value: ratio, unit: "" }, limit: { value: SPACING_RATIO, unit: "" },
          cause: { key: `spacing ${canonical(near.bus)}`, subjects: [own.mic.device.name, other.mic.device.name], where: other.mic.device.where },
          say: () => ({
            because: `${own.mic.part.id} and ${other.mic.part.id} are ${withUnit(apart, "m")} apart, and ${voice.name} speaks ${withUnit(own.apart, "m")} from the first`,
            effect: `the voice arrives twice, the second time only ${withUnit(microphoneSeparation(own.apart, Math.max(own.apart, other.apart)), "dB")} weaker`,
            summary: `${own.mic.part.id} and ${other.mic.part.id} are ${ratio.toFixed(1)} times as far apart as ${voice.name} is from the first`, chain: [],
          }),
        };
      },
      remedies: () => automatic(scene),
    }));
  },
};

const hearingsOf = ({ graph }: Scene, voice: Scene["graph"]["voices"][number], trial: Trial): readonly Hearing[] =>
  hearings(graph, voice, liveMics(graph, trial), trial)[0] ?? [];

/** The microphone nearest to somebody, and the one on the same bus that is nearest to it: both stand, and a worn one is no matter. */
function nearest({ graph, setup }: Scene, all: readonly Hearing[], trial: Trial): { own: Hearing; other: Hearing; apart: number; bus: string } | undefined {
  const mics = micsOf(graph);
  const standing = all.filter((h) => !h.worn && h.apart > NEAREST);
  const own = standing.reduce<Hearing | undefined>((a, b) => (a === undefined || b.apart < a.apart ? b : a), undefined);
  // Whoever wears a microphone is heard through that.
  if (own === undefined || all.some((h) => h.worn && h.apart < own.apart)) return undefined;
  const of = (h: Hearing) => mics.find((m) => m.ending === h.mic);
  const mine = of(own);
  if (mine === undefined || isGated(graph, mine)) return undefined;
  const at = triple(standOf(setup, own.mic.device, trial));
  let found: { own: Hearing; other: Hearing; apart: number; bus: string } | undefined;
  for (const other of standing) {
    const path = of(other);
    if (other === own || other.mic.device === own.mic.device || path === undefined || isGated(graph, path) || sentBy(path) !== sentBy(mine)) continue;
    const apart = distance(at, triple(standOf(setup, other.mic.device, trial)));
    // Two at one spot are a pair on purpose, and hear the same at the same time.
    if (apart > NEAREST && (found === undefined || apart < found.apart)) found = { own, other, apart, bus: sentBy(mine) };
  }
  return found;
}
