import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { IP_HEADER, RTP_HEADER, SRTP_TAG, UDP_HEADER, VIDEO_PAYLOAD } from "../physics/packets";
import { dataOver } from "../signal/load";
import { receivedOver } from "../signal/received";
import { modeWords, streamsOver, total, usableDown, usableShare, usableUp, type Stream } from "../signal/streams";
import { given, input, round } from "./record";

const PACKETS = "RFC 3550, RFC 768, RFC 791, RFC 8200, RFC 3711";

/** What is sent and received, and what the line gives. */
export function streamFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const over = setup.internets.length > 0 ? [...setup.internets] : [undefined];
  return over.flatMap((internet): Figure[] => {
    const streams = streamsOver(graph, internet);
    const received = receivedOver(graph, internet, trial);
    const head = RTP_HEADER + UDP_HEADER + IP_HEADER[internet?.ip ?? 4] + SRTP_TAG;
    const packets = Math.round(1 / setup.traffic.packet);
    const each = streams.flatMap((stream): Figure[] => (["minimum", "target", "maximum"] as const).map((which) => ({
      name: `${which} rate of a stream`, of: [stream.title, ...(stream.picture === undefined ? [] : [modeWords(stream.picture)])], value: round(stream.rate[which] / 1e6), unit: "Mb/s",
      formula: formulaOf(stream, head, packets), inputs: [given("coded", stream.net[which] / 1e6, "Mb/s")],
      source: `${PACKETS}; RFC 7587 for sound; the open-source call implementation's table for pictures (${setup.traffic.codec})`,
    })));
    const name = internet?.name ?? "the internet";
    const usable = internet === undefined ? undefined : usableUp(internet, trial);
    const below = internet === undefined ? undefined : usableDown(internet, trial);
    const data = dataOver(setup, internet, trial);
    return [
      ...each,
      ...(streams.length === 0 ? [] : [{ name: "sent in all", of: [name], value: round(total(streams, "target") / 1e6), unit: "Mb/s", formula: "Σ target rates", inputs: streams.map((s) => given(s.title, s.rate.target / 1e6, "Mb/s")), source: "arithmetic" }]),
      ...(received.length === 0 ? [] : [{ name: "received in all", of: [name], value: round(total(received, "target") / 1e6), unit: "Mb/s", formula: "Σ target rates of sound, faces shown at once, and what is presented", inputs: received.map((s) => given(s.title, s.rate.target / 1e6, "Mb/s")), source: `${PACKETS}; sizes of faces by how many are shown: model choice` }]),
      ...(streams.length === 0 || usable === undefined || internet?.up === undefined ? [] : [{
        name: "uplink that can be counted on", of: [name], value: round(usable / 1e6), unit: "Mb/s", formula: "measured × usable part",
        inputs: [input(internet.up, trial, "Mb/s", 1e-6), input(usableShare(internet), trial, "%", 100)], source: "queue-management guide for wired links; common practice else",
      }]),
      ...(received.length === 0 || below === undefined || internet?.down === undefined ? [] : [{
        name: "downlink that can be counted on", of: [name], value: round(below / 1e6), unit: "Mb/s", formula: "measured × usable part",
        inputs: [input(internet.down, trial, "Mb/s", 1e-6), input(usableShare(internet), trial, "%", 100)], source: "queue-management guide for wired links; common practice else",
      }]),
      ...(data === undefined || data === 0 ? [] : [{
        name: "data of the meeting", of: [name], value: round(data / 8e9), unit: "GB", formula: "Σ over items (sent + received)·duration", inputs: internet?.allowance === undefined ? [] : [input(internet.allowance, trial, "GB", 1 / 8e9)], source: "arithmetic",
      }]),
    ];
  });
}

const formulaOf = (stream: Stream, head: number, packets: number): string =>
  stream.what === "sound" ? `rate + ${packets}·8·${head} bit/s` : `rate·(1 + ${head}/${VIDEO_PAYLOAD})`;
