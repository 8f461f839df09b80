import { canonical } from "../model/names";
import { figure, withUnit } from "../model/show";
import { Trial } from "../model/trial";
import { listeners } from "../signal/air";
import { pictureOf } from "../signal/pictures/picture";
import { alike, cutOf, HIDDEN, hiddenOf } from "../signal/pictures/seats";
import { isLit, showingKey, type Showing } from "../signal/pictures/showing";
import { solidsOf, thingBefore } from "../signal/pictures/solids";
import type { Case, Check, Remedy, Scene } from "./check";
import { rowOf, seatsShort } from "./seats-short";
import { setInPlace, showOn } from "./show-remedies";

export const headsBlock: Check = {
  silentInOrder: true,
  entry: {
    code: "heads-block", title: "People or things in front hide part of the picture", severity: "warning", group: "The room sees the people online",
    notice: "Those behind sway from side to side to read the last line.",
    why: "On a level floor everybody looks past the heads in front. What hangs low is behind them. A column, or a display on its stand, hides the same part all evening.",
    todo: ["Raise the picture.", "Leave the seats behind a column empty, or give them a second display.", "Stagger the rows, so that one looks between heads.", "Keep the lowest fifth of slides empty."],
    source: "geometry in three dimensions; 5 and 20 per cent: common practice", symptoms: ["heads in the way", "cannot see over", "lowest line hidden", "column in the way"], limit: "20 per cent of the picture; 5 per cent a hint",
  },
  cases: (scene) => (scene.setup.room.seats.length === 0 ? [] : [...thingsBlock(scene), ...alike(scene.graph).map((list): Case => ({
    key: showingKey(list), ways: ["room-sees-online"], asks: true,
    measure: (trial) => {
      const { setup } = scene;
      const lit = list.filter((s) => isLit(s, trial));
      // Nobody puts a computer's own screen there for rows of people: its size tells.
      if (lit.length === 0 || lit.some((s) => s.ending.device.type === "computer")) return undefined;
      const seats = listeners(setup, trial);
      const hidden = hiddenOf(setup, trial, lit);
      const least = hidden.map(({ share }) => (Number.isNaN(share) ? 0 : share));
      const worst = least.reduce((w, value, i) => (value > (least[w] ?? 0) ? i : w), 0);
      const value = least[worst] ?? 0;
      const showing = lit[hidden[worst]?.by ?? 0] ?? lit[0];
      if (showing === undefined) return undefined;
      const { part } = showing.ending;
      const severity = value > HIDDEN.warning ? "warning" : value > HIDDEN.hint ? "hint" : undefined;
      const limit = severity === "warning" ? HIDDEN.warning : HIDDEN.hint;
      return {
        severity, badness: (value - HIDDEN.hint) * 100, measured: { value: value * 100, unit: "%" }, limit: { value: limit * 100, unit: "%" },
        cause: { key: `heads ${canonical(part.id)}`, subjects: [part.id], where: showing.shown.where },
        say: () => ({
          because: `heads in front hide ${withUnit(Math.round(value * 100), "%")} of the picture of ${part.id} from ${rowOf(seats[worst])}, its lower edge being ${withUnit(pictureOf(setup, trial, showing.ending.device, part).bottom, "m")} up`,
          effect: `more than ${withUnit(limit * 100, "%")} is hidden from ${seatsShort(seats, least.flatMap((n, i) => (n > limit ? [i] : [])), worst)}`,
          summary: `${withUnit(Math.round(value * 100), "%")} of ${part.id} is behind heads at ${rowOf(seats[worst])}`, chain: [],
        }),
      };
    },
    remedies: () => list.flatMap((s) => raise(scene, s)),
  }))]),
};

/** Columns and displays that stand before what people look at. */
function thingsBlock(scene: Scene): Case[] {
  const { setup } = scene;
  return alike(scene.graph).map((list): Case => ({
    key: `things ${showingKey(list)}`, ways: ["room-sees-online"], asks: true, together: true,
    measure: (trial) => {
      const lit = list.filter((s) => isLit(s, trial));
      if (lit.length === 0 || lit.some((s) => s.ending.device.type === "computer") || solidsOf(setup, trial).length === 0) return undefined;
      const cut = cutOf(setup, trial, lit);
      const worst = cut.reduce((w, { share }, i) => (share > (cut[w]?.share ?? 0) ? i : w), 0);
      const value = cut[worst]?.share ?? 0;
      const showing = lit[cut[worst]?.by ?? 0] ?? lit[0];
      if (showing === undefined) return undefined;
      const { part } = showing.ending;
      const severity = value > HIDDEN.warning ? "warning" : value > HIDDEN.hint ? "hint" : undefined;
      const limit = severity === "warning" ? HIDDEN.warning : HIDDEN.hint;
      const thing = severity === undefined ? undefined : thingBefore(setup, trial, showing.ending, worst);
      return {
        severity, badness: (value - HIDDEN.hint) * 100, measured: { value: value * 100, unit: "%" }, limit: { value: limit * 100, unit: "%" },
        cause: { key: `things ${canonical(part.id)} ${canonical(thing ?? "")}`, subjects: thing === undefined ? [part.id] : [part.id, thing], where: showing.shown.where },
        say: () => {
          const seats = listeners(setup, trial);
          const is = `${thing ?? "nothing that stands fast"} hides ${withUnit(Math.round(value * 100), "%")} of the picture of ${part.id} from ${seats[worst]?.name ?? ""}`;
          return { because: is, effect: `more than ${withUnit(limit * 100, "%")} is hidden from ${seatsShort(seats, cut.flatMap(({ share }, i) => (share > limit ? [i] : [])), worst)}`, summary: severity === undefined ? `nothing stands before ${part.id}` : is, chain: [] };
        },
      };
    },
    remedies: () => list.flatMap((s) => showOn(scene, s)),
  }));
}

/** A display on a taller stand. */
function raise(scene: Scene, { ending }: Showing): Remedy[] {
  if (ending.device.type !== "display") return [];
  const { rectangle } = pictureOf(scene.setup, new Trial(), ending.device, ending.part);
  const most = scene.setup.room.height.best - 0.1 - rectangle.height / 2;
  return [1.7, 2.1, 2.5].filter((z) => z > rectangle.centre[2] + 0.05 && z < most).flatMap((z) => setInPlace(scene, ending.device, "height", `${figure(z)} m`, `Raise the middle of ${ending.device.name} to ${figure(z)} m`));
}
