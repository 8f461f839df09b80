/** What comes back as runs: echoes that turn round in the room or in a mixer, and loops that howl. */
import { CANCELLER_LOSS } from "../../physics/coupling";
import { HOWLS_FROM, RINGS_ABOVE } from "../../physics/howl";
import { figure } from "../../model/show";
import type { RemoteRoom } from "../../model/setup";
import { echoOf, returnOf, worstLoops, type Loop } from "../echo";
import { carries, gainOf } from "../graph";
import { howlOf } from "../loops/howl";
import { netOf, type Outlet, type Place } from "../loops/net";
import { remoteEcho } from "../loops/remote";
import { returnsOf } from "../loops/returns";
import type { Hop, Run } from "./flow";
import { CALL_POST, ONLINE_POST, type Posts } from "./posts";

/** Everything that comes back, howls first. */
export function echoRuns(posts: Posts): Run[] {
  const { graph } = posts;
  const comeBack = worstLoops(graph).flatMap((loop) => echo(posts, loop));
  return [
    ...(["local", "whole"] as const).flatMap((which) => howl(posts, which)), ...graph.setup.remoteRooms.flatMap((room) => remote(posts, room)),
    ...comeBack, ...mixes(posts, comeBack),
  ];
}

/** A loop that comes back to those it started from; nothing where it is quiet enough. */
function echo(posts: Posts, loop: Loop): Run[] {
  const echo = echoOf(posts.graph, loop, posts.trial);
  const plays = loop.plays.join.device;
  const sends = loop.sends.join.device;
  if (echo !== undefined && echo.telr < echo.needed) {
    const speaker = loop.speakers.find((s) => s.ending === echo.pair?.speaker);
    const mic = loop.mics.find((m) => m.ending === echo.pair?.mic);
    if (echo.pair === undefined || speaker === undefined || mic === undefined) {
      const there = [posts.hop(ONLINE_POST, CALL_POST, "call"), posts.hop(CALL_POST, posts.device(plays), "call")];
      const wire = posts.hops(loop.wire ?? []);
      const back = [posts.hop(posts.device(sends), CALL_POST, "call"), posts.hop(CALL_POST, ONLINE_POST, "call")];
      return [{ id: `echo ${plays} ${sends}`, title: `the people online hear themselves through ${plays} and ${sends}`, hops: [...there, ...wire, ...back], complete: true, turnsAt: there.length + farthest(wire) }];
    }
    const there = [posts.hop(ONLINE_POST, CALL_POST, "call"), posts.hop(CALL_POST, posts.device(plays), "call"), ...posts.hops(speaker.path)];
    const air: Hop = { from: posts.device(speaker.ending.device.name), to: posts.device(mic.ending.device.name), via: "air", remark: `${figure(echo.pair.metres)} m` };
    const back = [...posts.hops(mic.path), posts.hop(posts.device(sends), CALL_POST, "call"), posts.hop(CALL_POST, ONLINE_POST, "call")];
    return [{ id: `echo ${plays} ${sends}`, title: `the people online hear themselves through ${plays} and ${sends}`, hops: [...there, air, ...back], complete: true, turnsAt: there.length }];
  }
  const returned = returnOf(posts.graph, loop, posts.trial);
  if (returned === undefined || returned.over < -20) return [];
  const mic = loop.mics[0];
  const speaker = loop.speakers[0];
  if (mic === undefined || speaker === undefined) return [];
  const voice = posts.people(returned.voice.name);
  const there = [
    { from: voice, to: posts.device(mic.ending.device.name), via: "air" as const }, ...posts.hops(mic.path), posts.hop(posts.device(sends), CALL_POST, "call"),
  ];
  const back = [posts.hop(CALL_POST, posts.device(plays), "call"), ...posts.hops(speaker.path), { from: posts.device(speaker.ending.device.name), to: voice, via: "air" as const }];
  return [{ id: `return ${plays} ${sends}`, title: `${returned.voice.name} comes back to the room through ${plays}`, hops: [...there, ...back], complete: true, turnsAt: there.length - 1 }];
}

/** Mixes sent to the call that hold what came from it, where they are not drawn already: only a canceller keeps those from being heard. */
function mixes(posts: Posts, drawn: readonly Run[]): Run[] {
  return returnsOf(posts.graph).flatMap(({ plays, sends, path }): Run[] => {
    const [a, b] = [plays.join.device, sends.join.device];
    if (!carries(path, posts.trial) || gainOf(path) <= -CANCELLER_LOSS || drawn.some((run) => run.id === `echo ${a} ${b}`)) return [];
    const there = [posts.hop(ONLINE_POST, CALL_POST, "call"), posts.hop(CALL_POST, posts.device(a), "call")];
    const wire = posts.hops(path);
    const back = [posts.hop(posts.device(b), CALL_POST, "call"), posts.hop(CALL_POST, ONLINE_POST, "call")];
    return [{ id: `mix ${a} ${b}`, title: `${b} sends the call back, and only its canceller holds it`, hops: [...there, ...wire, ...back], complete: true, turnsAt: there.length + farthest(wire) }];
  });
}

/** The hop of a way there and back that arrives where it turns: the last one before a post that it has passed. */
function farthest(hops: readonly Hop[]): number {
  const passed = new Set<string>();
  for (const [i, hop] of hops.entries()) {
    if (passed.has(hop.to)) return Math.max(0, i - 1);
    passed.add(hop.from);
  }
  return Math.max(0, hops.length - 1);
}

/** A loop that howls or rings, closed: from its first microphone by wires, the call and the air back to it. */
function howl(posts: Posts, which: "local" | "whole"): Run[] {
  const howl = howlOf(posts.graph, which, posts.trial);
  const first = howl?.links[0];
  if (howl === undefined || first === undefined) return [];
  const over = howl.gain + howl.peak;
  const through = howl.links.some((link) => link.call);
  if (which === "local" ? over <= RINGS_ABOVE : !through || over < HOWLS_FROM) return [];
  const hops = howl.links.flatMap((link): Hop[] => {
    const from = enters(posts, link.from);
    const out = leaves(posts, link.outlet);
    const inner = link.call
      ? [...posts.hops(link.from.path), posts.hop(sends(posts, link.from), CALL_POST, "call"), posts.hop(CALL_POST, link.outlet.plays === undefined ? out : posts.device(link.outlet.plays.join.device), "call"), ...posts.hops(link.outlet.path)]
      : posts.hops(link.path);
    const to = enters(posts, link.to);
    const back: Hop[] = link.back.length > 0 ? posts.hops(link.back) : out === to ? [] : [{ from: out, to, via: "air", ...(link.metres === undefined ? {} : { remark: `${figure(link.metres)} m` }) }];
    return [...(inner.length === 0 ? [{ from, to: out, via: "inside" as const }] : inner), ...back];
  });
  // It turns where it is farthest from the microphone: at the call, else where the last wire leads to a loudspeaker.
  const atCall = hops.findIndex((hop) => hop.from === CALL_POST);
  const air = hops.findIndex((hop) => hop.via === "air");
  const turnsAt = atCall >= 0 ? atCall : Math.max(0, (air < 0 ? hops.length : air) - 1);
  const names = [enters(posts, first.from), ...howl.links.map((link) => leaves(posts, link.outlet))].filter((name, i, all) => all.indexOf(name) === i);
  return [{ id: `howl ${which}`, kind: "howl", title: `${names.join(" to ")} and back, ${over >= HOWLS_FROM ? `${figure(over)} dB too loud` : `${figure(-over)} dB below howling`}`, hops, complete: true, turnsAt }];
}

function enters(posts: Posts, place: Place): string {
  if (place.mic !== undefined) return posts.device(place.mic.device.name);
  return place.remote !== undefined ? posts.remoteRoom(place.remote) : sends(posts, place);
}

function sends(posts: Posts, place: Place): string {
  return place.remote !== undefined ? posts.remoteRoom(place.remote) : posts.device(place.sends?.join.device ?? "");
}

function leaves(posts: Posts, outlet: Outlet): string {
  if (outlet.speaker !== undefined) return posts.device(outlet.speaker.device.name);
  return outlet.remote !== undefined ? posts.remoteRoom(outlet.remote) : posts.device(outlet.plays?.join.device ?? "");
}

/** What is said here comes back from a room at the other end that cancels nothing. */
function remote(posts: Posts, room: RemoteRoom): Run[] {
  const echo = remoteEcho(posts.graph, room, posts.trial);
  const [voice] = posts.graph.voices;
  const { places, outlets } = netOf(posts.graph, "whole");
  const mic = places.find((place) => place.mic !== undefined && place.sends !== undefined);
  const speaker = outlets.find((outlet) => outlet.speaker !== undefined && outlet.plays !== undefined);
  if (echo === undefined || voice === undefined || mic?.sends === undefined || speaker?.plays === undefined || echo.telr >= echo.needed) return [];
  const here = posts.people(voice.name);
  const there = [{ from: here, to: enters(posts, mic), via: "air" as const }, ...posts.hops(mic.path), posts.hop(sends(posts, mic), CALL_POST, "call")];
  const other = posts.remoteRoom(room);
  return [{
    id: `echo ${room.name}`, title: `${voice.name} comes back from ${room.name}`, complete: true, turnsAt: there.length,
    hops: [...there, posts.hop(CALL_POST, other, "call"), posts.hop(other, CALL_POST, "call"), posts.hop(CALL_POST, posts.device(speaker.plays.join.device), "call"), ...posts.hops(speaker.path), { from: leaves(posts, speaker), to: here, via: "air" }],
  }];
}
