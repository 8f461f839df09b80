/** Resolving names: every name in every slot is known, or has one message with the nearest that is. */
import type { NameKind, Slot } from "../../grammar/vocabulary";
import { valueOf, type Bound, type NameValue, type Value } from "./bound";
import { a, canonical, clipped, KIND_WORDS } from "./names";
import { anchored } from "./places";
import { seatOf } from "./position";
import type { Reading } from "./reading";
import { seatsInRow, type Seats } from "./seating";
import type { Where } from "./where";

/** Looks up every name in every slot; `vague` are the devices whose kind is not known. All names must have been entered before. */
export function resolveAll(reading: Reading, seats: readonly Seats[], vague: ReadonlySet<string>): void {
  const resolver = new Resolver(reading, seats, vague);
  for (const file of reading.files.files) for (const statement of file.statements) resolver.resolve(statement);
}

class Resolver {
  constructor(private readonly reading: Reading, private readonly seats: readonly Seats[], private readonly vague: ReadonlySet<string>) {}

  resolve(statement: Bound): void {
    for (const slot of statement.row.slots) for (const value of statement.values.get(slot.id) ?? []) this.resolveValue(statement, slot, value);
    for (const name of statement.tails.during) this.known(statement, name, ["item"]);
    for (const inner of statement.children) this.resolve(inner);
  }

  private resolveValue(statement: Bound, slot: Slot, value: Value): void {
    if (value.kind === "place") {
      for (const relation of value.relations) {
        const { anchor } = relation;
        if (anchor.kind === "row") this.knownRow(statement, anchor.row, anchor.of, relation);
        for (const name of anchored(anchor)) {
          if (canonical(name.text) === "table") continue; // any table, if none bears the name
          if (this.isSeat(name.text)) continue;
          this.known(statement, name, ["spot", "table", "surface", "seats", "talker", "device", "outlet", "area", "door", "window", "column"]);
        }
      }
      return;
    }
    if (value.kind !== "name" || slot.takes.kind !== "name") return;
    const kinds = slot.takes.of;
    if (kinds.includes("channel")) {
      // Channels are named within their mixer.
      if (canonical(value.text) === "all") return;
      const mixer = this.reading.by("mixer").find((m) => m.where.path === statement.where.path && m.whole.start <= statement.where.start && statement.where.end <= m.whole.end);
      const names = mixer?.children.filter((c) => c.row.head === "channel").map((c) => valueOf(c, "name", "name")?.text ?? "") ?? [];
      if (!names.some((name) => canonical(name) === canonical(value.text))) {
        this.reading.say("unknown-name", `This mixer has no channel “${clipped(value.text)}”.${names.length === 0 ? "" : ` It has ${names.slice(0, 12).map(clipped).join(", ")}${names.length > 12 ? " …" : ""}.`}`, { path: statement.where.path, start: value.start, end: value.end });
      }
      return;
    }
    if (statement.row.head === "place" && slot.id === "device" && statement.values.has("kind")) return;
    this.known(statement, value, kinds);
  }

  /** `audience.row-2.seat-5`: whether there is such a seat. */
  private isSeat(name: string): boolean {
    const named = seatOf(name);
    const group = named && this.seats.find((seats) => canonical(seats.name) === canonical(named.group));
    if (named === undefined || group === undefined || named.row < 1 || named.row > group.rows) return false;
    const { seat } = named;
    return seat === undefined || (seat >= 1 && seat <= seatsInRow(group, named.row));
  }

  /** `row 3`: whether there are seats in so many rows. */
  private knownRow(statement: Bound, row: number, of: NameValue | undefined, at: { readonly start: number; readonly end: number }): void {
    const where: Where = { path: statement.where.path, start: at.start, end: at.end };
    const group = of === undefined ? this.seats[0] : this.seats.find((seats) => canonical(seats.name) === canonical(of.text));
    if (group === undefined) {
      if (of === undefined) this.reading.say("unknown-name", `“row ${row}” wants chairs, like: chairs 24 in 4 rows.`, where);
      return;
    }
    if (row >= 1 && row <= group.rows) return;
    this.reading.say("unknown-name", `There is no row ${row}: ${group.name} has ${group.rows === 1 ? "one row" : `rows 1 to ${group.rows}`}.`, where);
  }

  private known(statement: Bound, name: NameValue, kinds: readonly NameKind[]): void {
    const { path } = statement.where;
    const where: Where = { path, start: name.start, end: name.end };
    const dot = name.text.indexOf(".");
    if (dot > 0 && this.isVague(path, name.text.slice(0, dot))) return;
    if (name.each) {
      const members = this.reading.names.spread(path, name.text);
      const missing = members?.find((member) => this.reading.names.find(path, member) === undefined);
      if (members === undefined || missing !== undefined) {
        this.reading.say("unknown-name", missing === undefined
          ? `“each ${clipped(name.text)}” wants a numbered set, like: devices ${clipped(name.text.split(".")[0] ?? "")} 1 to 4 is lapel-microphone.`
          : `There is no “${clipped(missing)}”.${this.reading.names.hint(missing, kinds)}`, where);
      }
      return;
    }
    const found = this.reading.names.find(path, name.text, kinds.length === 1 ? kinds[0] : undefined);
    if (found !== undefined && kinds.includes(found.kind)) return;
    if (found !== undefined) {
      this.reading.say("wrong-name", `“${clipped(name.text)}” is ${a(KIND_WORDS[found.kind])}; wanted is ${kinds.map((k) => a(KIND_WORDS[k])).join(" or ")}.${this.reading.names.hint("", kinds)}`, where,
        found.where && { where: found.where, message: `“${found.name}” is stated here` });
      return;
    }
    // What a file that could not be read would have named is not a mistake of its own.
    if (this.reading.files.incomplete) return;
    this.reading.say("unknown-name", `Nothing here is called “${clipped(name.text)}”.${this.reading.names.hint(name.text, kinds)}`, where);
  }

  private isVague(path: string, device: string): boolean {
    return this.vague.has(canonical(this.reading.names.full(path, device))) || this.vague.has(canonical(device));
  }
}
