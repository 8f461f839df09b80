/**
 * What is given up when the uplink is too small, in steps: each holds with all that came before it. The pictures that were added
 * last give way first, the main one last, and no sound is ever touched. The order is common practice, no source.
 */
import { grossVideoRate } from "../physics/packets";
import { videoRate } from "../physics/videoRate";
import { modeWords, total, type Stream } from "./streams";

/** Lines of the picture and pictures in a second: `360p15`. */
export interface PictureMode {
  readonly height: number;
  readonly rate: number;
}

export interface Change {
  readonly stream: Stream;
  /** What it is turned down to; nothing where it is sent no more. */
  readonly to: PictureMode | undefined;
}

/** One step down. */
export interface Rung {
  /** `Send the main picture at 540p30, every other at 360p15`. */
  readonly title: string;
  /** Against what is planned, not against the step before it. */
  readonly changes: readonly Change[];
  /** All that is still sent. */
  readonly left: readonly Stream[];
}

const SMALL: PictureMode = { height: 360, rate: 15 };
const AS_IT_IS = "as it is";

interface Step {
  readonly title: string;
  /** The title where there is one picture only; none where the step is another one's then. */
  readonly alone: string | undefined;
  readonly main: PictureMode | typeof AS_IT_IS | undefined;
  readonly others: PictureMode | undefined;
}

const STEPS: readonly Step[] = [
  { title: "Send every picture but the main one at 360p15", alone: undefined, main: AS_IT_IS, others: SMALL },
  { title: "Send the main picture at 540p30, every other at 360p15", alone: "Send the main picture at 540p30", main: { height: 540, rate: 30 }, others: SMALL },
  { title: "Send the main picture at 360p30, every other at 360p15", alone: "Send the main picture at 360p30", main: { height: 360, rate: 30 }, others: SMALL },
  { title: "Send every picture at 360p15", alone: "Send every picture at 360p15", main: SMALL, others: SMALL },
  { title: "Send the main picture at 360p15 and no other", alone: undefined, main: SMALL, others: undefined },
  { title: "Send no picture", alone: "Send no picture", main: undefined, others: undefined },
];

/** `360p15`, as the text writes it. */
export const modeOf = ({ height, rate }: PictureMode): string => `${height}p${rate}`;

/** The steps for what is sent; those that would change nothing are left out. */
export function rungsOf(streams: readonly Stream[]): Rung[] {
  const pictures = streams.filter((stream) => stream.picture !== undefined);
  return STEPS.flatMap((step): Rung[] => {
    const title = pictures.length < 2 ? step.alone : step.title;
    const changes = pictures.flatMap((stream, i) => changeOf(stream, i === 0 ? step.main : step.others));
    if (title === undefined || changes.length === 0) return [];
    return [{ title, changes, left: streams.flatMap((stream) => after(stream, changes)) }];
  });
}

/** The steps that each leave less to be sent than all before them: for whoever walks down them one by one. */
export function stairs(streams: readonly Stream[]): Rung[] {
  let least = total(streams, "target");
  return rungsOf(streams).filter((rung) => {
    const sent = total(rung.left, "target");
    if (sent >= least) return false;
    least = sent;
    return true;
  });
}

/** A picture is never turned up, and one that is as small already is left as it is. */
function changeOf(stream: Stream, to: Step["main"]): Change[] {
  const { picture } = stream;
  if (picture === undefined || to === AS_IT_IS) return [];
  return to !== undefined && picture.height * picture.rate <= to.height * to.rate ? [] : [{ stream, to }];
}

function after(stream: Stream, changes: readonly Change[]): Stream[] {
  const change = changes.find((one) => one.stream === stream);
  if (change === undefined || stream.picture === undefined) return [stream];
  const { to } = change;
  if (to === undefined) return [];
  const picture = { ...stream.picture, height: to.height, width: Math.round((to.height * 16) / 9), rate: to.rate };
  const net = videoRate("vp8", picture.width * picture.height, picture.rate);
  const rate = { minimum: grossVideoRate(net.minimum), target: grossVideoRate(net.target), maximum: grossVideoRate(net.maximum) };
  return [{ ...stream, title: `${picture.name} at ${modeWords(picture)}`, picture, net, rate }];
}
