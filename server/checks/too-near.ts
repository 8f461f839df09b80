import { Trial } from "../model/trial";
import { canonical } from "../model/names";
import { figure, withUnit } from "../model/show";
import { closestViewer } from "../physics/imageSize";
import { listeners } from "../signal/air";
import { pictureOf } from "../signal/pictures/picture";
import { looksAt, showingKey, showings, type Showing } from "../signal/pictures/showing";
import type { Case, Check, Remedy, Scene } from "./check";
import { rowOf, seatsShort } from "./seats-short";
import { setInSeats } from "./show-remedies";

export const tooNear: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "too-near", title: "The nearest seats have to crane their necks", severity: "hint", group: "The room sees the people online",
    notice: "The front row leans back and leaves early with stiff necks.",
    why: "The top of the picture is more than 30° above the eyes of whoever sits so near.",
    todo: ["Move the first row back.", "Or hang the picture lower, if those behind still see it."],
    source: "ANSI/AVIXA V202.01:2016: CV = 1.732 × (height of the picture + its lower edge above the eyes)", symptoms: ["stiff neck", "front row too near"], limit: "top of the picture at most 30° above the eyes",
  },
  cases: (scene) => each(scene).filter((s) => s.ending.device.type !== "computer").map((showing): Case => ({
    key: showingKey([showing]), ways: ["room-sees-online"],
    measure: (trial) => {
      const { part } = showing.ending;
      const { rectangle, bottom } = pictureOf(scene.setup, trial, showing.ending.device, part);
      const seats = listeners(scene.setup, trial);
      const near = seats.map((seat, i) => {
        const look = looksAt(scene.setup, trial, showing.ending)[i];
        // Along the floor; whoever sits beside or behind it is no viewer of it.
        const flat = Math.hypot(seat.at.x - rectangle.centre[0], seat.at.y - rectangle.centre[1]);
        return look === undefined || look.off > 60 ? Infinity : flat - closestViewer(rectangle.height, bottom - seat.at.z);
      });
      const worst = near.reduce((w, value, i) => (value < (near[w] ?? Infinity) ? i : w), 0);
      const slack = near[worst] ?? Infinity;
      if (!Number.isFinite(slack)) return undefined;
      const seat = seats[worst];
      const least = closestViewer(rectangle.height, bottom - (seat?.at.z ?? 0));
      return {
        severity: slack < 0 ? "hint" : undefined, badness: -slack, measured: { value: slack + least, unit: "m" }, limit: { value: least, unit: "m" },
        cause: { key: `near ${canonical(part.id)}`, subjects: [part.id], where: showing.shown.where },
        say: () => ({
          because: `${rowOf(seat)} is ${withUnit(slack + least, "m")} from ${part.id}, whose top is ${withUnit(bottom + rectangle.height, "m")} up: ${withUnit(least, "m")} is needed to look up by no more than 30°`,
          effect: `uncomfortable for ${seatsShort(seats, near.flatMap((n, i) => (n < 0 ? [i] : [])), worst)}`, summary: `${rowOf(seat)} is ${withUnit(slack + least, "m")} from ${part.id}`, chain: [],
        }),
      };
    },
    remedies: (outcome) => backward(scene, showing, outcome.limit?.value ?? 0),
  })),
};

/** One showing for each display. */
export function each({ graph }: Scene): Showing[] {
  const seen = new Map<string, Showing>();
  for (const showing of showings(graph)) if (!seen.has(canonical(showing.ending.part.id))) seen.set(canonical(showing.ending.part.id), showing);
  return [...seen.values()];
}

/** The first row so far back that nobody is too near. */
function backward(scene: Scene, showing: Showing, least: number): Remedy[] {
  const [x] = pictureOf(scene.setup, new Trial(), showing.ending.device, showing.ending.part).rectangle.centre;
  return scene.setup.room.seats.filter((s) => s.first !== undefined && s.first.best < x + least).flatMap((s): Remedy[] => {
    const first = `${figure(Math.ceil((x + least) * 10) / 10)} m`;
    return setInSeats(scene, s.name, "first", first, `Move the first row of ${s.name} back to ${first}`);
  });
}
