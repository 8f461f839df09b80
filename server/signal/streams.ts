/** What each joined device sends over the internet, packet overhead included, and what the uplink has for it. */
import { canonical } from "../model/names";
import { assumed } from "../model/make-ranged";
import type { Internet } from "../model/setup";
import type { Trial } from "../model/trial";
import type { Ranged } from "../model/ranged";
import { grossAudioRate, grossVideoRate } from "../physics/packets";
import { opusRate, videoRate, type RateRange } from "../physics/videoRate";
import type { JoinState, SentPicture } from "./call-state";
import type { Graph } from "./graph";

export interface Stream {
  readonly join: JoinState;
  readonly what: "sound" | "picture" | "slides";
  /** `laptop sound`, `stage-camera 720p30`. */
  readonly title: string;
  /** bit/s with RTP, UDP, IPv4 and SRTP. */
  readonly rate: RateRange;
  /** bit/s of the coded sound or picture alone. */
  readonly net: RateRange;
  readonly picture: SentPicture | undefined;
}

/** Rates of a shared screen in the open-source call implementation: one layer at 5 frames a second to full. bit/s. */
const SCREEN: RateRange = { minimum: 200_000, target: 600_000, maximum: 1_250_000 };

const gross = (net: RateRange, wrap: (rate: number) => number): RateRange => ({ minimum: wrap(net.minimum), target: wrap(net.target), maximum: wrap(net.maximum) });

/** All streams that go out over one internet connection in the graph's item. */
export function streamsOver(graph: Graph, internet: Internet | undefined): readonly Stream[] {
  const first = graph.setup.internets[0];
  return graph.joins.filter((state) => {
    const over = state.join.over;
    if (over === undefined) return internet === first;
    return internet !== undefined && canonical(over) === canonical(internet.name);
  }).flatMap(streamsOf);
}

function streamsOf(state: JoinState): Stream[] {
  const out: Stream[] = [];
  const device = state.join.device;
  if (state.sound.length > 0) {
    const net = opusRate("full-band-speech");
    out.push({ join: state, what: "sound", title: `the sound of ${device}`, net, rate: gross(net, (r) => grossAudioRate(r)), picture: undefined });
  }
  for (const picture of state.pictures) {
    const net = videoRate("vp8", picture.width * picture.height, picture.rate);
    out.push({ join: state, what: "picture", title: `${picture.name} at ${modeWords(picture)}`, net, rate: gross(net, (r) => grossVideoRate(r)), picture });
  }
  // What is presented from a joined device is shown to those online too.
  if (state.content.length > 0) {
    out.push({ join: state, what: "slides", title: `the slides of ${device}`, net: SCREEN, rate: gross(SCREEN, (r) => grossVideoRate(r)), picture: undefined });
  }
  return out;
}

/** `720p30`, as the text writes it. */
export const modeWords = (picture: { readonly width: number; readonly height: number; readonly rate: number }): string =>
  Math.round((picture.height * 16) / 9) === picture.width ? `${picture.height}p${picture.rate}` : `${picture.width}x${picture.height}`;

export const total = (streams: readonly Stream[], which: keyof RateRange): number => streams.reduce((sum, s) => sum + s.rate[which], 0);

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
