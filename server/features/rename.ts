/** Renaming, across files, tried on a copy first: afterwards every name must mean what it meant, and nothing may be wrong that was not. */
import { lex } from "../../grammar/lexer";
import type { Edit } from "../finding";
import type { Texts } from "../model/files";
import { applyEdits } from "../model/edits";
import { KIND_WORDS } from "../model/names";
import { readSetup, type Setup } from "../model/setup";
import type { Span } from "./asked";
import { occurrenceAt, occurrences, type Occurrence, type SymbolKind } from "./names";
import { namings, type Naming, type SetupsWith } from "./references";

export type Refused = { readonly refused: string };

const word = (kind: SymbolKind): string => (kind === "alias" ? "name for a file" : KIND_WORDS[kind]);

/** What would be renamed at a position, or why it cannot be. Nothing where no name stands there. */
export function renameable(setupsWith: SetupsWith, path: string, offset: number): (Span & { readonly name: string }) | Refused | undefined {
  const all = namings(setupsWith, path, offset);
  const refused = whyNot(all);
  if (refused !== undefined) return { refused };
  for (const { setup, all: named } of all) {
    const here = occurrenceAt(named, path, offset);
    const text = setup.files.find((file) => file.path === path)?.text;
    if (here !== undefined && text !== undefined) return { start: here.start, end: here.end, name: text.slice(here.start, here.end) };
  }
  return undefined;
}

function whyNot(all: readonly Naming[]): string | undefined {
  const of = all.flatMap((naming) => naming.of);
  const [first] = of;
  if (first === undefined) return undefined;
  if (of.some((one) => one.builtIn === true)) return `This ${word(first.kind)} is one that needs no statement; its name is part of the language.`;
  if (!of.some((one) => one.declares)) return `This ${word(first.kind)} has no name of its own in any text that could be changed.`;
  return undefined;
}

/** The edits that give a thing another name, in every file that names it; or why it cannot have that name. */
export function rename(setupsWith: SetupsWith, texts: Texts, path: string, offset: number, name: string): readonly Edit[] | Refused {
  const all = namings(setupsWith, path, offset);
  if (all.length === 0) return { refused: "There is no name here that could be changed." };
  const refused = whyNot(all) ?? notAName(name);
  if (refused !== undefined) return { refused };
  const edits = new Map<string, Edit>();
  for (const { of } of all) for (const one of of) edits.set(`${one.path}:${one.start}`, { path: one.path, start: one.start, end: one.end, newText: name });
  const list = [...edits.values()];
  const changed = new Map<string, string>();
  for (const { setup } of all) {
    for (const file of setup.files) {
      const own = list.filter((edit) => edit.path === file.path);
      if (own.length > 0) changed.set(file.path, applyEdits(file.text, own));
    }
  }
  const after: Texts = { read: (given) => {
    const text = changed.get(given);
    return text === undefined ? texts.read(given) : { text };
  } };
  for (const naming of all) {
    const wrong = whatBreaks(naming, readSetup(after, naming.setup.root), name);
    if (wrong !== undefined) return { refused: wrong };
  }
  return list;
}

function notAName(name: string): string | undefined {
  const { tokens, comments } = lex(name);
  const [only] = tokens;
  if (tokens.length !== 1 || comments.length > 0 || only?.kind !== "word" || only.text !== name || name.includes(".")) {
    return `“${name}” is no name: a name is one word of letters, digits and hyphens that begins with a letter, like side-table.`;
  }
  return undefined;
}

function whatBreaks({ setup: before, all }: Naming, after: Setup, name: string): string | undefined {
  const errors = (setup: Setup) => setup.problems.filter((problem) => problem.severity === "error");
  if (errors(after).length > errors(before).length) {
    const known = new Set(errors(before).map((problem) => `${problem.code} ${problem.message}`));
    const fresh = errors(after).find((problem) => !known.has(`${problem.code} ${problem.message}`));
    return `It cannot be called “${name}”: ${fresh?.message ?? "the text would no longer read as it does."}`;
  }
  // What meant one thing before must do so afterwards, and what meant two must still mean two.
  const now = occurrences(after);
  const there = new Map<string, string>();
  const back = new Map<string, string>();
  const same = now.length === all.length && all.every((one: Occurrence, i) => {
    const other = now[i];
    if (other === undefined || other.path !== one.path || other.declares !== one.declares) return false;
    if ((there.get(one.key) ?? other.key) !== other.key || (back.get(other.key) ?? one.key) !== one.key) return false;
    there.set(one.key, other.key);
    back.set(other.key, one.key);
    return true;
  });
  return same ? undefined : `It cannot be called “${name}”: some line would then mean something else.`;
}
