/** What each joined device receives: the voices and faces of those online, and what another one presents. */
import type { Internet } from "../model/setup";
import type { Trial } from "../model/trial";
import { contentRate } from "../physics/contentRate";
import { tileSize } from "../physics/pictureLayers";
import { opusRate, type RateRange } from "../physics/videoRate";
import type { JoinState } from "./call-state";
import { joinsOver, Wrap, type Sending } from "./streams";

export interface Received {
  readonly join: JoinState;
  readonly what: "sound" | "faces" | "slides";
  /** `8 faces at laptop`. */
  readonly title: string;
  /** bit/s with RTP, UDP, IP and SRTP. */
  readonly rate: RateRange;
  /** How many streams of that sort. */
  readonly count: number;
}

/** So many voices are sent on at once. Model choice: calls pass on the few that are loudest. */
const VOICES = 3;

/** All that comes in over one internet connection in an item. */
export function receivedOver(sending: Sending, internet: Internet | undefined, trial: Trial): readonly Received[] {
  const wrap = new Wrap(sending.setup, internet);
  const online = Math.max(0, Math.round(trial.value(sending.setup.online)));
  return joinsOver(sending, internet).flatMap((state): Received[] => {
    const out: Received[] = [];
    const device = state.join.device;
    const add = (what: Received["what"], count: number, title: string, one: RateRange): void => {
      if (count > 0) out.push({ join: state, what, count, title, rate: { minimum: one.minimum * count, target: one.target * count, maximum: one.maximum * count } });
    };
    if (state.plays.length > 0) add("sound", Math.min(VOICES, online), `the sound at ${device}`, wrap.sound(opusRate("full-band-speech")));
    const faces = facesAt(state, online, trial);
    const asked = tileSize(Math.max(1, faces));
    const most = state.receives;
    const tile = most !== undefined && most.width * most.height < asked.width * asked.height ? most : asked;
    add("faces", faces, `${faces} ${faces === 1 ? "face" : "faces"} at ${device}`, wrap.picture(wrap.coded(tile.width, tile.height, Math.min(30, most?.rate ?? 30), most?.most?.best)));
    // What one device of the room presents, every other one that shows the call takes in; what somebody online presents, all of them.
    const presenting = sending.joins.filter((other) => other !== state && other.content.length > 0).length + (state.shows.some((one) => one.what === "call" && one.letters !== undefined) ? 1 : 0);
    if (faces > 0) add("slides", presenting, `what is presented, at ${device}`, wrap.picture(contentRate("still")));
    return out;
  });
}

/** How many faces a device takes in: those of its fullest display, and no more than there are online. */
export function facesAt(state: JoinState, online: number, trial: Trial): number {
  const shown = state.shows.filter((one) => one.what === "call").map((one) => Math.round(trial.value(one.faces)));
  return Math.max(0, Math.min(online, Math.max(0, ...shown)));
}
