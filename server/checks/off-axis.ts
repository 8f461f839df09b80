import { canonical } from "../model/names";
import { withUnit } from "../model/show";
import { listeners } from "../signal/air";
import { isLit, looksAt, showingKey, showings, type Showing } from "../signal/pictures/showing";
import { limitOf, type Case, type Check, type Scene } from "./check";
import { rowOf, seatsShort } from "./seats-short";
import { setInPlace, showOn } from "./show-remedies";

/** From farther round a picture is too foreshortened, degrees, to its farther edge. Source: ANSI/AVIXA V202.01:2016. */
export const AXIS = 60;

/** Displays that show the same: each seat needs one of them. */
export function alike({ graph }: Scene): Showing[][] {
  const call = showings(graph).filter((s) => s.shown.what === "call");
  const presented = showings(graph).filter((s) => s.shown.what !== "call");
  return [call, presented].filter((list) => list.length > 0);
}

export const offAxis: Check = {
  silentInOrder: true, takesLimit: true,
  entry: {
    code: "off-axis", title: "Some seats look at the picture too much from the side", severity: "warning", group: "The room sees the people online",
    notice: "Those at the sides see a narrow, pale strip.",
    why: "From more than 60° off its axis a picture is squeezed to less than half its width, and many displays lose colour and brightness.",
    todo: ["Turn the display toward the seats.", "Move the seats at the sides, or leave them empty.", "A second display for them."],
    source: "ANSI/AVIXA V202.01:2016: 60°, from the farther edge of the picture", symptoms: ["cannot see from the side", "picture pale from the side"], limit: `${AXIS}°`,
  },
  cases: (scene) => alike(scene).map((list): Case => ({
    key: showingKey(list), ways: ["room-sees-online"], together: true,
    measure: (trial) => {
      const { setup } = scene;
      const most = limitOf(setup, "off-axis", AXIS);
      const lit = list.filter((s) => isLit(s, trial));
      if (lit.length === 0) return undefined;
      const seats = listeners(setup, trial);
      const looks = lit.map((s) => looksAt(setup, trial, s.ending));
      // A display that says from where it can be looked at is taken at its word, if that is less.
      const limits = lit.map(({ ending: { part } }) => (part.optics.viewingAngle === undefined ? most : Math.min(most, trial.value(part.optics.viewingAngle.horizontal) / 2)));
      const beyond = seats.map((_, i) => looks.map((of, k) => (of[i]?.off ?? 180) - (limits[k] ?? most)));
      const least = beyond.map((of) => Math.min(...of));
      const worst = least.reduce((w, value, i) => (value > (least[w] ?? -180) ? i : w), 0);
      const best = Math.max(0, beyond[worst]?.indexOf(least[worst] ?? NaN) ?? 0);
      const [showing, limit] = [lit[best], limits[best] ?? most];
      const value = (least[worst] ?? -limit) + limit;
      if (showing === undefined) return undefined;
      const { part } = showing.ending;
      return {
        severity: value > limit ? "warning" : undefined, badness: value - limit, measured: { value, unit: "°" }, limit: { value: limit, unit: "°" },
        cause: { key: `axis ${canonical(part.id)}`, subjects: [part.id], where: showing.shown.where },
        say: () => ({
          because: `from ${rowOf(seats[worst])} one looks at ${part.id} from ${withUnit(value, "°")} off its axis`,
          effect: `too much from the side for ${seatsShort(seats, least.flatMap((n, i) => (n > 0 ? [i] : [])), worst)}`,
          summary: `${part.id} is seen from ${withUnit(value, "°")} off its axis at ${rowOf(seats[worst])}`, chain: [],
        }),
      };
    },
    remedies: () => [
      ...list.filter((s) => s.ending.device.type === "display").flatMap((s) => setInPlace(scene, s.ending.device, "aim", "audience", `Turn ${s.ending.device.name} to the audience`)),
      ...list.slice(0, 1).flatMap((s) => showOn(scene, s)),
    ],
  })),
};
