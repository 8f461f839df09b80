/** What brings less of a loudspeaker into a microphone: another microphone or loudspeaker that is wired already. */
import { canonical } from "../model/names";
import { node } from "../signal/edges";
import type { Loop } from "../signal/echo";
import { wiresOf } from "../signal/loops/net";
import type { Remedy, Scene } from "./check";
import { replaceIn } from "./join-text";

/** Microphones and loudspeakers that are there and reach the computer, in place of those of a loop; the prover tells which of them help. */
export function calmer(scene: Scene, loop: Loop): Remedy[] {
  const { setup, item, graph } = scene;
  const state = loop.sends;
  const reach = (from: string, to: readonly string[]): boolean => to.some((end) => wiresOf(graph)(from).has(end));
  const ports = state.device.ports.map((port) => port.id);
  const out: Remedy[] = [];
  for (const { device, part } of graph.endings.values()) {
    const own = device === state.device;
    const name = own ? part.id : device.name;
    if (part.type === "microphone" && !loop.mics.some((m) => m.ending.part === part) && (own || reach(node("microphone", part.id), ports.map((id) => node("port-in", id))))) {
      out.push({ title: `Send the sound of ${name}`, edits: replaceIn(setup, state, "sends", "sound", item, `sends sound from ${name}`) });
    }
    if (part.type === "loudspeaker" && !loop.speakers.some((s) => s.ending.part === part) && (own || ports.some((id) => reach(node("port-out", id), [node("loudspeaker", part.id)])))) {
      out.push({ title: `Play the call on ${name}`, edits: replaceIn(setup, state, "plays", "sound", item, `plays sound on ${name}`) });
    }
  }
  return out.filter((remedy, i) => out.findIndex((other) => canonical(other.title) === canonical(remedy.title)) === i);
}
