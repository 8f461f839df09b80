/** What is asked of a plan about pictures: answered by what the findings measure, from `server/signal/pictures/`. */
import { canonical } from "../../model/names";
import { roomShape } from "../../model/room-shape";
import type { Vec3 } from "../../model/geometry";
import type { Trial } from "../../model/trial";
import { rectangle } from "../../physics/polygon";
import { listeners } from "../air";
import type { Graph } from "../graph";
import { alike, asideOf, AXIS, axisLimit, cutOf, HIDDEN, hiddenOf, steepLimit } from "../pictures/seats";
import { bestView, cameraOf, framed, liveShots, PIXELS, shotsOf, standsOf, type Framed } from "../pictures/shots";
import { bestOf, faceAngleOf, isLit, letterAngle, LETTERS, lettered, looksAt, showings, type Showing } from "../pictures/showing";
import { FACE_LIMIT } from "../sight";
import type { Answer } from "./plan";
import { reachOf } from "./walls";

/** A column nearer to somebody than this stands beside them, m. */
const BESIDE = 0.25;

/** At each seat the worse of several lists of displays: each shows something that is to be seen. */
function worse(lists: readonly (readonly number[])[], than: (a: number, b: number) => boolean): number[] {
  return Array.from({ length: Math.max(0, ...lists.map((list) => list.length)) }, (_, i) => lists.reduce((worst, list) => {
    const value = list[i] ?? NaN;
    return Number.isNaN(value) ? worst : Number.isNaN(worst) || than(value, worst) ? value : worst;
  }, NaN));
}
const less = (a: number, b: number): boolean => a < b;
const more = (a: number, b: number): boolean => a > b;

const lit = (list: readonly Showing[], trial: Trial): readonly Showing[] => list.filter((s) => isLit(s, trial));

/** The best that the displays of a list give each seat; NaN from behind them all. */
const bestAt = (graph: Graph, trial: Trial, list: readonly Showing[], of: (showing: Showing) => (distance: number) => number): number[] =>
  bestOf(graph.setup, trial, list, (showing, distance) => of(showing)(distance)).map(({ by, value }) => (by === undefined ? NaN : value));

export function reads(graph: Graph, trial: Trial): Answer {
  const lists = [true, false].map((stated) => lit(lettered(graph, stated), trial));
  const assumed = lists[1]?.[0]?.shown.letters;
  return {
    // Legibility of letters in minutes of arc, as the finding has it.
    ask: "reads", unit: "′", decimals: 0, better: "more", enough: LETTERS.warning, bounds: [LETTERS.error, LETTERS.warning, 20, 26],
    question: "How large do the smallest letters of the slides look, in minutes of arc?",
    words: ["unreadable", "an effort", "readable", "well readable", "large"],
    values: worse(lists.filter((list) => list.length > 0).map((list) => bestAt(graph, trial, list, (s) => letterAngle(graph.setup, trial, s))), less),
    none: lists.every((list) => list.length === 0) ? "No slides are shown on anything in the room." : "Behind the picture.",
    notes: assumed === undefined ? [] : [`Nobody says how high the smallest letters are: ${Number((trial.value(assumed) * 100).toFixed(1))} % of the picture is taken.`], beside: new Map(),
  };
}

export function faces(graph: Graph, trial: Trial): Answer {
  const all = showings(graph).filter((s) => s.shown.what === "call");
  const list = lit(all, trial);
  return {
    ask: "faces", unit: "°", decimals: 1, better: "more", enough: FACE_LIMIT, bounds: [FACE_LIMIT / 2, FACE_LIMIT, 2 * FACE_LIMIT, 4 * FACE_LIMIT],
    question: "How large does a face of the people online look, in degrees?",
    words: ["a dot", "too small", "a face", "well seen", "large"],
    values: bestAt(graph, trial, list, (s) => faceAngleOf(graph.setup, trial, s)),
    none: all.length === 0 ? "The people online are shown on nothing in the room." : list.length === 0 ? "The picture of the people online gets to no display." : "Behind the picture.",
    notes: [], beside: new Map(),
  };
}

export function heads(graph: Graph, trial: Trial): Answer {
  // Nobody puts a computer's own screen there for rows of people.
  const lists = alike(graph).map((list) => lit(list, trial)).filter((list) => list.length > 0 && list.every((s) => s.ending.device.type !== "computer"));
  const spread = listeners(graph.setup, trial).length > 400;
  return {
    ask: "heads", unit: "%", decimals: 0, better: "less", enough: 100 * HIDDEN.warning, bounds: [50, 100 * HIDDEN.warning, 100 * HIDDEN.hint, 1],
    question: "How much of the picture do heads or things in front hide, in per cent?",
    words: ["most", "a fifth and more", "lines at the bottom", "an edge", "free"],
    values: graph.setup.room.seats.length === 0 ? [] : worse(lists.map((list) => {
      const things = cutOf(graph.setup, trial, list);
      return hiddenOf(graph.setup, trial, list).map(({ share }, i) => 100 * Math.max(share, things[i]?.share ?? 0));
    }), more),
    none: graph.setup.room.seats.length === 0 ? "The text states no seats." : lists.length === 0 ? "Nothing is shown to the room but on a computer’s own screen." : spread ? "Of so many seats only some are looked at." : "Not looked at.",
    notes: [], beside: new Map(),
  };
}

export function aside(graph: Graph, trial: Trial): Answer {
  const lists = alike(graph).map((list) => lit(list, trial)).filter((list) => list.length > 0);
  // Where a display may not be looked at from so far above or below, that is told instead.
  const steep = lists.some((list) => asideOf(graph.setup, trial, list).some((seat) => seat.steep));
  const limit = steep ? Math.min(...lists.flat().map((s) => steepLimit(trial, s))) : Math.min(AXIS, ...lists.flat().map((s) => axisLimit(graph.setup, trial, s)));
  return {
    ask: "aside", unit: "°", decimals: 0, better: "less", enough: limit, bounds: [limit * 1.25, limit, limit * 0.75, limit * 0.5].map(Math.round),
    question: steep ? "From how far above or below is the picture looked at, in degrees?" : "From how far aside is the picture looked at, to its farther edge, in degrees?",
    words: steep ? ["washed out", "pale", "aslant", "a little aslant", "level"] : ["a strip", "squeezed", "aside", "a little aside", "from the front"],
    values: worse(lists.map((list) => (steep ? worse(list.map((s) => looksAt(graph.setup, trial, s.ending).map((look) => look.steep)), less) : asideOf(graph.setup, trial, list).map(({ off }) => off))), more),
    none: "Nothing is shown to the room.", notes: [], beside: new Map(),
  };
}

export function frame(graph: Graph, trial: Trial): Answer {
  const { setup, voices } = graph;
  const all = shotsOf(graph);
  const shots = liveShots(all, trial);
  const columns = roomShape(setup.floor, trial).columns.map((column) => rectangle(column.at, column.width, column.width));
  const behindColumn = ({ shot }: Framed, point: Vec3): boolean => {
    const [x, y] = cameraOf(setup, trial, shot.ending, voices).position;
    const away = Math.hypot(point.x - x, point.y - y);
    return away > 0 && reachOf([], { x, y }, { x: (point.x - x) / away, y: (point.y - y) / away }, away, columns) < away - BESIDE;
  };
  const points = setup.room.seats.length === 0 ? [] : setup.room.seats.flatMap((group) => setup.floor.seats(group, trial).map((seat) => seat.mouth));
  const people = new Map<string, string>();
  for (const voice of voices.filter((one) => one.seats === undefined)) {
    const stands = standsOf(voice, trial);
    const best = framed(setup, trial, shots, voices, stands.slice(0, 1))[0];
    const view = bestView(setup, trial, shots, voices, stands);
    const behind = best !== undefined && stands[0] !== undefined && behindColumn(best, stands[0]);
    if (view === undefined) people.set(canonical(voice.name), "in no picture");
    else if (best === undefined) people.set(canonical(voice.name), view.seen[0]?.words ?? "in no picture");
    else {
      // Whoever is right before a computer sees the own picture, and moves.
      const cut = view.seen[0]?.whole === false && !(view.shot.ending.device.type === "computer" && view.seen[0].depth < 1.5);
      const but = view.seen.some((seen) => !seen.face) ? ", walks out of the frame" : cut ? ", head and shoulders cut off" : "";
      people.set(canonical(voice.name), behind ? "behind a column" : `face ${Math.round(best.pixels)} pixels across${but}`);
    }
  }
  return {
    ask: "frame", unit: "pixels", decimals: 0, better: "more", enough: PIXELS.audience, bounds: [PIXELS.audience / 2, PIXELS.audience, PIXELS.talker, 2 * PIXELS.talker],
    question: "Who is in the picture that is sent, and how many pixels across is a face?",
    words: ["a dot", "a spot", "somebody", "a face", "close"],
    values: framed(setup, trial, shots, voices, points).map((one, i) => (one === undefined || (points[i] !== undefined && behindColumn(one, points[i])) ? NaN : one.pixels)),
    none: all.length === 0 ? "No camera’s picture is sent." : shots.length === 0 ? "No camera’s picture gets to the people online." : "In no picture.",
    notes: [], beside: people,
  };
}
