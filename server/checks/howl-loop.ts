import { insertInto, rewrite, type Edit } from "../model/edits";
import { valueOf, valuesOf, type Bound } from "../model/bound";
import { holding } from "../model/during";
import type { Bus } from "../model/mixers";
import { canonical } from "../model/names";
import { figure, list } from "../model/show";
import type { Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { HOWLS_FROM, RINGS_ABOVE } from "../physics/howl";
import { nameOfNode } from "../signal/edges";
import { howlOf, type Howl, type Link } from "../signal/loops/howl";
import { mixerOf, monitorOf, netOf, type Net } from "../signal/loops/net";
import { mixCause, returnsOf } from "../signal/loops/returns";
import { deviceNamed, fileOf, type Case, type Check, type Outcome, type Remedy, type Scene } from "./check";
import { CROSSED, echoPath } from "./echo-path";
import { concerns, opinion } from "./observes";

export const howlLoop: Check = {
  entry: {
    code: "howl-loop", title: "It howls", severity: "error", group: "Echo and howl",
    notice: "A tone swells up from the loudspeakers by itself and does not stop until somebody turns something down.",
    why: "What a microphone picks up comes out of a loudspeaker, through the air back into a microphone, and round again. Where it comes back louder than it went, at any frequency, it grows. A room helps some frequencies by several decibels over the mean; each further open microphone adds to what goes round.",
    todo: [
      "Nearer to the microphone: half the distance is worth up to 6 dB.",
      "The loudspeaker farther from the microphone, and in front of it, so that it lies in the microphone's dead angle.",
      "Fewer microphones open at once, or a mixer that opens one at a time.",
      "The loudspeaker quieter.",
    ],
    source: "model choice: spectral radius of the mean power gains in each octave band from 250 Hz to 4 kHz, with a peak allowance after Schroeder 1954",
    symptoms: ["howling", "feedback", "whistling", "a tone that rises", "ringing", "squeal"],
    limit: "mean loop gain with the peaks of the room: 0 dB and above an error, above −6 dB a warning; through the call only the error, less is an echo",
  },
  cases: (scene) => (["local", "whole"] as const).flatMap((which): Case[] => {
    const net = netOf(scene.graph, which);
    if (net.places.length === 0 || net.outlets.length === 0) return [];
    // By wires in the room it is the room that suffers; through the call it is those online, too.
    return [{
      key: `${which} ${net.key} ${namesOf(scene.graph.voices)}`, ways: ["call"],
      measure: (trial) => measure(scene, which, trial), remedies: (outcome) => remedies(scene, which, outcome),
      observed: (seen) => (concerns(seen, namesIn(net)) ? opinion(seen, ["howl"]) : undefined),
    }];
  }),
};

/** Whatever may take part in what goes round. */
const namesIn = (net: Net): string[] => [
  ...net.places.flatMap((place) => [place.mic?.part.id ?? "", place.sends?.join.device ?? "", place.remote?.name ?? ""]),
  ...net.outlets.flatMap((outlet) => [outlet.speaker?.part.id ?? "", outlet.plays?.join.device ?? "", outlet.remote?.name ?? ""]),
];

/** Where the loops through the call add nothing to those in the room, they have nothing to say. */
const ADDS = 0.5;

function measure(scene: Scene, which: "local" | "whole", trial: Trial): Outcome | undefined {
  const howl = howlOf(scene.graph, which, trial);
  if (howl === undefined) return undefined;
  const over = howl.gain + howl.peak;
  if (which === "whole") {
    if (!howl.links.some((link) => link.call)) return undefined;
    const local = howlOf(scene.graph, "local", trial);
    if (local !== undefined && over < local.gain + local.peak + ADDS) return undefined;
  }
  const howls = over >= HOWLS_FROM;
  // A loop through the call that does not howl is a repeating echo, and echo-path says so.
  const severity = howls ? "error" : which === "local" && over > RINGS_ABOVE ? "warning" : undefined;
  const limit = howls || which === "whole" ? HOWLS_FROM : RINGS_ABOVE;
  const first = howl.links[0]?.from;
  return {
    severity, badness: over - limit, measured: { value: over, unit: "dB" }, limit: { value: limit, unit: "dB" },
    cause: { key: causeOf(scene, howl, which), subjects: subjectsOf(howl), where: first?.mic?.device.where ?? first?.remote?.where ?? first?.sends?.join.where ?? scene.setup.titleWhere },
    ...foldsUnder(scene, howl, which),
    say: () => ({
      because: `${roundIn(howl)} with ${figure(howl.gain)} dB in the mean at ${howl.band} Hz${howl.open > 1 ? `, ${howl.open} microphones open` : ""}, and the peaks of the room add ${figure(howl.peak)} dB`,
      effect: howls ? `it howls, ${figure(over)} dB over the limit` : `it rings, ${figure(-over)} dB below howling`,
      summary: severity === undefined ? `nothing howls: ${figure(-over)} dB below it` : `${roundIn(howl)}: it ${howls ? "howls" : "rings"}`,
      chain: [...howl.links.flatMap((link) => linkWords(scene, link, howl)), `all loops together ${figure(howl.gain)} dB; the peaks of the room ${figure(howl.peak)} dB; together ${figure(over)} dB, from ${HOWLS_FROM} dB on it howls, above ${RINGS_ABOVE} dB it rings`],
    }),
  };
}

/**
 * One root cause by the mixers through which it goes round, else by the loudspeakers that take part: which microphone and which
 * loudspeaker are the worst of them differs from item to item.
 */
function causeOf(scene: Scene, howl: Howl, which: "local" | "whole"): string {
  const remote = howl.links.find((link) => link.outlet.remote !== undefined)?.outlet.remote;
  if (remote !== undefined) return `howl ${canonical(remote.name)}`;
  if (which === "whole") return "howl between devices";
  const paths = howl.links.flatMap((link) => link.path);
  const mixers = new Set(paths.flatMap((edge) => mixerOf(scene.graph, edge) ?? []));
  if (mixers.size > 0 && !paths.some((edge) => monitorOf(edge) !== undefined)) return `howl ${[...mixers].sort().join(" ")}`;
  return `howl ${[...new Set(howl.links.flatMap((link) => (link.outlet.speaker === undefined ? [] : [canonical(link.outlet.speaker.device.name)])))].sort().join(" ")}`;
}

/** What rings is but what comes of a return left on a bus, of monitoring, of a second device, of a room that cancels nothing. */
function foldsUnder(scene: Scene, howl: Howl, which: "local" | "whole"): { readonly foldUnder?: string } {
  const monitored = howl.links.flatMap((link) => link.path.flatMap((edge) => monitorOf(edge) ?? []))[0];
  if (monitored !== undefined) return { foldUnder: `monitor ${canonical(monitored)}` };
  if (which === "local") return {};
  const wired = howl.links.find((link) => link.to.mic === undefined && link.to.remote === undefined);
  const mix = returnsOf(scene.graph).find((one) => one.plays === wired?.outlet.plays && one.sends === wired.to.sends);
  if (mix !== undefined) return { foldUnder: mixCause(mix) };
  const remote = howl.links.find((link) => link.outlet.remote !== undefined)?.outlet.remote;
  return { foldUnder: remote === undefined ? CROSSED : `echo ${canonical(remote.name)}` };
}

/** A microphone picks up, the wire into a join and another room send. */
const does = (link: Link): string => (link.from.mic === undefined ? "sends" : "picks up");
const nameOf = (link: Link): string => link.from.mic?.part.id ?? link.from.remote?.name ?? link.from.sends?.join.device ?? "";
const outletOf = (link: Link): string => link.outlet.speaker?.part.id ?? link.outlet.remote?.name ?? link.outlet.plays?.join.device ?? "";

function roundIn(howl: Howl): string {
  const [first] = howl.links;
  if (first === undefined) return "nothing goes round";
  if (howl.links.length === 1) return `what ${nameOf(first)} ${does(first)} comes back to it from ${outletOf(first)}`;
  return `what ${nameOf(first)} ${does(first)} goes round by ${list([...new Set(howl.links.flatMap((link) => [outletOf(link), link.to.mic?.part.id ?? link.to.remote?.name ?? ""]))].filter((name) => name !== "" && name !== nameOf(first)), 4)}`;
}

const subjectsOf = (howl: Howl): string[] => [...new Set(howl.links.flatMap((link) => [
  link.from.mic?.device.name ?? link.from.remote?.name ?? link.from.sends?.join.device ?? "", link.outlet.speaker?.device.name ?? link.outlet.remote?.name ?? link.outlet.plays?.join.device ?? "",
]))].filter((name) => name !== "");

/** A link in words: by what it gets to the loudspeaker, through how much air it gets back, each with its dB. */
function linkWords(scene: Scene, link: Link, howl: Howl): string[] {
  const by = [...new Set(link.path.flatMap((edge) => {
    const mixer = mixerOf(scene.graph, edge);
    if (mixer !== undefined) return [deviceNamed(scene.setup, mixer)?.name ?? mixer];
    const monitored = monitorOf(edge);
    return monitored === undefined ? [] : [`the monitoring of ${monitored}`];
  }))];
  const through = [...by, ...(link.call ? ["the call"] : [])];
  const here = link.to.mic?.part.id ?? link.to.remote?.name ?? link.to.sends?.join.device ?? "";
  return [
    `${nameOf(link)} to ${outletOf(link)}${through.length === 0 ? "" : ` through ${list(through, 4)}`}: ${figure(link.wired)} dB`,
    `${outletOf(link)} to ${here}${link.metres === undefined ? "" : ` through ${figure(link.metres)} m of air`}: ${figure(link.air)} dB${link.metres === undefined ? "" : ` at ${howl.band} Hz, beside the voice that it is turned up for`}`,
  ];
}

/** Settings alone: quieter by as much as it takes, fewer open, off the bus; a second device silent. */
function remedies(scene: Scene, which: "local" | "whole", outcome: Outcome): Remedy[] {
  if (which === "whole") return [...(echoPath.cases(scene).find((one) => one.remedies !== undefined)?.remedies?.(outcome) ?? [])];
  const { setup, graph } = scene;
  const over = (outcome.measured?.value ?? 0) - RINGS_ABOVE;
  const net = netOf(graph, "local");
  const out: Remedy[] = [];
  const byName = outcome.cause.subjects.map(canonical);
  for (const mixer of setup.mixers.values()) {
    const file = fileOf(setup, mixer.where.path);
    const statement = mixer.channels[0]?.statement ?? mixer.buses[0]?.statement;
    if (file === undefined || statement === undefined) continue;
    const inside = net.places.flatMap((place) => net.outlets.flatMap((outlet) => net.way(place, outlet)?.path.flatMap((edge) => (mixerOf(graph, edge) === canonical(mixer.device) ? [{ place, outlet, edge }] : [])) ?? []));
    if (inside.length === 0) continue;
    const channels = mixer.channels.filter((channel) => inside.some(({ place, edge }) => channel.ports.includes(canonical(nameOfNode(edge.from))) && byName.includes(canonical(place.mic?.device.name ?? ""))));
    const feedsOneOf = (bus: Bus, ways: typeof inside): boolean => ways.some(({ edge }) => bus.ports.includes(canonical(nameOfNode(edge.to))));
    // What the loudspeakers of the loudest loop play comes first.
    const loud = inside.filter(({ outlet }) => byName.includes(canonical(outlet.speaker?.device.name ?? "")));
    const buses = mixer.buses.filter((bus) => feedsOneOf(bus, inside)).sort((a, b) => Number(feedsOneOf(b, loud)) - Number(feedsOneOf(a, loud)));
    if (new Set(inside.map(({ place }) => place.mic)).size > 1 && !mixer.automatic) {
      out.push({ title: `Let ${mixer.device} open one microphone at a time`, edits: [{ path: mixer.where.path, start: statement.whole.start, end: statement.whole.start, newText: before(file.text, statement) }] });
    }
    const less = Math.ceil(over);
    const held = (bus: Bus): readonly Bound[] => holding(bus.statements, "holds", scene.item).filter((s) => !s.negated);
    const down = (bus: Bus): readonly Edit[] => held(bus)
      .map((s) => rewrite(s, `holds ${valuesOf(s, "channel", "name").map((n) => n.text).join(" and ")} at ${figure((valueOf(s, "gain", "quantity")?.best ?? 0) - less)} dB${duringOf(s)}`));
    if (less > 0 && buses.length > 1) {
      const edits = buses.flatMap(down);
      if (edits.length > 0) out.push({ title: `Turn ${list(buses.map((bus) => bus.name), 3)} down by ${less} dB`, edits });
    }
    for (const bus of buses) {
      const edits = less > 0 ? down(bus) : [];
      if (edits.length > 0) out.push({ title: `Turn ${bus.name} down by ${less} dB`, edits });
      for (const channel of channels) {
        const own = held(bus).findLast((s) => valuesOf(s, "channel", "name").map((n) => canonical(n.text)).join() === canonical(channel.name));
        const edit = own === undefined ? insertInto(file, bus.statement, [`holds no ${channel.name}`]) : rewrite(own, `holds no ${channel.name}${duringOf(own)}`);
        out.push({ title: `Take ${channel.name} off ${bus.name}`, edits: [edit] });
      }
    }
  }
  return out;
}

/** A line of its own before a statement that has one, else words before it. */
function before(text: string, statement: Bound): string {
  const lineStart = text.lastIndexOf("\n", statement.whole.start - 1) + 1;
  const indent = text.slice(lineStart, statement.whole.start);
  // As the line before it ends.
  const eol = text[lineStart - 2] === "\r" ? "\r\n" : "\n";
  return indent.trim() === "" ? `automatic${eol}${indent}` : "automatic, ";
}

const duringOf = (s: Bound): string => (s.tails.during.length === 0 ? "" : ` during ${s.tails.during.map((n) => n.text).join(" and ")}`);
