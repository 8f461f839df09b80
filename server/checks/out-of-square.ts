/** A projector that stands so high, so low or so far aside that its picture cannot be made square: part of `throw-misfit`. */
import { canonical } from "../model/names";
import { assumed } from "../model/make-ranged";
import { defaultOf } from "../model/defaults";
import type { Device } from "../model/device";
import type { Ranged } from "../model/ranged";
import { figure, withUnit } from "../model/show";
import { Trial } from "../model/trial";
import { keystone, skewOf } from "../physics/projection";
import { pictureOf } from "../signal/pictures/picture";
import { showingKey, type Showing } from "../signal/pictures/showing";
import { standOf, triple } from "../signal/stands";
import type { Case, Remedy, Scene } from "./check";
import { moveTo, setInPlace } from "./show-remedies";
import { each } from "./too-near";

const DEGREES = 180 / Math.PI;

/** Of each projector: whether it can make its picture square from where it stands. */
export const outOfSquare = (scene: Scene): Case[] => each(scene).filter((s) => s.ending.device.type === "projector").map((showing): Case => ({
  key: `square ${showingKey([showing])}`, ways: ["room-sees-online"], asks: true,
  measure: (trial) => {
    const { device, part } = showing.ending;
    const { rectangle, bottom } = pictureOf(scene.setup, trial, device, part);
    const lens = standOf(scene.setup, device, trial);
    const skew = skewOf(triple(lens), rectangle);
    const { tilt: said } = part.optics;
    const tilt = said === undefined ? skew.tilt * DEGREES : trial.value(said);
    const ways = [
      { how: tilt < 0 ? "down" : "up", angle: Math.abs(tilt), most: trial.value(limit(device, showing, "angle")), half: skew.halfHeight, edges: tilt < 0 ? "its lower edge" : "its upper edge" },
      { how: "aside", angle: skew.turn * DEGREES, most: trial.value(limit(device, showing, "sideways")), half: skew.halfWidth, edges: "its farther side" },
    ];
    const worst = ways.reduce((a, b) => (b.angle - b.most > a.angle - a.most ? b : a));
    const bad = worst.angle > worst.most;
    return {
      severity: bad ? "warning" : undefined, badness: worst.angle - worst.most, measured: { value: worst.angle, unit: "°" }, limit: { value: worst.most, unit: "°" },
      cause: { key: `square ${canonical(device.name)}`, subjects: [device.name], where: device.where },
      say: () => {
        const is = `${device.name}, ${withUnit(lens.z, "m")} up, looks ${withUnit(worst.angle, "°")} ${worst.how} to a picture from ${withUnit(bottom, "m")} to ${withUnit(bottom + rectangle.height, "m")} up`;
        const ratio = keystone(worst.angle / DEGREES, worst.half);
        return {
          because: `${is}, and its keystone setting squares ${withUnit(worst.most, "°")} at most`,
          effect: bad ? `the picture leans: unset, ${worst.edges} is ${Number.isFinite(ratio) && ratio < 3 ? `${figure(Math.round((ratio - 1) * 100))} % longer` : "several times as long"}` : "", summary: is, chain: [],
        };
      },
    };
  },
  remedies: () => squarer(scene, showing),
}));

/** What the keystone setting squares, in degrees. */
function limit(device: Device, { ending: { part } }: Showing, slot: "angle" | "sideways"): Ranged {
  const stated = slot === "angle" ? part.optics.keystone?.up : part.optics.keystone?.sideways;
  const what = slot === "angle" ? "how far up or down" : "how far aside";
  return stated ?? { ...assumed(`${device.name}.keystone.${slot}`, `${what} the keystone setting of ${device.name} reaches`, "angle", defaultOf("keystone", "device", slot)), ask: `Over how many degrees, ${slot === "angle" ? "up or down" : "to the side"}, can ${device.name} set its picture square?` };
}

/** The lens at the height of the picture's nearer edge, or straight before its middle. */
function squarer(scene: Scene, showing: Showing): Remedy[] {
  const { device, part } = showing.ending;
  const trial = new Trial();
  const { rectangle, bottom } = pictureOf(scene.setup, trial, device, part);
  const lens = standOf(scene.setup, device, trial);
  const [cx, cy] = rectangle.centre;
  const step = (n: number): string => figure(Math.round(n * 10) / 10);
  const top = bottom + rectangle.height;
  const height = lens.z < bottom ? Math.ceil(bottom * 10) / 10 : lens.z > top ? Math.floor(top * 10) / 10 : undefined;
  const raised = height === undefined || height > scene.setup.room.height.best - 0.2 ? [] : setInPlace(scene, device, "height", `${figure(height)} m`, `Put ${device.name} ${figure(height)} m high, ${height > 1.2 ? "on a stand that cannot be knocked over" : "on a table"}`);
  // Along the normal of the surface, as far away as it is.
  const normal = [-rectangle.right[1], rectangle.right[0]] as const;
  const far = Math.abs((lens.x - cx) * normal[0] + (lens.y - cy) * normal[1]);
  const side = (lens.x - cx) * normal[0] + (lens.y - cy) * normal[1] < 0 ? -1 : 1;
  const [x, y] = [cx + normal[0] * far * side, cy + normal[1] * far * side];
  const high = device.place?.relations.some((r) => r.anchor.kind === "point" && r.anchor.coordinates.length > 2) === true ? `, ${step(lens.z)} m` : "";
  return [...raised, ...moveTo(device, `at (${step(x)} m, ${step(y)} m${high})`, `Put ${device.name} straight before the middle of its picture`)];
}
