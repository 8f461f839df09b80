import { canonical } from "../model/names";
import { figure, withUnit } from "../model/show";
import { Trial } from "../model/trial";
import { CONTRAST, fluxForContrast } from "../physics/contrast";
import { contrastOf, lightKey } from "../signal/pictures/daylight";
import { pictureOf } from "../signal/pictures/picture";
import { isLit, purposeAt, showingKey, showings } from "../signal/pictures/showing";
import { limitOf, type Case, type Check } from "./check";
import { drawCurtain, frontLampsOff } from "./light-remedies";
import { each } from "./too-near";

/** Contrast by purpose. Source: ANSI/InfoComm 3M-2011 as design guidelines quote it. */
const WANTED = { glance: CONTRAST.passive, reading: CONTRAST.basicDecisions, inspection: CONTRAST.analyticalDecisions } as const;

export const washedOut: Check = {
  bearing: "beside", silentInOrder: true, takesLimit: true,
  entry: {
    code: "washed-out", title: "The light in the room washes the picture out", severity: "error", group: "The room sees the people online",
    notice: "Grey text on a grey ground: somebody gets up to look for the light switch.",
    why: "No picture is darker than the surface that it is thrown on. The light of the room lies on black as on white, and what is left between them is the contrast.",
    todo: ["Switch off the lamps in front of the screen; leave those over the people on.", "Draw the curtains.", "A smaller picture is a brighter one.", "A stronger projector, or a display that shines by itself."],
    source: "ANSI/InfoComm 3M-2011 as design guidelines quote it: 7:1 for looking on, 15:1 for reading, 50:1 where every detail counts; daylight by the IESNA daylight availability model, the average daylight factor of BS 8206-2 and geometry", symptoms: ["picture too pale", "washed out", "cannot see the projector", "too bright in the room", "sun on the screen"],
    limit: `${CONTRAST.basicDecisions}:1, where the purpose is a glance ${CONTRAST.passive}:1, for inspection ${CONTRAST.analyticalDecisions}:1; under ${CONTRAST.passive}:1 an error where there is text`,
  },
  cases: (scene) => each(scene).map((showing): Case => ({
    key: `${showingKey([showing])} ${purposeAt(scene.graph, showing) ?? ""} ${lightKey(scene.setup, scene.item)}`, ways: ["room-sees-online"], asks: true,
    measure: (trial) => {
      if (!isLit(showing, trial)) return undefined;
      const { device, part } = showing.ending;
      const limit = limitOf(scene.setup, "washed-out", WANTED[purposeAt(scene.graph, showing) ?? "reading"]);
      const { value, ambient, thrown, lift, daylight } = contrastOf(scene.setup, trial, device, part, scene.item);
      const text = showings(scene.graph).some((s) => s.ending.part === part && s.shown.letters !== undefined);
      const severity = value < CONTRAST.passive && text ? "error" : value < limit ? "warning" : undefined;
      return {
        severity, badness: limit - value, measured: { value, unit: ":1" }, limit: { value: severity === "error" ? CONTRAST.passive : limit, unit: ":1" },
        cause: { key: `contrast ${canonical(part.id)}`, subjects: [part.id], where: showing.shown.where },
        say: () => {
          const { rectangle } = pictureOf(scene.setup, trial, device, part);
          const needed = thrown === undefined ? "" : `; ${limit}:1 needs ${figure(Math.round(fluxForContrast(limit, ambient, rectangle.width * rectangle.height, { gain: lift }) / 10) * 10)} lm or ${withUnit((thrown * lift) / (limit - 1), "lx")} of room light on it`;
          const is = thrown === undefined ? `${withUnit(ambient, "lx")} of room light on ${part.id} leave a contrast of ${figure(value)}:1` : `${part.id} throws ${withUnit(thrown, "lx")} and the room ${withUnit(ambient, "lx")} on the picture${lift > 1 ? `, the screen's gain lifts its light by ${figure(lift)}` : ""}: ${figure(value)}:1`;
          const day = daylight === undefined || daylight.by === undefined || daylight.level < ambient / 4 ? "" : `, of which ${withUnit(daylight.level, "lx")} ${daylight.sun > daylight.level / 2 ? `are sunlight through ${daylight.by.name}` : `are daylight, most of it by ${daylight.by.name}`}`;
          return { because: `${is}${day}${severity === undefined ? "" : needed}`, effect: text ? "text is grey on grey" : "the picture is pale", summary: is, chain: [] };
        },
      };
    },
    remedies: () => {
      const { device, part } = showing.ending;
      const by = contrastOf(scene.setup, new Trial(), device, part, scene.item).daylight?.by;
      return [...frontLampsOff(scene), ...(by === undefined ? [] : drawCurtain(scene, by.name))];
    },
  })),
};
