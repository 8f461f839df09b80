import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { modeWords, streamsOver, total, usableShare, usableUp } from "../signal/streams";
import { given, input, round } from "./record";

/** What is sent, and what the uplink gives. */
export function streamFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const over = setup.internets.length > 0 ? [...setup.internets] : [undefined];
  return over.flatMap((internet): Figure[] => {
    const streams = streamsOver(graph, internet);
    const each = streams.flatMap((stream): Figure[] => (["minimum", "target", "maximum"] as const).map((which) => ({
      name: `${which} rate of a stream`, of: [stream.title, ...(stream.picture === undefined ? [] : [modeWords(stream.picture)])], value: round(stream.rate[which] / 1e6), unit: "Mb/s",
      formula: stream.what === "sound" ? "rate + 50·8·(12 + 8 + 20 + 10) bit/s" : "rate·(1 + 50/1178)", inputs: [given("coded", stream.net[which] / 1e6, "Mb/s")],
      source: "RFC 3550, RFC 768, RFC 791, RFC 3711; RFC 7587 for sound; the open-source call implementation's table for pictures",
    })));
    if (streams.length === 0) return [];
    const name = internet?.name ?? "the internet";
    const usable = internet === undefined ? undefined : usableUp(internet, trial);
    return [
      ...each,
      { name: "sent in all", of: [name], value: round(total(streams, "target") / 1e6), unit: "Mb/s", formula: "Σ target rates", inputs: streams.map((s) => given(s.title, s.rate.target / 1e6, "Mb/s")), source: "arithmetic" },
      ...(usable === undefined || internet?.up === undefined ? [] : [{
        name: "uplink that can be counted on", of: [name], value: round(usable / 1e6), unit: "Mb/s", formula: "measured × usable part",
        inputs: [input(internet.up, trial, "Mb/s", 1e-6), input(usableShare(internet), trial, "%", 100)], source: "queue-management guide for wired links; common practice else",
      }]),
    ];
  });
}
