/** Every place that means one thing, in all setups that could. */
import type { Setup } from "../model/setup";
import type { Where } from "../model/where";
import { occurrenceAt, occurrences, type Occurrence } from "./names";

/** The setups that take a file in, the file's own among them where it is one; the file alone where none does. */
export type SetupsWith = (path: string) => readonly Setup[];

/** A setup with what is named in it. */
export interface Naming {
  readonly setup: Setup;
  readonly all: readonly Occurrence[];
  /** Those that mean the thing. */
  readonly of: readonly Occurrence[];
}

/**
 * The thing under the cursor in every setup in which it is stated or used: from the file to the setups with it, on to the files that
 * name it there, to their setups, until none is new. Empty where no name is under the cursor.
 */
export function namings(setupsWith: SetupsWith, path: string, offset: number): readonly Naming[] {
  const done = new Map<string, Naming>();
  const places: { readonly path: string; readonly at: number }[] = [{ path, at: offset }];
  const seen = new Set<string>();
  for (let place = places.pop(); place !== undefined; place = places.pop()) {
    const id = `${place.path}:${place.at}`;
    if (seen.has(id)) continue;
    seen.add(id);
    for (const setup of setupsWith(place.path)) {
      if (done.has(setup.root)) continue;
      const all = occurrences(setup);
      const here = occurrenceAt(all, place.path, place.at);
      if (here === undefined) continue;
      const of = all.filter((one) => one.key === here.key);
      done.set(setup.root, { setup, all, of });
      // Of each file one place is enough to find the thing again in the file's other setups.
      for (const other of new Set(of.map((one) => one.path))) {
        const first = of.find((one) => one.path === other);
        if (first !== undefined) places.push({ path: other, at: first.start });
      }
    }
  }
  return [...done.values()];
}

/** All occurrences, each once, in the order of files and texts. */
export function references(setupsWith: SetupsWith, path: string, offset: number, withDeclaration: boolean): readonly Where[] {
  const found = new Map<string, Where>();
  for (const { of } of namings(setupsWith, path, offset)) {
    for (const one of of) if (withDeclaration || !one.declares) found.set(`${one.path}:${one.start}`, { path: one.path, start: one.start, end: one.end });
  }
  return [...found.values()].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : a.start - b.start));
}
