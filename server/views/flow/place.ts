/** Puts everything into its place: from a flow to a scene. */
import { WAY_TITLES } from "../../model/ways";
import type { Flow } from "../../signal/drawing/flow";
import { widthOf } from "../svg/glyphs";
import { shorten, wrap } from "../svg/wrap";
import { columnsOf } from "./columns";
import { heightsOf, type Heights } from "./heights";
import { backWords, echoWords, flagOf, kindOf, wordsAt, type Flag, type LineWords } from "./labels";
import { stripsOf, type Strip } from "./lanes";
import { legend, LEGEND_HEIGHT } from "./legend";
import { networkOf, type DrawnEcho, type DrawnPost, type Line, type Network } from "./network";
import { placePost, type Ground } from "./posts";
import type { Box, PlacedEcho, PlacedLine, PlacedPost, PlacedStrip, PlacedVerdict, Scene, Text, Zone } from "./scene";
import { shelf } from "./shelf";
import { lineWords, moved, sideWords, type SideWords } from "./side";
import { arrange, type Slots } from "./slots";
import { ABOVE, BELOW, FORMS, GAP_AIR, LEADING, MARGIN, PADDING, POST, SIDE_GAP, TYPE, type Form, type Measures } from "./sizes";
import { clearance, courseOf, laneOfLeg, legStretch, placesOf, stubs, turnsOf, type Course, type Turn } from "./widths";

const ECHO_SENTENCE = "A voice that turns round and comes back to where it began.";
const HOWL_SENTENCE = "Sound that goes round and round, and grows or rings.";

/** What the strip of what comes back is called, and what that is. */
function comingBack(echoes: readonly DrawnEcho[]): { readonly title: string; readonly sentence: string } {
  const howl = echoes.some((echo) => kindOf(echo.run) === "howl");
  if (!howl) return { title: "Echo", sentence: ECHO_SENTENCE };
  return echoes.every((echo) => kindOf(echo.run) === "howl") ? { title: "Howl", sentence: HOWL_SENTENCE } : { title: "Echo and howl", sentence: `${ECHO_SENTENCE} ${HOWL_SENTENCE}` };
}
/** From the names of the sides to the first band. */
const ZONE_HEIGHT = 34;
const HEADER_GAP = 22;

export interface Planned {
  readonly network: Network;
  readonly scene: Scene;
}

function more(count: number, what: string, whats: string): string {
  return count === 0 ? "" : `and ${count} more ${count === 1 ? what : whats} not drawn`;
}

function sidesOf(strips: readonly Strip[], network: Network, { side: width, words }: Measures): SideWords[] {
  return strips.map((strip) => {
    if (strip.kind === "echoes") {
      const { title, sentence } = comingBack(network.echoes);
      return sideWords(title, "echo", words ? sentence : "", more(network.echoesLeft, "echo is", "echoes are"), width);
    }
    const { band, left } = strip.drawn;
    return sideWords(WAY_TITLES[band.way], band.verdict, words ? band.sentence : "", more(left, "line across is", "lines across are"), width);
  });
}

/** The whole scene of a flow. */
export function plan(flow: Flow, form: Form = "whole"): Planned {
  const network = networkOf(flow);
  const columns = columnsOf(network);
  const strips = stripsOf(network);
  const { lanes, slots } = arrange(strips, columns);
  const posts = new Map(network.posts.map((post) => [post.id, post]));
  const flags = new Map(network.posts.map((post) => [post.id, flagOf(post)]));
  const measures: Measures = FORMS[form];
  const sides = sidesOf(strips, network, measures);
  const { side, leastWidth, margin } = measures;

  const courses: Course[] = [];
  const words = new Map<Line, LineWords>();
  for (const [index, lane] of lanes.entries()) {
    const strip = strips[lane.strip];
    for (const line of lane.lines) {
      const course = strip === undefined ? undefined : courseOf(line, index, strip, columns, slots);
      if (course === undefined) continue;
      courses.push(course);
      words.set(line, wordsAt(line, course.leftIsFrom));
    }
  }
  const heights = heightsOf(lanes, strips.length, sides.map((side) => side.height), slots, posts, flags, words, measures);
  const turns = turnsOf(lanes, network.echoes, columns, slots, flags);

  const padding = edges(slots, flags, turns);
  const start = margin + side + SIDE_GAP + padding.left;
  const spare = leastWidth - start - padding.right - margin;
  const x = placesOf(lanes, courses, slots, heights, posts, flags, words, turns, spare).map((value) => value + start);
  const width = Math.max(leastWidth, (x.at(-1) ?? start) + padding.right + margin);

  const header = measures.words ? headerOf(flow, width) : { texts: [], verdicts: [], height: 0 };
  const down = header.height + (posts.size === 0 ? 0 : measures.zone);
  const ground: Ground = {
    lanes, strips, slots, x,
    y: heights.lanes.map((y) => y + down),
    reach: lanes.map((lane) => {
      const own = [...lane.posts].map((id) => slots.slotOf.get(id) ?? 0);
      // An echo reaches as far as it turns, just beyond the outermost of its posts.
      const turn = lane.echo === undefined ? undefined : turns.get(lane.echo.echo);
      if (turn !== undefined) own.push(turn.slot + (turn.atLeft ? -0.5 : 0.5));
      if (turn?.closing !== undefined) own.push(turn.closing.slot + (turn.atLeft ? 0.5 : -0.5));
      return { from: Math.min(...own), to: Math.max(...own) };
    }),
  };
  const placed = [...posts.values()].flatMap((post) => placePost(post, flags.get(post.id) ?? flagOf(post), ground) ?? []);
  const bandBottom = strips.length === 0 ? down : heights.bottom + down;
  const rest = shelf(network.loose, network.postsLeft, margin, bandBottom + measures.stripGap, width - 2 * margin, side);
  const shelfBottom = rest === undefined ? bandBottom : rest.strip.box.y + rest.strip.box.height;
  const placedStrips = stripsAt(strips, heights, sides, down, width, measures);
  const usedKinds = legend(network, margin, shelfBottom + measures.aboveLegend, width - 2 * margin);

  return {
    network,
    scene: {
      width,
      height: shelfBottom + measures.aboveLegend + usedKinds.rows * LEGEND_HEIGHT + measures.belowLegend,
      texts: [...header.texts],
      verdicts: header.verdicts,
      zones: measures.zones ? zonesOf(placed, posts, header.height + measures.zone - ZONE_HEIGHT) : [],
      strips: rest === undefined ? placedStrips : [...placedStrips, rest.strip],
      posts: placed,
      loose: rest?.posts ?? [],
      lines: courses.flatMap((course) => placeLine(course, words, ground) ?? []),
      echoes: network.echoes.flatMap((echo) => placeEcho(echo, turns.get(echo), flags, ground) ?? []),
      legend: usedKinds.entries,
    },
  };
}

/** Room that flags and turning echoes need beyond the first and the last slot. */
function edges(slots: Slots, flags: ReadonlyMap<string, Flag>, turns: ReadonlyMap<DrawnEcho, Turn>): { left: number; right: number } {
  let left: number = POST.half + 4;
  let right: number = POST.half + 4;
  for (const [id, slot] of slots.slotOf) {
    const half = (flags.get(id)?.width ?? 0) / 2;
    if (slot === 0) left = Math.max(left, half);
    if (slot === slots.count - 1) right = Math.max(right, half);
    // A flag of a later slot may still stick out over a narrow first one; its own distance keeps it clear of posts only.
    if (slot === 1) left = Math.max(left, half - POST.half - 10);
    if (slot === slots.count - 2) right = Math.max(right, half - POST.half - 10);
  }
  for (const turn of turns.values()) {
    const { closing } = turn;
    if (closing?.slot === 0 && !turn.atLeft) left = Math.max(left, closing.offset + 12);
    if (closing?.slot === slots.count - 1 && turn.atLeft) right = Math.max(right, closing.offset + 12);
    if (turn.atLeft && turn.slot === 0) left = Math.max(left, turn.offset + 12);
    if (!turn.atLeft && turn.slot === slots.count - 1) right = Math.max(right, turn.offset + 12);
  }
  return { left, right: right + PADDING };
}

function headerOf(flow: Flow, width: number): { texts: Text[]; verdicts: PlacedVerdict[]; height: number } {
  const inner = width - 2 * MARGIN;
  const texts: Text[] = [];
  let y = MARGIN;
  for (const text of wrap(flow.title, TYPE.title, inner, 2, true).lines) {
    y += TYPE.title * LEADING;
    texts.push({ x: MARGIN, y: y - TYPE.title * 0.3, text, size: TYPE.title, bold: true, anchor: "start", rank: "ink" });
  }
  if (flow.item !== undefined) {
    y += TYPE.way * LEADING + 2;
    texts.push({
      x: MARGIN, y: y - TYPE.way * 0.3, text: shorten(`During: ${flow.item}`, TYPE.way, inner), size: TYPE.way, bold: false, anchor: "start", rank: "ink2",
    });
  }
  if (flow.bands.length === 0) {
    y += TYPE.way * LEADING + 2;
    texts.push({
      x: MARGIN, y: y - TYPE.way * 0.3, text: "No way across is written down yet.", size: TYPE.way, bold: false, anchor: "start", rank: "ink2",
    });
  }
  y += 14;
  const half = (inner - 40) / 2;
  const call = lineWords(WAY_TITLES.call, flow.call.verdict, flow.call.sentence, half);
  const internet = lineWords(WAY_TITLES.internet, flow.internet.verdict, flow.internet.sentence, half);
  return {
    texts,
    verdicts: [moved(call.verdict, MARGIN, y), moved(internet.verdict, MARGIN + half + 40, y)],
    height: y + Math.max(call.height, internet.height) + HEADER_GAP,
  };
}

function stripsAt(strips: readonly Strip[], heights: Heights, sides: readonly SideWords[], down: number, width: number, { margin, padding }: Measures): PlacedStrip[] {
  return strips.flatMap((strip, index) => {
    const at = heights.strips[index];
    const side = sides[index];
    if (at === undefined || side === undefined) return [];
    const box: Box = { x: margin, y: at.top + down, width: width - 2 * margin, height: at.bottom - at.top };
    const top = box.y + Math.max(padding, (box.height - side.height) / 2);
    const words = moved(side.verdict, margin + PADDING + 4, top);
    return [strip.kind === "band"
      ? { box, kind: "band" as const, label: WAY_TITLES[strip.drawn.band.way], way: strip.drawn.band.way, side: words }
      : { box, kind: "echoes" as const, label: comingBack(strip.echoes).title, way: undefined, side: words }];
  });
}

/** Where the room is, and where the people online are. */
function zonesOf(placed: readonly PlacedPost[], posts: ReadonlyMap<string, DrawnPost>, y: number): Zone[] {
  const extent = (wanted: (post: DrawnPost) => boolean): { from: number; to: number } | undefined => {
    const at = placed.filter(({ post }) => wanted(posts.get(post.id) ?? post)).map(({ x }) => x);
    return at.length === 0 ? undefined : { from: Math.min(...at), to: Math.max(...at) };
  };
  const zones: Zone[] = [];
  const room = extent((post) => post.role === "room-people" || post.role === "device");
  if (room !== undefined) {
    const text: Text = { x: room.from - 22, y: y + 13, text: "In the room", size: TYPE.way, bold: true, anchor: "start", rank: "ink2" };
    zones.push({ text, from: room.from - 22, to: Math.max(room.to + 22, room.from - 22 + widthOf(text.text, TYPE.way, true)), y: y + 22 });
  }
  const online = extent((post) => post.role === "online-people");
  if (online !== undefined) {
    const text: Text = { x: online.to + 22, y: y + 13, text: "Online", size: TYPE.way, bold: true, anchor: "end", rank: "ink2" };
    zones.push({ text, from: Math.min(online.from - 22, online.to + 22 - widthOf(text.text, TYPE.way, true)), to: online.to + 22, y: y + 22 });
  }
  return zones;
}

/** An arrow needs so much line, and there is one in so much. */
const ARROW_ROOM = 26;
const ARROW_EVERY = 280;
/** Where a line passes many posts, short stretches do without. */
const LONG_STRETCH = 110;

function placeLine(course: Course, words: ReadonlyMap<Line, LineWords>, ground: Ground): PlacedLine | undefined {
  const { line, stretches, main } = course;
  const strip = ground.strips[ground.lanes[course.lane]?.strip ?? 0];
  const at = words.get(line);
  if (strip?.kind !== "band" || at === undefined) return undefined;
  const y = ground.y[course.lane] ?? 0;
  const x = (slot: number): number => ground.x[slot] ?? 0;
  const from = x(stretches[0]?.from ?? 0);
  const to = x(stretches.at(-1)?.to ?? 0);
  const texts: Text[] = [];
  const write = (text: string, atX: number, atY: number, anchor: Text["anchor"]): void => {
    if (text !== "") texts.push({ x: atX, y: atY, text, size: TYPE.port, bold: false, anchor, rank: "ink2" });
  };
  write(at.leftPort, from + POST.half + 8, y - ABOVE, "start");
  write(at.rightPort, to - POST.half - 8, y - ABOVE, "end");
  const pale = !line.live;
  const rightwards = course.leftIsFrom;
  const arrows: { x: number; right: boolean; pale: boolean }[] = [];
  const longest = Math.max(...stretches.map((stretch) => x(stretch.to) - x(stretch.from)));
  const arrow = (a: number, b: number, isPale: boolean): void => {
    if (b - a < ARROW_ROOM || (b - a < LONG_STRETCH && b - a < longest - 2 * POST.half && line.gap === "")) return;
    const count = Math.max(1, Math.floor((b - a) / ARROW_EVERY));
    for (let index = 0; index < count; index += 1) arrows.push({ x: a + ((b - a) * (index + 0.5)) / count, right: rightwards, pale: isPale });
  };

  if (line.gap === "") {
    write(at.remark, (x(main.from) + x(main.to)) / 2, y + BELOW + TYPE.port * 0.78, "middle");
    for (const stretch of stretches) arrow(x(stretch.from) + POST.half, x(stretch.to) - POST.half, pale);
    return { line, direction: strip.drawn.direction, y, pieces: [{ from, to, pale }], arrows, gap: undefined, texts };
  }

  const both = stubs(course, at);
  const middle = (x(main.from) + POST.half + both.left + x(main.to) - POST.half - both.right) / 2;
  const gapLeft = middle - at.gap.width / 2 - GAP_AIR;
  const gapRight = middle + at.gap.width / 2 + GAP_AIR;
  const step = TYPE.gap * LEADING;
  for (const [index, text] of at.gap.lines.entries()) {
    const base = y + (index - (at.gap.lines.length - 1) / 2) * step + TYPE.gap * 0.35;
    texts.push({ x: middle, y: base, text, size: TYPE.gap, bold: true, anchor: "middle", rank: "ink" });
  }
  const leftPale = pale || !course.leftIsFrom;
  const rightPale = pale || course.leftIsFrom;
  // One arrow on each side of the gap, where there is most room.
  const beside = (left: boolean): void => {
    const pieces = stretches.flatMap((stretch) => {
      if (stretch !== main) return (stretch.to <= main.from) === left ? [[x(stretch.from) + POST.half, x(stretch.to) - POST.half] as const] : [];
      return [left ? [x(stretch.from) + POST.half, gapLeft] as const : [gapRight, x(stretch.to) - POST.half] as const];
    });
    const [widest] = [...pieces].sort((a, b) => b[1] - b[0] - (a[1] - a[0]));
    if (widest !== undefined) arrow(widest[0], widest[1], left ? leftPale : rightPale);
  };
  beside(true);
  beside(false);
  return {
    line, direction: strip.drawn.direction, y,
    pieces: [{ from, to: gapLeft, pale: leftPale }, { from: gapRight, to, pale: rightPale }],
    arrows,
    gap: { left: gapLeft, right: gapRight, height: at.gap.lines.length * step },
    texts,
  };
}

function placeEcho(
  echo: DrawnEcho,
  turn: Turn | undefined,
  flags: ReadonlyMap<string, Flag>,
  ground: Ground,
): PlacedEcho | undefined {
  if (turn === undefined) return undefined;
  const [outLane, backLane] = [laneOfLeg(ground.lanes, echo, "out"), laneOfLeg(ground.lanes, echo, "back")];
  const slot = (id: string | undefined): number => ground.slots.slotOf.get(id ?? "") ?? 0;
  const xOf = (at: number): number => ground.x[at] ?? 0;
  const outY = ground.y[outLane] ?? 0;
  const backY = ground.y[backLane] ?? 0;
  const turnX = xOf(turn.slot) + (turn.atLeft ? -turn.offset : turn.offset);
  const startX = xOf(slot(echo.out[0]));
  const endX = xOf(slot(echo.back.at(-1)));
  const closeX = turn.closing === undefined ? undefined : xOf(turn.closing.slot) + (turn.atLeft ? turn.closing.offset : -turn.closing.offset);

  const texts: Text[] = [];
  const arrows: { x: number; y: number; right: boolean }[] = [];
  const middleOf = (leg: readonly string[], lane: number): number => {
    const stretch = legStretch(leg, lane, ground.slots);
    if (stretch === undefined) {
      const clear = clearance(turn.slot, lane, ground.slots, flags);
      return (turnX + xOf(turn.slot) + (turn.atLeft ? -clear : clear)) / 2;
    }
    const from = xOf(stretch.from) + clearance(stretch.from, lane, ground.slots, flags);
    return (from + xOf(stretch.to) - clearance(stretch.to, lane, ground.slots, flags)) / 2;
  };
  const said = echoWords(echo.run).lines;
  for (const [row, text] of said.entries()) {
    const base = outY - ABOVE - 2 - (said.length - 1 - row) * TYPE.echo * LEADING;
    texts.push({ x: middleOf(echo.out, outLane), y: base, text, size: TYPE.echo, bold: true, anchor: "middle", rank: "ink" });
  }
  if (echo.back.length > 1 || closeX !== undefined) {
    texts.push({ x: middleOf(echo.back, backLane), y: backY - ABOVE - 2, text: backWords(echo.run), size: TYPE.echo, bold: true, anchor: "middle", rank: "ink" });
  }
  const mark = (leg: readonly string[], y: number): void => {
    for (let step = 1; step < leg.length; step += 1) {
      const [a, b] = [xOf(slot(leg[step - 1])), xOf(slot(leg[step]))];
      if (Math.abs(a - b) >= ARROW_ROOM + 2 * POST.half) arrows.push({ x: (a + b) / 2, y, right: b > a });
    }
  };
  if (closeX === undefined) {
    mark(echo.out, outY);
    mark(echo.back, backY);
  } else {
    // Round and round: away from where it closes on one leg, back to there on the other.
    for (const [y, right] of [[outY, turnX > closeX], [backY, turnX < closeX]] as const) {
      const stops = [...new Set([...echo.out, ...echo.back].map((id) => xOf(slot(id))))].sort((a, b) => a - b);
      for (const [index, x] of stops.entries()) {
        const next = stops[index + 1];
        if (next !== undefined && next - x >= ARROW_ROOM + 2 * POST.half) arrows.push({ x: (x + next) / 2, y, right });
      }
    }
  }
  return { echo, startX, turnX, endX, closeX, outY, backY, arrows, texts };
}
