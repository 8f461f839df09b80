/** Heads, and things that stand fast, between a camera and whoever speaks. */
import type { Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { namesOf } from "../../model/voices";
import { BUST } from "../../physics/bust";
import { between } from "../../physics/geometry";
import { shareHidden, upright, type Upright } from "../../physics/hidden";
import { listeners } from "../air";
import type { Ending, Graph } from "../graph";
import { triple } from "../stands";
import { bodyOf, seatedBodies } from "./people";
import { cameraOf, seenBy } from "./shots";
import { solidsOf } from "./solids";

export interface Blocked {
  /** The share of head and shoulders that is hidden. */
  readonly share: number;
  /** The thing that hides most, and how much by itself; nothing where heads alone do. */
  readonly thing: { readonly name: string; readonly share: number } | undefined;
}

/** What others, and things, hide of somebody from a camera; nothing where it does not have the face in its frame. */
export const hiddenTo = (graph: Graph, voice: Voice, ending: Ending, trial: Trial): Blocked | undefined =>
  // Most of what is tried moves neither this camera nor anybody before it.
  trial.keep(`hidden ${voice.name} from ${ending.part.id} ${namesOf(graph.voices)}`, () => hidden(graph, voice, ending, trial));

function hidden(graph: Graph, voice: Voice, ending: Ending, trial: Trial): Blocked | undefined {
  const { setup } = graph;
  const camera = cameraOf(setup, trial, ending, graph.voices);
  const mouth = voice.position.at(trial);
  const seen = seenBy(camera, mouth);
  if (!seen.face) return undefined;
  if (seen.depth <= 0.7) return { share: 0, thing: undefined };
  const eye = camera.position;
  const bust = upright([mouth.x, mouth.y, mouth.z + (BUST.above - BUST.below) / 2], between(triple(mouth), eye), BUST.side * 2, BUST.above + BUST.below);
  const things = solidsOf(setup, trial).filter(({ shape, around }) => Math.hypot(shape.x - eye[0], shape.y - eye[1]) > around && Math.hypot(shape.x - mouth.x, shape.y - mouth.y) > around);
  const most = things.map(({ name, shape }) => ({ name, share: shareHidden(eye, bust, [shape]) })).filter(({ share }) => share > 0).sort((a, b) => b.share - a.share)[0];
  return { share: shareHidden(eye, bust, [...inTheWay(graph, voice, trial, [eye[0], eye[1]]), ...things.map(({ shape }) => shape)]), thing: most };
}

/** Everybody else: who sits, and who else speaks. Right at the camera nobody sits: whoever put it there saw to that. */
function inTheWay({ setup, voices }: Graph, voice: Voice, trial: Trial, camera: readonly [number, number]): Upright[] {
  const mouth = voice.position.at(trial);
  const clear = (x: number, y: number): boolean => Math.hypot(x - mouth.x, y - mouth.y) > 0.4 && Math.hypot(x - camera[0], y - camera[1]) > 0.6;
  const seats = listeners(setup, trial);
  const seated = seatedBodies(setup, trial).filter((_, i) => clear(seats[i]?.at.x ?? 0, seats[i]?.at.y ?? 0)).flat();
  const others = voices.filter((v) => v !== voice && v.seats === undefined).map((v) => v.position.at(trial)).filter((p) => clear(p.x, p.y)).flatMap((p) => bodyOf(p.x, p.y, p.z + BUST.above));
  return [...seated, ...others];
}
