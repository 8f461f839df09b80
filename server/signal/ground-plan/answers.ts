/** What can be asked of a plan, and the answer at every seat. */
import { defaultOf } from "../../model/defaults";
import { valueOf } from "../../model/bound";
import { holding } from "../../model/during";
import { assumed, fromText } from "../../model/make-ranged";
import { canonical } from "../../model/names";
import type { Ranged } from "../../model/ranged";
import { roomShape } from "../../model/room-shape";
import type { Trial } from "../../model/trial";
import { FACE_LIMIT, faceAngle, frameOf, pictureAt, pictureHeight, viewOf } from "../sight";
import { distance } from "../../physics/geometry";
import { pixelsAcrossFace } from "../../physics/framing";
import { ARC_MINUTE, visualAngle } from "../../physics/imageSize";
import { rectangle } from "../../physics/polygon";
import { acoustics } from "../acoustics";
import { listeners } from "../air";
import type { JoinState, Shown } from "../call-state";
import type { Ending, Graph } from "../graph";
import { clarityOf, isPlayed, levelsOf, ONLINE_SPEAKS } from "../seats/heard";
import { aimOf, audienceCentre, standOf, triple } from "../stands";
import type { Answer, Ask } from "./plan";
import { reachOf } from "./walls";

/** A column nearer to a seat than this stands beside it, m. */
const SEATED = 0.25;

/** The answer at every seat; nothing where the question is none of seats. */
export const answerOf = (graph: Graph, trial: Trial, ask: Ask): Answer | undefined => ASKED[ask]?.(graph, trial);

/** How many seats have enough, and the worst of them. */
export function resultOf(graph: Graph, trial: Trial, { values, enough, unit, decimals, none }: Answer): string {
  const seats = listeners(graph.setup, trial);
  const said = (n: number): string => `${n.toFixed(decimals)}${unit === "" ? "" : unit.startsWith("′") || unit.startsWith("°") ? unit : ` ${unit}`}`;
  let good = 0;
  let without = 0;
  let worst = -1;
  seats.forEach((_, i) => {
    const value = values[i] ?? NaN;
    if (Number.isNaN(value)) without += 1;
    else {
      if (value >= enough) good += 1;
      if (worst < 0 || value < (values[worst] ?? Infinity)) worst = i;
    }
  });
  if (without === seats.length) return none;
  const seat = seats[worst];
  const least = seat === undefined ? "" : `; least is ${said(values[worst] ?? NaN)}, at ${seat.name}`;
  return `${good} of ${seats.length} seats have ${said(enough)} or more${least}.${without === 0 ? "" : ` ${without} of them: ${none.charAt(0).toLowerCase()}${none.slice(1)}`}`;
}

const ASKED: Readonly<Partial<Record<Ask, (graph: Graph, trial: Trial) => Answer>>> = {
  hears: (graph, trial) => {
    const levels = isPlayed(graph, trial) ? levelsOf(graph, ONLINE_SPEAKS, "level", trial) : undefined;
    const { noise } = acoustics(graph.setup, trial);
    return {
      ask: "hears", unit: "dB", decimals: 0, enough: 15, bounds: [5, 10, 15, 20],
      question: "How far does the speech of the people online stand above the noise of the room?",
      words: ["lost in the noise", "an effort", "barely", "well", "very well"],
      values: listeners(graph.setup, trial).map((_, i) => (levels === undefined ? NaN : (levels[i] ?? NaN) - noise)),
      none: "Nothing plays the people online in the room.",
    };
  },
  understands: (graph, trial) => {
    const clarity = isPlayed(graph, trial) ? clarityOf(graph, ONLINE_SPEAKS, trial) : undefined;
    return {
      // IEC 60268-16, annex on ranges: 0.45, 0.60 and 0.75 part poor, fair, good and excellent; below 0.30 it is bad.
      ask: "understands", unit: "of 100", decimals: 0, enough: 60, bounds: [30, 45, 60, 75],
      question: "How clearly do words of the people online arrive (speech transmission index, in hundredths)?",
      words: ["bad", "poor", "fair", "good", "excellent"],
      values: listeners(graph.setup, trial).map((_, i) => 100 * (clarity?.[i] ?? NaN)),
      none: "Nothing plays the people online in the room.",
    };
  },
  reads: (graph, trial) => {
    const shown = shownOn(graph, (show) => show.what === "slides");
    const angles = shown.map(({ state, show, ending }) => {
      const height = pictureHeight(graph.setup, ending.device, ending.part, trial) * trial.value(textHeight(graph, state, show));
      const at = triple(pictureAt(graph.setup, ending.device, trial));
      return (eye: { x: number; y: number; z: number }): number => visualAngle(height, Math.max(0.2, distance(at, triple(eye)))) / ARC_MINUTE;
    });
    return {
      // Legibility of letters in minutes of arc: 16′ at least, 20′ to 22′ preferred (ISO 9241-303).
      ask: "reads", unit: "′", decimals: 0, enough: 16, bounds: [10, 16, 20, 26],
      question: "How large do the smallest letters of the slides look, in minutes of arc?",
      words: ["unreadable", "an effort", "readable", "well readable", "large"],
      values: bestOf(graph, trial, angles),
      none: "No slides are shown on anything in the room.",
    };
  },
  faces: (graph, trial) => {
    const shown = shownOn(graph, (show) => show.what === "call");
    return {
      ask: "faces", unit: "°", decimals: 1, enough: FACE_LIMIT, bounds: [FACE_LIMIT / 2, FACE_LIMIT, 2 * FACE_LIMIT, 4 * FACE_LIMIT],
      question: "How large does a face of the people online look, in degrees?",
      words: ["a dot", "too small", "a face", "well seen", "large"],
      values: bestOf(graph, trial, shown.map(({ show, ending }) => faceAngle(graph.setup, trial, ending.device, ending.part, show.faces))),
      none: "The people online are shown on nothing in the room.",
    };
  },
  frame: (graph, trial) => {
    const cameras = camerasSent(graph);
    const pixels = cameras.map(({ ending, width }) => {
      const frame = frameOf(graph.setup, trial, ending, graph.voices);
      const at = standOf(graph.setup, ending.device, trial);
      const aim = aimOf(graph.setup, ending.device, trial, (t) => audienceCentre(graph.setup, t));
      const far = Math.max(0.01, Math.hypot(aim.x - at.x, aim.y - at.y));
      const columns = roomShape(graph.setup.floor, trial).columns.map((column) => rectangle(column.at, column.width, column.width));
      const view = (viewOf(ending.part, trial) * Math.PI) / 180;
      return (point: { x: number; y: number; z: number }): number => {
        if (frame(point) < 0) return NaN;
        const away = Math.hypot(point.x - at.x, point.y - at.y);
        // Whoever sits behind a column is in no picture.
        if (away > 0 && reachOf([], at, { x: (point.x - at.x) / away, y: (point.y - at.y) / away }, away, columns) < away - SEATED) return NaN;
        const depth = ((point.x - at.x) * (aim.x - at.x) + (point.y - at.y) * (aim.y - at.y)) / far;
        return pixelsAcrossFace(width, view, Math.max(0.2, depth));
      };
    });
    return {
      // Pixels across a face: about 16 to tell that there is somebody, 32 to read a face. Common practice, no source.
      ask: "frame", unit: "pixels", decimals: 0, enough: 16, bounds: [8, 16, 32, 64],
      question: "Who is in the picture that is sent, and how many pixels across is a face?",
      words: ["a dot", "a blur", "somebody", "a face", "close"],
      values: bestOf(graph, trial, pixels),
      none: cameras.length === 0 ? "No camera's picture is sent." : "In no picture.",
    };
  },
};

/** Cameras whose pictures are sent, with the width of the picture in pixels. */
export function camerasSent(graph: Graph): { readonly ending: Ending; readonly width: number }[] {
  return graph.joins.flatMap((state) => state.pictures.flatMap((sent) => {
    const ending = endingOf(graph, sent.name, "camera");
    return ending === undefined ? [] : [{ ending, width: sent.width }];
  }));
}

/** What of the wanted kind is shown in the room, and on what. */
export function shownOn(graph: Graph, wanted: (show: Shown) => boolean): { readonly state: JoinState; readonly show: Shown; readonly ending: Ending }[] {
  return graph.joins.flatMap((state) => state.shows.filter(wanted).flatMap((show) => {
    const ending = endingOf(graph, show.name, "display");
    return ending === undefined ? [] : [{ state, show, ending }];
  }));
}

function endingOf(graph: Graph, name: string, type: "camera" | "display"): Ending | undefined {
  const part = graph.endings.get(canonical(name));
  if (part?.part.type === type) return part;
  return [...graph.endings.values()].find((ending) => ending.part.type === type && canonical(ending.device.name) === canonical(part?.device.name ?? name));
}

/** The best of several at each listener; NaN where none has any. */
function bestOf(graph: Graph, trial: Trial, by: readonly ((at: { x: number; y: number; z: number }) => number)[]): number[] {
  return listeners(graph.setup, trial).map(({ at }) => by.reduce((best, of) => {
    const value = of(at);
    return Number.isNaN(value) ? best : Number.isNaN(best) ? value : Math.max(best, value);
  }, NaN));
}

/** Height of the smallest letters, as a share of the picture's. */
function textHeight(graph: Graph, state: JoinState, show: Shown): Ranged {
  const statement = holding(state.join.statements, "shows", graph.item).find((one) => one.where.start === show.where.start && one.where.path === show.where.path);
  const stated = statement?.children.find((child) => child.row.head === "text-height");
  const share = stated && valueOf(stated, "share", "quantity");
  const id = `${state.join.device}.text-height`;
  const label = `how high the smallest letters on ${show.name} are`;
  if (stated !== undefined && share !== undefined && share.said !== "unknown") return fromText(share, stated, id, label, false);
  return assumed(id, label, "share", defaultOf("text-height", "shows", "share"));
}
