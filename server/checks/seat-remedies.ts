/** What may mend what seats hear: a setting, an aim, a nearer place, something owned. The prover tells which of them help. */
import type { Device, Port } from "../model/device";
import { append, insertInto, rewrite, type Edit } from "../model/edits";
import { canonical } from "../model/names";
import { list } from "../model/show";
import type { Voice } from "../model/setup";
import { shelfOf, Trial } from "../model/trial";
import { acoustics } from "../signal/acoustics";
import { nearTalker } from "../signal/air";
import { node } from "../signal/edges";
import { wiresOf } from "../signal/loops/net";
import { levelsOf, loudestOf, ONLINE_SPEAKS, seatsOf, sourcesOf, type Speaking } from "../signal/seats/heard";
import { lateSeats } from "../signal/seats/late";
import { strongestAt } from "../signal/seats/levels";
import { SEAT_NOISE } from "../signal/seats/limits";
import { goTogether } from "../signal/wiring";
import { busesOn, fedBy, heldAt, heldIn, keptBack, turned, type BusOf } from "./bus-text";
import { fileOf, rootFile, type Remedy, type Scene } from "./check";
import { playElsewhere } from "./cover-remedies";
import { replaceIn } from "./join-text";
import { besideSeats, moved, standsAt } from "./loudspeaker-places";
import { freeOutlets } from "./outlets";

/** Of so many loudspeakers that play, the ones that matter to a seat are tried first; the others not at all. */
const MOST_TRIED = 3;

/** For seats that get too little of the people online: another aim, a nearer place, a second loudspeaker, another one. */
export function louderThere(scene: Scene, speaking: Speaking, group: string | undefined): Remedy[] {
  const short = softSeats(scene, speaking, group);
  return [...aimedAt(scene, short), ...nearer(scene, short), ...second(scene, short), ...playElsewhere(scene)];
}

/** For seats that hear it and do not understand: the same, since what comes straight is what counts. */
export const nearerTo = (scene: Scene, speaking: Speaking, group: string): Remedy[] => louderThere(scene, speaking, group);

interface Short {
  /** Places in `listeners`, and the group of the worst. */
  readonly seats: readonly number[];
  readonly group: string;
  /** The loudspeakers, those first that matter most to the worst seat. */
  readonly devices: readonly Device[];
}

/** The softer half of a group's seats, or of all. */
function softSeats(scene: Scene, speaking: Speaking, group: string | undefined): Short {
  const { setup, graph } = scene;
  const trial = best(scene);
  const levels = levelsOf(graph, speaking, "level", trial);
  const groups = setup.room.seats.map((seats) => seats.name).filter((name) => group === undefined || name === group);
  const all = groups.flatMap((name) => seatsOf(setup, trial, name).map((i) => ({ i, name, level: levels[i] ?? -Infinity }))).sort((a, b) => a.level - b.level);
  const sources = loudestOf(graph, trial);
  const worst = all[0];
  const first = worst === undefined ? undefined : strongestAt(sources, worst.i);
  const rest = sources.filter((source) => source !== first).sort((a, b) => (b.field.transfer[worst?.i ?? 0] ?? 0) - (a.field.transfer[worst?.i ?? 0] ?? 0));
  const devices = [...new Set([...(first === undefined ? [] : [first]), ...rest].flatMap((source) => source.ending?.device ?? []))];
  return { seats: all.slice(0, Math.ceil(all.length / 2)).map(({ i }) => i), group: worst?.name ?? "", devices: devices.slice(0, MOST_TRIED) };
}

const best = ({ setup }: Scene): Trial => new Trial(new Map(), shelfOf(setup));

/** A loudspeaker that stands by itself and is for nothing else: a display or a computer is not turned for its sound. */
const standsAlone = (device: Device): boolean => device.type === "loudspeaker" && device.placed !== undefined;

function aimedAt({ setup }: Scene, { devices, group }: Short): Remedy[] {
  return devices.filter(standsAlone).flatMap((device): Remedy[] => {
    const { placed } = device;
    const file = placed && fileOf(setup, placed.where.path);
    if (placed === undefined || file === undefined || group === "") return [];
    const aim = placed.children.find((child) => child.row.head === "aim");
    return [{ title: `Aim ${device.name} at ${group}`, edits: [aim === undefined ? insertInto(file, placed, [`aim ${group}`]) : rewrite(aim, `aim ${group}`)] }];
  });
}

function nearer({ setup }: Scene, { devices, seats }: Short): Remedy[] {
  return devices.filter(standsAlone).slice(0, 1).flatMap((device) => besideSeats(setup, seats, standsAt(setup, device)).flatMap((spot): Remedy[] => {
    const edits = moved(setup, device, spot);
    return edits.length === 0 ? [] : [{ title: `Stand ${device.name} ${spot.words}`, edits }];
  }));
}

/** A loudspeaker that is owned and plays nothing: beside the seats, on the same mix or the same computer. */
function second(scene: Scene, { seats }: Short): Remedy[] {
  const { setup, graph } = scene;
  const file = rootFile(setup);
  const [state] = graph.joins.filter((one) => one.plays.length > 0);
  const [playing] = loudestOf(graph, best(scene));
  if (file === undefined || state === undefined || playing === undefined) return [];
  const used = new Set(setup.links.flatMap((link) => [canonical(link.from), canonical(link.to)]));
  const plugged = (device: Device): boolean => [...used].some((end) => end === canonical(device.name) || end.startsWith(`${canonical(device.name)}.`));
  const idle = [...setup.devices.values()].filter((device) => device.type === "loudspeaker" && !plugged(device));
  const free = (port: Port): boolean => !used.has(canonical(port.id)) || port.connector === "bluetooth";
  return idle.slice(0, MOST_TRIED).flatMap((device): Remedy[] => {
    const [spot] = besideSeats(setup, seats, undefined);
    const stand: Edit[] = device.placed !== undefined ? [] : spot === undefined ? [] : [append(file, `place ${device.name} ${spot.text}`, ["place"])];
    if (device.placed === undefined && stand.length === 0) return [];
    const where = device.placed === undefined ? ` ${spot?.words ?? ""}` : "";
    const power = powered(scene, device, file);
    const bus = busesOn(scene, playing.path).findLast(() => true);
    const desk = bus && setup.devices.get(canonical(bus.mixer.device));
    if (bus !== undefined && desk !== undefined) {
      const owner = fileOf(setup, bus.mixer.where.path);
      const last = bus.bus.statement.values.get("to")?.at(-1);
      const pair = desk.ports.filter((port) => port.gives.has("sound") && free(port) && !port.connector.startsWith("usb") && !bus.mixer.buses.some((other) => other.ports.includes(canonical(port.id))))
        .flatMap((port) => device.ports.filter((into) => into.takes.has("sound") && goTogether(port, into, "cable")).map((into) => ({ port, into })))[0];
      if (owner === undefined || last === undefined || pair === undefined) return [];
      return [{
        title: `Feed ${device.name} from ${pair.port.id} too${where}`,
        edits: [...stand, ...power, { path: bus.bus.statement.where.path, start: last.end, end: last.end, newText: ` and ${pair.port.id}` }, append(file, `cable from ${pair.port.id} to ${pair.into.id}`, ["cable", "radio"])],
      }];
    }
    const names = [...new Set([...state.plays.map((sent) => sent.name), device.name])];
    return (["cable", "radio"] as const).flatMap((how) => {
      const pair = state.device.ports.filter((port) => port.gives.has("sound") && free(port))
        .flatMap((port) => device.ports.filter((into) => into.takes.has("sound") && goTogether(port, into, how)).map((into) => ({ port, into })))[0];
      return pair === undefined ? [] : [{
        title: `Play the call on ${device.name} too${where}`,
        edits: [...stand, ...power, append(file, `${how} from ${pair.port.id} to ${pair.into.id}`, ["cable", "radio"]), ...replaceIn(setup, state, "plays", "sound", scene.item, `plays sound on ${names.join(" and ")}`)],
      }];
    });
  });
}

/** Mains for what runs on nothing else. */
function powered(scene: Scene, device: Device, file: Parameters<typeof append>[0]): Edit[] {
  if (device.power.on.has("battery") || !device.power.on.has("mains") || scene.setup.mains.some((line) => canonical(line.to) === canonical(device.name))) return [];
  const [outlet] = freeOutlets(scene, device);
  return outlet === undefined ? [] : [append(file, `mains from ${outlet.name} to ${device.name}`, ["mains"])];
}

/** For a voice that the room hears too little of: its channel on the mix that feeds the room, or held louder there. */
export function amplify(scene: Scene, voices: readonly Voice[]): Remedy[] {
  const { setup, graph } = scene;
  const [voice] = voices;
  if (voice === undefined) return [];
  const trial = best(scene);
  const mics = [...graph.endings.values()].filter(({ part, device }) => part.type === "microphone" && voices.includes(nearTalker(setup, device, graph.voices, trial) ?? setup.lectern));
  const lacking = Math.ceil(SEAT_NOISE.hint - (Math.min(...levelsOf(graph, { who: "voice", voice, mouth: 0 }, "level", trial)) - acoustics(setup, trial).noise));
  return [...setup.mixers.values()].flatMap((mixer) => mixer.channels.filter((channel) => mics.some(({ part }) =>
    [...wiresOf(graph)(node("microphone", part.id)).keys()].some((end) => channel.ports.includes(canonical(end.slice(end.indexOf(":") + 1)))))).flatMap((channel) => mixer.buses.filter((bus) => fedBy(graph, bus).size > 0).flatMap((bus): Remedy[] => {
    const now = heldIn(scene, bus, channel.name);
    if (now === undefined) return [{ title: `Hold ${channel.name} on ${bus.name}`, edits: heldAt(scene, { mixer, bus }, channel.name, 0) }];
    const to = Math.min(0, now + Math.max(3, lacking));
    return to <= now ? [] : [{ title: `Hold ${channel.name} on ${bus.name} at ${to} dB`, edits: heldAt(scene, { mixer, bus }, channel.name, to) }];
  })));
}

/** For seats that get too much: the mix turned down by as much. */
export function softer(scene: Scene, speaking: Speaking, over: number): Remedy[] {
  const less = Math.ceil(over);
  if (!(less > 0)) return [];
  const sources = sourcesOf(scene.graph, speaking, best(scene));
  return each(sources.flatMap((source) => busesOn(scene, source.path))).flatMap((one): Remedy[] => {
    const edits = turned(scene, one, -less);
    return edits.length === 0 ? [] : [{ title: `Turn ${one.bus.name} down by ${less} dB`, edits }];
  });
}

const each = (all: readonly BusOf[]): BusOf[] => all.filter((one, i) => all.findIndex((other) => other.bus === one.bus) === i);

/** For two that come apart: the first kept back, a cable in place of radio, one of them alone. */
export function apartRemedies(scene: Scene, speaking: Speaking): Remedy[] {
  const { setup, graph } = scene;
  const trial = best(scene);
  const sources = sourcesOf(graph, speaking, trial);
  const late = lateSeats(sources, [...levelsOf(graph, speaking, "level", trial).keys()]);
  const worst = late.reduce<(typeof late)[number] | undefined>((a, b) => (a === undefined || b.gap > a.gap ? b : a), undefined);
  if (worst === undefined) return [];
  const { first, later, gap } = worst;
  const out: Remedy[] = [];
  const ms = 5 * Math.round((later.delay - first.delay > 0.02 ? later.delay - first.delay : gap) * 200);
  for (const one of busesOn(scene, first.path)) {
    const fed = fedBy(graph, one.bus);
    if (later.ending !== undefined && fed.has(canonical(later.ending.part.id))) continue;
    out.push({ title: `Keep ${one.bus.name} back by ${ms} ms`, edits: keptBack(scene, one, ms) });
  }
  out.push(...wired(scene, later.path.flatMap((edge) => (edge.via === "radio" ? edge.where ?? [] : []))));
  const state = graph.joins.find((one) => one.plays.length > 1);
  if (speaking === ONLINE_SPEAKS && state !== undefined) {
    for (const source of [later, first]) {
      const kept = state.plays.filter((sent) => !named(source.ending?.device, sent.name)).map((sent) => sent.name);
      if (kept.length > 0 && kept.length < state.plays.length) out.push({ title: `Play the call on ${list(kept)} alone`, edits: replaceIn(setup, state, "plays", "sound", scene.item, `plays sound on ${kept.join(" and ")}`) });
    }
  }
  return out;
}

const named = (device: Device | undefined, name: string): boolean => device !== undefined && (canonical(name) === canonical(device.name) || canonical(name).startsWith(`${canonical(device.name)}.`));

/** A cable in place of a radio link, where both ends have a port for it. */
function wired({ setup }: Scene, links: readonly { readonly path: string; readonly start: number }[]): Remedy[] {
  const used = new Set(setup.links.flatMap((link) => [canonical(link.from), canonical(link.to)]));
  return links.flatMap((where): Remedy[] => {
    const link = setup.links.find((one) => one.where.start === where.start && one.where.path === where.path);
    const ends = link === undefined ? [] : [link.from, link.to].map((end) => [...setup.devices.values()].find((device) => named(device, end)));
    const [a, b] = ends;
    if (link === undefined || a === undefined || b === undefined || setup.links.filter((one) => one.where === link.where).length > 1) return [];
    const free = (device: Device, way: "gives" | "takes"): Port[] => device.ports.filter((port) => port[way].has("sound") && !used.has(canonical(port.id)));
    const pair = free(a, "gives").flatMap((from) => free(b, "takes").filter((to) => goTogether(from, to, "cable")).map((to) => ({ from, to })))[0];
    return pair === undefined ? [] : [{ title: `Run a cable from ${pair.from.id} to ${pair.to.id} in place of radio`, edits: [{ path: link.where.path, start: link.where.start, end: link.where.end, newText: `cable from ${pair.from.id} to ${pair.to.id}` }] }];
  });
}
