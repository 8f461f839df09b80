/** A microphone that is owned, and worn, held or passed round, in place of one that stands too far away. */
import type { Device } from "../model/device";
import { append, insertInto, type Edit } from "../model/edits";
import { holding } from "../model/during";
import { valuesOf } from "../model/bound";
import { canonical } from "../model/names";
import { list } from "../model/show";
import type { Voice } from "../model/setup";
import type { JoinState } from "../signal/call-state";
import { positionOf } from "../signal/stands";
import { fileOf, rootFile, type Remedy, type Scene } from "./check";
import { replaceIn } from "./join-text";
import { portPair, wiredTo } from "./plugs";

/** How a microphone is used at a mouth; nothing where it wants a stand or a table. Clipped on it hears from all sides, in the hand from one. */
function atMouth(device: Device): "worn" | "handed" | undefined {
  const mic = device.parts.find((part) => part.type === "microphone");
  if (mic === undefined || (device.type !== "microphone" && device.type !== "headset")) return undefined;
  if (device.type === "headset" || /lapel|clip|collar/.test(device.kind)) return "worn";
  if (/hand/.test(device.kind)) return "handed";
  const near = mic.mouth?.best;
  return near === undefined || near > 0.25 ? undefined : mic.pattern === "omni" ? "worn" : "handed";
}

/** Microphones that nobody wears or holds yet. */
const free = (scene: Scene, use: "worn" | "handed"): Device[] =>
  [...scene.setup.devices.values()].filter((device) => atMouth(device) === use && (device.placed === undefined || positionOf(scene.setup, device).held === undefined)).slice(0, 2);

/** Lets somebody wear a microphone, or speak into one held in the hand. */
export function wear(scene: Scene, voice: Voice): Remedy[] {
  if (voice.seats !== undefined || !voice.stated) return [];
  return [
    ...free(scene, "worn").flatMap((device) => use(scene, device, `on ${voice.name}`, `Let ${voice.name} wear ${device.name}`)),
    ...free(scene, "handed").flatMap((device) => use(scene, device, `with ${voice.name}`, `Give ${device.name} to ${voice.name} to hold`)),
  ];
}

/** Passes a microphone round among the seats. */
export function passRound(scene: Scene, voice: Voice): Remedy[] {
  if (voice.seats === undefined) return [];
  return free(scene, "handed").flatMap((device) => use(scene, device, `with ${voice.seats?.name ?? voice.name}`, `Pass ${device.name} round in ${voice.seats?.name ?? voice.name}`));
}

function use(scene: Scene, device: Device, place: string, title: string): Remedy[] {
  const { setup, graph } = scene;
  const file = rootFile(setup);
  if (file === undefined) return [];
  const put: Edit | undefined = device.placed === undefined ? append(file, `place ${device.name} ${place}`, ["place"])
    : device.place === undefined || device.ring !== undefined ? undefined : { path: device.placed.where.path, start: device.place.start, end: device.place.end, newText: place };
  if (put === undefined) return [];
  return graph.joins.filter((state) => state.sound.length > 0).slice(0, 1)
    .flatMap((state) => leadsInto(scene, state, device).map(({ beside, edits }) => ({ title: `${title}${beside}`, edits: [put, ...edits] })));
}

/** What plugs a microphone into what a join sends: into its mixer, else once in place of what it sends now and once beside it; none where no free port fits. */
function leadsInto(scene: Scene, state: JoinState, device: Device): { readonly beside: string; readonly edits: readonly Edit[] }[] {
  const { setup, item } = scene;
  const file = rootFile(setup);
  if (file === undefined) return [];
  const cable = (pair: readonly [{ readonly id: string }, { readonly id: string }]): Edit => append(file, `cable from ${pair[0].id} to ${pair[1].id}`, ["cable", "radio"]);
  for (const { name } of state.sound) {
    const desk = setup.devices.get(canonical(name));
    const pair = desk?.type === "mixer" ? portPair(setup, device, desk, "sound") : undefined;
    if (desk !== undefined && pair !== undefined) return [{ beside: "", edits: [cable(pair), ...channelFor(scene, desk, device, pair[1].id)] }];
  }
  const direct = wiredTo(setup, state.device, device) ? undefined : portPair(setup, device, state.device, "sound");
  if (direct === undefined && !wiredTo(setup, state.device, device)) return [];
  const others = state.sound.map((s) => s.name).filter((name) => canonical(name).split(".")[0] !== canonical(device.name));
  return [[], others].filter((with_, i) => i === 0 || with_.length > 0).map((with_) => ({
    beside: with_.length === 0 ? "" : `, and send ${list(with_)} as well`,
    edits: [...(direct === undefined ? [] : [cable(direct)]), ...replaceIn(setup, state, "sends", "sound", item, `sends sound from ${[...with_, device.name].join(" and ")}`)],
  }));
}

/** A channel for a microphone on a mixer whose settings are stated, and a place for it on the buses that hold what is named. */
function channelFor({ setup, item }: Scene, desk: Device, device: Device, port: string): Edit[] {
  const mixer = setup.mixers.get(canonical(desk.name));
  const file = mixer && fileOf(setup, mixer.where.path);
  const last = mixer?.channels.at(-1)?.statement;
  if (mixer === undefined || file === undefined || last === undefined) return [];
  const lineStart = file.text.lastIndexOf("\n", last.whole.start - 1) + 1;
  const indent = file.text.slice(lineStart, last.whole.start);
  const apart = indent.trim() === "" ? `${file.text[lineStart - 2] === "\r" ? "\r\n" : "\n"}${indent}` : ", ";
  const buses = mixer.buses.filter((bus) => holding(bus.statements, "holds", item).every((s) => s.negated || valuesOf(s, "channel", "name").every((n) => canonical(n.text) !== "all")));
  return [
    { path: mixer.where.path, start: last.whole.end, end: last.whole.end, newText: `${apart}channel ${device.name} from ${port}` },
    ...buses.map((bus) => insertInto(file, bus.statement, [`holds ${device.name}`])),
  ];
}
