/** What is shown on which display in an item of the programme, and how it looks from each seat. */
import type { Edge } from "../edges";
import { canonical } from "../../model/names";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { faceHeightOnGrid, visualAngle } from "../../physics/imageSize";
import { listeners } from "../air";
import type { JoinState, Shown } from "../call-state";
import { candidates } from "../coverage/claim";
import { carries, type Ending, type Graph } from "../graph";
import { triple } from "../stands";
import { pictureOf } from "./picture";
import { hiddenByThings } from "./solids";
import { once } from "../../model/watching/once";

/** One thing shown on one display. */
export interface Showing {
  readonly ending: Ending;
  readonly shown: Shown;
  readonly join: JoinState;
  /** From the people online to the display, for the call; nothing for what is presented from the room. */
  readonly path: readonly Edge[] | undefined;
}

/** Everything that is shown in the room. */
export const showings = once((graph: Graph): readonly Showing[] => [...callsShown(graph), ...presented(graph)]);

function callsShown(graph: Graph): Showing[] {
  const all = graph.joins.flatMap((join) => join.shows.filter((s) => s.what === "call").map((shown) => ({ join, shown, key: canonical(shown.name) })));
  return candidates(graph, "picture", "display", "forth").flatMap(({ ending, path }): Showing[] => {
    // A display that a splitter feeds, too, shows what the first one does.
    const by = all.find((s) => s.key === canonical(ending.part.id) || s.key === canonical(ending.device.name)) ?? all[0];
    return by === undefined ? [] : [{ ending, shown: by.shown, join: by.join, path }];
  });
}

function presented(graph: Graph): Showing[] {
  return graph.joins.flatMap((join) => join.shows.filter((s) => s.what !== "call").flatMap((shown): Showing[] => {
    const key = canonical(shown.name);
    const ending = graph.endings.get(key) ?? [...graph.endings.values()].find((e) => e.part.type === "display" && canonical(e.device.name) === key);
    return ending?.part.type === "display" ? [{ ending, shown, join, path: undefined }] : [];
  }));
}

/** Displays on which text is read, those whose letters are stated or those whose are not. */
export const lettered = (graph: Graph, stated: boolean): readonly Showing[] =>
  showings(graph).filter((s) => s.shown.letters !== undefined && (s.shown.letters.from.how !== "assumed") === stated);

/** The most that is asked of a display by what is shown on it, where the text says. */
export function purposeAt(graph: Graph, { ending }: Showing): Showing["shown"]["purpose"] {
  const all = showings(graph).filter((s) => s.ending.part === ending.part).map((s) => s.shown.purpose);
  // What is not said is as for reading: a glance counts only where all else is for a glance, too.
  return all.includes("inspection") ? "inspection" : all.every((p) => p === "glance") ? "glance" : all.includes("reading") ? "reading" : undefined;
}

/** Whether it is to be seen: the way of the call to it carries. */
export const isLit = (showing: Showing, trial: Trial): boolean => showing.path === undefined || carries(showing.path, trial);

/** What decides how a list of showings looks, besides the trial. */
export const showingKey = (list: readonly Showing[]): string =>
  list.map((s) => `${s.ending.part.id} ${s.shown.what} ${s.shown.faces.best} ${s.shown.letters?.best ?? ""} ${s.shown.purpose ?? ""} ${s.path?.flatMap((e) => e.gap?.cause ?? []).join(",") ?? ""}`).join("; ");

/** One seat's look at one display. */
export interface Look {
  /** From the eye to the middle of the picture, m. */
  readonly distance: number;
  /** Between the way the picture looks and the line from its farther upright edge to the eye, degrees; 0 where nothing tells how it is turned. */
  readonly off: number;
  /** Up or down to its middle, degrees; an upright picture looks level. */
  readonly steep: number;
}

/** How each of all `listeners` looks at a display, in their order. */
export function looksAt(setup: Setup, trial: Trial, { device, part }: Ending): readonly Look[] {
  return trial.keep(`looks at ${part.id}`, () => {
    const { rectangle, normal } = pictureOf(setup, trial, device, part);
    const { centre, right, width } = rectangle;
    const axis = normal === undefined ? undefined : Math.atan2(normal[1], normal[0]);
    return listeners(setup, trial).map((seat): Look => {
      const eye = triple(seat.at);
      const distance = Math.max(0.2, Math.hypot(eye[0] - centre[0], eye[1] - centre[1], eye[2] - centre[2]));
      const steep = (Math.abs(Math.atan2(centre[2] - eye[2], Math.hypot(eye[0] - centre[0], eye[1] - centre[1]))) * 180) / Math.PI;
      if (axis === undefined) return { distance, off: 0, steep: 0 };
      const off = (side: number): number => {
        const turn = Math.atan2(eye[1] - centre[1] - (right[1] * side * width) / 2, eye[0] - centre[0] - (right[0] * side * width) / 2) - axis;
        return (Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))) * 180) / Math.PI;
      };
      return { distance, steep, off: Math.max(off(1), off(-1)) };
    });
  });
}

/** From farther round than this a picture cannot be seen at all, degrees. */
const BEHIND = 90;

/** Of several displays that show the same, which one each seat does best by. */
export interface Best {
  /** Index among the displays; nothing where the seat sees none of them. */
  readonly by: number | undefined;
  readonly value: number;
}

/** Of a picture of which a column or the like hides more than this nothing is read. Common practice, no source. */
const CUT = 0.5;

/** For each seat the display that gives most, of those before which it sits and which no thing hides. `of`: what each display gives from a distance. */
export function bestOf(setup: Setup, trial: Trial, list: readonly Showing[], of: (showing: Showing, distance: number) => number): readonly Best[] {
  const looks = list.map((showing) => looksAt(setup, trial, showing.ending));
  const things = list.map((showing) => hiddenByThings(setup, trial, showing.ending));
  const values = list.map((showing, k) => looks[k]?.map((look, i) => (look.off > BEHIND || (things[k]?.[i] ?? 0) > CUT ? -Infinity : of(showing, look.distance))) ?? []);
  return listeners(setup, trial).map((_, i) => {
    let by: number | undefined;
    let value = -Infinity;
    for (let k = 0; k < list.length; k += 1) {
      const here = values[k]?.[i] ?? -Infinity;
      if (here > value) [by, value] = [k, here];
    }
    return { by, value };
  });
}

/** Least angle of the smallest capital letters, minutes of arc: 16′ ISO 9241-3 as quoted and NUREG-0700; 10′ common practice, no source. */
export const LETTERS = { warning: 16, error: 10 } as const;

/** Pixels over the height of a capital letter in a stream, below which letters cannot be told apart. Common practice, no source. */
export const PIXELS_OF_LETTER = 10;

/** The angle under which the smallest letters of a showing are seen from a distance, minutes of arc. */
export function letterAngle(setup: Setup, trial: Trial, showing: Showing): (distance: number) => number {
  const { letters } = showing.shown;
  const height = letters === undefined ? 0 : pictureHeightOf(setup, trial, showing) * trial.value(letters);
  return (distance) => (visualAngle(height, distance) * 10_800) / Math.PI;
}

/** The angle under which one of the faces online is seen from a distance, degrees. */
export function faceAngleOf(setup: Setup, trial: Trial, showing: Showing, faces?: number): (distance: number) => number {
  const height = faceHeightOnGrid(pictureHeightOf(setup, trial, showing), Math.max(1, Math.round(faces ?? trial.value(showing.shown.faces))));
  return (distance) => (visualAngle(height, distance) * 180) / Math.PI;
}

export const pictureHeightOf = (setup: Setup, trial: Trial, { ending }: Showing): number => pictureOf(setup, trial, ending.device, ending.part).rectangle.height;
