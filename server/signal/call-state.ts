/** What each joined device sends, plays and shows in one item of the programme. */
import { valueOf, valuesOf, type Bound } from "../model/bound";
import { holding } from "../model/during";
import { assumed, fromText, unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import type { Device, Part, PartType } from "../model/device";
import type { Ranged } from "../model/ranged";
import { defaultOf } from "../model/defaults";
import type { PictureLimit } from "../model/service";
import type { Join, Setup } from "../model/setup";
import type { Where } from "../model/where";

export interface Sent {
  /** What the name stands for: a device, a part or a port. */
  readonly name: string;
  readonly where: Where;
  /** The text does not say so; it is what a device does if left alone. */
  readonly assumed: boolean;
}

export interface SentPicture extends Sent {
  readonly width: number;
  readonly height: number;
  readonly rate: number;
}

export interface Shown extends Sent {
  readonly what: "call" | "slides" | "video";
  readonly faces: Ranged;
  /** Height of the smallest letters as a share of the picture's; nothing where nothing is read. */
  readonly letters: Ranged | undefined;
  /** What people have to make out in it, where the text says so. */
  readonly purpose: "glance" | "reading" | "inspection" | undefined;
}

/** One join in one item. */
export interface JoinState {
  readonly join: Join;
  readonly device: Device;
  readonly sound: readonly Sent[];
  readonly pictures: readonly SentPicture[];
  /** What is presented to those online, by the display on which it stands. */
  readonly content: readonly Sent[];
  readonly plays: readonly Sent[];
  readonly shows: readonly Shown[];
  /** On what it plays at once what it takes in. */
  readonly monitors: readonly Sent[];
  /** The largest picture of somebody online that it takes in, and of what is presented there; nothing where neither the join nor the service sets one. */
  readonly receives: PictureLimit | undefined;
  readonly presents: PictureLimit | undefined;
  /** Whether the call's own program cancels the echo of what this device plays. */
  readonly cancels: Ranged;
}

export function callState(setup: Setup, item: string | undefined): readonly JoinState[] {
  return setup.joins.flatMap((join) => {
    const device = setup.devices.get(canonical(join.device));
    return device === undefined ? [] : [stateOf(setup, join, device, item)];
  });
}

function stateOf(setup: Setup, join: Join, device: Device, item: string | undefined): JoinState {
  const own = (type: PartType): Part | undefined => device.parts.find((part) => part.type === type);
  const sends = holding(join.statements, "sends", item);
  const what = (statement: Bound): string | undefined => valueOf(statement, "what", "word")?.word;
  const sound = sends.filter((s) => what(s) === "sound");
  const picture = sends.filter((s) => what(s) === "picture");
  const plays = holding(join.statements, "plays", item);
  const shows = holding(join.statements, "shows", item);
  const monitors = holding(join.statements, "monitors", item);
  const cancels = holding(join.statements, "cancels", item)[0];
  const byItself = (type: PartType, where: Where, isAssumed: boolean): Sent[] => {
    const part = own(type);
    return part === undefined ? [] : [{ name: part.id, where, assumed: isAssumed }];
  };
  const named = (statement: Bound, slot: string, type: PartType): Sent[] => {
    const names = valuesOf(statement, slot, "name");
    if (names.length === 0) return byItself(type, statement.where, false);
    return names.map((name) => ({ name: fullName(setup, statement, name.text), where: statement.where, assumed: false }));
  };
  const withdrawn = (statements: readonly Bound[]): boolean => statements.some((s) => s.negated && s.values.size <= 1);
  const list = (statements: readonly Bound[], slot: string, type: PartType): Sent[] => {
    // A join that says nothing on its sound is taken to be live both ways, and to send its own picture.
    if (statements.length === 0) return byItself(type, join.where, true);
    if (withdrawn(statements)) return [];
    const not = new Set(statements.filter((s) => s.negated).flatMap((s) => valuesOf(s, slot, "name").map((n) => canonical(n.text))));
    return statements.filter((s) => !s.negated).flatMap((s) => named(s, slot, type)).filter((sent) => !not.has(canonical(sent.name)));
  };
  const modeAt = (sent: Sent): { width: number; height: number; rate: number } => {
    const statement = picture.find((s) => s.where === sent.where);
    const mode = statement && valueOf(statement, "mode", "mode");
    return taken(setup, mode === undefined ? { width: 1280, height: 720, rate: 30 } : { width: mode.width, height: mode.height, rate: mode.rate });
  };
  const shownHere = shown(setup, join, shows, own("display"));
  const content = sends.filter((s) => what(s) === "content");
  const program = setup.service.cancels;
  return {
    join, device,
    // What is presented in the room from a joined device is presented to those online too, unless the text says otherwise.
    content: content.length > 0 ? list(content, "from", "display") : shownHere.filter((s) => s.what !== "call"),
    sound: list(sound, "from", "microphone"),
    pictures: list(picture, "from", "camera").map((sent) => ({ ...sent, ...modeAt(sent) })),
    plays: list(plays, "on", "loudspeaker"),
    monitors: withdrawn(monitors) ? [] : monitors.filter((s) => !s.negated).flatMap((s) => named(s, "on", "loudspeaker")),
    shows: shownHere,
    receives: received(join, item, "picture", setup.service.receives), presents: received(join, item, "content", setup.service.presents),
    cancels: cancels === undefined
      ? program !== undefined ? { ...unsaid(`${join.device}.cancels`, `echo cancellation at ${join.device}`, program), low: program ? 1 : 0, high: program ? 1 : 0, from: { how: "stated", where: setup.service.where } } : { ...unsaid(`${join.device}.cancels`, `whether echo cancellation is on at ${join.device}`, true, "what call programs do by default; common practice, no source"), low: 1 }
      : { ...unsaid(`${join.device}.cancels`, `echo cancellation at ${join.device}`, !cancels.negated), low: cancels.negated ? 0 : 1, high: cancels.negated ? 0 : 1, from: { how: "stated", where: cancels.where } },
  };
}

/** The smaller of what a join takes in and what the service hands out. */
function received(join: Join, item: string | undefined, what: "picture" | "content", most: PictureLimit | undefined): PictureLimit | undefined {
  const statement = holding(join.statements, "receives", item).filter((s) => valueOf(s, "what", "word")?.word === what).at(-1);
  const mode = statement && valueOf(statement, "mode", "mode");
  if (mode === undefined) return most;
  const own = { width: mode.width, height: mode.height, rate: Math.min(mode.rate, most?.rate ?? mode.rate), most: most?.most };
  return most !== undefined && most.width * most.height < own.width * own.height ? { ...most, rate: own.rate } : own;
}

/** A picture no larger than the service takes. */
function taken(setup: Setup, mode: { width: number; height: number; rate: number }): { width: number; height: number; rate: number } {
  const most = setup.service.sends;
  if (most === undefined) return mode;
  const size = mode.width * mode.height > most.width * most.height ? { width: most.width, height: most.height } : { width: mode.width, height: mode.height };
  return { ...size, rate: Math.min(mode.rate, most.rate) };
}

function shown(setup: Setup, join: Join, statements: readonly Bound[], screen: Part | undefined): Shown[] {
  const faces = (statement: Bound | undefined): Ranged => {
    const stated = statement?.children.find((c) => c.row.head === "faces");
    const count = stated && valueOf(stated, "count", "quantity");
    if (count !== undefined && Number.isFinite(count.best)) {
      return { id: `${join.device}.faces`, label: "how many faces are shown at once", dimension: "count", low: count.low, best: count.best, high: count.high, from: { how: "stated", where: stated?.where } };
    }
    const most = Math.max(1, Math.min(9, Math.round(setup.online.best)));
    // How the picture is split is chosen on the evening; the even split of all is what a call shows when left alone.
    return assumed(`${join.device}.faces`, `how many faces ${join.device} shows at once`, "count", { best: most, low: most, high: most, source: "common practice, no source" });
  };
  const letters = (statement: Bound, what: Shown["what"]): Ranged | undefined => {
    const stated = statement.children.find((c) => c.row.head === "text-height");
    const share = stated && valueOf(stated, "share", "quantity");
    const [id, label] = [`${join.device}.letters`, `how high the smallest letters are that ${join.device} shows`];
    if (stated !== undefined && share !== undefined && share.said !== "unknown") return fromText(share, stated, id, label, false);
    const purpose = purposeOf(statement);
    return (what === "slides" ? purpose !== "glance" : purpose === "reading") ? { ...assumed(id, label, "share", defaultOf("text-height", "shows", "share")), ask: `How high are the smallest letters that ${join.device} shows, as a share of the picture?` } : undefined;
  };
  const out: Shown[] = [];
  for (const statement of statements) {
    if (statement.negated) continue;
    const what = (valueOf(statement, "what", "word")?.word ?? "call") as Shown["what"];
    const names = valuesOf(statement, "on", "name").map((n) => fullName(setup, statement, n.text));
    const on = names.length > 0 ? names : screen === undefined ? [] : [screen.id];
    for (const name of on) out.push({ what, name, where: statement.where, assumed: false, faces: faces(statement), letters: letters(statement, what), purpose: purposeOf(statement) });
  }
  if (!statements.some((s) => valueOf(s, "what", "word")?.word === "call") && screen !== undefined && !out.some((o) => o.name === screen.id)) {
    out.push({ what: "call", name: screen.id, where: join.where, assumed: true, faces: faces(undefined), letters: undefined, purpose: undefined });
  }
  return out;
}

function purposeOf(statement: Bound): Shown["purpose"] {
  const stated = statement.children.find((c) => c.row.head === "purpose");
  return (stated && valueOf(stated, "of", "word")?.word) as Shown["purpose"];
}

const fullName = (setup: Setup, statement: Bound, name: string): string => setup.names.find(statement.where.path, name)?.name ?? name;
