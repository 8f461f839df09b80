/** People and things that stand in the way of seeing. */
import type { Vec3 } from "../../model/geometry";
import type { Setup } from "../../model/setup";
import { Trial } from "../../model/trial";
import { listeners } from "../air";
import { BUST } from "../../physics/bust";
import { shareHidden, type Rectangle, type Upright } from "../../physics/hidden";
import type { Ending } from "../graph";
import type { Vec3 as Vec3T } from "../../physics/geometry";
import { triple } from "../stands";
import { pictureOf } from "./picture";
import { onceFor } from "../../model/watching/once";

/** Breadth and height of a head with its hair, and of shoulders, m. Common practice, no source. */
export const HEAD = { width: 0.17, height: 0.24 } as const;
export const SHOULDERS = { width: 0.42, under: 0.3, deep: 0.4 } as const;

/** How far one leans aside to look past the head in front, m. Common practice, no source. */
const LEAN = 0.1;

/** A head and shoulders whose top is at a height. */
export const bodyOf = (x: number, y: number, top: number): readonly Upright[] => [
  { x, y, top, bottom: top - HEAD.height, width: HEAD.width, round: true },
  { x, y, top: top - SHOULDERS.under, bottom: top - SHOULDERS.under - SHOULDERS.deep, width: SHOULDERS.width, round: false },
];

/** Heads and shoulders of all who sit, in the order of `listeners`; none where no seats are stated. */
export function seatedBodies(setup: Setup, trial: Trial): readonly (readonly Upright[])[] {
  return trial.keep("seated bodies", () => {
    if (setup.room.seats.length === 0) return [];
    return setup.room.seats.flatMap((group) => setup.floor.seats(group, trial).map((seat) => bodyOf(seat.at.x, seat.at.y, seat.top)));
  });
}

/** Whoever stands: from the floor to the top of the head. */
export function standingBody(mouth: Vec3): readonly Upright[] {
  const top = mouth.z + BUST.above;
  return [
    { x: mouth.x, y: mouth.y, top, bottom: top - HEAD.height, width: HEAD.width, round: true },
    { x: mouth.x, y: mouth.y, top: top - SHOULDERS.under, bottom: 0, width: SHOULDERS.width, round: false },
  ];
}

/** For so small a share nobody leans aside. Common practice, no source. */
const UNNOTICED = 0.03;

/** So many seats are looked at one by one. Of more, half of so many are those from which most is hidden at the best guess, half are spread evenly. */
const MOST_LOOKED_AT = 120;

/** Of so many at most it is found out from which most is hidden. */
const MOST_RANKED = 600;

/** The seats that are looked at, of all `listeners`: the same whatever is tried, so that trials can be compared. */
function worthALook(setup: Setup, ending: Ending, count: number): ReadonlySet<number> | undefined {
  return count <= MOST_LOOKED_AT ? undefined : ranked(setup, ending, count);
}

const ranked = onceFor((ending: Ending) => ending.part.id, (setup: Setup, ending: Ending, count: number): ReadonlySet<number> => {
  const trial = new Trial();
  const hidden = hiding(setup, trial, ending);
  const every = Math.ceil(count / MOST_RANKED);
  const shares = Array.from({ length: Math.ceil(count / every) }, (_, i) => ({ seat: i * every, share: hidden(i * every)(0) }));
  const most = shares.sort((a, b) => b.share - a.share).slice(0, MOST_LOOKED_AT / 2).map(({ seat }) => seat);
  const apart = Math.ceil(count / (MOST_LOOKED_AT / 2));
  return new Set([...most, ...Array.from({ length: Math.ceil(count / apart) }, (_, i) => i * apart)]);
});

/** The share of a display's picture that the heads in front hide, however one leans, from each of all `listeners`; NaN for seats not looked at. */
export function hiddenFromSeats(setup: Setup, trial: Trial, ending: Ending): readonly number[] {
  const count = listeners(setup, trial).length;
  const looked = worthALook(setup, ending, count);
  return trial.keep(`hidden of ${ending.part.id}`, () => {
    const from = hiding(setup, trial, ending);
    return Array.from({ length: listeners(setup, trial).length }, (_, i) => {
      if (looked !== undefined && !looked.has(i)) return NaN;
      return leaning(from(i));
    });
  });
}

/** The same from one of all `listeners`. */
export const hiddenFromSeat = (setup: Setup, trial: Trial, ending: Ending, index: number): number => leaning(hiding(setup, trial, ending)(index));

/** Whoever sees something hidden leans aside, as far as it helps. */
export function leaning(hidden: (aside: number) => number): number {
  const upright = hidden(0);
  return upright <= UNNOTICED ? upright : Math.min(upright, hidden(LEAN), hidden(-LEAN));
}

/** For a seat, and so many metres that one leans aside there: the share of the picture that is hidden. */
function hiding(setup: Setup, trial: Trial, { device, part }: Ending): (seat: number) => (aside: number) => number {
  const { rectangle, normal } = pictureOf(setup, trial, device, part);
  const seats = listeners(setup, trial);
  const bodies = seatedBodies(setup, trial);
  const grid = gridOf(bodies);
  return (i) => {
    const seat = seats[i];
    if (seat === undefined) return () => 0;
    const eye = triple(seat.at);
    const shapes = between(grid, bodies, eye, rectangle, i);
    if (shapes.length === 0) return () => 0;
    const far = Math.max(1e-6, Math.hypot(rectangle.centre[0] - eye[0], rectangle.centre[1] - eye[1]));
    return (metres) => {
      const from: Vec3T = [eye[0] - ((rectangle.centre[1] - eye[1]) / far) * metres, eye[1] + ((rectangle.centre[0] - eye[0]) / far) * metres, eye[2]];
      return shareHidden(from, normal === undefined ? facingEye(rectangle, from) : rectangle, shapes);
    };
  };
}

/** A display of which nobody knows how it is turned is turned to whoever looks. */
export const facingEye = (r: Rectangle, eye: readonly number[]): Rectangle => {
  const [dx, dy] = [(eye[0] ?? 0) - r.centre[0], (eye[1] ?? 0) - r.centre[1]];
  const far = Math.hypot(dx, dy);
  return far < 1e-9 ? r : { ...r, right: [-dy / far, dx / far, 0] };
};

/** Bodies by squares of a metre, so that a full hall is looked through along the line of sight alone. */
type Grid = ReadonlyMap<string, readonly number[]>;

function gridOf(bodies: readonly (readonly Upright[])[]): Grid {
  const out = new Map<string, number[]>();
  bodies.forEach(([head], i) => {
    if (head === undefined) return;
    const key = `${Math.floor(head.x)} ${Math.floor(head.y)}`;
    const known = out.get(key);
    if (known === undefined) out.set(key, [i]);
    else known.push(i);
  });
  return out;
}

/** Those bodies that may stand between an eye and a picture, its own left out. */
function between(grid: Grid, bodies: readonly (readonly Upright[])[], eye: readonly [number, number, number], picture: Rectangle, own: number): Upright[] {
  const [ex, ey, ez] = eye;
  const [cx, cy, cz] = picture.centre;
  const bottom = cz - picture.height / 2;
  const seen = new Set<number>();
  const apart = Math.hypot(cx - ex, cy - ey);
  const steps = Math.ceil(apart / 0.7);
  for (let s = 0; s <= steps; s += 1) {
    const t = s / Math.max(1, steps);
    const half = (picture.width / 2) * t + 0.5;
    for (let gx = Math.floor(ex + (cx - ex) * t - half); gx <= Math.floor(ex + (cx - ex) * t + half); gx += 1) {
      for (let gy = Math.floor(ey + (cy - ey) * t - half); gy <= Math.floor(ey + (cy - ey) * t + half); gy += 1) for (const i of grid.get(`${gx} ${gy}`) ?? []) seen.add(i);
    }
  }
  const out: Upright[] = [];
  for (const i of seen) {
    const body = bodies[i];
    const head = body?.[0];
    if (i === own || body === undefined || head === undefined) continue;
    // Below the line from the eye to the lower edge nothing is hidden.
    const t = Math.hypot(head.x - ex, head.y - ey) / Math.max(1e-6, apart);
    if (t > 1.2 || head.top < ez + (bottom - ez) * Math.min(1, t) - 0.05) continue;
    out.push(...body);
  }
  return out;
}
