/** A set of streams that fits, in words. */
import { list } from "../model/show";
import type { FittingSet, Ladder, Level } from "../signal/giving-up";

/** What a stream is called: a picture by its camera, the others by what they are of. */
export const streamName = ({ stream }: Ladder): string => stream.picture?.name ?? stream.title.replace(/^the /, "");

/** `stage-camera at 540p30`, `phone.camera off`, `sound of laptop as planned`. */
export const levelWords = (ladder: Ladder, level: Level | undefined): string =>
  `${streamName(ladder)} ${level === undefined ? "off" : ladder.stream.picture === undefined && level.planned ? "as planned" : level.title}`;

/** What of the plan is turned down or given up; `everything as planned` where nothing is. */
export function setInWords(set: FittingSet): string {
  const all = [...set.levels];
  if (all.every(([, level]) => level === undefined)) return "nothing at all: dial in by telephone";
  const changed = all.filter(([, level]) => level?.planned !== true).map(([ladder, level]) => levelWords(ladder, level));
  return changed.length === 0 ? "everything as planned" : list(changed, 6);
}
