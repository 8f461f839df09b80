/** What brings a voice nearer to the call: another microphone, fewer open, one moved or aimed, one that is worn, or somebody who repeats. */
import { holding } from "../model/during";
import { insertInto, remove, rewrite, type Edit } from "../model/edits";
import { valueOf } from "../model/bound";
import { canonical } from "../model/names";
import { list } from "../model/show";
import type { Voice } from "../model/setup";
import { Trial } from "../model/trial";
import { called } from "../signal/coverage";
import { nameOfNode, node } from "../signal/edges";
import type { Ending } from "../signal/graph";
import { mixerOf, wiresOf } from "../signal/loops/net";
import { hearings, margin, type Hearing } from "../signal/pick-up/hearing";
import { liveMics, micsOf, sentBy } from "../signal/pick-up/mics";
import { positionOf } from "../signal/stands";
import { mouths } from "../signal/air";
import { fileOf, type Remedy, type Scene } from "./check";
import { replaceIn } from "./join-text";
import { passRound, wear } from "./pick-up-owned";
import { pickUpOf, type Kind, type PickUp } from "./pick-up-causes";

/** Nearer than this to a chair, a stand would be among the chairs, m. Common practice, no source. */
const AMONG_CHAIRS = 0.7;

/** What may mend a pick-up that falls short, cheapest first. */
export function nearer(scene: Scene, voice: Voice, kind: Kind): Remedy[] {
  const p = pickUpOf(scene.graph, voice, new Trial());
  if (p === undefined) return [];
  return [
    ...faceAudience(scene, voice), ...(kind === "far" ? [] : fewerOpen(scene, p)), ...sendAnother(scene, voice), ...repeated(scene, voice),
    ...aimed(scene, p), ...pattern(scene, p), ...moved(scene, p), ...wear(scene, voice), ...passRound(scene, voice),
  ];
}

/** A microphone that stands there, is connected and hears the voice better than what is sent: in place of that, else beside it. */
export function sendAnother(scene: Scene, voice: Voice): Remedy[] {
  const { setup, graph, item } = scene;
  const trial = new Trial();
  const now = pickUpOf(graph, voice, trial)?.hearing;
  const live = new Set(liveMics(graph, trial).map((m) => m.ending));
  return graph.joins.filter((state) => state.sound.length > 0).slice(0, 1).flatMap((state) => {
    const ports = state.device.ports.map((port) => node("port-in", port.id));
    const wired = (mic: Ending): boolean => mic.device === state.device || ports.some((port) => wiresOf(graph)(node("microphone", mic.part.id)).has(port));
    const found = [...graph.endings.values()].filter((mic) => mic.part.type === "microphone" && !live.has(mic) && mic.device.placed !== undefined && wired(mic));
    const heard = found.map((mic) => ({ mic, is: hearingThrough(scene, voice, mic, trial) }))
      .filter(({ is }) => is !== undefined && (now === undefined || margin(is) > margin(now))).sort((a, b) => (b.is === undefined || a.is === undefined ? 0 : margin(b.is) - margin(a.is)));
    return heard.slice(0, 2).flatMap(({ mic }): Remedy[] => {
      const name = mic.device === state.device ? mic.part.id : mic.device.name;
      const send = (names: readonly string[]): readonly Edit[] => replaceIn(setup, state, "sends", "sound", item, `sends sound from ${names.join(" and ")}`);
      return [{ title: `Send the sound of ${name}`, edits: send([name]) }, { title: `Send the sound of ${name} too, for ${called(voice.name)}`, edits: send([...state.sound.map((s) => s.name), name]) }];
    });
  });
}

/** Takes back that somebody looks away from the seats, and so from what stands before them. */
export function faceAudience({ setup, item }: Scene, voice: Voice): Remedy[] {
  const faces = holding(voice.statements, "faces", item).find((s) => !s.negated);
  const file = faces && fileOf(setup, faces.where.path);
  return faces === undefined || file === undefined ? [] : [{ title: `Let ${voice.name} face the audience`, edits: [remove(file, faces)] }];
}

/** How a microphone that is not sent would hear somebody, alone; of seats the one that it hears worst. */
function hearingThrough({ graph }: Scene, voice: Voice, mic: Ending, trial: Trial): Hearing | undefined {
  const alone = [{ ending: mic, path: [], gaps: 0 }];
  if (voice.seats === undefined) return hearings(graph, voice, alone, trial)[0]?.[0];
  const seats = mouths(graph.setup, voice, trial).map((_, i) => i);
  return seats.length === 0 ? undefined : hearings(graph, voice, alone, trial).map(([one]) => one).reduce((a, b) => (a === undefined || (b !== undefined && margin(b) < margin(a)) ? b : a), undefined as Hearing | undefined);
}

/** One at a time, or without those into which nobody speaks. */
function fewerOpen(scene: Scene, p: PickUp): Remedy[] {
  return p.hearing.open < 2 ? [] : [...automatic(scene), ...closed(scene, p)];
}

/** Lets the mixers on the way open one channel at a time. */
export function automatic({ graph, setup }: Scene): Remedy[] {
  const on = new Set(micsOf(graph).flatMap((m) => m.path.flatMap((edge) => mixerOf(graph, edge) ?? [])));
  return [...on].flatMap((name): Remedy[] => {
    const mixer = setup.mixers.get(name);
    const file = mixer && fileOf(setup, mixer.where.path);
    const statement = file?.statements.find((s) => s.where === mixer?.where);
    return mixer === undefined || file === undefined || statement === undefined || mixer.automatic ? [] : [{ title: `Let ${mixer.device} mix automatically`, edits: [insertInto(file, statement, ["automatic"])] }];
  });
}

/** Closes the microphones that are open along with one and hear nobody best. */
function closed(scene: Scene, { hearing }: PickUp): Remedy[] {
  const { graph, setup, item } = scene;
  const trial = new Trial();
  const live = liveMics(graph, trial);
  const wanted = new Set(graph.voices.flatMap((voice) => {
    const p = pickUpOf(graph, voice, trial);
    return p === undefined ? [] : [p.hearing.mic, ...(p.repeated === undefined ? [] : [p.repeated.home.mic]), ...(p.seats?.seats.map((seat) => seat.mic) ?? [])];
  }));
  const own = live.find((m) => m.ending === hearing.mic);
  const needless = own === undefined ? [] : live.filter((m) => !wanted.has(m.ending) && sentBy(m) === sentBy(own));
  const state = graph.joins.find((j) => own !== undefined && canonical(j.join.device) === canonical(sentBy(own)));
  if (needless.length === 0 || state === undefined) return [];
  const named = (name: string): boolean => needless.some((m) => canonical(m.ending.device.name) === canonical(name) || canonical(m.ending.part.id) === canonical(name));
  const edits: Edit[] = [];
  const left = state.sound.map((s) => s.name).filter((name) => !named(name));
  if (left.length > 0 && left.length < state.sound.length) edits.push(...replaceIn(setup, state, "sends", "sound", item, `sends sound from ${left.join(" and ")}`));
  for (const mixer of setup.mixers.values()) {
    const file = fileOf(setup, mixer.where.path);
    const inside = needless.flatMap((m) => m.path.filter((edge) => mixerOf(graph, edge) === canonical(mixer.device)));
    for (const bus of mixer.buses) {
      const channels = mixer.channels.filter((channel) => inside.some((edge) => channel.ports.includes(canonical(nameOfNode(edge.from))) && bus.ports.includes(canonical(nameOfNode(edge.to)))));
      if (file !== undefined && channels.length > 0) edits.push(insertInto(file, bus.statement, [`holds no ${channels.map((channel) => channel.name).join(" and ")}`]));
    }
  }
  return edits.length === 0 ? [] : [{ title: `Close ${list(needless.map((m) => m.ending.device.name))}, into which nobody speaks`, edits }];
}

/** Somebody with a microphone says again what the seats say. */
function repeated({ setup, item }: Scene, voice: Voice): Remedy[] {
  if (voice.seats === undefined) return [];
  return [...setup.voices.values()].filter((v) => v.stated && v.seats === undefined && v.where !== undefined && !/^talker-\d+$/.test(v.name)).slice(0, 2).flatMap((other): Remedy[] => {
    const file = fileOf(setup, other.where?.path ?? "");
    const statement = file?.statements.find((s) => s.where === other.where);
    if (file === undefined || statement === undefined) return [];
    return [{ title: `Let ${other.name} repeat what ${voice.name} says`, edits: [insertInto(file, statement, [`repeats ${voice.name}${item === undefined ? "" : ` during ${item}`}`])] }];
  });
}

/** Turns a microphone that hears from one side toward the voice. */
function aimed({ setup }: Scene, { hearing: { mic: { device, part } }, voice }: PickUp): Remedy[] {
  const file = device.placed && fileOf(setup, device.placed.where.path);
  if (device.type !== "microphone" || part.pattern === "omni" || device.placed === undefined || file === undefined || device.ring !== undefined || positionOf(setup, device).held !== undefined || !named(voice)) return [];
  const aim = device.placed.children.find((c) => c.row.head === "aim");
  if (canonical(device.aim?.words ?? "") === canonical(voice.name)) return [];
  return [{ title: `Aim ${device.name} at ${voice.name}`, edits: [aim === undefined ? insertInto(file, device.placed, [`aim ${voice.name}`]) : rewrite(aim, `aim ${voice.name}`)] }];
}

/** Narrows what was set to hear from all sides this evening; whether it has that switch is for its owner to know. */
function pattern(_: Scene, { hearing: { mic: { device } } }: PickUp): Remedy[] {
  const set = device.placed?.children.find((c) => c.row.head === "pattern" && valueOf(c, "pattern", "word")?.word === "omni");
  return set === undefined || device.ring !== undefined ? [] : [{ title: `Set ${device.name} to cardioid`, edits: [rewrite(set, "pattern cardioid")] }];
}

/** Brings a microphone to a talker who stays in one place, and not in among the chairs. */
function moved({ setup, graph }: Scene, { hearing: { mic: { device, part } }, voice }: PickUp): Remedy[] {
  const { placed, place } = device;
  if (placed === undefined || place === undefined || device.ring !== undefined || positionOf(setup, device).held !== undefined || voice.seats !== undefined || voice.walks !== undefined || !named(voice)) return [];
  const trial = new Trial();
  const at = voice.position.at(trial);
  const among = setup.room.seats.some((group) => setup.floor.seats(group, trial).some((seat) => Math.hypot(seat.at.x - at.x, seat.at.y - at.y) < AMONG_CHAIRS));
  if (among || !(device.type === "microphone" || device.type === "speakerphone" || graph.joins.some((j) => j.device === device))) return [];
  const stands = device.type === "microphone" && part.mouth !== undefined;
  const where = voice.stated ? voice.name : "lectern";
  return [{ title: stands ? `Set ${device.name} up at ${where}` : `Move ${device.name} beside ${where}`, edits: [{ path: placed.where.path, start: place.start, end: place.end, newText: `${stands ? "at" : "beside"} ${where}` }] }];
}

/** Whether the text can call the voice by its name. */
const named = (voice: Voice): boolean => voice.stated || voice.seats !== undefined;
