/** The posts of a drawing, and ways through the graph as hops between them. */
import { canonical } from "../../model/names";
import { figure } from "../../model/show";
import type { RemoteRoom, Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { deviceOfNode, nameOfNode, sortOf, type Edge } from "../edges";
import type { Graph } from "../graph";
import { modeWords } from "../streams";
import type { Hop, Post, Via } from "./flow";

export const ONLINE_POST = "people online";
export const CALL_POST = "the call";

/** Gathers posts as runs name them: whoever asks for a post has it drawn. */
export class Posts {
  readonly #posts = new Map<string, Post>();

  constructor(readonly graph: Graph, readonly trial: Trial) {}

  all(): Post[] {
    return [...this.#posts.values()];
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

  hop(from: string, to: string, via: Via): Hop {
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

  remoteRoom(room: RemoteRoom): string {
    if (!this.#posts.has(room.name)) {
      this.#posts.set(room.name, { id: room.name, name: room.name, role: "online-people", detail: room.people === undefined ? "another room" : `another room, ${figure(room.people.best)} people`, where: room.where });
    }
    return room.name;
  }

  online(): string {
    if (!this.#posts.has(ONLINE_POST)) {
      this.#posts.set(ONLINE_POST, { id: ONLINE_POST, name: ONLINE_POST, role: "online-people", detail: `${figure(this.graph.setup.online.best)} people` });
    }
    return ONLINE_POST;
  }

  call(): void {
    if (!this.#posts.has(CALL_POST)) this.#posts.set(CALL_POST, { id: CALL_POST, name: CALL_POST, role: "call" });
  }

  private sentPicture(path: readonly Edge[]): string | undefined {
    const first = path[0];
    if (first === undefined || sortOf(first.from) !== "camera") return undefined;
    const name = nameOfNode(first.from);
    for (const state of this.graph.joins) for (const p of state.pictures) if (canonical(p.name) === canonical(name)) return modeWords(p);
    return undefined;
  }
}

/** A part's name without its device's: `laptop.camera` is the camera of laptop. */
export const partName = (id: string | undefined, device: string): string | undefined =>
  id !== undefined && canonical(id).startsWith(`${canonical(device)}.`) ? id.slice(device.length + 1) : undefined;
