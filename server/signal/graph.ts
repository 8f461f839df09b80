/** The one signal graph of a setup in one item of its programme: wires, radio, insides of devices, mixers and the call. */
import type { Device, Part } from "../model/device";
import { assumed, unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import { interprets } from "./interpreters";
import type { Ranged } from "../model/ranged";
import type { Setup, Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { callState, type JoinState, type Sent } from "./call-state";
import { EdgeList, node, reach, type Carried, type Edge, type Gap, type Sense } from "./edges";
import { feeds, type Feed } from "./power";
import { addWiring } from "./wiring";

/** A device together with that part of it that picks up, plays or shows. */
export interface Ending {
  readonly device: Device;
  readonly part: Part;
}

export interface Graph {
  readonly setup: Setup;
  readonly item: string | undefined;
  readonly joins: readonly JoinState[];
  readonly feeds: ReadonlyMap<string, Feed>;
  readonly sound: EdgeList;
  readonly picture: EdgeList;
  /** By id of the part. */
  readonly endings: ReadonlyMap<string, Ending>;
  /** Who speaks in this item. */
  readonly voices: readonly Voice[];
  /** Fewest-gap ways from a node, or to it; worked out once. */
  ways(carried: Carried, end: string, sense?: Sense): ReadonlyMap<string, readonly Edge[]>;
}

export const ONLINE = node("online", "people");

export function makeGraph(setup: Setup, item: string | undefined, known: ReadonlyMap<string, Feed> = feeds(setup)): Graph {
  const joins = callState(setup, item);
  const endings = new Map<string, Ending>();
  for (const device of setup.devices.values()) for (const part of device.parts) endings.set(canonical(part.id), { device, part });
  const lists = { sound: new EdgeList(), picture: new EdgeList() };
  for (const carried of ["sound", "picture"] as const) {
    const edges = lists[carried];
    addWiring(edges, setup, item, carried, known);
    new CallEdges(setup, edges, carried, joins, endings, known).add();
  }
  const kept = new Map<string, ReadonlyMap<string, readonly Edge[]>>();
  return {
    setup, item, joins, feeds: known, sound: lists.sound, picture: lists.picture, endings, voices: voicesOf(setup, item),
    ways: (carried, end, sense = "forth") => {
      const key = `${carried} ${sense} ${end}`;
      let found = kept.get(key);
      if (found === undefined) {
        found = reach(lists[carried], end, sense);
        kept.set(key, found);
      }
      return found;
    },
  };
}

/** Whether a way carries in this trial: each of its gaps is left open by the text, and taken to be closed. */
export const carries = (path: readonly Edge[], trial: Trial): boolean =>
  path.every((edge) => edge.gap === undefined || (edge.gap.open !== undefined && trial.holds(edge.gap.open)));

export const gapsOf = (path: readonly Edge[]): readonly Gap[] => path.flatMap((edge) => (edge.gap === undefined ? [] : [edge.gap]));

/** dB beside nominal along a way. */
export const gainOf = (path: readonly Edge[]): number => path.reduce((sum, edge) => sum + edge.gain, 0);

/** Seconds along a way, the call's own delay left out. */
export const delayOf = (path: readonly Edge[], trial: Trial): number =>
  path.reduce((sum, edge) => sum + (edge.via === "call" || edge.delay === undefined ? 0 : trial.value(edge.delay)), 0);

/** Half of what a call needs to be heard and answered, for a join: 140 ms and half the round trip to the outside. */
export function callDelay(setup: Setup, state: JoinState): Ranged {
  const over = setup.internets.find((internet) => canonical(internet.name) === canonical(state.join.over ?? "")) ?? setup.internets[0];
  const half = over?.roundTrip === undefined ? 0.02 : over.roundTrip.best / 2;
  // A connection that is late by itself, by satellite say, is late in any call.
  return assumed(`call.delay`, "the one-way delay of the call", "time", { best: 0.14 + half, low: Math.max(0.1, 0.04 + half), high: Math.max(0.3, 0.24 + half), source: "published guidance for calls in browsers; common practice" });
}

/** Who speaks: those whom the item names; else every talker; else whoever stands at the lectern or sits around the table. */
function voicesOf(setup: Setup, item: string | undefined): readonly Voice[] {
  const named = item === undefined ? undefined : setup.items.find((i) => canonical(i.name) === canonical(item))?.talkers;
  if (named !== undefined && named.length > 0) {
    return named.flatMap((name) => {
      const voice = setup.voices.get(canonical(name)) ?? (canonical(name) === "audience" ? [...setup.voices.values()].find((v) => v.seats !== undefined) : undefined);
      return voice === undefined ? [] : [voice];
    });
  }
  const stated = [...setup.voices.values()].filter((voice) => voice.stated && !interprets(voice, item));
  if (stated.length > 0) return stated;
  const around = [...setup.voices.values()].find((voice) => voice.seats?.place?.relations.some((r) => r.relation === "around"));
  if (around !== undefined) return [around];
  return [setup.lectern];
}

class CallEdges {
  readonly #wired = new Map<string, ReadonlyMap<string, readonly Edge[]>>();

  constructor(
    readonly setup: Setup, readonly edges: EdgeList, readonly carried: Carried, readonly joins: readonly JoinState[],
    readonly endings: ReadonlyMap<string, Ending>, readonly feeds: ReadonlyMap<string, Feed>,
  ) {}

  add(): void {
    // Ways through wires alone are worked out before the call joins everything to everything.
    const planned = this.joins.map((state) => ({ state, into: this.into(state), outOf: this.outOf(state), monitors: this.monitors(state) }));
    const inSort = this.carried === "sound" ? "in" : "picture-in";
    const outSort = this.carried === "sound" ? "out" : "picture-out";
    for (const { state, into, outOf, monitors } of planned) {
      const name = state.join.device;
      const gap = this.feeds.get(canonical(state.device.name))?.gap;
      const where = state.join.where;
      for (const edge of [...into, ...outOf]) this.edges.add(edge);
      const call = (from: string, to: string): void => {
        this.edges.add({ from, to, via: "call", gain: 0, delay: callDelay(this.setup, state), gap: undefined, where });
      };
      if (into.length > 0) for (const edge of monitors) this.edges.add(edge);
      if (into.length > 0) {
        this.edges.add({ from: node(inSort, name), to: node("sends", name), via: "inside", gain: 0, delay: undefined, gap, where });
        call(node("sends", name), ONLINE);
      }
      if (outOf.length > 0) {
        this.edges.add({ from: node("plays", name), to: node(outSort, name), via: "inside", gain: 0, delay: undefined, gap, where });
        call(ONLINE, node("plays", name));
      }
    }
    // The call returns to each joined device what every other one sends, never its own.
    for (const from of planned) {
      for (const to of planned) {
        if (from === to || from.into.length === 0 || to.outOf.length === 0) continue;
        this.edges.add({
          from: node("sends", from.state.join.device), to: node("plays", to.state.join.device), via: "call", gain: 0,
          delay: callDelay(this.setup, from.state), gap: undefined, where: to.state.join.where,
        });
      }
    }
  }

  /** What a join sends: from each source to what the computer gathers. */
  private into(state: JoinState): Edge[] {
    const target = node(this.carried === "sound" ? "in" : "picture-in", state.join.device);
    const sents: readonly Sent[] = this.carried === "sound" ? state.sound : state.pictures;
    return sents.flatMap((sent) => this.connect(state, sent, "into").map((end): Edge => ({
      from: end.node, to: target, via: "inside", gain: 0, delay: end.delay, gap: end.gap, where: sent.where,
    })));
  }

  /** What a join plays or shows: from the computer to each device meant for it. */
  private outOf(state: JoinState): Edge[] {
    const source = node(this.carried === "sound" ? "out" : "picture-out", state.join.device);
    const sents: readonly Sent[] = this.carried === "sound" ? state.plays : state.shows.filter((s) => s.what === "call");
    return sents.flatMap((sent) => this.connect(state, sent, "out-of").map((end): Edge => ({
      from: source, to: end.node, via: "inside", gain: 0, delay: end.delay, gap: end.gap, where: sent.where,
    })));
  }

  /** What a join plays at once of what it takes in: from what the computer gathers to each device meant for it. */
  private monitors(state: JoinState): Edge[] {
    if (this.carried === "picture") return [];
    return state.monitors.flatMap((sent) => this.connect(state, sent, "out-of").map((end): Edge => ({
      from: node("in", state.join.device), to: end.node, via: "inside", gain: 0, delay: end.delay, gap: end.gap, where: sent.where,
    })));
  }

  /** Where inside the computer something named comes in or goes out. */
  private connect(state: JoinState, sent: Sent, way: "into" | "out-of"): { node: string; delay: Ranged | undefined; gap: Gap | undefined }[] {
    const { device } = state;
    const wantedPart = this.carried === "sound" ? (way === "into" ? "microphone" : "loudspeaker") : way === "into" ? "camera" : "display";
    const part = this.endings.get(canonical(sent.name));
    if (part?.device === device) return [{ node: node(wantedPart, part.part.id), delay: part.part.delay, gap: undefined }];
    const port = device.ports.find((p) => canonical(p.id) === canonical(sent.name));
    if (port !== undefined) return [{ node: node(way === "into" ? "port-in" : "port-out", port.id), delay: undefined, gap: undefined }];
    const other = part?.device ?? this.setup.devices.get(canonical(sent.name)) ?? this.ownerOfPort(sent.name);
    if (other === undefined) return [];
    // A device may be named for the camera or the microphone that it has.
    if (other === device) {
      const own = device.parts.find((p) => p.type === wantedPart);
      return own === undefined ? [] : [{ node: node(wantedPart, own.id), delay: own.delay, gap: undefined }];
    }
    const through = this.portsToward(device, other, wantedPart, way);
    if (through.length > 0) return through.map((id) => ({ node: node(way === "into" ? "port-in" : "port-out", id), delay: undefined, gap: undefined }));
    return [{ node: this.standIn(other, wantedPart, way), delay: undefined, gap: this.notConnected(device, other) }];
  }

  private ownerOfPort(name: string): Device | undefined {
    return [...this.setup.devices.values()].find((d) => d.ports.some((p) => canonical(p.id) === canonical(name)));
  }

  /** The computer's ports through which wires lead to, or come from, another device. */
  private portsToward(device: Device, other: Device, type: Part["type"], way: "into" | "out-of"): string[] {
    const mine = new Map(device.ports.map((port) => [node(way === "into" ? "port-in" : "port-out", port.id), port.id]));
    const theirs = [
      ...other.parts.filter((p) => p.type === type).map((p) => node(type, p.id)),
      ...other.ports.filter((p) => (way === "into" ? p.gives : p.takes).has(this.carried)).map((p) => node(way === "into" ? "port-out" : "port-in", p.id)),
    ];
    const found = new Set<string>();
    if (way === "into") {
      for (const start of theirs) for (const id of this.wired(start).keys()) if (mine.has(id)) found.add(mine.get(id) ?? "");
    } else {
      for (const [start, id] of mine) {
        const reached = this.wired(start);
        if (theirs.some((end) => end !== start && reached.has(end))) found.add(id);
      }
    }
    return [...found];
  }

  private wired(from: string): ReadonlyMap<string, readonly Edge[]> {
    let found = this.#wired.get(from);
    if (found === undefined) {
      found = reach(this.edges, from);
      this.#wired.set(from, found);
    }
    return found;
  }

  private standIn(other: Device, type: Part["type"], way: "into" | "out-of"): string {
    const part = other.parts.find((p) => p.type === type);
    if (part !== undefined) return node(type, part.id);
    const port = other.ports.find((p) => (way === "into" ? p.gives : p.takes).has(this.carried));
    return port === undefined ? node("device", other.name) : node(way === "into" ? "port-out" : "port-in", port.id);
  }

  private notConnected(device: Device, other: Device): Gap {
    // Where no statement plugs anything into either, the text has simply not come to that yet.
    const mentioned = this.setup.links.some((link) => [link.from, link.to].some((end) => {
      const key = canonical(end);
      return [device, other].some((d) => key === canonical(d.name) || key.startsWith(`${canonical(d.name)}.`));
    }));
    const pair = [device.name, other.name];
    const of = (end: string, d: Device): boolean => canonical(end) === canonical(d.name) || canonical(end).startsWith(`${canonical(d.name)}.`);
    // A cable that is there and carries nothing of the kind is another mistake than none at all.
    const wrong = this.setup.links.find((link) => (of(link.from, device) && of(link.to, other)) || (of(link.from, other) && of(link.to, device)));
    return {
      says: wrong === undefined ? "no cable" : "wrong port",
      sentence: wrong === undefined ? `nothing connects ${device.name} and ${other.name}` : `no ${this.carried} passes between ${wrong.from} and ${wrong.to}`, cause: `link ${pair.map(canonical).sort().join(" ")}`, between: pair,
      open: mentioned ? undefined : unsaid(`link ${pair.map(canonical).sort().join(" ")}`, `how ${other.name} is connected to ${device.name}`, false, "the text does not say", `How is ${other.name} connected to ${device.name}?`),
    };
  }
}
