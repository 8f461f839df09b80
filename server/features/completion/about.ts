/** A word or two on a name that is offered, and what makes it a likely one. */
import { SPOTS, type Row, type Slot } from "../../../grammar/vocabulary";
import { valueOf } from "../../model/bound";
import type { PartType } from "../../model/device";
import { canonical, KIND_WORDS, type Named } from "../../model/names";
import { typicalKinds, type Setup } from "../../model/setup";
import { deviceOf } from "../names";

/** Beside the name: what kind of thing it is. */
export function detailOf(setup: Setup, { name, kind, where }: Named): string {
  if (kind === "device") return setup.devices.get(canonical(name))?.kind ?? KIND_WORDS.device;
  const device = kind === "port" || kind === "part" ? setup.devices.get(canonical(deviceOf(setup, name) ?? "")) : undefined;
  if (kind === "port") return device?.ports.find((port) => port.id === name)?.connector ?? KIND_WORDS.port;
  if (kind === "part") return device?.parts.find((part) => part.id === name)?.type ?? KIND_WORDS.part;
  return kind === "kind" && where === undefined ? "typical equipment" : KIND_WORDS[kind];
}

/** In a sentence, where there is anything to say. */
export function aboutNamed(setup: Setup, { name, kind, where }: Named): string {
  if (kind === "kind") {
    const typical = where === undefined ? typicalKinds().find((one) => valueOf(one, "name", "name")?.text === name) : undefined;
    return typical === undefined ? "" : `a ${valueOf(typical, "type", "word")?.word ?? "thing"}, with typical figures`;
  }
  if (where === undefined && SPOTS[name] !== undefined) return SPOTS[name];
  const owner = kind === "device" ? setup.devices.get(canonical(name))?.owner : undefined;
  return owner === undefined ? "" : `owned by ${owner}`;
}

/** What the parts are that a slot is about: `plays sound on` wants a loudspeaker. */
function wantedParts(row: Row, words: readonly string[]): readonly PartType[] {
  switch (row.head) {
    case "sends": return words.includes("picture") ? ["camera"] : ["microphone"];
    case "plays": return ["loudspeaker"];
    case "shows": return ["display"];
    default: return [];
  }
}

/** Types of device that pass sound on and may be meant where a microphone is. */
const PASSES_SOUND: ReadonlySet<string> = new Set(["mixer", "interface", "speakerphone", "headset"]);

/** How likely a name is meant: 0 where it fits best. Nothing that fits at all is left out. */
export function rankOf(setup: Setup, row: Row, slot: Slot, words: readonly string[]): (named: Named) => number {
  const parts = wantedParts(row, words);
  return (named) => {
    if (named.kind === "kind") return named.where === undefined ? 1 : 0;
    const device = setup.devices.get(canonical(named.name)) ?? setup.devices.get(canonical(deviceOf(setup, named.name) ?? ""));
    if (named.kind === "outlet" || device === undefined) return 0;
    switch (row.head) {
      case "place": return slot.id === "device" && device.placed !== undefined ? 1 : 0;
      case "mixer": return device.type === "mixer" ? 0 : 1;
      case "join": return device.type === "computer" ? 0 : 1;
      case "mains": return slot.id === "from" ? (device.sockets === undefined ? 2 : 0) : device.power.on.has("mains") || device.sockets !== undefined ? 0 : 1;
      case "sends": case "plays": case "shows": {
        const own = device.parts.filter((part) => named.kind === "device" || canonical(part.id) === canonical(named.name));
        return own.some((part) => parts.includes(part.type)) || (named.kind === "device" && parts.includes("microphone") && PASSES_SOUND.has(device.type)) ? 0 : 1;
      }
      default: return 0;
    }
  };
}
