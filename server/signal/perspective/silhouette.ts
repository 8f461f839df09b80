/** People as plain silhouettes, upright and turned to whoever looks. */
import type { Vec3 } from "../../physics/geometry";
import { HEAD, SHOULDERS } from "../pictures/people";
import type { Face } from "./standing";

/** How many corners an outline has: few for people who are drawn small. */
export type Detail = "large" | "fine" | "coarse";

/** Height of a chair above the floor, m. Common practice, no source. */
const SEAT = 0.45;

const HALF = SHOULDERS.width / 2;

/** From the neck down one side: how far aside, as a share of half the shoulders, and how far below the top of the head, m. */
const SIDE: Readonly<Record<Detail, readonly (readonly [aside: number, below: number])[]>> = {
  large: [[0.2, 0.2], [0.21, 0.25], [0.28, 0.275], [0.55, 0.295], [0.75, 0.318], [0.88, 0.35], [0.95, 0.39], [0.985, 0.44], [1, 0.52], [0.99, 0.6], [0.97, 0.68]],
  fine: [[0.2, 0.2], [0.22, 0.26], [0.55, 0.29], [0.82, 0.33], [0.96, 0.4], [1, 0.5], [0.97, 0.66]],
  coarse: [[0.25, 0.22], [0.8, 0.31], [1, 0.45]],
};
const CORNERS = { large: 44, fine: 20 } as const;

export interface Person {
  readonly x: number;
  readonly y: number;
  /** Top of the head and the floor under them, m. */
  readonly top: number;
  readonly floor: number;
  readonly standing: boolean;
}

/** Body and head of somebody seen from an eye, the body first. */
export function silhouette(person: Person, eye: Vec3, looks: readonly [body: Face["look"], head: Face["look"]], detail: Detail): readonly Face[] {
  const { x, y, top, floor } = person;
  const far = Math.hypot(x - eye[0], y - eye[1]);
  const [sx, sy] = far < 1e-9 ? [0, 1] : [-(y - eye[1]) / far, (x - eye[0]) / far];
  const at = (aside: number, z: number): Vec3 => [x + sx * aside, y + sy * aside, z];
  const low = person.standing ? [[0.82, Math.max(floor, top - 0.95)], [0.74, floor]] : [[0.95, floor + SEAT], [0.9, floor]];
  const half = [...SIDE[detail].map(([aside, below]) => [aside * HALF, Math.max(floor, top - below)] as const), ...low.map(([aside = 0, z = 0]) => [aside * HALF, z] as const)];
  // From far away one outline for both.
  if (detail === "coarse") {
    const upper = [[0.5, 0.19], [0.38, 0.05], [0.15, 0]].map(([aside = 0, below = 0]) => [aside * HEAD.width, top - below] as const);
    const side = [...upper.reverse(), ...half];
    return [{ look: looks[0], ring: [...side.map(([aside, z]) => at(aside, z)), ...side.map(([aside, z]) => at(-aside, z)).reverse()] }];
  }
  const body = [...half.map(([aside, z]) => at(aside, z)), ...half.map(([aside, z]) => at(-aside, z)).reverse()];
  const round = CORNERS[detail];
  const head = Array.from({ length: round }, (_, i) => {
    const angle = (2 * Math.PI * i) / round;
    return at((Math.sin(angle) * HEAD.width) / 2, top - HEAD.height / 2 + (Math.cos(angle) * HEAD.height) / 2);
  });
  return [{ look: looks[0], ring: body }, { look: looks[1], ring: head }];
}
