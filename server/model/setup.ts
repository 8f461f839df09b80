/** A setup: everything that its files state, names resolved, quantities in SI units with ranges. What it means is for floors above. */
import { valueOf, valuesOf, type Bound, type NameValue, type PlaceValue } from "./bound";
import type { Device } from "./device";
import { readDevices } from "./devices";
import { holding } from "./during";
import { enterNames, enterVoicesAndMembers } from "./enter-names";
import { sameEvening, type OtherEvening } from "./evenings";
import { gather, type SourceFile, type Texts } from "./files";
import { readInternets, type Internet } from "./internets";
import { readJoins, type Join } from "./joins";
import { Kinds } from "./kinds";
import { readMeeting, type Meeting } from "./meeting";
import { readPowerlines, type Powerline } from "./network";
import { readMixers, type Mixer } from "./mixers";
import { canonical, type Names } from "./names";
import { opticsProblems } from "./optics-problems";
import { placesOutside } from "./placing/outside";
import { shapeProblems } from "./shape/problems";
import { placesInCircles, rowsWithoutChairs } from "./places";
import { Floor } from "./position";
import { readItems, type Item } from "./programme";
import { everywhere, Reading, sorted } from "./reading";
import { resolveAll } from "./resolve";
import type { Room } from "./room";
import type { TextProblem } from "./text-problem";
import { readTraffic, type Traffic } from "./traffic";
import { readVoices, type Voice } from "./voices";
import type { Where } from "./where";
import { chooseRoom } from "./which-room";
import { readJobs, type Job } from "./jobs";
import { readService, type Service } from "./service";
import { readObservations, type Observation } from "./observations";
import { readRemoteRooms, type RemoteRoom } from "./remote-rooms";
import { readWatches, type Watch } from "./watches";
import { readLinks, readMains, type Link, type MainsLink } from "./wires";

// Whoever works with a setup finds here what it is made of.
export { TYPICAL_TEXT, typicalKinds } from "./kinds";
export type { Internet, Item, Job, Join, Link, MainsLink, Mixer, Observation, RemoteRoom, Service, Voice, Watch };

export interface Accept {
  readonly code: string;
  readonly of: readonly string[];
  readonly at: number | undefined;
  readonly because: string | undefined;
  readonly where: Where;
}

export interface Setup extends Meeting {
  readonly root: string;
  readonly files: readonly SourceFile[];
  readonly isSetup: boolean;
  readonly title: string;
  readonly titleWhere: Where;
  readonly problems: readonly TextProblem[];
  readonly names: Names;
  readonly items: readonly Item[];
  readonly room: Room;
  readonly floor: Floor;
  /** By canonical name, where the text places each talker. */
  readonly talkerPlaces: ReadonlyMap<string, PlaceValue | undefined>;
  readonly devices: ReadonlyMap<string, Device>;
  readonly voices: ReadonlyMap<string, Voice>;
  /** Whoever speaks where no text names anybody. */
  readonly lectern: Voice;
  readonly links: readonly Link[];
  readonly mains: readonly MainsLink[];
  readonly powerlines: readonly Powerline[];
  /** How the call sends, and what of it is kept longest. */
  readonly traffic: Traffic;
  readonly internets: readonly Internet[];
  readonly joins: readonly Join[];
  readonly mixers: ReadonlyMap<string, Mixer>;
  readonly watches: readonly Watch[];
  readonly remoteRooms: readonly RemoteRoom[];
  /** Whether people in the room may join with devices of their own: `none`, `muted`, `may-join`; nothing where the text does not say. */
  readonly visitors: { readonly how: string; readonly where: Where } | undefined;
  /** Setups beside this one, of the same day, that place the same things. */
  readonly sameEvening: readonly OtherEvening[];
  readonly service: Service;
  /** What is said of the call as a whole. */
  readonly call: readonly Bound[];
  readonly jobs: readonly Job[];
  readonly observations: readonly Observation[];
  /** What the people online shall see, by item where it differs. */
  shallShow(item: string | undefined): readonly NameValue[];
  readonly accepts: readonly Accept[];
  readonly limits: readonly { readonly code: string; readonly value: number; readonly where: Where }[];
  readonly fallbacks: readonly { readonly device: string; readonly for: string }[];
  readonly notes: readonly { readonly text: string; readonly where: Where }[];
}

/** Reads a setup with all that it uses. Never throws on any text; what is wrong stands in `problems`. */
export function readSetup(texts: Texts, root: string): Setup {
  const reading = new Reading(gather(texts, root));
  const kinds = new Kinds(reading);
  const rooms = reading.by("room");
  const made = readDevices(reading, kinds);
  const { devices } = made;
  enterNames(reading, rooms);
  const own = ownSetup(reading);
  const room = chooseRoom(reading, rooms);
  enterVoicesAndMembers(reading, devices);
  resolveAll(reading, room.seats, made.vague);
  rowsWithoutChairs(reading, room.seats);
  placesInCircles(reading, room, devices);
  const meeting = readMeeting(reading);
  const talkerPlaces = new Map<string, PlaceValue | undefined>();
  for (const talker of reading.by("talker")) talkerPlaces.set(canonical(reading.nameOf(talker)), valueOf(talker, "place", "place"));
  const placed = new Map([...devices].map(([name, device]) => [name, device.place] as const));
  const floor = new Floor(room, talkerPlaces, placed);
  // A kit or a part of a text on its own has no room to be outside of.
  if (own !== undefined || room.where !== undefined) placesOutside(reading, floor, devices);
  shapeProblems(reading, floor);
  opticsProblems(reading, room, devices);
  const accepts = reading.by("accept").map((a): Accept => ({
    code: valueOf(a, "code", "word")?.word ?? "", of: valuesOf(a, "of", "name").map((n) => n.text), at: valueOf(a, "at", "quantity")?.best,
    because: a.tails.because, where: a.where,
  }));
  const calls = reading.by("call").flatMap((c) => c.children);
  // These have something to say on what they read, so they stand before the problems are put in order.
  const items = readItems(reading, meeting.start, meeting.end);
  const links = [...readLinks(reading, "cable"), ...readLinks(reading, "radio")];
  const joins = readJoins(reading, made);
  const observations = readObservations(reading);
  const service = readService(reading);
  const fallbacks = reading.by("fallback").flatMap((f) => valuesOf(f, "device", "name").flatMap((d) => valuesOf(f, "for", "name").map((o) => ({ device: d.text, for: o.text }))));
  return {
    root, files: reading.files.files, isSetup: own !== undefined,
    title: (own && valueOf(own, "title", "text")?.text) ?? root,
    titleWhere: own?.where ?? { path: root, start: 0, end: 0 },
    problems: sorted(reading.problems, reading.files.files), names: reading.names,
    ...meeting,
    items, room, floor, talkerPlaces, devices, ...readVoices(reading, floor, room),
    links, mains: readMains(reading), powerlines: readPowerlines(reading), traffic: readTraffic(reading), internets: firstThings(readInternets(reading, observations), fallbacks), joins,
    mixers: readMixers(reading), watches: readWatches(reading), remoteRooms: readRemoteRooms(reading), sameEvening: own === undefined ? [] : sameEvening(texts, root, reading.files), service, call: calls, jobs: readJobs(reading), observations,
    visitors: visitorsOf([...reading.by("visitors"), ...calls.filter((c) => c.row.head === "visitors")]),
    shallShow: (item) => holding(calls, "shall", item).filter((s) => valueOf(s, "what", "word")?.word === "show").flatMap((s) => valuesOf(s, "of", "name")),
    accepts, limits: reading.by("limit").flatMap((l) => {
      const v = valueOf(l, "value", "quantity");
      return v === undefined ? [] : [{ code: valueOf(l, "code", "word")?.word ?? "", value: v.best, where: l.where }];
    }),
    fallbacks,
    notes: everywhere(reading.all).filter((s) => s.row.head === "note").map((n) => ({ text: valueOf(n, "text", "text")?.text ?? "", where: n.where })),
  };
}

function visitorsOf([stated]: readonly Bound[]): Setup["visitors"] {
  const how = stated && valueOf(stated, "how", "word")?.word;
  return stated === undefined || how === undefined ? undefined : { how, where: stated.where };
}

/** The statement that makes the first file a setup; says where there is a second. */
function ownSetup(reading: Reading): Bound | undefined {
  const [own, ...others] = reading.files.files[0]?.statements.filter((s) => s.row.head === "setup") ?? [];
  for (const second of others) {
    reading.say("said-twice", "“setup” is stated twice: a file holds one setup.", second.where, own && { where: own.where, message: "the first one" });
  }
  return own;
}

/** Lines that step in for another stand behind those that they step in for: the first is the one that is used where nothing is said. */
function firstThings(internets: readonly Internet[], fallbacks: Setup["fallbacks"]): readonly Internet[] {
  const stepsIn = (one: Internet): boolean => fallbacks.some((f) => canonical(f.device) === canonical(one.name) && internets.some((other) => canonical(other.name) === canonical(f.for)));
  return [...internets.filter((one) => !stepsIn(one)), ...internets.filter(stepsIn)];
}
