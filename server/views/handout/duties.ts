/** Who does what: what each owner brings, what each joined device is set to, who speaks. Only what the text says. */
import { holding } from "../../model/during";
import { valueOf, valuesOf, type Bound } from "../../model/bound";
import { canonical } from "../../model/names";
import { figure, list } from "../../model/show";
import type { Mixer, Setup } from "../../model/setup";
import { callState, type JoinState } from "../../signal/call-state";
import { modeWords } from "../../signal/streams";
import type { Numbered } from "./order";
import { aimWords } from "./place-words";

/** A thing to do or to set, and the items of the programme for which it holds; none where it holds throughout. */
export interface Duty {
  readonly text: string;
  readonly items: readonly string[];
}

/** What holds in which items: what holds in all of them first, without naming them. */
export function together(setup: Setup, of: (item: string | undefined) => readonly string[]): Duty[] {
  const items: readonly (string | undefined)[] = setup.items.length === 0 ? [undefined] : setup.items.map((item) => item.name);
  const found = new Map<string, string[]>();
  for (const item of items) for (const text of of(item)) found.set(text, [...(found.get(text) ?? []), item ?? ""]);
  const duties = [...found].map(([text, within]): Duty => ({ text, items: within.length === items.length ? [] : within }));
  const keys = [...new Set(duties.map((d) => d.items.join("\n")))].sort((a, b) => Number(a !== "") - Number(b !== ""));
  return keys.flatMap((key) => duties.filter((d) => d.items.join("\n") === key));
}

/** What a joined device is set to. */
export function joinDuties(setup: Setup, device: string): Duty[] {
  return together(setup, (item) => {
    const state = callState(setup, item).find((s) => canonical(s.join.device) === canonical(device));
    return state === undefined ? [] : settings(setup, state, item);
  });
}

function settings(setup: Setup, state: JoinState, item: string | undefined): string[] {
  const names = (sent: readonly { readonly name: string }[]): string => list([...new Set(sent.map((s) => s.name))], 6);
  const switched = (head: string, what: string): string[] => {
    const last = holding(state.join.statements, head, item).at(-1);
    return last === undefined ? [] : [`${what} ${last.negated ? "off" : "on"}`];
  };
  // What a screen shows by itself is nothing that anybody has to set.
  const shows = state.shows.filter((s) => !s.assumed);
  const shown = (what: string): string => names(shows.filter((s) => s.what === what));
  return [
    state.sound.length === 0 ? "microphone off" : `sends the sound of ${names(state.sound)}`,
    ...(state.pictures.length === 0 ? ["sends no picture"] : state.pictures.map((p) => `sends the picture of ${p.name} at ${modeWords(p)}`)),
    state.plays.length === 0 ? "sound off" : `plays the people online on ${names(state.plays)}`,
    ...(["call", "slides", "video"] as const).filter((what) => shows.some((s) => s.what === what))
      .map((what) => `shows ${{ call: "the people online", slides: "the slides", video: "the video" }[what]} on ${shown(what)}`),
    ...holding(state.join.statements, "receives", item).flatMap((s): string[] => {
      const mode = valueOf(s, "mode", "mode");
      return mode === undefined ? [] : [`takes in ${valueOf(s, "what", "word")?.word === "content" ? "what is presented online" : "faces"} at ${modeWords(mode)} at most`];
    }),
    ...switched("cancels", "echo cancellation"),
    ...switched("suppresses", "noise suppression"),
    ...(state.join.over === undefined || setup.internets.length < 2 ? [] : [`joins over ${state.join.over}`]),
  ];
}

/** How a mixer is set: strips from the left, then what each output holds. */
export function mixerDuties(setup: Setup, mixer: Mixer): Duty[] {
  const local = (port: string): string => (canonical(port).startsWith(`${canonical(mixer.device)}.`) ? port.slice(mixer.device.length + 1) : port);
  const ports = (of: readonly string[]): string => list(of.map(local), 8);
  const phantom = phantomOf(setup, mixer);
  const strips = mixer.channels.map((channel): string => {
    const more = [channel.trim === 0 ? "" : `${figure(channel.trim)} dB`, phantom.has(canonical(channel.name)) ? "48 V on" : ""].filter((word) => word !== "");
    return `${channel.name} from ${ports(channel.ports)}${more.length === 0 ? "" : ` (${more.join(", ")})`}`;
  });
  return [
    ...strips.map((text): Duty => ({ text, items: [] })),
    ...mixer.buses.flatMap((bus) => together(setup, (item) => holding(bus.statements, "holds", item).map((held) => {
      const gain = valueOf(held, "gain", "quantity")?.best;
      const what = list(valuesOf(held, "channel", "name").map((n) => n.text), 12);
      return `${bus.name} (${ports(bus.ports)}) holds ${held.negated ? "no " : ""}${what}${gain === undefined ? "" : ` at ${figure(gain)} dB`}`;
    }))),
  ];
}

/** Channels whose microphone is to be fed. */
function phantomOf(setup: Setup, mixer: Mixer): ReadonlySet<string> {
  const statement = setup.files.flatMap((file) => file.statements).find((s) => s.where === mixer.where);
  const fed = (channel: Bound): boolean => channel.row.head === "channel" && channel.children.some((c) => c.row.head === "phantom");
  return new Set((statement?.children ?? []).filter(fed).map((c) => canonical(valueOf(c, "name", "name")?.text ?? "")));
}

export interface Speaker {
  /** Several, where everything else is the same. */
  readonly names: readonly string[];
  /** `at lectern`. */
  readonly place: string;
  readonly items: readonly string[];
  /** Microphones worn or in the hand. */
  readonly with: readonly string[];
  readonly repeats: readonly Duty[];
}

/** Those who speak and are named in the text; those of whom the same is to be said, together. */
export function speakers(setup: Setup): Speaker[] {
  const found = new Map<string, Speaker>();
  for (const voice of setup.voices.values()) {
    if (!voice.stated) continue;
    const rest: Omit<Speaker, "names"> = {
      place: voice.position.words,
      items: setup.items.filter((item) => item.talkers.some((t) => canonical(t) === canonical(voice.name))).map((item) => item.name),
      with: [...setup.devices.values()].filter((d) => {
        const last = d.place?.relations.at(-1);
        return last !== undefined && (last.relation === "on" || last.relation === "with") && last.anchor.kind === "name" && canonical(last.anchor.name.text) === canonical(voice.name);
      }).map((d) => d.name),
      repeats: together(setup, (item) => holding(voice.statements, "repeats", item).filter((s) => !s.negated).map((s) => list(valuesOf(s, "of", "name").map((n) => n.text), 6))),
    };
    const key = JSON.stringify(rest);
    found.set(key, { names: [...(found.get(key)?.names ?? []), voice.name], ...rest });
  }
  return [...found.values()];
}

/** Where a device points, and what it fills. */
export function pointing(row: Numbered): string[] {
  const { aim, fills, height } = row.device;
  return [
    ...(height === undefined ? [] : [`${figure(height.best)} m up`]),
    ...(aim === undefined ? [] : [`aimed at ${aimWords(aim)}`]),
    ...(fills === undefined ? [] : [`its picture fills ${fills}`]),
  ];
}
