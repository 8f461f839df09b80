/** A view in words: above and below the picture, and for whoever cannot see it. */
import { withUnit } from "../../model/show";
import type { Perspective } from "../../signal/perspective/perspective";

export const titleOf = (seen: Perspective): string => (seen.view === "camera" ? `What ${seen.of} frames` : `Seen from ${seen.of}`);

export const underTitle = (seen: Perspective): string =>
  `${seen.title}${seen.item === undefined ? "" : `, during ${seen.item}`} – ${Math.round(seen.horizontal)}° wide, ${Math.round(seen.vertical)}° high`;

/** At this width a drawing is held, cm. */
const HELD = 20;

/** How to look at it, and what is not drawn. */
export function notesOf(seen: Perspective, without: readonly string[]): string[] {
  const from = HELD / (2 * Math.tan((seen.horizontal * Math.PI) / 360));
  const { small, hidden } = seen.leftOut;
  const people = (many: number): string => `${many} ${many === 1 ? "person" : "people"}`;
  const left = [...(hidden > 0 ? [`${people(hidden)} quite behind others`] : []), ...(small > 0 ? [`${people(small)} smaller than a dot`] : [])];
  return [
    `Lines on the floor are ${withUnit(seen.grid, "m")} apart. ${HELD} cm wide and looked at from ${Math.round(from)} cm, everything is as large to the eye as it is in the room. Every seat is taken to be filled.`,
    ...(left.length === 0 ? [] : [`Not drawn: ${left.join(", ")}.`]),
    ...(without.length === 0 ? [] : [`No room for the names of ${without.slice(0, 10).join(", ")}${without.length > 10 ? ` and ${without.length - 10} more` : ""}.`]),
  ];
}

/** So much is told of who is cut off. */
const MOST = 30;

/** Sentences under the picture: who is cut off behind the camera, then the numbers. */
export const linesOf = (seen: Perspective): string[] => [...seen.cutOff.filter((one) => one.side === "behind").slice(0, MOST).map((one) => `${one.words}.`), ...seen.facts];

export function describe(seen: Perspective): { readonly title: string; readonly description: string } {
  return {
    title: `${titleOf(seen)}: ${underTitle(seen)}`,
    description: [
      `${seen.view === "camera" ? `The frame of ${seen.of}` : `What is seen from ${seen.of}`}, in true perspective.`, ...seen.cutOff.slice(0, MOST).map((one) => `${one.words}.`), ...seen.facts, ...notesOf(seen, []),
    ].join(" "),
  };
}
