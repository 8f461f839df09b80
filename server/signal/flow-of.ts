/** From the graph of one item to what its drawing shows: posts, runs, gaps, echoes. */
import { canonical } from "../model/names";
import { figure } from "../model/show";
import type { RemoteRoom, Voice } from "../model/setup";
import { Trial } from "../model/trial";
import { WAYS, type Verdict, type WayName } from "../model/ways";
import { distance } from "../physics/geometry";
import { CANCELLER_LOSS } from "../physics/coupling";
import { HOWLS_FROM, RINGS_ABOVE } from "../physics/howl";
import { claims, type Assessment, type Claim } from "./coverage";
import { echoOf, returnOf, worstLoops, type Loop } from "./echo";
import { deviceOfNode, nameOfNode, sortOf, type Edge } from "./edges";
import type { Band, Flow, Hop, Post, Run, Via } from "./flow";
import { feedRuns } from "./flow-feeds";
import { carries, gainOf, type Graph } from "./graph";
import { howlOf } from "./loops/howl";
import { netOf, type Outlet, type Place } from "./loops/net";
import { remoteEcho } from "./loops/remote";
import { returnsOf } from "./loops/returns";
import { audienceCentre, standOf, triple } from "./stands";
import { pictureAt } from "./sight";
import { modeWords } from "./streams";

const ONLINE_POST = "people online";
const CALL_POST = "the call";

/** A verdict with its sentence, as the drawing shows it beside its band. */
export interface BandVerdict {
  readonly way: WayName;
  readonly verdict: Verdict;
  readonly weakest: string;
}

export function flowOf(graph: Graph, ways: readonly BandVerdict[]): Flow {
  const trial = new Trial();
  const drawer = new Drawer(graph, trial);
  const verdict = (way: WayName): { verdict: Verdict; sentence: string } => {
    const found = ways.find((w) => w.way === way);
    return { verdict: found?.verdict ?? "cannot-tell", sentence: found?.weakest ?? "" };
  };
  const bands = WAYS.flatMap((way): Band[] => (way === "call" || way === "internet" ? [] : [{
    way, ...verdict(way), runs: [...claims(graph).filter((claim) => claim.way === way).map((claim) => drawer.run(claim)), ...(way === "room-hears-online" ? feedRuns(graph, trial, drawer) : [])],
  }]));
  const comeBack = worstLoops(graph).flatMap((loop) => drawer.echo(loop));
  const echoes = [...(["local", "whole"] as const).flatMap((which) => drawer.howl(which)), ...graph.setup.remoteRooms.flatMap((room) => drawer.remoteEcho(room)), ...comeBack, ...drawer.mixes(comeBack)];
  return {
    title: graph.setup.title, item: graph.item, bands, echoes, posts: drawer.posts(), call: verdict("call"), internet: verdict("internet"),
  };
}

class Drawer {
  readonly #posts = new Map<string, Post>();

  constructor(readonly graph: Graph, readonly trial: Trial) {}

  posts(): Post[] {
    return [...this.#posts.values()];
  }

  run(claim: Claim): Run {
    const a = claim.assess(this.trial);
    const out = claim.way === "online-hears-room" || claim.way === "online-sees-room";
    const via: Via = claim.way.includes("hear") ? "air" : "sight";
    const subject = this.people(claim.subject);
    const gap = a.gaps.length === 0 && a.grade === "bad" ? this.shortOf(claim, a) : a.gaps.length === 0 && a.grade === "poor" && claim.way === "room-sees-online" ? this.shortOf(claim, a) : undefined;
    let hops: Hop[];
    if (a.path === undefined) {
      const says = a.gaps[0]?.sentence ?? "no way across";
      this.online();
      hops = [out ? { from: subject, to: ONLINE_POST, via, gap: says } : { from: ONLINE_POST, to: subject, via, gap: says }];
    } else {
      const inner = this.hops(a.path);
      const end = out ? inner[0]?.from : inner[inner.length - 1]?.to;
      const device = end ?? ONLINE_POST;
      const part = partName(a.through, device);
      const remark = this.remark(claim, a, device);
      const last: Hop = out
        ? { from: subject, to: device, via, toPort: part, gap, remark }
        : { from: device, to: subject, via, fromPort: part, gap, remark };
      hops = out ? [last, ...inner] : [...inner, last];
      if (out && a.repeatedBy !== undefined) {
        const repeater = this.people(a.repeatedBy);
        hops = [{ from: subject, to: repeater, via: "air", remark: "repeats it" }, { ...last, from: repeater, remark: undefined, gap: undefined }, ...inner];
      }
    }
    const title = out ? `${claim.subject} to the people online` : `the people online to ${claim.subject}`;
    return { id: `${claim.way} ${claim.subject}`, title, hops, complete: hops.every((hop) => hop.gap === undefined) };
  }

  /** A loop that comes back to those it started from; nothing where it is quiet enough. */
  echo(loop: Loop): Run[] {
    const echo = echoOf(this.graph, loop, this.trial);
    const plays = loop.plays.join.device;
    const sends = loop.sends.join.device;
    if (echo !== undefined && echo.telr < echo.needed) {
      const speaker = loop.speakers.find((s) => s.ending === echo.pair?.speaker);
      const mic = loop.mics.find((m) => m.ending === echo.pair?.mic);
      if (echo.pair === undefined || speaker === undefined || mic === undefined) {
        const there = [this.hop(ONLINE_POST, CALL_POST, "call"), this.hop(CALL_POST, this.device(plays), "call")];
        const wire = this.hops(loop.wire ?? []);
        const back = [this.hop(this.device(sends), CALL_POST, "call"), this.hop(CALL_POST, ONLINE_POST, "call")];
        return [{ id: `echo ${plays} ${sends}`, title: `the people online hear themselves through ${plays} and ${sends}`, hops: [...there, ...wire, ...back], complete: true, turnsAt: there.length + farthest(wire) }];
      }
      const there = [this.hop(ONLINE_POST, CALL_POST, "call"), this.hop(CALL_POST, this.device(plays), "call"), ...this.hops(speaker.path)];
      const air: Hop = { from: this.device(speaker.ending.device.name), to: this.device(mic.ending.device.name), via: "air", remark: `${figure(echo.pair.metres)} m` };
      const back = [...this.hops(mic.path), this.hop(this.device(sends), CALL_POST, "call"), this.hop(CALL_POST, ONLINE_POST, "call")];
      return [{ id: `echo ${plays} ${sends}`, title: `the people online hear themselves through ${plays} and ${sends}`, hops: [...there, air, ...back], complete: true, turnsAt: there.length }];
    }
    const returned = returnOf(this.graph, loop, this.trial);
    if (returned === undefined || returned.over < -20) return [];
    const mic = loop.mics[0];
    const speaker = loop.speakers[0];
    if (mic === undefined || speaker === undefined) return [];
    const voice = this.people(returned.voice.name);
    const there = [
      { from: voice, to: this.device(mic.ending.device.name), via: "air" as const }, ...this.hops(mic.path), this.hop(this.device(sends), CALL_POST, "call"),
    ];
    const back = [this.hop(CALL_POST, this.device(plays), "call"), ...this.hops(speaker.path), { from: this.device(speaker.ending.device.name), to: voice, via: "air" as const }];
    return [{ id: `return ${plays} ${sends}`, title: `${returned.voice.name} comes back to the room through ${plays}`, hops: [...there, ...back], complete: true, turnsAt: there.length - 1 }];
  }

  /** Mixes sent to the call that hold what came from it, where they are not drawn already: only a canceller keeps those from being heard. */
  mixes(drawn: readonly Run[]): Run[] {
    return returnsOf(this.graph).flatMap(({ plays, sends, path }): Run[] => {
      const [a, b] = [plays.join.device, sends.join.device];
      if (!carries(path, this.trial) || gainOf(path) <= -CANCELLER_LOSS || drawn.some((run) => run.id === `echo ${a} ${b}`)) return [];
      const there = [this.hop(ONLINE_POST, CALL_POST, "call"), this.hop(CALL_POST, this.device(a), "call")];
      const wire = this.hops(path);
      const back = [this.hop(this.device(b), CALL_POST, "call"), this.hop(CALL_POST, ONLINE_POST, "call")];
      return [{ id: `mix ${a} ${b}`, title: `${b} sends the call back, and only its canceller holds it`, hops: [...there, ...wire, ...back], complete: true, turnsAt: there.length + farthest(wire) }];
    });
  }

  /** A loop that howls or rings, closed: from its first microphone by wires, the call and the air back to it. */
  howl(which: "local" | "whole"): Run[] {
    const howl = howlOf(this.graph, which, this.trial);
    const first = howl?.links[0];
    if (howl === undefined || first === undefined) return [];
    const over = howl.gain + howl.peak;
    const through = howl.links.some((link) => link.call);
    if (which === "local" ? over <= RINGS_ABOVE : !through || over < HOWLS_FROM) return [];
    const hops = howl.links.flatMap((link): Hop[] => {
      const from = this.enters(link.from);
      const out = this.leaves(link.outlet);
      const inner = link.call
        ? [...this.hops(link.from.path), this.hop(this.sends(link.from), CALL_POST, "call"), this.hop(CALL_POST, link.outlet.plays === undefined ? out : this.device(link.outlet.plays.join.device), "call"), ...this.hops(link.outlet.path)]
        : this.hops(link.path);
      const to = this.enters(link.to);
      const back: Hop[] = link.back.length > 0 ? this.hops(link.back) : out === to ? [] : [{ from: out, to, via: "air", ...(link.metres === undefined ? {} : { remark: `${figure(link.metres)} m` }) }];
      return [...(inner.length === 0 ? [{ from, to: out, via: "inside" as const }] : inner), ...back];
    });
    // It turns where it is farthest from the microphone: at the call, else where the last wire leads to a loudspeaker.
    const atCall = hops.findIndex((hop) => hop.from === CALL_POST);
    const air = hops.findIndex((hop) => hop.via === "air");
    const turnsAt = atCall >= 0 ? atCall : Math.max(0, (air < 0 ? hops.length : air) - 1);
    const names = [this.enters(first.from), ...howl.links.map((link) => this.leaves(link.outlet))].filter((name, i, all) => all.indexOf(name) === i);
    return [{ id: `howl ${which}`, kind: "howl", title: `${names.join(" to ")} and back, ${over >= HOWLS_FROM ? `${figure(over)} dB too loud` : `${figure(-over)} dB below howling`}`, hops, complete: true, turnsAt }];
  }

  private enters(place: Place): string {
    if (place.mic !== undefined) return this.device(place.mic.device.name);
    return place.remote !== undefined ? this.remoteRoom(place.remote) : this.sends(place);
  }

  private sends(place: Place): string {
    return place.remote !== undefined ? this.remoteRoom(place.remote) : this.device(place.sends?.join.device ?? "");
  }

  private leaves(outlet: Outlet): string {
    if (outlet.speaker !== undefined) return this.device(outlet.speaker.device.name);
    return outlet.remote !== undefined ? this.remoteRoom(outlet.remote) : this.device(outlet.plays?.join.device ?? "");
  }

  /** What is said here comes back from a room at the other end that cancels nothing. */
  remoteEcho(room: RemoteRoom): Run[] {
    const echo = remoteEcho(this.graph, room, this.trial);
    const [voice] = this.graph.voices;
    const { places, outlets } = netOf(this.graph, "whole");
    const mic = places.find((place) => place.mic !== undefined && place.sends !== undefined);
    const speaker = outlets.find((outlet) => outlet.speaker !== undefined && outlet.plays !== undefined);
    if (echo === undefined || voice === undefined || mic?.sends === undefined || speaker?.plays === undefined || echo.telr >= echo.needed) return [];
    const here = this.people(voice.name);
    const there = [{ from: here, to: this.enters(mic), via: "air" as const }, ...this.hops(mic.path), this.hop(this.sends(mic), CALL_POST, "call")];
    const other = this.remoteRoom(room);
    return [{
      id: `echo ${room.name}`, title: `${voice.name} comes back from ${room.name}`, complete: true, turnsAt: there.length,
      hops: [...there, this.hop(CALL_POST, other, "call"), this.hop(other, CALL_POST, "call"), this.hop(CALL_POST, this.device(speaker.plays.join.device), "call"), ...this.hops(speaker.path), { from: this.leaves(speaker), to: here, via: "air" }],
    }];
  }

  private remoteRoom(room: RemoteRoom): string {
    if (!this.#posts.has(room.name)) {
      this.#posts.set(room.name, { id: room.name, name: room.name, role: "online-people", detail: room.people === undefined ? "another room" : `another room, ${figure(room.people.best)} people`, where: room.where });
    }
    return room.name;
  }

  /** Edges between devices as hops; what happens inside a device is its post. */
  hops(path: readonly Edge[]): Hop[] {
    const out: Hop[] = [];
    // What ails a device itself shows where the way enters it, else where it leaves.
    let ailing: string | undefined;
    for (const edge of path) {
      if (edge.via === "call") {
        const toOnline = sortOf(edge.to) === "online";
        const fromOnline = sortOf(edge.from) === "online";
        const [a, b] = [fromOnline ? this.online() : this.postOf(edge.from), toOnline ? this.online() : this.postOf(edge.to)];
        this.call();
        const remark = toOnline ? this.sentPicture(path) : undefined;
        out.push({ from: a, to: CALL_POST, via: "call", remark, gap: ailing, where: edge.where }, { from: CALL_POST, to: b, via: "call", where: edge.where });
        ailing = undefined;
        continue;
      }
      const from = this.postOf(edge.from);
      const to = this.postOf(edge.to);
      if (from === to) {
        if (edge.gap !== undefined) {
          this.trouble(from, edge.gap.says);
          const last = out[out.length - 1];
          if (last !== undefined && last.gap === undefined && last.to === from) out[out.length - 1] = { ...last, gap: edge.gap.says };
          else if (out.every((hop) => hop.gap !== edge.gap?.says)) ailing = edge.gap.says;
        }
        continue;
      }
      out.push({
        from, to, via: edge.gap !== undefined && edge.via === "inside" ? "cable" : edge.via, fromPort: this.local(edge.from, from), toPort: this.local(edge.to, to),
        gap: edge.gap?.says ?? ailing, where: edge.where,
      });
      ailing = undefined;
    }
    return out;
  }

  private hop(from: string, to: string, via: Via): Hop {
    if (from === ONLINE_POST || to === ONLINE_POST) this.online();
    if (from === CALL_POST || to === CALL_POST) this.call();
    return { from, to, via };
  }

  /** The port or part of a node, without its device. */
  private local(id: string, device: string): string | undefined {
    return sortOf(id).startsWith("port-") || sortOf(id) === "camera" || sortOf(id) === "microphone" || sortOf(id) === "loudspeaker" || sortOf(id) === "display"
      ? partName(nameOfNode(id), device) : undefined;
  }

  private postOf(id: string): string {
    if (sortOf(id) === "online") return this.online();
    return this.device(deviceOfNode(id, this.graph.setup.devices, canonical));
  }

  device(name: string): string {
    const device = this.graph.setup.devices.get(canonical(name));
    const id = device?.name ?? name;
    if (!this.#posts.has(id)) {
      this.#posts.set(id, { id, name: id, role: "device", detail: device === undefined || device.kind === id ? undefined : device.kind.replace(/-/g, " "), where: device?.where });
    }
    return id;
  }

  private trouble(id: string, says: string): void {
    const post = this.#posts.get(id);
    if (post !== undefined) this.#posts.set(id, { ...post, trouble: says });
  }

  people(name: string): string {
    const { setup } = this.graph;
    const voice: Voice | undefined = name === setup.lectern.name ? setup.lectern : setup.voices.get(canonical(name)) ?? this.standingAt(name);
    const seats = voice?.seats ?? setup.floor.group(name);
    const id = name === setup.lectern.name ? "lectern" : (seats?.name ?? voice?.name ?? name);
    if (!this.#posts.has(id)) {
      const detail = seats !== undefined ? `${seats.count} seats${seats.rows > 1 ? ` in ${seats.rows} rows` : ""}` : voice !== undefined ? "talker" : undefined;
      this.#posts.set(id, { id, name: id, role: "room-people", detail, where: voice?.where ?? seats?.where });
    }
    return id;
  }

  /** Who stands at a spot that is to be seen: one post for both. */
  private standingAt(name: string): Voice | undefined {
    const { setup } = this.graph;
    if (setup.floor.group(name) !== undefined) return undefined;
    const spot = setup.floor.spot(name, this.trial);
    if (spot === undefined) return undefined;
    return [...setup.voices.values()].find((voice) => {
      const at = voice.position.at(this.trial);
      return voice.stated && voice.seats === undefined && Math.hypot(at.x - spot.x, at.y - spot.y) < 0.5;
    });
  }

  online(): string {
    if (!this.#posts.has(ONLINE_POST)) {
      this.#posts.set(ONLINE_POST, { id: ONLINE_POST, name: ONLINE_POST, role: "online-people", detail: `${figure(this.graph.setup.online.best)} people` });
    }
    return ONLINE_POST;
  }

  private call(): void {
    if (!this.#posts.has(CALL_POST)) this.#posts.set(CALL_POST, { id: CALL_POST, name: CALL_POST, role: "call" });
  }

  private sentPicture(path: readonly Edge[]): string | undefined {
    const first = path[0];
    if (first === undefined || sortOf(first.from) !== "camera") return undefined;
    const name = nameOfNode(first.from);
    for (const state of this.graph.joins) for (const p of state.pictures) if (canonical(p.name) === canonical(name)) return modeWords(p);
    return undefined;
  }

  /** Why a way that is whole does not reach everybody, in a few words. */
  private shortOf(claim: Claim, a: Assessment): string {
    const rows = a.short?.fromRow !== undefined && a.short.fromRow > 1 ? ` from row ${a.short.fromRow}` : "";
    switch (claim.way) {
      case "room-sees-online": return `too small${rows}`;
      case "room-hears-online": return `too soft${rows}`;
      case "online-hears-room": return `too far${rows}`;
      case "online-sees-room": return "outside the frame";
    }
  }

  /** How far it is through the air. */
  private remark(claim: Claim, a: Assessment, device: string): string | undefined {
    const { setup } = this.graph;
    const found = setup.devices.get(canonical(device));
    if (found === undefined || a.gaps.length > 0) return undefined;
    const voice = setup.voices.get(canonical(claim.subject)) ?? (claim.subject === setup.lectern.name ? setup.lectern : undefined);
    if (voice === undefined && setup.floor.group(claim.subject) === undefined) return undefined;
    const at = voice === undefined || voice.seats !== undefined ? audienceCentre(setup, this.trial, voice?.seats?.name ?? claim.subject) : voice.position.at(this.trial);
    const seen = claim.way === "room-sees-online" ? pictureAt(setup, found, this.trial) : standOf(setup, found, this.trial);
    const far = distance(triple(at), triple(seen));
    return far < 0.3 ? undefined : `${figure(Math.round(far * 10) / 10)} m`;
  }
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

/** A part's name without its device's: `laptop.camera` is the camera of laptop. */
const partName = (id: string | undefined, device: string): string | undefined =>
  id !== undefined && canonical(id).startsWith(`${canonical(device)}.`) ? id.slice(device.length + 1) : undefined;
