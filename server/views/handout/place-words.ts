/** Where things are, in words that one can set up by, without opening the text. */
import type { Anchor, PlaceValue } from "../../model/bound";
import { amount, list } from "../../model/show";

/** A point is reckoned from the front wall, from the left wall as the audience sees it, and from the floor. */
function point(coordinates: Extract<Anchor, { kind: "point" }>["coordinates"]): string {
  const [x, y, z] = coordinates.map((c) => amount(c.best, "length"));
  return `${x ?? "?"} from front, ${y ?? "?"} from left wall${z === undefined ? "" : `, ${z} up`}`;
}

function anchor(of: Anchor): string {
  switch (of.kind) {
    case "sides": return `the ${of.sides.join(" ")}`;
    case "row": return `row ${of.row}${of.of === undefined ? "" : ` of ${of.of.text}`}`;
    case "name": return of.name.text;
    case "names": return list(of.names.map((name) => name.text));
    case "point": return point(of.coordinates);
  }
}

/** `on table beside lectern`, `1 m from the front wall, 2.6 m from the left wall`. */
export function placeWords(place: PlaceValue): string {
  return place.relations.map(({ relation, offset, anchor: of }) => {
    const far = offset === undefined || offset.said === "unknown" ? "" : `${amount(offset.best, "length")} `;
    return of.kind === "point" && relation === "at" ? `${far}${point(of.coordinates)}` : `${far}${relation} ${anchor(of)}`;
  }).join(" ");
}

/** What an aim points at: `lectern`, and not `at lectern`. */
export function aimWords(aim: PlaceValue): string {
  const [only] = aim.relations;
  return aim.relations.length === 1 && only?.relation === "at" && only.offset === undefined ? anchor(only.anchor) : placeWords(aim);
}
