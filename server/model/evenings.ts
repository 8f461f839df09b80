/** Other setups of the same folder that are on the same day, and what they place of the same kit. */
import { valueOf, valuesOf, type Bound } from "./bound";
import { numbered } from "./device";
import { gather, type Files, type Texts } from "./files";
import { canonical } from "./names";
import type { Where } from "./where";

export interface OtherEvening {
  readonly path: string;
  readonly title: string;
  /** Names of devices that both place, as the setup asked about places them. */
  readonly shared: readonly string[];
  readonly where: Where;
}

/** More files of one day than any club has. */
const MOST_GATHERED = 12;

/**
 * The evenings beside this one that place a device which both take from one kit. Two plans of one meeting (equal titles), or of
 * one room, are no two evenings; neither are two whose hours, where both state them, lie apart.
 */
export function sameEvening(texts: Texts, root: string, own: Files): OtherEvening[] {
  const mine = dayOf(own);
  if (mine?.date === undefined || texts.beside === undefined) return [];
  const out: OtherEvening[] = [];
  let gathered = 0;
  for (const { path, text } of texts.beside(root)) {
    if (gathered >= MOST_GATHERED) break;
    // Read closely only where the day is named at all.
    if (!text.includes(mine.date)) continue;
    gathered += 1;
    const other = dayOf(gather(texts, path));
    if (other === undefined || other.date !== mine.date || other.title === mine.title || apart(mine, other)) continue;
    if (mine.rooms.some((room) => other.rooms.includes(room))) continue;
    const shared = [...mine.placed].filter(([thing]) => other.placed.has(thing)).map(([, name]) => name);
    if (shared.length > 0) out.push({ path, title: other.title, shared, where: other.where });
  }
  return out;
}

interface Day {
  readonly title: string;
  readonly where: Where;
  readonly date: string | undefined;
  readonly from: number | undefined;
  readonly to: number | undefined;
  /** Where each room is stated. */
  readonly rooms: readonly string[];
  /** Things of kit files that it places: where each is stated, and what it is called there. */
  readonly placed: ReadonlyMap<string, string>;
}

const apart = (a: Day, b: Day): boolean => (a.to !== undefined && b.from !== undefined && a.to <= b.from) || (b.to !== undefined && a.from !== undefined && b.to <= a.from);

function dayOf({ files, prefixes }: Files): Day | undefined {
  const [root] = files;
  const own = root?.statements.find((s) => s.row.head === "setup");
  if (root === undefined || own === undefined) return undefined;
  const all = files.flatMap((file) => file.statements);
  const meeting = [...all.filter((s) => s.row.head === "meeting").flatMap((s) => s.children), ...all];
  const find = (head: string): Bound | undefined => meeting.find((s) => s.row.head === head);
  const clock = (head: string): number | undefined => {
    const found = find(head);
    return found && valueOf(found, "time", "clock")?.minutes;
  };
  const day = find("date");
  const stated = new Map<string, string>();
  for (const file of files.slice(1)) {
    for (const statement of file.statements) {
      if (statement.row.head !== "device" && statement.row.head !== "devices") continue;
      const name = valueOf(statement, "name", "name")?.text ?? "";
      for (const one of statement.row.head === "devices" ? numbered(statement, name) : [name]) stated.set(canonical(`${prefixes.get(file.path) ?? ""}${one}`), `${file.path} ${canonical(one)}`);
    }
  }
  const placed = new Map<string, string>();
  for (const statement of all) {
    if (statement.row.head !== "place") continue;
    for (const name of valuesOf(statement, "device", "name")) {
      const members = name.each ? [...stated.keys()].filter((one) => one.replace(/-\d+$/, "") === canonical(name.text)) : [canonical(name.text)];
      for (const member of members) {
        const thing = stated.get(member);
        if (thing !== undefined) placed.set(thing, name.each ? member : name.text);
      }
    }
  }
  return {
    title: valueOf(own, "title", "text")?.text ?? "", where: own.where, date: day && valueOf(day, "date", "date")?.date,
    from: clock("access") ?? clock("start"), to: clock("end"), placed,
    rooms: all.filter((s) => s.row.head === "room").map((s) => `${s.where.path} ${canonical(valueOf(s, "name", "name")?.text ?? "")}`),
  };
}
