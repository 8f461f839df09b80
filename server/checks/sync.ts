import { duration } from "../model/show";
import { rewrite } from "../model/edits";
import { canonical } from "../model/names";
import { SYNC_ACCEPTED, SYNC_NOTICED } from "../physics/arrivals";
import type { Graph } from "../signal/graph";
import { carriesNow, filming, hearing, playing, showing, type Late } from "../signal/timing";
import { goTogether, portOwnersOf } from "../signal/wiring";
import type { Case, Check, Entry, Remedy, Scene } from "./check";

/** Which sound goes with which picture, and how strictly they are judged. */
interface Pairing {
  readonly entry: Entry;
  readonly ways: Case["ways"];
  readonly where: string;
  sounds(graph: Graph): readonly Late[];
  pictures(graph: Graph): readonly Late[];
  /** Whether more than noticed is a warning. */
  readonly strict: boolean;
  /** What is out of step with everything else: the loudspeaker in the room, the camera for those online. */
  readonly blames: "sound" | "picture";
}

const check = (pairing: Pairing): Check => ({
  bearing: "beside",
  entry: pairing.entry,
  cases: (scene) => {
    const { graph } = scene;
    const pictures = pairing.pictures(graph);
    return pairing.sounds(graph).map((sound): Case => ({
      key: `${sound.ending.part.id} ${pictures.map((p) => p.ending.part.id).join(" ")}`, ways: pairing.ways,
      measure: (trial) => {
        if (!carriesNow(sound, trial)) return undefined;
        const live = pictures.filter((picture) => carriesNow(picture, trial));
        // Early is positive, as in the recommendation; of several pictures the one that is farthest off.
        const off = live.map((picture) => ({ picture, early: picture.delay(trial) - sound.delay(trial) })).sort((a, b) => beyond(b.early) - beyond(a.early))[0];
        if (off === undefined) return undefined;
        const { early, picture } = off;
        const unacceptable = early > SYNC_ACCEPTED.early || -early > SYNC_ACCEPTED.late;
        const noticed = early > SYNC_NOTICED.early || -early > SYNC_NOTICED.late;
        const limit = early >= 0 ? SYNC_NOTICED.early : SYNC_NOTICED.late;
        const blamed = (pairing.blames === "sound" ? sound : picture).ending;
        const words = `${duration(Math.abs(early))} ${early >= 0 ? "before" : "after"}`;
        return {
          severity: unacceptable && pairing.strict ? "warning" : noticed ? "hint" : undefined, badness: beyond(early) * 1000,
          measured: { value: Math.abs(early) * 1000, unit: "ms" }, limit: { value: limit * 1000, unit: "ms" },
          cause: { key: `sync ${canonical(blamed.part.id)}`, subjects: [sound.ending.device.name, picture.ending.device.name], where: blamed.device.where },
          say: () => ({
            because: `the sound of ${sound.ending.part.id} comes ${words} the picture of ${picture.ending.part.id}`, effect: `${pairing.where} lips and words do not go together`,
            summary: noticed ? `sound and picture are ${duration(Math.abs(early))} apart` : "sound and picture go together",
            chain: [`sound ${duration(sound.delay(trial))} late through ${through(sound)}`, `picture ${duration(picture.delay(trial))} late through ${through(picture)}`],
          }),
        };
      },
      remedies: () => wired(scene, sound),
    }));
  },
});

const through = ({ path, ending }: Late): string => (path.some((edge) => edge.via === "radio") ? `radio to ${ending.device.name}` : ending.device.name);

/** How far beyond what is noticed, s. */
const beyond = (early: number): number => Math.max(early - SYNC_NOTICED.early, -early - SYNC_NOTICED.late);

/** A cable in place of the radio, between ports that are free and fit. */
function wired(scene: Scene, sound: Late): Remedy[] {
  const { setup } = scene;
  const owners = portOwnersOf(setup);
  const taken = new Set(setup.links.flatMap((link) => [canonical(link.from), canonical(link.to)]));
  return setup.links.filter((link) => link.how === "radio").flatMap((link): Remedy[] => {
    const ends = [link.from, link.to].map((end) => owners.get(canonical(end)) ?? setup.devices.get(canonical(end)));
    const [a, b] = ends;
    if (a === undefined || b === undefined || !ends.includes(sound.ending.device) || setup.links.filter((other) => other.statement === link.statement).length > 1) return [];
    const free = (port: { readonly id: string }): boolean => !taken.has(canonical(port.id));
    for (const from of a.ports.filter(free)) {
      const to = b.ports.filter(free).find((port) => goTogether(from, port, "cable") && ((from.gives.has("sound") && port.takes.has("sound")) || (from.takes.has("sound") && port.gives.has("sound"))));
      if (to !== undefined) return [{ title: `Run a cable from ${from.id} to ${to.id} in place of the radio`, edits: [rewrite(link.statement, `cable from ${from.id} to ${to.id}`)] }];
    }
    return [];
  });
}

const SOURCE = "ITU-R BT.1359, by two secondary sources";
const SYMPTOMS = ["lips do not match", "words before the mouth", "dubbed", "out of sync"];

export const lipSync: Check = check({
  ways: ["room-hears-online", "room-sees-online"], where: "in the room", sounds: playing, pictures: showing, strict: true, blames: "sound",
  entry: {
    code: "lip-sync", title: "In the room sound and picture come apart", severity: "warning", group: "The room hears the people online",
    notice: "The mouths on the screen move before the words come, or after; people look away to be able to listen.",
    why: "A radio loudspeaker keeps sound back for a fifth of a second, a display and a projector keep the picture back; what one has and the other lacks is seen at the lips.",
    todo: ["Run a cable in place of the radio.", "Play on what shows the picture.", "Delay what comes first, where the mixer can."],
    source: SOURCE, symptoms: SYMPTOMS, limit: "sound 45 ms early or 125 ms late: hint; 90 or 185 ms: warning; the call itself left out",
  },
});

export const pictureLate: Check = check({
  ways: ["online-hears-room", "online-sees-room"], where: "online", sounds: hearing, pictures: filming, strict: false, blames: "picture",
  entry: {
    code: "picture-late", title: "The picture of the room comes after its sound", severity: "hint", group: "The room hears the people online",
    notice: "Online the talkers' words come before their lips move.",
    why: "A camera, and what turns its picture into one for the computer, takes time; a microphone on a wire takes none.",
    todo: ["Delay the sound by as much, where the mixer or the interface can.", "Take the sound and the picture through the same device."],
    source: SOURCE, symptoms: SYMPTOMS, limit: "sound 45 ms early or 125 ms late; the call itself left out",
  },
});
