/** A setup: everything that its files state, names resolved, quantities in SI units with ranges. What it means is for floors above. */
import { parse } from "../../grammar/parse";
import { rowFor, SPOTS, type NameKind, type Slot } from "../../grammar/vocabulary";
import { bind } from "./bind";
import { valueOf, valuesOf, type Anchor, type Bound, type NameValue, type PlaceValue, type Value } from "./bound";
import { makeDevice, numbered, type Device, type Layer } from "./device";
import { holding } from "./during";
import { gather, type Files, type SourceFile, type Texts } from "./files";
import { assumed, fromText } from "./make-ranged";
import { a, canonical, clipped, KIND_WORDS, Names } from "./names";
import { Floor, HEIGHTS, seatOf, type Position, type Ring } from "./position";
import type { Ranged } from "./ranged";
import { defaultOf, makeRoom, thingOf, type Room, type Seats } from "./room";
import type { TextProblem } from "./text-problem";
import equipment from "./typical/equipment.bothways";
import type { Where } from "./where";

export interface Item {
  readonly name: string;
  /** Minutes since midnight of the day of the meeting. */
  readonly from: number | undefined;
  readonly to: number | undefined;
  /** Voices named; empty where the item names none. */
  readonly talkers: readonly string[];
  readonly where: Where;
}

/** Somebody who speaks: one person, or whoever speaks from some seats. */
export interface Voice {
  readonly name: string;
  readonly seats: Seats | undefined;
  /** The text names it as a talker; else it is seats whose people may speak. */
  readonly stated: boolean;
  readonly position: Position;
  /** dBA at 1 m. */
  readonly level: Ranged;
  readonly statements: readonly Bound[];
  readonly where: Where | undefined;
}

export interface Link {
  readonly how: "cable" | "radio";
  readonly from: string;
  readonly to: string;
  readonly length: Ranged | undefined;
  readonly where: Where;
}

export interface MainsLink {
  readonly from: string;
  readonly to: string;
  readonly where: Where;
}

export interface Internet {
  readonly name: string;
  readonly up: Ranged | undefined;
  readonly down: Ranged | undefined;
  readonly roundTrip: Ranged | undefined;
  readonly reach: "wired" | "wireless" | "shared" | undefined;
  readonly where: Where;
}

export interface Join {
  readonly device: string;
  readonly over: string | undefined;
  readonly statements: readonly Bound[];
  readonly bound: Bound;
  readonly where: Where;
}

export interface Mixer {
  readonly device: string;
  readonly channels: readonly { readonly name: string; readonly ports: readonly string[]; readonly trim: number }[];
  readonly buses: readonly { readonly name: string; readonly ports: readonly string[]; readonly statements: readonly Bound[]; readonly where: Where }[];
  readonly where: Where;
}

export interface Accept {
  readonly code: string;
  readonly of: readonly string[];
  readonly at: number | undefined;
  readonly because: string | undefined;
  readonly where: Where;
}

export interface Setup {
  readonly root: string;
  readonly files: readonly SourceFile[];
  readonly isSetup: boolean;
  readonly title: string;
  readonly titleWhere: Where;
  readonly problems: readonly TextProblem[];
  readonly names: Names;
  readonly date: string | undefined;
  readonly access: number | undefined;
  readonly start: number | undefined;
  readonly end: number | undefined;
  readonly reserve: Ranged;
  readonly online: Ranged;
  readonly items: readonly Item[];
  readonly room: Room;
  readonly floor: Floor;
  readonly devices: ReadonlyMap<string, Device>;
  readonly voices: ReadonlyMap<string, Voice>;
  /** Whoever speaks where no text names anybody. */
  readonly lectern: Voice;
  readonly links: readonly Link[];
  readonly mains: readonly MainsLink[];
  readonly internets: readonly Internet[];
  readonly joins: readonly Join[];
  readonly mixers: ReadonlyMap<string, Mixer>;
  /** What the people online shall see, by item where it differs. */
  shallShow(item: string | undefined): readonly NameValue[];
  readonly accepts: readonly Accept[];
  readonly limits: readonly { readonly code: string; readonly value: number; readonly where: Where }[];
  readonly fallbacks: readonly { readonly device: string; readonly for: string }[];
  readonly notes: readonly { readonly text: string; readonly where: Where }[];
}

let typical: readonly Bound[] | undefined;

/** The kinds that need no statement, from the built-in text; read once. */
export function typicalKinds(): readonly Bound[] {
  typical ??= bind(parse(equipment), "typical equipment").statements.filter((s) => s.row.head === "kind");
  return typical;
}

/** The built-in text itself, for those who want to read it. */
export const TYPICAL_TEXT: string = equipment;

/** Reads a setup with all that it uses. Never throws on any text; what is wrong stands in `problems`. */
export function readSetup(texts: Texts, root: string): Setup {
  return new Builder(gather(texts, root), root).build();
}

/** More joins than any meeting has from one room; bounds what a hostile file can ask for. */
const MOST_JOINS = 60;

class Builder {
  readonly problems: TextProblem[];
  readonly names: Names;
  readonly all: readonly Bound[];
  readonly #kinds = new Map<string, { readonly bound: Bound; readonly builtIn: boolean }>();
  /** Devices whose kind is not known: what is said of them cannot be judged, and their kind has its message. */
  readonly #vague = new Set<string>();
  #seats: readonly Seats[] = [];

  constructor(readonly files: Files, readonly root: string) {
    this.problems = [...files.problems];
    this.names = new Names(files.prefixes);
    this.all = files.files.flatMap((file) => file.statements);
  }

  build(): Setup {
    for (const kind of typicalKinds()) this.enterKind(kind, true);
    for (const statement of this.all) if (statement.row.head === "kind") this.enterKind(statement, false);
    const rooms = this.by("room");
    const devices = this.devices();
    this.enterNames(rooms);
    const setups = this.by("setup");
    const first = setups[0];
    const own = this.files.files[0]?.statements.find((s) => s.row.head === "setup");
    for (const second of this.files.files[0]?.statements.filter((s) => s.row.head === "setup").slice(1) ?? []) {
      this.say("said-twice", "“setup” is stated twice: a file holds one setup.", second.where, first && { where: first.where, message: "the first one" });
    }
    const room = this.room(rooms);
    this.#seats = room.seats;
    this.enterVoicesAndMembers(devices);
    this.resolveAll();
    this.rowsWithoutChairs(room.seats);
    this.placesInCircles(room, devices);

    const meeting = [...this.by("meeting").flatMap((m) => m.children), ...this.all.filter((s) => rowFor("meeting", s.row.head) !== undefined)];
    this.onlyOnce(meeting.filter((s) => s.row.once === true));
    this.onlyOnce(this.all.filter((s) => ["meeting", "programme", "call"].includes(s.row.head)));
    const value = (head: string): Bound | undefined => meeting.find((s) => s.row.head === head);
    const clock = (head: string): number | undefined => {
      const found = value(head);
      return found && valueOf(found, "time", "clock")?.minutes;
    };
    const access = clock("access");
    const start = clock("start");
    const end = clock("end");
    this.order(value("access"), access, value("start"), start);
    this.order(value("start"), start, value("end"), end);
    const voices = new Map<string, PlaceValue | undefined>();
    for (const talker of this.by("talker")) voices.set(canonical(this.nameOf(talker)), valueOf(talker, "place", "place"));
    const placed = new Map([...devices].map(([name, device]) => [name, device.place] as const));
    const floor = new Floor(room, voices, placed);
    const online = value("online");
    const people = online && valueOf(online, "people", "quantity");
    const reserve = value("reserve");
    const spare = reserve && valueOf(reserve, "time", "quantity");
    const accepts = this.by("accept").map((a): Accept => ({
      code: valueOf(a, "code", "word")?.word ?? "", of: valuesOf(a, "of", "name").map((n) => n.text), at: valueOf(a, "at", "quantity")?.best,
      because: a.tails.because, where: a.where,
    }));
    const calls = this.by("call").flatMap((c) => c.children);
    // These have something to say on what they read, so they stand before the problems are put in order.
    const items = this.items(start, end);
    const links = [...this.links("cable"), ...this.links("radio")];
    const joins = this.joins(devices);
    return {
      root: this.root, files: this.files.files, isSetup: own !== undefined,
      title: (own && valueOf(own, "title", "text")?.text) ?? this.root,
      titleWhere: own?.where ?? { path: this.root, start: 0, end: 0 },
      problems: sorted(this.problems, this.files.files), names: this.names,
      date: this.dateOf(value("date")), access, start, end,
      reserve: reserve !== undefined && spare !== undefined && spare.said !== "unknown"
        ? fromText(spare, reserve, "meeting.reserve", "the reserve that batteries shall keep", false)
        : assumed("meeting.reserve", "the reserve that batteries shall keep", "time", defaultOf("reserve", "meeting", "time")),
      online: online !== undefined && people !== undefined && people.said !== "unknown"
        ? fromText(people, online, "meeting.online", "how many attend online", false)
        : assumed("meeting.online", "how many attend online", "count", defaultOf("online", "meeting", "people")),
      items, room, floor, devices, ...this.voices(floor, room),
      links, mains: this.mains(), internets: this.internets(), joins,
      mixers: this.mixers(),
      shallShow: (item) => holding(calls, "shall", item).filter((s) => valueOf(s, "what", "word")?.word === "show").flatMap((s) => valuesOf(s, "of", "name")),
      accepts, limits: this.by("limit").flatMap((l) => {
        const v = valueOf(l, "value", "quantity");
        return v === undefined ? [] : [{ code: valueOf(l, "code", "word")?.word ?? "", value: v.best, where: l.where }];
      }),
      fallbacks: this.by("fallback").flatMap((f) => valuesOf(f, "device", "name").flatMap((d) => valuesOf(f, "for", "name").map((o) => ({ device: d.text, for: o.text })))),
      notes: everywhere(this.all).filter((s) => s.row.head === "note").map((n) => ({ text: valueOf(n, "text", "text")?.text ?? "", where: n.where })),
    };
  }

  private by(head: string): Bound[] {
    return this.all.filter((statement) => statement.row.head === head);
  }

  private say(code: string, message: string, where: Where, related?: { readonly where: Where; readonly message: string }): void {
    this.problems.push({ code, severity: "error", message, where, related: related === undefined ? [] : [related] });
  }

  /** The name that a statement gives, with its file's prefix. */
  private nameOf(statement: Bound, slot = "name"): string {
    return this.names.full(statement.where.path, valueOf(statement, slot, "name")?.text ?? "");
  }

  private enterKind(bound: Bound, builtIn: boolean): void {
    const name = valueOf(bound, "name", "name")?.text;
    if (name === undefined) return;
    const full = builtIn ? name : this.names.full(bound.where.path, name);
    if (!builtIn && this.#kinds.get(canonical(full))?.builtIn !== true && this.#kinds.has(canonical(full))) {
      this.names.enter(full, "kind", bound.where, this.problems);
      return;
    }
    // A file may state a typical kind anew: its own data sheet counts more than ours.
    this.names.enter(full, "kind", builtIn ? undefined : bound.where, this.problems);
    this.#kinds.set(canonical(full), { bound, builtIn });
  }

  private devices(): Map<string, Device> {
    const stated = new Set([
      ...this.by("device").map((d) => canonical(this.nameOf(d))),
      ...this.by("devices").flatMap((d) => numbered(d, this.nameOf(d)).map(canonical)),
    ]);
    const places = new Map<string, Bound>();
    const rings = new Map<string, Ring>();
    for (const place of this.by("place")) {
      for (const name of valuesOf(place, "device", "name")) {
        const members = name.each ? this.setMembers(place.where.path, name.text) : [name.text];
        for (const [index, member] of members.entries()) {
          const key = canonical(this.resolveDevice(place, member, stated));
          if (name.each) rings.set(key, { index, count: members.length });
          const first = places.get(key);
          if (first !== undefined) this.say("placed-twice", `“${member}” is placed twice; a thing stands in one place.`, place.where, { where: first.where, message: "placed here first" });
          else places.set(key, place);
        }
      }
    }
    const out = new Map<string, Device>();
    const make = (name: string, statement: Bound, layers: readonly Bound[]): void => {
      const kindName = valueOf(statement, "kind", "name");
      const kind = kindName && this.kindOf(statement.where.path, kindName.text);
      const placed = places.get(canonical(name));
      const type = (kind && valueOf(kind.bound, "type", "word")?.word) ?? "adapter";
      if (kind === undefined) this.#vague.add(canonical(name));
      const described: Layer[] = [
        ...(kind === undefined ? [] : [{ statements: kind.bound.children, builtIn: kind.builtIn }]),
        ...layers.map((l) => ({ statements: l.children, builtIn: false })),
        ...(placed === undefined || layers.includes(placed) ? [] : [{ statements: placed.children, builtIn: false }]),
      ];
      if (!this.names.enter(name, "device", statement.where, this.problems)) return;
      out.set(canonical(name), makeDevice(name, type, kindName?.text ?? "", kind?.builtIn ?? false, described, placed, rings.get(canonical(name)), placed?.where ?? statement.where));
    };
    for (const statement of this.by("device")) make(this.nameOf(statement), statement, [statement]);
    for (const statement of this.by("devices")) {
      const base = this.nameOf(statement);
      const members = numbered(statement, base);
      this.names.enterSet(base, "device", members);
      for (const member of members) make(member, statement, [statement]);
    }
    for (const statement of this.by("place")) {
      if (!statement.values.has("kind")) continue;
      for (const name of valuesOf(statement, "device", "name")) make(this.names.full(statement.where.path, name.text), statement, [statement]);
    }
    return out;
  }

  private setMembers(path: string, name: string): readonly string[] {
    const set = this.by("devices").find((s) => canonical(this.nameOf(s)) === canonical(this.names.full(path, name)) || canonical(this.nameOf(s)) === canonical(name));
    return set === undefined ? [] : numbered(set, this.nameOf(set));
  }

  /** The full name of what a statement places: its own new device, else one of its file, else one of any other. */
  private resolveDevice(place: Bound, name: string, stated: ReadonlySet<string>): string {
    const full = this.names.full(place.where.path, name);
    return place.values.has("kind") || stated.has(canonical(full)) || !stated.has(canonical(name)) ? full : name;
  }

  private kindOf(path: string, name: string): { readonly bound: Bound; readonly builtIn: boolean } | undefined {
    return this.#kinds.get(canonical(this.names.full(path, name))) ?? this.#kinds.get(canonical(name));
  }

  private enterNames(rooms: readonly Bound[]): void {
    const enter = (statement: Bound, kind: NameKind, name = this.nameOf(statement)): void => {
      if (name !== "") this.names.enter(name, kind, statement.where, this.problems);
    };
    for (const room of rooms) enter(room, "room");
    const things = new Set(rooms.flatMap((room) => room.children).map(thingOf));
    // What is stated of a thing for this evening takes no name: the room has given it.
    const tonight = this.by("in").flatMap((room) => room.children).filter((s) => !things.has(thingOf(s)));
    const inRooms = [...rooms.flatMap((room) => room.children), ...tonight, ...this.all];
    const KINDS: Readonly<Record<string, NameKind>> = { spot: "spot", table: "table", screen: "surface", outlet: "outlet" };
    for (const statement of inRooms) {
      const kind = KINDS[statement.row.head];
      if (kind !== undefined) enter(statement, kind);
      if (statement.row.head === "chairs") enter(statement, "seats", valueOf(statement, "name", "name")?.text ?? "audience");
    }
    for (const item of [...this.by("programme").flatMap((p) => p.children), ...this.by("item")]) if (item.row.head === "item") enter(item, "item");
    for (const internet of this.by("internet")) enter(internet, "internet", this.nameOf(internet) || "internet");
    for (const mixer of this.by("mixer")) {
      const device = valueOf(mixer, "device", "name")?.text ?? "";
      for (const part of mixer.children) {
        const name = valueOf(part, "name", "name")?.text;
        if (name !== undefined && (part.row.head === "channel" || part.row.head === "bus")) enter(part, part.row.head, `${device}/${name}`);
      }
    }
  }

  private enterVoicesAndMembers(devices: ReadonlyMap<string, Device>): void {
    for (const talker of this.by("talker")) this.names.enter(this.nameOf(talker), "talker", talker.where, this.problems);
    for (const group of this.by("talkers")) {
      const count = Math.round(valueOf(group, "count", "quantity")?.best ?? 0);
      for (let i = 1; i <= count; i += 1) this.names.enter(`talker-${i}`, "talker", group.where, this.problems);
    }
    for (const device of devices.values()) {
      for (const part of device.parts) if (part.id !== device.name) this.names.enter(part.id, "part", undefined, this.problems);
      const sets = new Map<string, string[]>();
      for (const port of device.ports) {
        this.names.enter(port.id, "port", undefined, this.problems);
        const base = /^(.+)-\d+$/.exec(port.id)?.[1];
        if (base !== undefined) sets.set(base, [...(sets.get(base) ?? []), port.id]);
      }
      for (const [base, members] of sets) this.names.enterSet(base, "port", members);
    }
    // What every room has, where the text does not name it.
    for (const spot of Object.keys(SPOTS)) this.names.enter(spot, spot === "audience" ? "seats" : spot === "front-screen" ? "surface" : "spot", undefined, []);
  }

  /** What may stand once, wherever it stands, and stands twice. */
  private onlyOnce(statements: readonly Bound[]): void {
    const seen = new Map<string, Bound>();
    for (const statement of statements) {
      const { head } = statement.row;
      const first = seen.get(head);
      if (first === undefined) seen.set(head, statement);
      else this.say("said-twice", `“${head}” is stated twice; keep one.`, statement.where, { where: first.where, message: "the first one" });
    }
  }

  private rowsWithoutChairs(seats: readonly Seats[]): void {
    for (const chairs of everywhere(this.all).filter((s) => s.row.head === "chairs")) {
      const group = seats.find((one) => one.where === chairs.where);
      const rows = valueOf(chairs, "rows", "quantity");
      if (group === undefined || rows === undefined || rows.said === "unknown" || rows.best <= group.count) continue;
      this.say("impossible", `That cannot be: ${group.count} chairs in ${rows.best} rows.`, { path: chairs.where.path, start: rows.start, end: rows.end });
    }
  }

  /** Things that are placed by each other, and by nothing else. */
  private placesInCircles(room: Room, devices: ReadonlyMap<string, Device>): void {
    const stands = new Map<string, { readonly name: string; readonly place: PlaceValue | undefined; readonly where: Where }>();
    const enter = (name: string, place: PlaceValue | undefined, where: Where): void => {
      if (!stands.has(canonical(name))) stands.set(canonical(name), { name, place, where });
    };
    for (const [name, spot] of room.spots) enter(name, spot.place, spot.where);
    for (const kind of [room.tables, room.surfaces, room.outlets]) for (const thing of kind.values()) enter(thing.name, thing.place, thing.where);
    for (const talker of this.by("talker")) enter(this.nameOf(talker), valueOf(talker, "place", "place"), talker.where);
    for (const device of devices.values()) enter(device.name, device.place, device.placed?.where ?? device.where);
    for (const seats of room.seats) enter(seats.name, seats.place, seats.where);
    const leansOn = (name: string): readonly string[] =>
      (stands.get(name)?.place?.relations ?? []).flatMap((r) => anchored(r.anchor)).map((n) => canonical(n.text)).filter((n) => stands.has(n));
    const done = new Set<string>();
    for (const start of stands.keys()) {
      const way: string[] = [];
      // One step after the other, since a chain of things may be as long as the text.
      for (const todo = [{ name: start, depth: 0 }]; todo.length > 0;) {
        const next = todo.pop();
        if (next === undefined) break;
        way.length = next.depth;
        const at = way.indexOf(next.name);
        if (at >= 0) {
          const names = way.slice(at).map((name) => `“${stands.get(name)?.name ?? name}”`);
          const last = stands.get(way[at] ?? "");
          if (last !== undefined) {
            this.say("place-circle", names.length === 1 ? `${names.join("")} is placed by itself: say where it stands by something else.`
              : `${names.join(" and ")} are placed by each other in a circle: say of one of them where it stands by something else.`, last.where);
          }
          continue;
        }
        if (done.has(next.name)) continue;
        done.add(next.name);
        way.push(next.name);
        for (const other of leansOn(next.name)) todo.push({ name: other, depth: way.length });
      }
    }
  }

  /** Every name in every slot: either it is known, or there is one message with the nearest that is. */
  private resolveAll(): void {
    for (const file of this.files.files) for (const statement of file.statements) this.resolveIn(statement);
  }

  private resolveIn(statement: Bound): void {
    for (const slot of statement.row.slots) for (const value of statement.values.get(slot.id) ?? []) this.resolveValue(statement, slot, value);
    for (const name of statement.tails.during) this.known(statement, name, ["item"]);
    for (const inner of statement.children) this.resolveIn(inner);
  }

  private resolveValue(statement: Bound, slot: Slot, value: Value): void {
    if (value.kind === "place") {
      for (const relation of value.relations) {
        const { anchor } = relation;
        if (anchor.kind === "row") this.knownRow(statement, anchor.row, anchor.of, relation);
        for (const name of anchored(anchor)) {
          if (canonical(name.text) === "table") continue; // any table, if none bears the name
          if (this.isSeat(name.text)) continue;
          this.known(statement, name, ["spot", "table", "surface", "seats", "talker", "device", "outlet"]);
        }
      }
      return;
    }
    if (value.kind !== "name" || slot.takes.kind !== "name") return;
    const kinds = slot.takes.of;
    if (kinds.includes("channel")) {
      // Channels are named within their mixer.
      if (canonical(value.text) === "all") return;
      const mixer = this.by("mixer").find((m) => m.where.path === statement.where.path && m.whole.start <= statement.where.start && statement.where.end <= m.whole.end);
      const names = mixer?.children.filter((c) => c.row.head === "channel").map((c) => valueOf(c, "name", "name")?.text ?? "") ?? [];
      if (!names.some((name) => canonical(name) === canonical(value.text))) {
        this.say("unknown-name", `This mixer has no channel “${clipped(value.text)}”.${names.length === 0 ? "" : ` It has ${names.slice(0, 12).map(clipped).join(", ")}${names.length > 12 ? " …" : ""}.`}`, { path: statement.where.path, start: value.start, end: value.end });
      }
      return;
    }
    if (statement.row.head === "place" && slot.id === "device" && statement.values.has("kind")) return;
    this.known(statement, value, kinds);
  }

  /** `audience.row-2.seat-5`: whether there is such a seat. */
  private isSeat(name: string): boolean {
    const named = seatOf(name);
    const group = named && this.#seats.find((seats) => canonical(seats.name) === canonical(named.group));
    if (named === undefined || group === undefined || named.row < 1 || named.row > group.rows) return false;
    const { seat } = named;
    const inRow = Math.floor(group.count / group.rows) + (named.row <= group.count % group.rows ? 1 : 0);
    return seat === undefined || (seat >= 1 && seat <= inRow);
  }

  /** `row 3`: whether there are seats in so many rows. */
  private knownRow(statement: Bound, row: number, of: NameValue | undefined, at: { readonly start: number; readonly end: number }): void {
    const where: Where = { path: statement.where.path, start: at.start, end: at.end };
    const group = of === undefined ? this.#seats[0] : this.#seats.find((seats) => canonical(seats.name) === canonical(of.text));
    if (group === undefined) {
      if (of === undefined) this.say("unknown-name", `“row ${row}” wants chairs, like: chairs 24 in 4 rows.`, where);
      return;
    }
    if (row >= 1 && row <= group.rows) return;
    this.say("unknown-name", `There is no row ${row}: ${group.name} has ${group.rows === 1 ? "one row" : `rows 1 to ${group.rows}`}.`, where);
  }

  private known(statement: Bound, name: NameValue, kinds: readonly NameKind[]): void {
    const { path } = statement.where;
    const where: Where = { path, start: name.start, end: name.end };
    const dot = name.text.indexOf(".");
    if (dot > 0 && this.isVague(path, name.text.slice(0, dot))) return;
    if (name.each) {
      const members = this.names.spread(path, name.text);
      const missing = members?.find((member) => this.names.find(path, member) === undefined);
      if (members === undefined || missing !== undefined) {
        this.say("unknown-name", missing === undefined
          ? `“each ${clipped(name.text)}” wants a numbered set, like: devices ${clipped(name.text.split(".")[0] ?? "")} 1 to 4 is lapel-microphone.`
          : `There is no “${clipped(missing)}”.${this.names.hint(missing, kinds)}`, where);
      }
      return;
    }
    const found = this.names.find(path, name.text, kinds.length === 1 ? kinds[0] : undefined);
    if (found !== undefined && kinds.includes(found.kind)) return;
    if (found !== undefined) {
      this.say("wrong-name", `“${clipped(name.text)}” is ${a(KIND_WORDS[found.kind])}; wanted is ${kinds.map((k) => a(KIND_WORDS[k])).join(" or ")}.${this.names.hint("", kinds)}`, where,
        found.where && { where: found.where, message: `“${found.name}” is stated here` });
      return;
    }
    // What a file that could not be read would have named is not a mistake of its own.
    if (this.files.incomplete) return;
    this.say("unknown-name", `Nothing here is called “${clipped(name.text)}”.${this.names.hint(name.text, kinds)}`, where);
  }

  private isVague(path: string, device: string): boolean {
    return this.#vague.has(canonical(this.names.full(path, device))) || this.#vague.has(canonical(device));
  }

  private room(rooms: readonly Bound[]): Room {
    const evenings = this.by("in");
    const meant = evenings[0] && valueOf(evenings[0], "room", "name");
    const chosen = (meant && rooms.find((r) => canonical(this.nameOf(r)) === canonical(this.names.find(evenings[0]?.where.path ?? "", meant.text)?.name ?? meant.text)))
      ?? rooms[rooms.length - 1];
    if (rooms.length > 1 && meant === undefined && chosen !== undefined) {
      this.problems.push({
        code: "which-room", severity: "warning", where: chosen.where, related: rooms.slice(0, -1).map((r) => ({ where: r.where, message: "another room" })),
        message: `Several rooms are stated; ${this.nameOf(chosen)} is taken. Say which one is meant: in ${this.nameOf(chosen)} { }.`,
      });
    }
    const evening = evenings.filter((e) => chosen !== undefined && canonical(this.names.find(e.where.path, valueOf(e, "room", "name")?.text ?? "")?.name ?? "") === canonical(this.nameOf(chosen)));
    return makeRoom(chosen, evening, this.all.filter((s) => s.owner === "file" && rowFor("room", s.row.head) !== undefined && s.row.head !== "note" && s.row.head !== "in"));
  }

  private order(before: Bound | undefined, a: number | undefined, after: Bound | undefined, b: number | undefined): void {
    if (before === undefined || after === undefined || a === undefined || b === undefined || a <= b) return;
    this.say("impossible", `“${after.row.head}” lies before “${before.row.head}”. If it is past midnight write ${after.row.head} 00:15 next-day.`, after.where, { where: before.where, message: `“${before.row.head}”` });
  }

  private dateOf(statement: Bound | undefined): string | undefined {
    return statement && valueOf(statement, "date", "date")?.date;
  }

  private items(start: number | undefined, end: number | undefined): Item[] {
    const stated = [...this.by("programme").flatMap((p) => p.children), ...this.by("item")].filter((s) => s.row.head === "item");
    const rough = stated.map((s) => ({
      name: this.nameOf(s), from: valueOf(s, "from", "clock")?.minutes, to: valueOf(s, "to", "clock")?.minutes, where: s.where,
      talkers: s.children.filter((c) => c.row.head === "talkers").flatMap((c) => valuesOf(c, "who", "name").map((n) => n.text)),
    }));
    for (const { from, to, where } of rough) {
      if (from !== undefined && to !== undefined && to < from) this.say("impossible", "This item ends before it begins. If that is past midnight write to 00:15 next-day.", where);
    }
    // In the order of their times; an item that states none stays behind the one that it is written behind.
    let latest = -Infinity;
    const timed = rough.map((item) => ({ ...item, behind: (latest = item.from ?? latest) }));
    timed.sort((one, other) => (one.behind === other.behind ? 0 : one.behind - other.behind));
    return timed.map(({ behind: _, ...item }, i) => ({
      ...item, from: item.from ?? (i === 0 ? start : timed[i - 1]?.to), to: item.to ?? timed[i + 1]?.from ?? (i === timed.length - 1 ? end : undefined),
    }));
  }

  private voices(floor: Floor, room: Room): { voices: Map<string, Voice>; lectern: Voice } {
    const out = new Map<string, Voice>();
    const level = (name: string, statements: readonly Bound[], large: boolean): Ranged => {
      const stated = statements.find((s) => s.row.head === "speech-level");
      const value = stated && valueOf(stated, "level", "quantity");
      const label = `how loud ${name} speaks`;
      if (stated !== undefined && value !== undefined && value.said !== "unknown") return fromText(value, stated, `voice.${name}`, label, false);
      const raised = statements.some((s) => s.row.head === "raised" || s.row.head === "standing") || (large && !statements.some((s) => s.row.head === "seated"));
      const best = raised ? 66 : 60;
      return assumed(`voice.${name}`, label, "level", { best, low: best - 6, high: best + 6, source: "ISO 9921, normal and raised voice" });
    };
    // Whoever addresses people farther than three metres away raises the voice.
    const large = room.length.best > 5.5 || room.width.best > 5.5;
    for (const talker of this.by("talker")) {
      const name = this.nameOf(talker);
      const place = valueOf(talker, "place", "place");
      const at = place?.relations.length === 1 && place.relations[0]?.anchor.kind === "name" ? floor.group(place.relations[0].anchor.name.text) : undefined;
      const standing = talker.children.some((c) => c.row.head === "standing") || (large && at === undefined && !talker.children.some((c) => c.row.head === "seated"));
      out.set(canonical(name), {
        name, seats: at, stated: true, statements: talker.children, where: talker.where, level: level(name, talker.children, large),
        position: floor.position(name, place, "lectern", standing ? HEIGHTS.standingMouth : HEIGHTS.seatedMouth),
      });
    }
    for (const group of this.by("talkers")) {
      const count = Math.min(500, Math.round(valueOf(group, "count", "quantity")?.best ?? 0));
      const place = valueOf(group, "place", "place");
      for (let i = 1; i <= count; i += 1) {
        const name = `talker-${i}`;
        out.set(canonical(name), {
          name, seats: undefined, stated: true, statements: group.children, where: group.where, level: level(name, group.children, false),
          position: floor.position(name, place, "audience", HEIGHTS.seatedMouth, { index: i - 1, count }),
        });
      }
    }
    // Seats speak when the programme says so.
    for (const seats of room.seats) {
      if (out.has(canonical(seats.name))) continue;
      out.set(canonical(seats.name), {
        name: seats.name, seats, stated: false, statements: [], where: seats.where, level: level(seats.name, [], large),
        position: floor.position(seats.name, undefined, seats.name, HEIGHTS.seatedMouth),
      });
    }
    const lectern: Voice = {
      name: "whoever speaks at the lectern", seats: undefined, stated: false, statements: [], where: undefined, level: level("whoever speaks at the lectern", [], large),
      position: floor.position("whoever speaks at the lectern", undefined, "lectern", large ? HEIGHTS.standingMouth : HEIGHTS.seatedMouth),
    };
    return { voices: out, lectern };
  }

  private links(how: "cable" | "radio"): Link[] {
    const out: Link[] = [];
    for (const statement of this.by(how)) {
      const ends = (slot: string): string[] => valuesOf(statement, slot, "name").flatMap((name) =>
        name.each ? [...(this.names.spread(statement.where.path, name.text) ?? [])] : [this.names.find(statement.where.path, name.text)?.name ?? name.text]);
      const from = ends("from");
      const to = ends("to");
      // Where an end is missing or its set is not known, that has its message.
      if (from.length === 0 || to.length === 0) continue;
      if (from.length !== to.length) {
        // Where an end is not known, that has its message.
        const known = [...from, ...to].every((end) => this.names.find(statement.where.path, end) !== undefined);
        if (known) this.say("unequal-sets", `There are ${from.length} ends on one side and ${to.length} on the other: each cable has two.`, statement.where);
        continue;
      }
      const length = statement.children.find((c) => c.row.head === "length");
      const metres = length && valueOf(length, "length", "quantity");
      from.forEach((end, i) => {
        out.push({
          how, from: end, to: to[i] ?? "", where: statement.where,
          length: length !== undefined && metres !== undefined && metres.said !== "unknown" ? fromText(metres, length, `${how}.${end}.length`, `the length of the cable from ${end}`, false) : undefined,
        });
      });
    }
    return out;
  }

  private mains(): MainsLink[] {
    return this.by("mains").flatMap((statement) => {
      const { path } = statement.where;
      const from = valueOf(statement, "from", "name")?.text;
      const tos = valuesOf(statement, "to", "name").flatMap((name) => (name.each ? [...(this.names.spread(path, name.text) ?? [])] : [this.names.find(path, name.text)?.name ?? name.text]));
      return from === undefined ? [] : tos.map((to) => ({ from: this.names.find(path, from)?.name ?? from, to, where: statement.where }));
    });
  }

  private internets(): Internet[] {
    return this.by("internet").map((statement) => {
      const name = this.nameOf(statement) || "internet";
      const one = (head: string, slot: string, label: string): Ranged | undefined => {
        const inner = statement.children.find((c) => c.row.head === head);
        const value = inner && valueOf(inner, slot, "quantity");
        return inner !== undefined && value !== undefined && value.said !== "unknown" ? fromText(value, inner, `internet.${name}.${head}`, `the ${label} of ${name}`, false) : undefined;
      };
      const reach = (["shared", "wireless", "wired"] as const).find((head) => statement.children.some((c) => c.row.head === head));
      return { name, up: one("up", "rate", "uplink"), down: one("down", "rate", "downlink"), roundTrip: one("round-trip", "time", "round trip"), reach, where: statement.where };
    });
  }

  private joins(devices: ReadonlyMap<string, Device>): Join[] {
    const out: Join[] = [];
    for (const statement of this.by("join")) {
      const written = valueOf(statement, "device", "name");
      if (written === undefined) continue;
      const name = this.names.find(statement.where.path, written.text)?.name ?? written.text;
      const device = devices.get(canonical(name));
      if (device === undefined) continue;
      const first = out.find((join) => canonical(join.device) === canonical(name));
      if (first !== undefined) {
        this.say("joins-twice", `“${name}” joins twice; put everything into one join.`, statement.where, { where: first.where, message: "the first one" });
        continue;
      }
      if (out.length === MOST_JOINS) {
        this.say("too-many", `More than ${MOST_JOINS} devices join; those from here on are left out. Join with one or two, and let the others watch.`, statement.where);
        break;
      }
      if (device.type !== "computer" && !this.#vague.has(canonical(name))) {
        this.say("cannot-join", `“${name}” is ${a(device.type)}: only a computer, a tablet or a telephone joins a call.`, { path: statement.where.path, start: written.start, end: written.end });
      }
      out.push({ device: name, over: valueOf(statement, "over", "name")?.text, statements: statement.children, bound: statement, where: statement.where });
    }
    return out;
  }

  private mixers(): Map<string, Mixer> {
    const out = new Map<string, Mixer>();
    for (const statement of this.by("mixer")) {
      const written = valueOf(statement, "device", "name")?.text ?? "";
      const device = this.names.find(statement.where.path, written)?.name ?? written;
      const ports = (s: Bound, slot: string): string[] => valuesOf(s, slot, "name").map((n) => canonical(this.names.find(s.where.path, n.text)?.name ?? n.text));
      out.set(canonical(device), {
        device, where: statement.where,
        channels: statement.children.filter((c) => c.row.head === "channel").map((c) => {
          const trim = c.children.find((t) => t.row.head === "trim");
          return { name: valueOf(c, "name", "name")?.text ?? "", ports: ports(c, "from"), trim: (trim && valueOf(trim, "gain", "quantity")?.best) ?? 0 };
        }),
        buses: statement.children.filter((c) => c.row.head === "bus").map((c) => ({
          name: valueOf(c, "name", "name")?.text ?? "", ports: ports(c, "to"), statements: c.children, where: c.where,
        })),
      });
    }
    return out;
  }
}

/** The names that a place leans on. */
const anchored = (anchor: Anchor): readonly NameValue[] => {
  switch (anchor.kind) {
    case "name": return [anchor.name];
    case "names": return anchor.names;
    case "row": return anchor.of === undefined ? [] : [anchor.of];
    case "sides": case "point": return [];
  }
};

/** All statements, those in blocks behind the one that owns the block. */
const everywhere = (statements: readonly Bound[]): Bound[] => statements.flatMap((s) => [s, ...everywhere(s.children)]);

/** By file in the order of reading, then by place; one message for one place. */
function sorted(problems: readonly TextProblem[], files: readonly SourceFile[]): TextProblem[] {
  const order = new Map(files.map((file, i) => [file.path, i]));
  const seen = new Set<string>();
  return [...problems]
    .sort((a, b) => (order.get(a.where.path) ?? 0) - (order.get(b.where.path) ?? 0) || a.where.start - b.where.start)
    .filter((p) => {
      const key = `${p.where.path} ${p.where.start} ${p.code}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
}
