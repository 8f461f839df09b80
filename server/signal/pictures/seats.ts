/** How the pictures of a room do at each seat: from how far aside they are looked at, and how much of them heads hide. */
import { limitOf } from "../../model/limits";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { listeners } from "../air";
import type { Graph } from "../graph";
import { hiddenFromSeats } from "./people";
import { hiddenByThings } from "./solids";
import { looksAt, showings, type Showing } from "./showing";

/** From farther round a picture is too foreshortened, degrees, to its farther edge. Source: ANSI/AVIXA V202.01:2016. */
export const AXIS = 60;

/** Share of the picture hidden. Common practice, no source. */
export const HIDDEN = { warning: 0.2, hint: 0.05 } as const;

/** Displays that show the same: each seat needs one of them. */
export function alike(graph: Graph): Showing[][] {
  const call = showings(graph).filter((s) => s.shown.what === "call");
  const presented = showings(graph).filter((s) => s.shown.what !== "call");
  return [call, presented].filter((list) => list.length > 0);
}

/** From how far aside a display may be looked at, degrees: one that says so is taken at its word, if that is less. */
export function axisLimit(setup: Setup, trial: Trial, { ending: { part } }: Showing): number {
  const most = limitOf(setup, "off-axis", AXIS);
  return part.optics.viewingAngle === undefined ? most : Math.min(most, trial.value(part.optics.viewingAngle.horizontal) / 2);
}

/** From how far above or below a display may be looked at, degrees, where it says so. */
export const steepLimit = (trial: Trial, { ending: { part } }: Showing): number => (part.optics.viewingAngle?.vertical === undefined ? 90 : trial.value(part.optics.viewingAngle.vertical) / 2);

export interface Aside {
  /** Which of the displays does best by the seat. */
  readonly by: number;
  /** Not to the side but from above or below is where it is too much. */
  readonly steep: boolean;
  /** Off its axis, to its farther edge, and how much is allowed, degrees. */
  readonly off: number;
  readonly limit: number;
}

/** How far off the axis each of all `listeners` looks at that display of a list which does best by it. */
export function asideOf(setup: Setup, trial: Trial, list: readonly Showing[]): readonly Aside[] {
  const looks = list.map((s) => looksAt(setup, trial, s.ending));
  const limits = list.map((s) => axisLimit(setup, trial, s));
  const steepest = list.map((s) => steepLimit(trial, s));
  return listeners(setup, trial).map((_, i) => list.reduce<Aside>((best, __, by) => {
    const aside = { by, off: looks[by]?.[i]?.off ?? 180, limit: limits[by] ?? AXIS, steep: false };
    const upright = { by, off: looks[by]?.[i]?.steep ?? 0, limit: steepest[by] ?? 90, steep: true };
    // Of the two that counts which is farther out.
    const here = upright.off > upright.limit && upright.off - upright.limit > aside.off - aside.limit ? upright : aside;
    return here.off - here.limit < best.off - best.limit ? here : best;
  }, { by: 0, off: Infinity, limit: 0, steep: false }));
}

/** How much things that stand fast hide, from each of all `listeners`, of that display of a list which they hide least. */
export function cutOf(setup: Setup, trial: Trial, list: readonly Showing[]): readonly { readonly by: number; readonly share: number }[] {
  const views = list.map((s) => ({ things: hiddenByThings(setup, trial, s.ending), looks: looksAt(setup, trial, s.ending) }));
  return listeners(setup, trial).map((_, i) => {
    let best: { by: number; share: number } | undefined;
    views.forEach(({ things, looks }, by) => {
      const share = things[i] ?? 0;
      if ((looks[i]?.off ?? 0) <= AXIS && (best === undefined || share < best.share)) best = { by, share };
    });
    return best ?? { by: 0, share: 0 };
  });
}

export interface Hidden {
  /** Which of the displays is hidden least. */
  readonly by: number;
  /** The share of its picture; NaN where the seat was not looked at. */
  readonly share: number;
}

/** How much heads hide, from each of all `listeners`, of that display of a list which they hide least. Who sits too far to the side loses nothing more by a head. */
export function hiddenOf(setup: Setup, trial: Trial, list: readonly Showing[]): readonly Hidden[] {
  const views = list.map((s) => ({ hidden: hiddenFromSeats(setup, trial, s.ending), looks: looksAt(setup, trial, s.ending) }));
  return listeners(setup, trial).map((_, i) => {
    let best: Hidden | undefined;
    let aside = false;
    views.forEach(({ hidden, looks }, by) => {
      const share = hidden[i] ?? NaN;
      if ((looks[i]?.off ?? 0) > AXIS) aside = true;
      else if (!Number.isNaN(share) && (best === undefined || share < best.share)) best = { by, share };
    });
    return best ?? { by: 0, share: aside ? 0 : NaN };
  });
}
