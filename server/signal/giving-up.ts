/**
 * What is given up when the internet is thin: of every set of streams that fits, the best by order of importance. Sound comes
 * before all else; then what the author names; then what is presented, the main picture, the others.
 */
import { canonical } from "../model/names";
import type { Setup } from "../model/setup";
import { bestWithin } from "../physics/multipleChoice";
import { opusRate, type OpusContent, type RateRange } from "../physics/videoRate";
import { modeWords, type Stream, type Wrap } from "./streams";

/** Lines of the picture and pictures in a second: `360p15`. */
export interface PictureMode {
  readonly height: number;
  readonly rate: number;
}

/** One way to send a stream. */
export interface Level {
  /** As one would say it of the stream: `at 540p30`, `at 5 frames a second`. */
  readonly title: string;
  /** Set for pictures: how they are sent. */
  readonly mode: PictureMode | undefined;
  /** As planned, nothing is turned down. */
  readonly planned: boolean;
  /** bit/s with overhead that it takes, rounded up. */
  readonly cost: number;
}

/** A stream with all its levels, the planned one first. */
export interface Ladder {
  readonly stream: Stream;
  readonly levels: readonly Level[];
}

/** Streams in classes of importance, the first before all others. */
export type Ladders = readonly (readonly Ladder[])[];

/** One set of streams: for each ladder the level, or nothing where it is given up. */
export interface FittingSet {
  readonly levels: ReadonlyMap<Ladder, Level | undefined>;
  /** bit/s that it takes. */
  readonly cost: number;
}

/** To what pictures are turned down. Common practice, no source. */
const MODES: readonly PictureMode[] = [{ height: 540, rate: 30 }, { height: 360, rate: 30 }, { height: 360, rate: 15 }];
/** A picture beside the main one is small or not there. */
const SMALL: readonly PictureMode[] = [{ height: 360, rate: 15 }];
/** To what sound is turned down, by what it carries. */
const SOUNDS: Readonly<Record<OpusContent, readonly OpusContent[]>> = {
  "music-stereo": ["music-stereo", "music", "full-band-speech", "narrow-band-speech"], "music": ["music", "full-band-speech", "narrow-band-speech"],
  "full-band-speech": ["full-band-speech", "wide-band-speech", "narrow-band-speech"], "wide-band-speech": ["wide-band-speech", "narrow-band-speech"], "narrow-band-speech": ["narrow-band-speech"],
};
const SOUND_WORDS: Readonly<Record<OpusContent, string>> = {
  "music-stereo": "as music, in stereo", "music": "as music", "full-band-speech": "as full speech", "wide-band-speech": "as plain speech", "narrow-band-speech": "as on the telephone",
};
/** More steps than anybody walks down. */
const MOST_SETS = 400;

/** `360p15`, as the text writes it. */
export const modeOf = ({ height, rate }: PictureMode): string => `${height}p${rate}`;

/** The streams with their levels, in classes of importance. */
export function laddersOf(setup: Setup, streams: readonly Stream[], wrap: Wrap): Ladders {
  const left = new Set(streams);
  const take = (which: (stream: Stream) => boolean): Stream[] => {
    const found = [...left].filter(which);
    for (const one of found) left.delete(one);
    return found;
  };
  const classes: Stream[][] = [take((stream) => stream.what === "sound")];
  let named = false;
  for (const name of setup.traffic.keeps) {
    const found = take((stream) => isMeant(setup, stream, name));
    named ||= found.some((stream) => stream.what === "picture");
    classes.push(found);
  }
  classes.push(take((stream) => stream.what !== "picture"));
  // The picture that stands first is the main one, unless the author has said which is.
  if (!named) {
    const main = [...left][0];
    classes.push(take((stream) => stream === main));
  }
  const others = [...left];
  classes.push(others);
  return classes.filter((one) => one.length > 0).map((one) => one.map((stream): Ladder => ({ stream, levels: levelsOf(stream, wrap, one === others ? SMALL : MODES) })));
}

/** Whether a name in `keeps` means a stream: a camera its picture, a joined device what it presents, or else its own picture. */
function isMeant(setup: Setup, stream: Stream, name: string): boolean {
  const key = canonical(name);
  const joined = canonical(stream.join.join.device) === key;
  if (stream.what === "slides" || stream.what === "video") return joined;
  const picture = stream.picture;
  if (picture === undefined) return false;
  const presents = joined && stream.join.content.length > 0;
  return canonical(picture.name) === key || (!presents && setup.devices.get(key)?.parts.some((part) => canonical(part.id) === canonical(picture.name)) === true);
}

function levelsOf(stream: Stream, wrap: Wrap, modes: readonly PictureMode[]): Level[] {
  const level = (title: string, rate: RateRange, planned: boolean, mode?: PictureMode): Level => ({ title, planned, mode, cost: Math.ceil(rate.target - 1e-6) });
  const { picture } = stream;
  if (picture !== undefined) {
    const planned = level(`at ${modeWords(picture)}`, stream.rate, true, { height: picture.height, rate: picture.rate });
    const lower = modes.filter((mode) => mode.height <= picture.height && mode.rate <= picture.rate).map((mode) =>
      level(`at ${modeOf(mode)}`, wrap.picture(wrap.coded(Math.round((mode.height * 16) / 9), mode.height, mode.rate, wrap.setup.service.sends?.most?.best)), false, mode));
    // One that would take as much as what is planned, or more, turns nothing down.
    return [planned, ...lower.filter((one) => one.cost < planned.cost)];
  }
  if (stream.what === "sound") {
    const kinds = SOUNDS[stream.sound ?? "full-band-speech"];
    return kinds.map((kind, i) => level(SOUND_WORDS[kind], wrap.sound(opusRate(kind)), i === 0));
  }
  const least = { ...stream.rate, target: stream.rate.minimum };
  return [level("as they are", stream.rate, true), level(stream.what === "slides" ? "at 5 frames a second" : "in blocks", least, false)];
}

const OFF = (ladders: Ladders): FittingSet => ({ levels: new Map(ladders.flat().map((ladder) => [ladder, undefined] as const)), cost: 0 });

/**
 * The best set that takes no more than `budget` bit/s: of the first class as much as can be had, then of the second from what is
 * left, and so on. A step up of any stream of a class is worth as much as one of another. Exact.
 */
export function fittingSet(ladders: Ladders, budget: number, cap?: FittingSet): FittingSet {
  const open = ladders.map((one) => one.map((ladder) => {
    if (cap === undefined) return ladder.levels;
    // Nothing is turned up again: only what is no more than it was.
    const was = cap.levels.get(ladder);
    return was === undefined ? [] : ladder.levels.slice(ladder.levels.indexOf(was));
  }));
  const groups = open.map((one) => one.map((levels) => levels.map((level, i) => ({ cost: level.cost, value: levels.length - i }))));
  const taken = bestWithin(groups, Math.max(0, budget));
  const levels = new Map<Ladder, Level | undefined>();
  let cost = 0;
  ladders.forEach((one, c) => one.forEach((ladder, g) => {
    const level = open[c]?.[g]?.[taken[c]?.[g] ?? -1];
    levels.set(ladder, level);
    cost += level?.cost ?? 0;
  }));
  return { levels, cost };
}

/** The best set for every uplink: each from what it takes up to what the one before it takes. The last is nothing at all. */
export function fittingSets(ladders: Ladders): FittingSet[] {
  return walk(ladders, (before) => fittingSet(ladders, before.cost - 1));
}

/** The same for whoever walks down on the evening: each the best of what is nowhere more than the one before it, so nothing is turned on again. */
export function stepsDown(ladders: Ladders): FittingSet[] {
  return walk(ladders, (before) => fittingSet(ladders, before.cost - 1, before));
}

function walk(ladders: Ladders, next: (before: FittingSet) => FittingSet): FittingSet[] {
  const out = [fittingSet(ladders, Infinity)];
  for (let now = out[0]; now !== undefined && now.cost > 0 && out.length < MOST_SETS; ) {
    now = next(now);
    out.push(now);
  }
  return out.at(-1)?.cost === 0 ? out : [...out, OFF(ladders)];
}

/** The best set in which every picture stays, however small; nothing where not even that fits. */
export function fittingWithAll(ladders: Ladders, budget: number): FittingSet | undefined {
  const least = (ladder: Ladder): number => ladder.levels.at(-1)?.cost ?? 0;
  const pictures = ladders.flat().filter((ladder) => ladder.stream.picture !== undefined);
  const spare = budget - pictures.reduce((sum, ladder) => sum + least(ladder), 0);
  if (spare < 0) return undefined;
  // What a picture takes beyond its least is what it competes with.
  const beyond = (ladder: Ladder): Ladder => ({ stream: ladder.stream, levels: ladder.levels.slice(0, -1).map((level) => ({ ...level, cost: level.cost - least(ladder) })) });
  const twins = new Map(pictures.map((ladder) => [ladder, beyond(ladder)] as const));
  const found = fittingSet(ladders.map((one) => one.map((ladder) => twins.get(ladder) ?? ladder)), spare);
  const levels = new Map<Ladder, Level | undefined>();
  for (const ladder of ladders.flat()) {
    const twin = twins.get(ladder);
    const level = found.levels.get(twin ?? ladder);
    levels.set(ladder, twin === undefined ? level : level === undefined ? ladder.levels.at(-1) : ladder.levels[twin.levels.indexOf(level)]);
  }
  return { levels, cost: [...levels.values()].reduce((sum, level) => sum + (level?.cost ?? 0), 0) };
}
