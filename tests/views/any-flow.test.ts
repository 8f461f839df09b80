import fc from "fast-check";
import { expect, it } from "vitest";
import type { Band, Flow, Hop, Post, Run, Via } from "../../server/signal/drawing/flow";
import { VERDICTS } from "../../server/model/ways";
import { drawFlow } from "../../server/views/flow/draw";
import { plan } from "../../server/views/flow/place";
import { overlapsOf } from "./overlaps";
import { parseXml } from "./xml";

const WAYS: readonly Band["way"][] = ["room-hears-online", "online-hears-room", "room-sees-online", "online-sees-room"];
const VIAS: readonly Via[] = ["air", "cable", "radio", "inside", "call", "sight", "worn"];
const word = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom("usb-1", "hdmi", "in-12", "headset", "main-left", "2.3 m to 11.5 m", "a rather long remark about it") },
  { weight: 1, arbitrary: fc.string({ unit: "grapheme", maxLength: 60 }) },
);
const maybe = fc.option(word, { nil: undefined });
const gap = fc.option(fc.oneof({ weight: 3, arbitrary: fc.constantFrom("no cable", "out of reach of every microphone", "plug does not fit into the socket") }, { weight: 1, arbitrary: word }), { nil: undefined, freq: 4 });

function hopOf(from: string, to: string): fc.Arbitrary<Hop> {
  return fc.record({ from: fc.constant(from), to: fc.constant(to), via: fc.constantFrom(...VIAS), fromPort: maybe, toPort: maybe, remark: maybe, gap });
}

/** Runs over any posts in any order, through the call or past it, with echoes of every shape: more than an engine would ever give. */
const anyFlow: fc.Arbitrary<Flow> = fc.record({ room: fc.integer({ min: 0, max: 4 }), online: fc.integer({ min: 0, max: 2 }), call: fc.boolean(), devices: fc.integer({ min: 0, max: 9 }) })
  .chain((size) => {
    const ids = {
      room: Array.from({ length: size.room }, (_, index) => `room ${index}`),
      online: Array.from({ length: size.online }, (_, index) => `online ${index}`),
      call: size.call ? ["call"] : [],
      devices: Array.from({ length: size.devices }, (_, index) => `device ${index}`),
    };
    const all = [...ids.room, ...ids.devices, ...ids.call, ...ids.online];
    const postOf = (id: string, role: Post["role"]): fc.Arbitrary<Post> => fc.record({
      id: fc.constant(id), role: fc.constant(role), name: fc.oneof({ weight: 3, arbitrary: fc.constant(id) }, { weight: 1, arbitrary: word }), detail: maybe,
      trouble: fc.option(fc.constantFrom("no power", "battery too small for the evening"), { nil: undefined, freq: 5 }),
    });
    const posts = fc.tuple(
      ...ids.room.map((id) => postOf(id, "room-people")), ...ids.devices.map((id) => postOf(id, "device")),
      ...ids.call.map((id) => postOf(id, "call")), ...ids.online.map((id) => postOf(id, "online-people")),
    );
    const path = (ends: readonly (readonly string[])[]): fc.Arbitrary<string[]> => fc.tuple(
      fc.constantFrom(...(ends[0]?.length ? ends[0] : ["somewhere"])),
      fc.array(fc.constantFrom(...(all.length > 0 ? all : ["elsewhere"])), { maxLength: 5 }),
      fc.constantFrom(...(ends[1]?.length ? ends[1] : ["nowhere"])),
    ).map(([first, middle, last]) => [first, ...middle, last]);
    const runOf = (visited: readonly string[]): fc.Arbitrary<Run> => fc.record({
      hops: fc.tuple(...visited.slice(1).map((id, index) => hopOf(visited[index] ?? id, id))),
      id: word, title: word, complete: fc.boolean(), turnsAt: fc.option(fc.integer({ min: 0, max: 6 }), { nil: undefined }),
      kind: fc.constantFrom(undefined, "echo" as const, "howl" as const),
    });
    const bandOf = (way: Band["way"]): fc.Arbitrary<Band> => fc.record({
      way: fc.constant(way), verdict: fc.constantFrom(...VERDICTS), sentence: fc.oneof(word, fc.constant("The farthest seats hear the people online with less than what speech needs above the noise of the room.")),
      runs: fc.array(path(way.startsWith("room") ? [ids.online, ids.room] : [ids.room, ids.online]).chain(runOf), { maxLength: 5 }),
    });
    const verdict = fc.record({ verdict: fc.constantFrom(...VERDICTS), sentence: word });
    return fc.record({
      title: word, item: maybe, posts, bands: fc.tuple(...WAYS.map(bandOf)).chain((bands) => fc.subarray(bands)),
      echoes: fc.array(path([ids.online, ids.online]).chain(runOf), { maxLength: 5 }), call: verdict, internet: verdict,
    });
  });

it("any flow at all becomes a well-formed drawing in which nothing stands in the way of anything", () => {
  fc.assert(fc.property(anyFlow, (flow) => {
    expect(parseXml(drawFlow(flow)).tag).toBe("svg");
    expect(overlapsOf(plan(flow).scene)).toEqual([]);
  }), { numRuns: 300 });
});
