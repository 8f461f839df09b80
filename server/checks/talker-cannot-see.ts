import { unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import { insertInto, type Edit } from "../model/edits";
import { Trial } from "../model/trial";
import { withUnit } from "../model/show";
import type { Voice } from "../model/setup";
import { angleBetween, between } from "../physics/geometry";
import { pictureOf } from "../signal/pictures/picture";
import { isLit, showingKey, showings, type Showing } from "../signal/pictures/showing";
import { facing, triple } from "../signal/stands";
import { fileOf, type Case, type Check, type Remedy, type Scene } from "./check";

/** To either side of where a talker looks, degrees; and how near a display is glanced at wherever it stands, m. Common practice, no source. */
const IN_VIEW = { angle: 60, glance: 1.2 } as const;

export const talkerCannotSee: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "talker-cannot-see", title: "Whoever speaks does not see the people online", severity: "warning", group: "The room sees the people online",
    notice: "A hand goes up online, and the speaker talks on: the picture is behind them.",
    why: "Who faces the audience has the screen at the back. What is meant for the room is not in the talker's view.",
    todo: ["A laptop or a second display in front of the talker, showing the call.", "Somebody in the room who says when online somebody wants to speak."],
    source: "common practice, no source", symptoms: ["speaker does not notice raised hands", "talks past the people online"], limit: `a display of the call within ${IN_VIEW.angle}° of where the talker looks, or within ${IN_VIEW.glance} m`,
  },
  cases: (scene) => {
    // Whoever sits around a table turns to whatever is of interest.
    const list = showings(scene.graph).filter((s) => s.shown.what === "call");
    return list.length === 0 ? [] : scene.graph.voices.filter((v) => v.seats === undefined && !v.music && !v.around).map((voice): Case => ({
      key: `${voice.name} ${showingKey(list)}`, ways: ["room-sees-online"], together: true,
      measure: (trial) => {
        const lit = list.filter((s) => isLit(s, trial));
        if (lit.length === 0) return undefined;
        const views = lit.map((s) => ({ s, ...lookOf(scene, voice, s, trial) })).sort((a, b) => a.turn - b.turn);
        const best = views[0];
        if (best === undefined) return undefined;
        const sees = best.turn <= IN_VIEW.angle;
        const matters = sees || trial.holds(unsaid("talkers.see", "whether those who speak must see the people online", true, "nothing being said", "Must those who speak see the people online while they speak?"));
        return {
          severity: sees || !matters ? undefined : "warning", badness: best.turn - IN_VIEW.angle, measured: { value: best.turn, unit: "°" }, limit: { value: IN_VIEW.angle, unit: "°" },
          cause: { key: "talkers see", subjects: [voice.name], where: best.s.shown.where },
          say: () => ({
            because: `${best.s.ending.part.id} is ${withUnit(best.turn, "°")} away from where ${voice.name} looks`, effect: `${voice.name} does not see the people online`,
            summary: sees ? `${voice.name} sees ${best.s.ending.part.id}` : `${voice.name} does not see the people online`, chain: [],
          }),
        };
      },
      remedies: () => ownScreen(scene, voice),
    }));
  },
};

/** How far a talker must turn to see a display, degrees; 180 where one sees its back. */
function lookOf(scene: Scene, voice: Voice, { ending }: Showing, trial: Trial): { readonly turn: number } {
  const mouth = voice.position.at(trial);
  const { rectangle, normal } = pictureOf(scene.setup, trial, ending.device, ending.part);
  const way = between(triple(mouth), rectangle.centre);
  const flat = Math.hypot(way[0], way[1]);
  // A display that is within reach is turned as the talker wants it.
  if (flat <= IN_VIEW.glance && (normal === undefined || ending.device.type !== "projector")) return { turn: 0 };
  if (normal !== undefined && way[0] * normal[0] + way[1] * normal[1] >= 0) return { turn: 180 };
  const face = facing(scene.setup, voice, mouth, trial);
  return { turn: (angleBetween([face[0], face[1], 0], [way[0], way[1], 0]) * 180) / Math.PI };
}

/** The call on the screen of a joined computer that stands at the talker's place. */
function ownScreen(scene: Scene, voice: Voice): Remedy[] {
  const trial = new Trial();
  return scene.graph.joins.flatMap((state): Remedy[] => {
    const screen = state.device.parts.find((p) => p.type === "display");
    const file = fileOf(scene.setup, state.join.where.path);
    if (screen === undefined || file === undefined || state.shows.some((s) => canonical(s.name) === canonical(screen.id))) return [];
    const { rectangle } = pictureOf(scene.setup, trial, state.device, screen);
    const mouth = voice.position.at(trial);
    if (Math.hypot(rectangle.centre[0] - mouth.x, rectangle.centre[1] - mouth.y) > IN_VIEW.glance) return [];
    const edits: Edit[] = [insertInto(file, state.join.bound, [`shows call on ${screen.id}`])];
    return [{ title: `Show the call on ${screen.id} too, for ${voice.name}`, edits }];
  });
}
