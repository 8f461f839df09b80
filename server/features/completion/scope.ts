/** Names that may stand at the cursor: those of the kinds wanted, as they are written in this file, what is meant most often first. */
import type { NameKind } from "../../../grammar/vocabulary";
import { canonical, KIND_WORDS, type Named } from "../../model/names";
import type { Setup } from "../../model/setup";
import { deviceOf } from "../names";
import { aboutNamed, detailOf } from "./about";
import { offer, type Bare } from "./offer";

/** From where names are looked for. */
export interface Scope {
  readonly setup: Setup;
  readonly path: string;
  /** What is written of the name so far. */
  readonly typed: string;
  /** Where the line begins: what it states itself is not meant by it. */
  readonly line: number | undefined;
  /** What the line is about, as it is written. */
  readonly subject: string | undefined;
}

/** More names than anybody would look through; what is typed narrows them. */
const MOST_NAMES = 500;

/** Names of the kinds wanted. Parts and ports come once their device and its point are written. */
export function namesOf(scope: Scope, kinds: readonly NameKind[], rank: (named: Named) => number): Bare[] {
  const { setup, path, line, subject } = scope;
  const own = subject === undefined ? undefined : setup.names.find(path, subject);
  const wanted = stem(scope.typed);
  const members = kinds.includes("port") || kinds.includes("part");
  const found = setup.names.ofKinds(members && !kinds.includes("device") ? [...kinds, "device"] : kinds).flatMap((named): { named: Named; written: string }[] => {
    if (named === own || (named.where !== undefined && named.where.path === path && named.where.start === line)) return [];
    const written = writtenIn(scope, named.name);
    if (named.kind !== "part" && named.kind !== "port") return canonical(written).startsWith(wanted) ? [{ named, written }] : [];
    // Behind the point of a device, what that device has.
    const device = deviceOf(setup, named.name);
    return device !== undefined && `${canonical(writtenIn(scope, device))}.` === wanted ? [{ named, written }] : [];
  });
  return narrowed(found, scope.typed).map(({ named, written }) => offer("name", written, detailOf(setup, named), aboutNamed(setup, named), rank(named)));
}

/** `laptop.` of `laptop.h`: what all that may be meant begins with. */
const stem = (typed: string): string => canonical(typed.slice(0, typed.lastIndexOf(".") + 1));

/** Within a file that was taken in `as x` its own names are written without `x.`. */
function writtenIn({ setup, path }: Scope, full: string): string {
  const prefix = setup.names.full(path, "");
  return prefix !== "" && canonical(full).startsWith(canonical(prefix)) ? full.slice(prefix.length) : full;
}

/** Where there are very many, those that hold the letters typed, in their order. */
function narrowed<T extends { readonly written: string }>(found: readonly T[], typed: string): readonly T[] {
  if (found.length <= MOST_NAMES) return found;
  const letters = [...canonical(typed)];
  return found.filter(({ written }) => {
    let at = 0;
    const name = canonical(written);
    return letters.every((letter) => {
      at = name.indexOf(letter, at) + 1;
      return at > 0;
    });
  }).slice(0, MOST_NAMES);
}

/** Numbered sets, behind `each`: of devices, of the ports of one, and `mic.plug` for the plug of every one. */
export function setsOf(scope: Scope, kinds: readonly NameKind[]): Bare[] {
  const { setup, path, typed } = scope;
  const base = stem(typed);
  if (!kinds.some((kind) => kind === "device" || kind === "port" || kind === "part")) return [];
  const set = (name: string): Bare => offer("name", name, "numbered set", "all of them, one by one", 0);
  const first = base === "" ? undefined : setup.names.findSet(path, base.slice(0, -1))?.[0];
  if (first !== undefined) {
    return setup.names.ofKinds(kinds.filter((kind) => kind === "port" || kind === "part")).filter((named) => canonical(named.name).startsWith(`${canonical(first)}.`))
      .map((named) => set(`${typed.slice(0, typed.lastIndexOf("."))}${named.name.slice(first.length)}`));
  }
  const among = setup.names.ofKinds(["device", ...kinds.filter((kind) => kind === "port")]);
  const names = [...new Set(among.flatMap((named) => /^(.+)-\d+$/.exec(named.name)?.[1] ?? []).map((name) => writtenIn(scope, name)))];
  // The ports of each of a set are meant by the set's own name.
  return names.filter((name) => setup.names.findSet(path, name) !== undefined && canonical(name).startsWith(base) && !/-\d+\./.test(name)).map(set);
}

/** Channels of one mixer, by the names on their strips. */
export function channelsOf(setup: Setup, mixer: string): Bare[] {
  const lead = `${canonical(mixer)}/`;
  return [
    offer("word", "all", "", "every channel", 0),
    ...setup.names.ofKinds(["channel"]).filter((named) => canonical(named.name).startsWith(lead)).map((named) => offer("name", named.name.slice(lead.length), KIND_WORDS.channel, "", 0)),
  ];
}
