/** What each joined device sends over the internet, packet overhead included, and what the uplink has for it. */
import { valueOf } from "../model/bound";
import { holding } from "../model/during";
import { assumed } from "../model/make-ranged";
import { canonical } from "../model/names";
import type { Ranged } from "../model/ranged";
import type { Internet, Setup } from "../model/setup";
import type { Trial } from "../model/trial";
import { contentRate } from "../physics/contentRate";
import { grossAudioRate, grossVideoRate, VIDEO_PAYLOAD } from "../physics/packets";
import { opusRate, videoRate, type OpusContent, type RateRange } from "../physics/videoRate";
import { callState, type JoinState, type SentPicture } from "./call-state";

/** `sound` of whatever kind, `slides` and `video`: what is presented, still or moving. */
export type StreamKind = "sound" | "picture" | "slides" | "video";

export interface Stream {
  readonly join: JoinState;
  readonly what: StreamKind;
  /** `laptop sound`, `stage-camera 720p30`. */
  readonly title: string;
  /** bit/s with RTP, UDP, IP and SRTP. */
  readonly rate: RateRange;
  /** bit/s of the coded sound or picture alone. */
  readonly net: RateRange;
  readonly picture: SentPicture | undefined;
  /** What a stream of sound carries. */
  readonly sound?: OpusContent;
}

/** The joins of one item of the programme: a graph is one. */
export interface Sending {
  readonly setup: Setup;
  readonly item: string | undefined;
  readonly joins: readonly JoinState[];
}

/** How a call wraps what it sends over one connection. */
export class Wrap {
  readonly #ip: 4 | 6;
  readonly #packet: number;

  constructor(readonly setup: Setup, internet: Pick<Internet, "ip"> | undefined) {
    this.#ip = internet?.ip ?? 4;
    this.#packet = setup.traffic.packet;
  }

  /** Rates of sound on the wire. */
  sound(net: RateRange): RateRange {
    return each(net, (rate) => grossAudioRate(rate, this.#packet, { ip: this.#ip }));
  }

  /** Rates of a picture on the wire. */
  picture(net: RateRange): RateRange {
    return each(net, (rate) => grossVideoRate(rate, VIDEO_PAYLOAD, { ip: this.#ip }));
  }

  /** Rates of a picture of so many pixels in the codec of the call, no more than what the service takes or hands out. */
  coded(width: number, height: number, rate: number, most?: number): RateRange {
    const range = videoRate(this.setup.traffic.codec, Math.max(1, width * height), rate);
    return most === undefined ? range : each(range, (bits) => Math.min(bits, most));
  }
}

const each = (net: RateRange, wrap: (rate: number) => number): RateRange => ({ minimum: wrap(net.minimum), target: wrap(net.target), maximum: wrap(net.maximum) });

/** The joins of an item, without the rest of its graph. */
export const sendingIn = (setup: Setup, item: string | undefined): Sending => ({ setup, item, joins: callState(setup, item) });

/** The joins that go out over one internet connection; one that names none goes over the first. */
export function joinsOver({ setup, joins }: Sending, internet: Internet | undefined): readonly JoinState[] {
  const first = setup.internets[0];
  return joins.filter((state) => {
    const over = state.join.over;
    if (over === undefined) return internet === first;
    return internet !== undefined && canonical(over) === canonical(internet.name);
  });
}

/** All streams that go out over one internet connection in an item. */
export function streamsOver(sending: Sending, internet: Internet | undefined): readonly Stream[] {
  const wrap = new Wrap(sending.setup, internet);
  const music = hasMusic(sending);
  return joinsOver(sending, internet).flatMap((state) => streamsOf(state, sending.item, music, wrap));
}

/** Whether somebody sings or plays in the item; then sound is coded for music. */
function hasMusic({ setup, item }: Sending): boolean {
  const named = item === undefined ? [] : setup.items.find((one) => canonical(one.name) === canonical(item))?.talkers ?? [];
  const voices = named.length > 0 ? named.flatMap((name) => setup.voices.get(canonical(name)) ?? []) : [...setup.voices.values()].filter((voice) => voice.stated);
  return voices.some((voice) => voice.music);
}

function streamsOf(state: JoinState, item: string | undefined, music: boolean, wrap: Wrap): Stream[] {
  const out: Stream[] = [];
  const device = state.join.device;
  const sound = (content: OpusContent, title: string): void => {
    const net = opusRate(content);
    out.push({ join: state, what: "sound", title, net, rate: wrap.sound(net), picture: undefined, sound: content });
  };
  if (state.sound.length > 0) sound(music ? "music" : "full-band-speech", `the sound of ${device}`);
  if (holding(state.join.statements, "sends", item).some((s) => !s.negated && valueOf(s, "what", "word")?.word === "clip")) sound("music-stereo", `the sound of what ${device} plays`);
  for (const picture of state.pictures) {
    const net = wrap.coded(picture.width, picture.height, picture.rate, wrap.setup.service.sends?.most?.best);
    out.push({ join: state, what: "picture", title: `${picture.name} at ${modeWords(picture)}`, net, rate: wrap.picture(net), picture });
  }
  // What is presented from a joined device is shown to those online too, once, on however many screens it stands.
  const moving = (name: string): boolean => state.shows.some((shown) => shown.what === "video" && shown.name === name);
  for (const what of ["slides", "video"] as const) {
    if (!state.content.some((sent) => moving(sent.name) === (what === "video"))) continue;
    const net = contentRate(what === "slides" ? "still" : "moving", wrap.setup.traffic.codec);
    out.push({ join: state, what, title: `the ${what} of ${device}`, net, rate: wrap.picture(net), picture: undefined });
  }
  return out;
}

/** `720p30`, as the text writes it. */
export const modeWords = (picture: { readonly width: number; readonly height: number; readonly rate: number }): string =>
  Math.round((picture.height * 16) / 9) === picture.width ? `${picture.height}p${picture.rate}` : `${picture.width}x${picture.height}`;

export const total = (streams: readonly Pick<Stream, "rate">[], which: keyof RateRange): number => streams.reduce((sum, s) => sum + s.rate[which], 0);

/** How much of a measured uplink a call can count on. Wired: a queue-management guide; the others: common practice, no source. */
export function usableShare(internet: Pick<Internet, "name" | "reach">): Ranged {
  const best = { wired: 0.9, wireless: 0.75, shared: 0.5 }[internet.reach ?? "wireless"];
  const spread = internet.reach === undefined ? 0.15 : 0.1;
  return assumed(`internet.${internet.name}.usable`, `the usable part of the uplink of ${internet.name}`, "share", {
    best, low: best - spread, high: Math.min(0.95, best + spread), source: "queue-management guide for the wired case, common practice else",
  });
}

/** bit/s that can be counted on, or nothing where the uplink is not known. */
export function usableUp(internet: Internet, trial: Trial): number | undefined {
  return internet.up === undefined ? undefined : trial.value(internet.up) * trial.value(usableShare(internet));
}

/** bit/s that can be received, or nothing where the downlink is not known. */
export function usableDown(internet: Internet, trial: Trial): number | undefined {
  return internet.down === undefined ? undefined : trial.value(internet.down) * trial.value(usableShare(internet));
}
