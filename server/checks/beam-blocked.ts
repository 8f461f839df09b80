import { canonical } from "../model/names";
import { figure, withUnit } from "../model/show";
import { Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { shareHidden, type Upright } from "../physics/hidden";
import { listeners } from "../signal/air";
import { seatedBodies, standingBody } from "../signal/pictures/people";
import { pictureOf } from "../signal/pictures/picture";
import { solidsOf } from "../signal/pictures/solids";
import { showingKey } from "../signal/pictures/showing";
import { standOf, triple } from "../signal/stands";
import type { Case, Check, Remedy, Scene } from "./check";
import { rowOf } from "./seats-short";
import { setInPlace } from "./show-remedies";
import { each } from "./too-near";

/** A shadow of less than this share of the picture is none. Common practice, no source. */
const SHADOW = 0.01;

interface Blocker {
  readonly name: string;
  readonly shapes: readonly Upright[];
}

export const beamBlocked: Check = {
  silentInOrder: true,
  entry: {
    code: "beam-blocked", title: "Somebody or something stands in the projector's beam", severity: "warning", group: "The room sees the people online",
    notice: "The shadow of a head walks across the picture, and the light is in somebody's eyes.",
    why: "Between lens and picture the beam widens to the picture's size; whatever reaches into it throws a shadow that grows toward the screen.",
    todo: ["Raise the projector over the heads.", "Leave the chairs in the beam empty, or make a gangway of them.", "Let the talker stand beside the picture. Do not look into the beam."],
    source: "geometry in three dimensions", symptoms: ["shadow on the screen", "heads in the picture", "blinded by the projector"], limit: `a shadow of ${SHADOW * 100} per cent of the picture`,
  },
  cases: (scene) => each(scene).filter((s) => s.ending.device.type === "projector").map((showing): Case => ({
    key: `${showingKey([showing])} ${namesOf(scene.graph.voices)}`, ways: ["room-sees-online"], asks: true, together: true,
    measure: (trial) => {
      const { device, part } = showing.ending;
      const shadows = blockers(scene, trial, device.name).map((b) => ({ b, share: shadow(scene, trial, showing, b.shapes) })).filter((s) => s.share > 0).sort((a, b) => b.share - a.share);
      const worst = shadows[0];
      const share = worst?.share ?? 0;
      const count = shadows.filter((s) => s.share > SHADOW).length;
      return {
        severity: share > SHADOW ? "warning" : undefined, badness: (share - SHADOW) * 100, measured: { value: share * 100, unit: "%" }, limit: { value: SHADOW * 100, unit: "%" },
        cause: { key: `beam ${canonical(device.name)}`, subjects: [device.name], where: device.where },
        say: () => ({
          because: worst === undefined ? `the beam of ${device.name} is free` : `${worst.b.name}${count > 1 ? ` and ${count - 1} more` : ""} ${count > 1 ? "reach" : "reaches"} into the beam of ${device.name}, whose lens is ${withUnit(standOf(scene.setup, device, trial).z, "m")} up`,
          effect: `a shadow on ${withUnit(share * 100, "%")} of the picture of ${part.id}`, summary: worst === undefined ? `the beam of ${device.name} is free` : `${worst.b.name} in the beam of ${device.name}`, chain: [],
        }),
      };
    },
    remedies: () => higher(scene, showing.ending.device),
  })),
};

const shadow = (scene: Scene, trial: Trial, { ending }: ReturnType<typeof each>[number], shapes: readonly Upright[]): number =>
  shareHidden(triple(standOf(scene.setup, ending.device, trial)), pictureOf(scene.setup, trial, ending.device, ending.part).rectangle, shapes);

/** Who and what may stand in a beam: those who sit, those who speak. Who sits right at the projector has made room for it. */
function blockers({ setup, graph }: Scene, trial: Trial, projector: string): Blocker[] {
  const device = setup.devices.get(canonical(projector));
  const at = device === undefined ? undefined : standOf(setup, device, trial);
  const clear = (x: number, y: number): boolean => at === undefined || Math.hypot(x - at.x, y - at.y) > 0.6;
  const seats = listeners(setup, trial);
  const seated = seatedBodies(setup, trial).map((shapes, i): Blocker => ({ name: `a head in ${rowOf(seats[i])}`, shapes })).filter(({ shapes: [head] }) => head !== undefined && clear(head.x, head.y));
  const talkers = graph.voices.filter((v) => v.seats === undefined).map((v) => ({ v, mouth: v.position.at(trial) })).filter(({ mouth }) => clear(mouth.x, mouth.y))
    .map(({ v, mouth }): Blocker => ({ name: v.name, shapes: standingBody(mouth) }));
  // Columns and displays on stands; the projector may hang on a column.
  const things = solidsOf(setup, trial).filter(({ name, shape, around }) => name !== projector && (at === undefined || Math.hypot(shape.x - at.x, shape.y - at.y) > around)).map(({ name, shape }): Blocker => ({ name, shapes: [shape] }));
  return [...talkers, ...seated, ...things];
}

/** The projector on something taller. */
function higher(scene: Scene, device: ReturnType<typeof each>[number]["ending"]["device"]): Remedy[] {
  const z = standOf(scene.setup, device, new Trial()).z;
  return [1.4, 1.8, 2.2].filter((h) => h > z + 0.1 && h < scene.setup.room.height.best - 0.2)
    .flatMap((h) => setInPlace(scene, device, "height", `${figure(h)} m`, `Put ${device.name} ${figure(h)} m high, on a stand that cannot be knocked over`));
}
