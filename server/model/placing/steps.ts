/** One relation of a place, `1.5 m behind row 3`, as a step in metres: most of it is known only roughly. */
import type { Anchor, Relation } from "../bound";
import type { Vec3 } from "../geometry";
import { canonical } from "../names";
import type { Ranged } from "../ranged";
import type { Trial } from "../trial";
import { middleOf, sidesOf } from "./bounds";
import type { Ground } from "./ground";
import { offset } from "./offset";
import { mean, move, toward } from "./vectors";

/** From where the relations before it have led to where this one leads. */
export type Step = (trial: Trial, so: Vec3 | undefined) => Vec3 | undefined;

/** The step of the `index`th relation of the place of `owner`. */
export function stepOf(ground: Ground, owner: string, relation: Relation, index: number): Step {
  const id = `${canonical(owner)}.place-${index}`;
  const anchored = anchorOf(ground, owner, relation.anchor, relation.relation);
  const given = relation.offset;
  const amount = (best: number, low: number, high: number): Ranged => given === undefined
    ? offset(`${id}.offset`, `how far ${owner} is ${relation.relation} ${anchored.words}`, best, low, high)
    : { ...offset(`${id}.offset`, `how far ${owner} is ${relation.relation} ${anchored.words}`, given.best, given.low, given.high), from: { how: "stated" } };
  const exact = relation.anchor.kind === "point";
  switch (relation.relation) {
    case "on": case "with": case "around":
      // `on table` says on what, and only where no other relation says where.
      return (trial, so) => so ?? anchored.at(trial);
    case "behind": {
      const d = amount(0.6, 0.3, 1.2);
      return (trial) => move(anchored.at(trial), trial.value(d), 0);
    }
    case "before": {
      const d = amount(0.8, 0.4, 1.5);
      return (trial) => move(anchored.at(trial), -trial.value(d), 0);
    }
    case "beside": {
      const d = amount(anchored.halfWidth + 0.5, anchored.halfWidth + 0.2, anchored.halfWidth + 1.2);
      return (trial) => {
        const point = anchored.at(trial);
        // Beside means where there is room: away from the nearer side wall.
        const way = point !== undefined && point.y > trial.value(ground.room.width) * 0.55 ? -1 : 1;
        return move(point, 0.3, way * trial.value(d));
      };
    }
    case "near": {
      const d = amount(0.8, 0.2, 2);
      return (trial) => {
        const point = anchored.at(trial);
        const middle = middleOf(ground.room, trial);
        return point === undefined ? undefined : toward(point, middle, trial.value(d));
      };
    }
    case "under": return (trial) => anchored.at(trial);
    default: {
      if (exact || anchored.kind !== "spot") return (trial) => anchored.at(trial);
      const dx = offset(`${id}.x`, `where exactly ${owner} is at ${anchored.words}`, 0, -0.4, 0.4);
      return (trial) => move(anchored.at(trial), trial.value(dx), 0);
    }
  }
}

interface Anchored {
  at(trial: Trial): Vec3 | undefined;
  readonly words: string;
  /** How far it reaches to either side, m. */
  readonly halfWidth: number;
  readonly kind: "spot" | "other";
}

/** What a relation relates to. */
export function anchorOf(ground: Ground, owner: string, anchor: Anchor, relation: string): Anchored {
  switch (anchor.kind) {
    case "point": {
      const axis = (i: number, name: string): Ranged | undefined => {
        const q = anchor.coordinates[i];
        return q === undefined ? undefined : { ...offset(`${canonical(owner)}.${name}`, `where ${owner} is`, q.best, q.low, q.high), from: { how: "stated" } };
      };
      const [x, y, z] = [axis(0, "x"), axis(1, "y"), axis(2, "z")];
      return {
        words: "that point", halfWidth: 0, kind: "other",
        at: (trial) => ({ x: x ? trial.value(x) : 0, y: y ? trial.value(y) : 0, z: z ? trial.value(z) : 0 }),
      };
    }
    case "sides": return { words: anchor.sides.join(" "), halfWidth: 0, kind: "spot", at: (trial) => sidesOf(ground.room, anchor.sides, trial) };
    case "row": return {
      words: `row ${anchor.row}`, halfWidth: 0, kind: "other",
      at: (trial) => {
        const group = anchor.of === undefined ? ground.room.seats[0] : ground.group(anchor.of.text);
        const row = group === undefined ? [] : ground.seats(group, trial).filter((seat) => seat.row === Math.min(anchor.row, group.rows));
        return row.length === 0 ? undefined : { ...mean(row.map((seat) => seat.at)), z: 0 };
      },
    };
    case "name": {
      const name = anchor.name.text;
      const surface = ground.room.surfaces.get(canonical(name));
      const spot = relation === "at" && surface === undefined && !ground.isDevice(name);
      return {
        words: name, kind: spot ? "spot" : "other",
        halfWidth: surface !== undefined ? surface.width.best / 2 : canonical(name) === "front-screen" ? 1 : 0,
        at: (trial) => ground.spot(name, trial),
      };
    }
    case "names": return {
      words: anchor.names.map((n) => n.text).join(" and "), halfWidth: 0, kind: "other",
      at: (trial) => {
        const points = anchor.names.map((n) => ground.spot(n.text, trial)).filter((p): p is Vec3 => p !== undefined);
        return points.length === 0 ? undefined : mean(points);
      },
    };
  }
}
