/** What a name stands for, with its key figures, where each comes from, and what was computed from them. */
import { CONNECTOR_TYPES, DEVICE_TYPES, SPOTS } from "../../grammar/vocabulary";
import type { Figure } from "../finding";
import { valueOf } from "../model/bound";
import type { Device, Part, Port } from "../model/device";
import { canonical, KIND_WORDS, type Named } from "../model/names";
import type { Ranged } from "../model/ranged";
import { typicalKinds } from "../model/setup";
import { amount, list, narrowedBy, withUnit } from "../model/show";
import { loadWords } from "../signal/circuits";
import type { Asked } from "./asked";
import { deviceOf } from "./names";

/** Figures shown in one hover; the command line lists all. */
const MOST_FIGURES = 8;

/** The words for a name, in Markdown. */
export function aboutName(asked: Asked, named: Named): string {
  const { setup } = asked;
  const given = givenIn(asked);
  const parts = [`**${named.name}** – ${KIND_WORDS[named.kind]}`];
  const lines: string[] = [];
  switch (named.kind) {
    case "device": {
      const device = setup.devices.get(canonical(named.name));
      if (device !== undefined) {
        parts[0] = `**${named.name}** – ${device.kind}${device.owner === undefined ? "" : `, of ${device.owner}`}`;
        lines.push(...deviceLines(asked, device));
      }
      break;
    }
    case "port": case "part": {
      const device = setup.devices.get(canonical(deviceOf(setup, named.name) ?? ""));
      const port = device?.ports.find((one) => canonical(one.id) === canonical(named.name));
      const part = device?.parts.find((one) => canonical(one.id) === canonical(named.name));
      if (port !== undefined) lines.push(...portLines(asked, port));
      if (part !== undefined) lines.push(...partLines(asked, part));
      break;
    }
    case "room": {
      const { room } = setup;
      if (canonical(room.name) === canonical(named.name)) {
        lines.push(...[room.length, room.width, room.height, room.noise, ...(room.reverberation === undefined ? [] : [room.reverberation])].map(given));
      }
      break;
    }
    case "talker": case "seats": {
      const seats = setup.room.seats.find((one) => canonical(one.name) === canonical(named.name));
      if (seats !== undefined) lines.push(`${seats.count} seats in ${seats.rows} ${seats.rows === 1 ? "row" : "rows"}`, given(seats.pitch), given(seats.spacing));
      const voice = setup.voices.get(canonical(named.name));
      if (voice !== undefined) lines.push(given(voice.level));
      break;
    }
    case "internet": {
      const internet = setup.internets.find((one) => canonical(one.name) === canonical(named.name));
      for (const value of [internet?.up, internet?.down, internet?.roundTrip]) if (value !== undefined) lines.push(given(value));
      if (internet?.reach !== undefined) lines.push(internet.reach);
      break;
    }
    case "remote-room": {
      const remote = setup.remoteRooms.find((one) => canonical(one.name) === canonical(named.name));
      if (remote?.people !== undefined) lines.push(given(remote.people));
      if (remote !== undefined) lines.push(remote.cancels === undefined ? "whether it cancels echo is not said" : remote.cancels ? "cancels echo" : "cancels no echo");
      break;
    }
    case "item": {
      const item = setup.items.find((one) => canonical(one.name) === canonical(named.name));
      if (item?.from !== undefined) lines.push(`from ${clock(item.from)}${item.to === undefined ? "" : ` to ${clock(item.to)}`}`);
      if (item !== undefined && item.talkers.length > 0) lines.push(`speaks: ${item.talkers.join(", ")}`);
      break;
    }
    case "kind": {
      const typical = named.where === undefined ? typicalKinds().find((kind) => canonical(valueOf(kind, "name", "name")?.text ?? "") === canonical(named.name)) : undefined;
      const type = typical && valueOf(typical, "type", "word")?.word;
      if (type !== undefined) lines.push(`typical equipment: a ${type}, ${DEVICE_TYPES[type] ?? ""}`);
      break;
    }
    case "outlet": {
      const outlet = setup.room.outlets.get(canonical(named.name));
      if (outlet?.sockets !== undefined) lines.push(given(outlet.sockets));
      const fed = setup.mains.filter((link) => canonical(link.from) === canonical(named.name)).map((link) => link.to);
      if (fed.length > 0) lines.push(`feeds ${list(fed, 6)}`);
      lines.push(...loadWords(setup, "outlet", named.name));
      break;
    }
    case "circuit": {
      const circuit = setup.room.circuits.get(canonical(named.name));
      if (circuit !== undefined) lines.push(...[circuit.rated, circuit.draws].flatMap((value) => (value === undefined ? [] : [given(value)])));
      lines.push(...loadWords(setup, "circuit", named.name));
      break;
    }
    case "surface": {
      const surface = setup.room.surfaces.get(canonical(named.name));
      if (surface !== undefined) lines.push(given(surface.width));
      break;
    }
    case "table": {
      const table = setup.room.tables.get(canonical(named.name));
      if (table !== undefined) lines.push(given(table.length), given(table.width));
      break;
    }
    case "spot": case "channel": case "bus": case "area": case "door": case "window": case "column": break;
  }
  const usual = SPOTS[named.name];
  if (usual !== undefined && named.where === undefined) lines.push(usual);
  if (named.where !== undefined && named.where.path !== asked.path) lines.push(`stated in ${named.where.path}`);
  if (lines.length > 0) parts.push(lines.map((line) => `- ${line}`).join("\n"));
  const computed = figuresOf(asked, named.name);
  if (computed.length > 0) parts.push(`**Computed**\n\n${computed.join("\n")}`);
  return parts.join("\n\n");
}

const clock = (minutes: number): string => `${String(Math.floor(minutes / 60) % 24).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;

/** A value with its range and where it comes from. */
export function given(value: Ranged): string {
  const range = value.low < value.high ? ` (${amount(value.low, value.dimension)} to ${amount(value.high, value.dimension)})` : "";
  return `${value.label}: ${amount(value.best, value.dimension)}${range} – ${provenance(value)}${narrowedBy(value)}`;
}

/** The same with what was noticed on the evening taken off the ranges; a text without such statements need not be studied for it. */
function givenIn(asked: Asked): (value: Ranged) => string {
  const narrowed = asked.setup.isSetup && asked.setup.observations.length > 0 ? asked.study().narrowed : undefined;
  return (value) => given(narrowed?.get(value.id) ?? value);
}

function provenance({ from }: Ranged): string {
  const source = from.source === undefined ? "" : `, ${from.source}`;
  switch (from.how) {
    case "stated": return `stated${source}`;
    case "measured": return `measured${from.when === undefined ? "" : ` ${from.when}`}${source}`;
    case "guessed": return `guessed by the author${source}`;
    case "kind": return `assumed, typical of its kind${source}`;
    case "assumed": return `assumed${source}`;
    case "unsaid": return `the text does not say${source}`;
  }
}

function deviceLines(asked: Asked, device: Device): string[] {
  const { setup, path } = asked;
  const given = givenIn(asked);
  const { power } = device;
  const lines: string[] = [];
  if (device.place !== undefined) lines.push(device.place.words);
  else if (device.placed === undefined) lines.push("owned, not placed");
  if (power.on.size > 0) lines.push(`runs on ${[...power.on].join(" or ")}`);
  for (const value of [power.draws, power.battery, power.life, device.sockets, device.length, device.height]) if (value !== undefined) lines.push(given(value));
  for (const part of device.parts) if (part.id === device.name) lines.push(...partLines(asked, part));
  const short = (id: string): string => id.slice(device.name.length + 1);
  const parts = device.parts.filter((part) => part.id !== device.name).map((part) => `${short(part.id)} (${part.type})`);
  if (parts.length > 0) lines.push(`parts: ${parts.join(", ")}`);
  if (device.ports.length > 0) lines.push(`ports: ${list(device.ports.map((port) => (port.name === port.connector ? port.name : `${port.name} (${port.connector})`)), 14)}`);
  if (device.cancels) lines.push("has an echo canceller of its own");
  const join = setup.joins.find((one) => canonical(one.device) === canonical(device.name));
  if (join !== undefined) lines.push("joins the call");
  const { where } = device;
  if (where.path !== path && device.placed !== undefined) lines.push(`placed in ${where.path}`);
  return lines;
}

function portLines(asked: Asked, port: Port): string[] {
  const { setup } = asked;
  const given = givenIn(asked);
  const ends = setup.links.filter((link) => [link.from, link.to].some((end) => canonical(end) === canonical(port.id)));
  return [
    CONNECTOR_TYPES[port.connector]?.meaning ?? port.connector,
    ...(port.gives.size > 0 ? [`gives ${[...port.gives].join(", ")}`] : []), ...(port.takes.size > 0 ? [`takes ${[...port.takes].join(", ")}`] : []),
    ...(port.givesPower === undefined ? [] : [given(port.givesPower)]), ...(port.delay === undefined ? [] : [given(port.delay)]), ...(port.phantom ? ["can feed a microphone with 48 V"] : []),
    ...ends.map((link) => `${link.how} to ${canonical(link.from) === canonical(port.id) ? link.to : link.from}`),
    ...(ends.length === 0 ? ["nothing is plugged in"] : []),
  ];
}

function partLines(asked: Asked, part: Part): string[] {
  const given = givenIn(asked);
  return [
    ...(part.type === "microphone" ? [`picks up: ${part.pattern}`] : []),
    ...[part.mouth, part.speechLevel, part.view, part.diagonal, part.width, part.delay].flatMap((value) => (value === undefined ? [] : [given(value)])),
  ];
}

/** What was computed of a thing: each figure with its formula, what went in and the source; octave bands in one line. */
function figuresOf(asked: Asked, name: string): string[] {
  if (!asked.setup.isSetup) return [];
  const own = asked.study().figures().filter((figure) => figure.of.some((of) => canonical(of) === canonical(name) || canonical(of).startsWith(`${canonical(name)}.`)));
  const groups = new Map<string, Figure[]>();
  for (const figure of own) {
    const key = [figure.name, figure.of.join(" "), figure.at ?? "", figure.item ?? ""].join("|");
    groups.set(key, [...(groups.get(key) ?? []), figure]);
  }
  const lines = [...groups.values()].slice(0, MOST_FIGURES).map((group) => worked(group, name));
  return groups.size > MOST_FIGURES ? [...lines, `- … and ${groups.size - MOST_FIGURES} more: \`bothways figures\` lists them`] : lines;
}

function worked(group: readonly Figure[], name: string): string {
  const [first] = group;
  if (first === undefined) return "";
  const others = first.of.filter((of) => canonical(of) !== canonical(name));
  const of = others.length === 0 ? "" : ` (${others.join(", ")})`;
  const at = first.at === undefined ? "" : ` at ${first.at}`;
  const during = first.item === undefined ? "" : ` during ${first.item}`;
  const value = group.length === 1 && first.band === undefined ? withUnit(first.value, first.unit)
    : `${group.map((figure) => `${hertz(figure.band)} ${withUnit(figure.value, "")}`).join(", ")}${first.unit === "" ? "" : ` (${first.unit})`}`;
  const inputs = first.inputs.map((input) => `${input.name} ${withUnit(input.value, input.unit)}${input.assumed === true ? input.narrowed === undefined ? " (assumed)" : ` (assumed, narrowed by “${input.narrowed}”)` : ""}`);
  return `- ${first.name}${of}${at}${during}: **${value}**\n  \`${first.formula}\`${inputs.length === 0 ? "" : ` · from ${inputs.slice(0, 5).join(", ")}${inputs.length > 5 ? " …" : ""}`} · ${first.source}`;
}

const hertz = (band: number | undefined): string => (band === undefined ? "" : band >= 1000 ? `${band / 1000} kHz` : `${band} Hz`);
