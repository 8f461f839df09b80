/** The shelf below the bands: what stands in the room but is on no way across, and what there was no room to draw. */
import { flagOf } from "./labels";
import { isPeople } from "./heights";
import type { DrawnPost } from "./network";
import { flagTexts } from "./posts";
import type { PlacedPost, PlacedStrip } from "./scene";
import { moved, sideWords } from "./side";
import { FLAG_GAP, FLAG_WIDTH, PADDING, POST, SIDE, SIDE_GAP } from "./sizes";

const STEP = FLAG_WIDTH + 20;
const BODY = 26;

export interface Shelf {
  readonly strip: PlacedStrip;
  readonly posts: readonly PlacedPost[];
}

export function shelf(loose: readonly DrawnPost[], left: number, x: number, y: number, width: number, sideWidth: number = SIDE): Shelf | undefined {
  if (loose.length === 0 && left === 0) return undefined;
  const note = left === 0 ? "" : `and ${left} more ${left === 1 ? "is" : "are"} not drawn`;
  const first = x + PADDING + sideWidth + SIDE_GAP + FLAG_WIDTH / 2;
  const perRow = Math.max(1, Math.floor((x + width - PADDING - first + STEP - FLAG_WIDTH / 2) / STEP));
  const flags = loose.map((post) => flagOf(post));
  const rows: { top: number; height: number }[] = [];
  let height = PADDING;
  for (let index = 0; index < loose.length; index += perRow) {
    const tallest = Math.max(...flags.slice(index, index + perRow).map((flag) => flag.height));
    const head = loose.slice(index, index + perRow).some(isPeople) ? 2 * POST.headRadius + 1 : 0;
    const row = tallest + FLAG_GAP + head + BODY + POST.foot + 8;
    rows.push({ top: height, height: row });
    height += row;
  }
  const side = sideWords("On no way across", undefined, loose.length === 0 ? "" : sentence(loose), note, sideWidth);
  height = Math.max(height, side.height + PADDING) + PADDING;
  const posts = loose.flatMap((post, index): PlacedPost[] => {
    const row = rows[Math.floor(index / perRow)];
    const flag = flags[index];
    if (row === undefined || flag === undefined) return [];
    const bottom = y + row.top + row.height - POST.foot - 8;
    const at = first + (index % perRow) * STEP;
    const top = bottom - BODY;
    const headTop = top - (isPeople(post) ? 2 * POST.headRadius + 1 : 0);
    return [{
      post, x: at, bodies: [{ top, bottom }], spines: [], head: isPeople(post) ? headTop + POST.headRadius : undefined,
      beads: [], bars: [], ...flagTexts(flag, at, headTop - FLAG_GAP, post.id),
    }];
  });
  const words = moved(side.verdict, x + PADDING + 4, y + Math.max(PADDING, (height - side.height) / 2));
  return {
    strip: { box: { x, y, width, height }, kind: "shelf", label: "On no way across", way: undefined, side: words },
    posts,
  };
}

function sentence(loose: readonly DrawnPost[]): string {
  const count = loose.reduce((sum, post) => sum + post.members.length, 0);
  return count === 1 ? "This is in the text, but on none of the four ways." : "These are in the text, but on none of the four ways.";
}
