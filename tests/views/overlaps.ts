/** Finds what stands in each other's way in a scene: words on words, words on posts, words on lines, posts on posts, anything outside. */
import type { Box, Scene, Text } from "../../server/views/flow/scene";
import { BEAD, POST } from "../../server/views/flow/sizes";
import { boxOf as plainBox, meet } from "../../server/views/svg/text";

interface Thing extends Box {
  readonly what: string;
  readonly owner: string | undefined;
}

/** The box of a line of type, with what it says. */
export function boxOf(text: Text): Thing {
  return { ...plainBox(text), what: `"${text.text}"`, owner: text.owner };
}

export function textsOf(scene: Scene): Text[] {
  return [
    ...scene.texts,
    ...scene.verdicts.flatMap((each) => each.texts),
    ...scene.strips.flatMap((each) => each.side?.texts ?? []),
    ...scene.zones.map((each) => each.text),
    ...scene.posts.flatMap((each) => each.texts),
    ...scene.loose.flatMap((each) => each.texts),
    ...scene.lines.flatMap((each) => each.texts),
    ...scene.echoes.flatMap((each) => each.texts),
    ...scene.legend.map((each) => each.text),
  ];
}

function postsOf(scene: Scene): Thing[] {
  return [...scene.posts, ...scene.loose].flatMap(({ post, x, bodies, spines, head }) => {
    const thing = (half: number, top: number, bottom: number): Thing => (
      { x: x - half, y: top, width: 2 * half, height: bottom - top, what: `post ${post.name.slice(0, 40)}`, owner: post.id });
    return [
      ...bodies.map((body) => thing(POST.half, body.top, body.bottom)),
      ...spines.map((spine) => thing(1, spine.top, spine.bottom)),
      ...(head === undefined ? [] : [thing(POST.headRadius, head - POST.headRadius, head + POST.headRadius)]),
    ];
  });
}

function linesOf(scene: Scene): Thing[] {
  const flat = (what: string, from: number, to: number, y: number, half: number): Thing => (
    { what, owner: undefined, x: Math.min(from, to), width: Math.abs(to - from), y: y - half, height: 2 * half });
  return [
    ...scene.lines.flatMap((line) => line.pieces.map((piece) => flat(`line to ${line.line.to}`, piece.from, piece.to, line.y, 4))),
    ...scene.echoes.flatMap((echo) => [
      flat("echo out", echo.closeX ?? echo.startX, echo.turnX, echo.outY, 4), flat("echo back", echo.turnX, echo.closeX ?? echo.endX, echo.backY, 4),
      ...(echo.closeX === undefined ? [] : [{ what: "where a loop closes", owner: undefined, x: echo.closeX - 2, width: 4, y: echo.outY, height: echo.backY - echo.outY }]),
      { what: "echo turn", owner: undefined, x: echo.turnX - 2, width: 4, y: echo.outY, height: echo.backY - echo.outY },
    ]),
    ...scene.lines.flatMap((line) => line.arrows.map((arrow) => flat("arrow", arrow.x - 7, arrow.x + 7, line.y, 6.5))),
  ];
}

/** Every overlap, in words; empty where there is none. */
export function overlapsOf(scene: Scene): string[] {
  const found: string[] = [];
  const texts = textsOf(scene).map(boxOf);
  const posts = postsOf(scene);
  const lines = linesOf(scene);
  for (const [index, text] of texts.entries()) {
    for (const other of texts.slice(index + 1)) if (meet(text, other)) found.push(`${text.what} on ${other.what}`);
    for (const post of posts) if (meet(text, post)) found.push(`${text.what} on ${post.what}`);
    for (const line of lines) if (meet(text, line)) found.push(`${text.what} on ${line.what}`);
    if (text.x < 0 || text.y < 0 || text.x + text.width > scene.width || text.y + text.height > scene.height) found.push(`${text.what} outside`);
  }
  for (const [index, post] of posts.entries()) {
    for (const other of posts.slice(index + 1)) if (post.owner !== other.owner && meet(post, other)) found.push(`${post.what} on ${other.what}`);
  }
  // A line may cross the body of a post only where it belongs: there is a bead then.
  const beads = new Map([...scene.posts].map((placed) => [placed.post.id, placed.beads.map((bead) => bead.y)]));
  for (const line of lines) {
    if (line.what === "arrow" || line.what === "echo turn") continue;
    for (const post of posts) {
      const thick = post.width > 2;
      const joined = (beads.get(post.owner ?? "") ?? []).some((y) => Math.abs(y - (line.y + line.height / 2)) < BEAD);
      if (thick && !joined && meet(line, post)) found.push(`${line.what} through ${post.what}`);
    }
  }
  return found;
}
