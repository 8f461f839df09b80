import { canonical } from "../model/names";
import { figure, withUnit } from "../model/show";
import { throwRatio } from "../physics/projection";
import { pictureOf } from "../signal/pictures/picture";
import { showingKey } from "../signal/pictures/showing";
import { standOf } from "../signal/stands";
import type { Case, Check, Remedy } from "./check";
import { outOfSquare } from "./out-of-square";
import { moveTo } from "./show-remedies";
import { each } from "./too-near";

/** A picture that is this much too large or too small is moved into place by a step. Common practice, no source. */
const SLACK = 0.05;

export const throwMisfit: Check = {
  silentInOrder: true,
  entry: {
    code: "throw-misfit", title: "The projector cannot fill the surface from where it stands", severity: "error", group: "The room sees the people online",
    notice: "The picture spills over the edge of the screen, or is a stamp in its middle, or leans like a house of cards.",
    why: "A lens throws a picture as wide as the distance divided by its throw ratio, and its zoom goes no farther than its ends. From above, below or aside the picture is no rectangle, and the keystone setting squares it no farther than its own end.",
    todo: ["Move the projector to the distance that fits.", "Straight before the picture, and no lower than its lower edge, nothing leans.", "Or fill another surface. What stands high must not fall: a load overhead is for the venue and a licensed rigger."],
    source: "geometry: throw ratio = distance / width; how far lenses and keystone settings reach: common practice", symptoms: ["picture larger than the screen", "picture too small on the screen", "picture crooked", "picture wider at the top"],
    limit: "distance / width within the ends of the zoom, give or take 5 per cent; tilt and turn within the keystone setting",
  },
  cases: (scene) => [...each(scene).filter((s) => s.ending.part.optics.throws !== undefined).map((showing): Case => ({
    key: showingKey([showing]), ways: ["room-sees-online"], asks: true,
    measure: (trial) => {
      const { device, part } = showing.ending;
      const { throws } = part.optics;
      if (throws === undefined) return undefined;
      const lens = { low: trial.value(throws.least), high: trial.value(throws.most) };
      const { rectangle } = pictureOf(scene.setup, trial, device, part);
      const at = standOf(scene.setup, device, trial);
      const distance = Math.hypot(at.x - rectangle.centre[0], at.y - rectangle.centre[1]);
      const value = throwRatio(distance, rectangle.width);
      const [low, high] = [lens.low * (1 - SLACK), lens.high * (1 + SLACK)];
      const near = value < low;
      const bad = near || value > high;
      const end = near ? lens.low : lens.high;
      return {
        severity: bad ? "error" : undefined, badness: near ? low - value : value - high, measured: { value, unit: "" }, limit: { value: end, unit: "" },
        cause: { key: `throw ${canonical(device.name)}`, subjects: [device.name], where: device.where },
        say: () => ({
          because: `from ${withUnit(distance, "m")} ${device.name} throws a picture ${withUnit(distance / lens.high, "m")} to ${withUnit(distance / lens.low, "m")} wide, and it is to be ${withUnit(rectangle.width, "m")}`,
          effect: `it has to stand ${withUnit(rectangle.width * lens.low, "m")} to ${withUnit(rectangle.width * lens.high, "m")} away`, summary: `${device.name} stands ${figure(value)} widths of its picture away`, chain: [],
        }),
      };
    },
    remedies: (): Remedy[] => {
      const { device, part } = showing.ending;
      const { room } = scene.setup;
      const width = room.surfaces.get(canonical(device.fills ?? ""))?.width.best;
      const { throws } = part.optics;
      if (throws === undefined || width === undefined) return [];
      // Straight before a surface on the front wall: others are for the author to reckon.
      const distance = Math.round(((throws.least.best + throws.most.best) / 2) * width * 10) / 10;
      if (distance > room.length.best - 0.3) return [];
      return moveTo(device, `at (${figure(distance)} m, ${figure(Math.round(room.width.best * 5) / 10)} m)`, `Put ${device.name} ${figure(distance)} m before the surface`);
    },
  })), ...outOfSquare(scene)],
};
