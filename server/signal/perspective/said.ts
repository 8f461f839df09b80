/** The numbers of a view, as the findings have them, and who is cut off by the frame. */
import { canonical } from "../../model/names";
import { withUnit } from "../../model/show";
import type { Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { project } from "../../physics/framing";
import { distance } from "../../physics/geometry";
import { ARC_MINUTE } from "../../physics/imageSize";
import { listeners, mouths } from "../air";
import type { Graph } from "../graph";
import { hiddenTo } from "../pictures/blocked";
import { hiddenFromSeat } from "../pictures/people";
import { facePixels, seenBy, shotsOf, type Seen, type Shot } from "../pictures/shots";
import { faceAngleOf, isLit, letterAngle, looksAt, showings, type Showing } from "../pictures/showing";
import { standOf, triple } from "../stands";
import { modeWords } from "../streams";
import type { CutOff, Thing } from "./perspective";
import { rectangleOf } from "./displays";
import type { Viewpoint } from "./viewpoint";

/** So many talkers, groups of seats or displays are told of one by one. */
const MOST = 8;

interface Subject {
  readonly name: string;
  readonly voice: Voice | undefined;
  readonly seen: readonly Seen[];
}

/** Who speaks, and all seats, as a camera has them. */
function subjectsOf(graph: Graph, trial: Trial, { camera }: Viewpoint): Subject[] {
  const { setup } = graph;
  const talkers = graph.voices.filter((voice) => voice.seats === undefined).map((voice): Subject => ({ name: voice.stated ? voice.name : "who speaks", voice, seen: mouths(setup, voice, trial).map((mouth) => seenBy(camera, mouth)) }));
  const groups = setup.room.seats.map((group): Subject => ({ name: group.name, voice: undefined, seen: setup.floor.seats(group, trial).map((seat) => seenBy(camera, seat.mouth)) }));
  return [...talkers, ...groups];
}

const WAYS_OUT = { left: "to the left", right: "to the right", above: "at the top", below: "at the bottom", behind: "behind or beside the camera" } as const;

export function cutOffOf(graph: Graph, trial: Trial, from: Viewpoint): readonly CutOff[] {
  return subjectsOf(graph, trial, from).slice(0, 3 * MOST).flatMap(({ name, voice, seen }) => {
    const sides = (["left", "right", "above", "below", "behind"] as const).flatMap((side) => {
      const out = seen.filter((one) => !one.face && (one.side ?? "behind") === side);
      const [first] = out;
      if (first === undefined) return [];
      const near = Math.max(1, Math.round(Math.min(...out.map((one) => -one.margin))));
      const who = seen.length === 1 ? name : `${name}: ${out.length} of ${seen.length}`;
      const gap = seen.length === 1 ? ": " : " ";
      const way = side === "behind" ? `, ${voice === undefined ? WAYS_OUT.behind : first.words}` : ` ${WAYS_OUT[side]}${seen.length > 1 ? "" : ` by ${near}°`}`;
      return [{ side, along: alongEdge(side, first), words: `${who}${gap}out of frame${way}` }];
    });
    const [one] = seen;
    return sides.length > 0 || voice === undefined || one === undefined || one.whole ? sides : [partly(name, one)];
  });
}

/** The face is in the frame, and some of head and shoulders is not. */
function partly(name: string, seen: Seen): CutOff {
  const side = seen.top > 1 ? "above" : seen.left < -1 ? "left" : seen.right > 1 ? "right" : "below";
  const what = { above: "the top of the head is", below: "the shoulders are", left: "a shoulder is", right: "a shoulder is" }[side];
  return { side, along: alongEdge(side, seen), words: `${name}: ${what} cut off ${WAYS_OUT[side]}` };
}

const kept = (n: number): number => (Number.isFinite(n) ? Math.min(0.85, Math.max(-0.85, n)) : 0);
const alongEdge = (side: CutOff["side"], seen: Seen): number => (side === "left" || side === "right" ? kept(seen.up) : kept(seen.across));

export function factsOf(graph: Graph, trial: Trial, from: Viewpoint, things: readonly Thing[], atCamera: readonly string[]): readonly string[] {
  const all = from.ending === undefined ? seatFacts(graph, trial, from, things) : cameraFacts(graph, trial, from, atCamera);
  const behind = things.filter((thing) => thing.says !== "" && thing.hidden > 0.98).map((thing) => thing.says);
  return behind.length === 0 ? all : [...all, `Hidden behind others: ${behind.slice(0, MOST).join(", ")}${behind.length > MOST ? ` and ${behind.length - MOST} more` : ""}.`];
}

const percent = (share: number): string => withUnit(Math.round(share * 100), "%");

function cameraFacts(graph: Graph, trial: Trial, from: Viewpoint, atCamera: readonly string[]): string[] {
  const { ending, camera } = from;
  if (ending === undefined) return [];
  const sent = shotsOf(graph).find((one) => canonical(one.ending.part.id) === canonical(ending.part.id));
  const shot: Shot = sent ?? { ending, path: [], gaps: 0, sent: undefined };
  const out = [`${from.of} is ${withUnit(standOf(graph.setup, ending.device, trial).z, "m")} above the floor. ${sent?.sent === undefined ? "None of its picture is sent just now; pixels are counted as if it were sent 1280 wide." : `It is sent at ${modeWords(sent.sent)}.`}`];
  for (const { name, voice, seen } of subjectsOf(graph, trial, from).slice(0, 3 * MOST)) {
    const inside = seen.filter((one) => one.face);
    if (inside.length === 0) continue;
    const pixels = inside.map((one) => Math.round(facePixels(camera, shot, one)));
    const [least, most] = [Math.min(...pixels), Math.max(...pixels)];
    const hidden = voice === undefined ? undefined : hiddenTo(graph, voice, ending, trial);
    const across = `${least === most ? least : `${least} to ${most}`} pixels across a face`;
    out.push(voice === undefined
      ? `${name}: ${inside.length} of ${seen.length} faces in the frame, ${across}.`
      : `${name}: ${across}, ${withUnit(inside[0]?.depth ?? 0, "m")} away${hidden === undefined ? "" : hidden.share < 0.005 ? ", head and shoulders free" : `; ${hidden.thing !== undefined && hidden.thing.share > hidden.share / 2 ? `${hidden.thing.name} hides` : "heads hide"} ${percent(hidden.share)} of head and shoulders`}.`);
  }
  if (atCamera.length > 0) out.push(`${atCamera.slice(0, MOST).join(", ")}: at the camera itself, and drawn before it, as whoever uses it sits.`);
  const shy = graph.setup.room.seats.flatMap((group) => graph.setup.floor.seats(group, trial)).filter((seat) => seat.offCamera && seenBy(camera, seat.mouth).face).length;
  if (shy > 0) out.push(`${shy} ${shy === 1 ? "person who wants" : "people who want"} to be in no picture ${shy === 1 ? "is" : "are"} in the frame, drawn with broken lines.`);
  return out;
}

/** How high a letter is held at reading distance to be seen under the same angle, mm. */
const READING = 0.4;

/** Farther than this nobody looks at a computer's own screen where there is another, m. Common practice, no source. */
const OWN_SCREEN = 2.5;

/** What is shown and meant for these eyes. */
function inReach(graph: Graph, trial: Trial, { camera }: Viewpoint): Showing[] {
  const lit = showings(graph).filter((one) => isLit(one, trial));
  const large = lit.filter(({ ending }) => ending.device.type === "display" || ending.device.type === "projector");
  return large.length === 0 ? lit : lit.filter((one) => large.includes(one) || distance(camera.position, triple(standOf(graph.setup, one.ending.device, trial))) < OWN_SCREEN);
}

function seatFacts(graph: Graph, trial: Trial, from: Viewpoint, things: readonly Thing[]): string[] {
  const { setup } = graph;
  const eye = from.camera.position;
  const out = [`The eyes are ${withUnit(eye[2] - setup.floor.floorAt({ x: eye[0], y: eye[1] }, trial), "m")} above the floor here.`];
  for (const showing of inReach(graph, trial, from).slice(0, MOST)) {
    const { ending, shown } = showing;
    const r = rectangleOf(graph, trial, ending, eye);
    const look = from.seat === undefined ? undefined : looksAt(setup, trial, ending)[from.seat];
    const apart = Math.max(0.2, look?.distance ?? Math.hypot(r.centre[0] - eye[0], r.centre[1] - eye[1], r.centre[2] - eye[2]));
    const where = `${ending.part.id}, ${withUnit(apart, "m")} away, with ${shown.what === "call" ? "the call" : `the ${shown.what}`}`;
    if (look !== undefined && look.off > 90) {
      out.push(`${where}: seen from behind, so not at all.`);
      continue;
    }
    const parts: string[] = [];
    if (shown.letters !== undefined) {
      const angle = letterAngle(setup, trial, showing)(apart);
      parts.push(`its smallest text is ${withUnit(angle, "′")}, like capitals ${withUnit(angle * ARC_MINUTE * READING * 1000, "mm")} high in a book 40 cm from the eye`);
    }
    if (shown.what === "call") parts.push(`a face is ${withUnit(faceAngleOf(setup, trial, showing)(apart), "°")} high, one of ${Math.round(trial.value(shown.faces))}`);
    if (look !== undefined && look.off > 30) parts.push(`seen ${withUnit(look.off, "°")} off its axis`);
    const hidden = from.seat === undefined || listeners(setup, trial).length < 2 ? things.find((thing) => thing.kind === "display" && thing.name === ending.part.id)?.hidden : hiddenFromSeat(setup, trial, ending, from.seat);
    if (hidden !== undefined && Number.isFinite(hidden) && ending.device.type !== "computer") parts.push(hidden < 0.005 ? "no head in front" : `heads hide ${percent(hidden)}, however one leans`);
    const drawn = things.find((thing) => thing.kind === "display" && thing.name === ending.part.id)?.hidden ?? 0;
    if (hidden !== undefined && drawn > hidden + 0.1) parts.push(`in this drawing ${percent(drawn)} of it is behind people and things`);
    if (!project(from.camera, r.centre).inside) parts.push("not in this view");
    out.push(`${where}: ${parts.length === 0 ? "in view" : parts.join("; ")}.`);
  }
  for (const voice of graph.voices.filter((one) => one.seats === undefined && one !== from.voice).slice(0, MOST)) {
    const mouth = triple(voice.position.at(trial));
    out.push(`${voice.stated ? voice.name : "Who speaks"}: ${withUnit(Math.hypot(mouth[0] - eye[0], mouth[1] - eye[1]), "m")} away${project(from.camera, mouth).inside ? "" : ", not in this view"}.`);
  }
  return out;
}
