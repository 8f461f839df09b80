/** Changes of the text that leave what it means as it is, and accepting a risk: offered where the cursor stands, each as edits and new files. */
import { HEADS } from "../../grammar/vocabulary";
import type { Edit, Finding } from "../finding";
import { valueOf, type Bound } from "../model/bound";
import { append, applyEdits, remove } from "../model/edits";
import type { SourceFile, Texts } from "../model/files";
import { canonical } from "../model/names";
import { TYPICAL_TEXT, typicalKinds, type Setup } from "../model/setup";
import type { Study } from "../study";
import { fileAsked, touches, type Asked, type Span } from "./asked";

export interface Refactoring {
  readonly title: string;
  readonly sort: "extract" | "accept";
  readonly edits: readonly Edit[];
  /** Files that are made; none of them is there yet. */
  readonly creates: readonly { readonly path: string; readonly text: string }[];
}

/** What can be done with the statements that a selection touches. */
export function refactorings(asked: Pick<Asked, "setup" | "path" | "texts">, span: Span): readonly Refactoring[] {
  const file = fileAsked(asked);
  if (file === undefined) return [];
  const touched = file.statements.filter((statement) => touches(statement.whole, span.start) || touches(span, statement.whole.start));
  return touched.flatMap((statement): Refactoring[] => {
    switch (statement.row.head) {
      case "room": return intoFile(asked.texts, file, [statement], `Move room ${nameOf(statement)} into a file of its own`, fileName(nameOf(statement) || "room"));
      case "kind": case "device": case "devices": {
        const kit = file.statements.filter((one) => ["kind", "device", "devices"].includes(one.row.head));
        return intoFile(asked.texts, file, kit, "Move the kit into a file of its own", "kit").concat(intoKind(asked.setup, file, statement));
      }
      case "place": return intoKind(asked.setup, file, statement);
      default: return [];
    }
  }).filter((one, i, all) => all.findIndex((other) => other.title === one.title) === i);
}

const nameOf = (statement: Bound): string => valueOf(statement, "name", "name")?.text ?? "";
const fileName = (name: string): string => name.toLowerCase().replace(/[^\p{L}\p{M}\p{N}-]+/gu, "-").replace(/^-+|-+$/gu, "") || "part";

/** Statements with the comments on their lines into a new file beside this one, and a `use` in the place of the first. */
function intoFile(texts: Texts, { path, text, statements }: SourceFile, moved: readonly Bound[], title: string, stem: string): Refactoring[] {
  const [first] = moved;
  // A file that holds nothing else is one already.
  if (first === undefined || statements.every((one) => moved.includes(one) || ["use"].includes(one.row.head))) return [];
  const folder = path.split("/").slice(0, -1);
  const target = [stem, ...[2, 3, 4, 5, 6, 7, 8, 9].map((n) => `${stem}-${n}`)].map((name) => `${name}.bothways`).find((name) => !("text" in texts.read([...folder, name].join("/"))));
  if (target === undefined) return [];
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  const lines = moved.map((statement) => linesOf(text, statement.whole));
  const edits = lines.map((span, i): Edit => ({ path, start: span.start, end: span.end, newText: i === 0 ? `use "${target}"${eol}` : "" }));
  const header = /^bothways \d+[^\n]*\n/u.exec(text)?.[0] ?? "";
  return [{ title, sort: "extract", edits, creates: [{ path: [...folder, target].join("/"), text: header + lines.map((span) => text.slice(span.start, span.end)).map((one) => (one.endsWith("\n") ? one : `${one}${eol}`)).join("") }] }];
}

/** The lines of a statement, with those of comments directly above it. */
function linesOf(text: string, { start, end }: Span): Span {
  let from = text.lastIndexOf("\n", start - 1) + 1;
  while (from > 0) {
    const before = text.lastIndexOf("\n", from - 2) + 1;
    if (!/^[ \t]*#/u.test(text.slice(before, from))) break;
    from = before;
  }
  const newline = text.indexOf("\n", end);
  return { start: from, end: newline < 0 ? text.length : newline + 1 };
}

/** Facts that a device has for itself, whatever its kind. */
const OWN = new Set(["owned", "borrowed", "height", "note", "aim", "fills"]);

/** What a device says of itself inline becomes a kind, so that others can be of it. */
function intoKind(setup: Setup, file: SourceFile, statement: Bound): Refactoring[] {
  const { text, path } = file;
  const name = valueOf(statement, statement.row.head === "place" ? "device" : "name", "name");
  const kind = valueOf(statement, "kind", "name");
  const facts = statement.children.filter((child) => child.row.nature === "fact" && !OWN.has(child.row.head));
  if (name === undefined || kind === undefined || facts.length === 0) return [];
  const own = facts.map(ownSpan);
  if (own.some((span) => span === undefined)) return [];
  // A comment would lose what it is about.
  if (text.slice(statement.whole.start, statement.whole.end).includes("#")) return [];
  const base = setup.names.find(path, kind.text, "kind");
  const typical = base?.where === undefined ? typicalKinds().find((one) => canonical(nameOf(one)) === canonical(kind.text)) : undefined;
  const type = typical === undefined ? typeOf(setup, base?.name) : valueOf(typical, "type", "word")?.word;
  const called = `${name.text}-kind`;
  if (type === undefined || HEADS.has(called) || setup.names.find(path, called) !== undefined || setup.names.find(path, called, "kind") !== undefined) return [];
  const inherited = inheritedBy(setup, base?.name, typical, facts);
  if (inherited === undefined) return [];
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  const lines = [...inherited, ...own.map((span) => (span === undefined ? "" : text.slice(span.start, span.end)))].map((line) => `  ${line.replace(/\r?\n/gu, eol)}${eol}`).join("");
  const line = linesOf(text, { start: statement.whole.start, end: statement.whole.start });
  return [{
    title: `Make what ${name.text} says of itself a kind`, sort: "extract", creates: [],
    edits: [
      { path, start: line.start, end: line.start, newText: `kind ${called} is a ${type} {${eol}${lines}}${eol}` },
      { path, start: statement.whole.start, end: statement.whole.end, newText: without(file, statement, facts, { start: kind.start, end: kind.end, text: called }) },
    ],
  }];
}

/**
 * A fact's own words, with what stands behind its commas as far as that is its own, and its block: `whole` also holds the facts beside
 * it that follow on its line. Nothing where the two are mixed.
 */
function ownSpan({ fact, children, whole }: Bound): Span | undefined {
  const isOwn = fact.also.map((also) => children.some((child) => child.fact === also));
  const beside = isOwn.indexOf(false);
  if (beside < 0) return { start: whole.start, end: whole.end };
  if (isOwn.includes(true, beside) || fact.block !== undefined) return undefined;
  return { start: whole.start, end: beside === 0 ? fact.end : fact.also[beside - 1]?.fullEnd ?? fact.end };
}

/** A statement's text without some of its facts, and with another word in one place; a block that is left empty goes, too. */
function without(file: SourceFile, statement: Bound, facts: readonly Bound[], word: Span & { readonly text: string }): string {
  const from = statement.whole.start;
  const within = ({ start, end, newText }: Edit): Edit => ({ path: file.path, start: Math.max(0, start - from), end: Math.min(end, statement.whole.end) - from, newText });
  const edits = [...facts.map((fact) => within(taken(file, fact))), within({ path: file.path, start: word.start, end: word.end, newText: word.text })];
  return applyEdits(file.text.slice(from, statement.whole.end), edits).replace(/\{\s*,\s*/gu, "{ ").replace(/\s*\{\s*\}/gu, "").replace(/(\n[ \t]*),[ \t]*/gu, "$1").replace(/\n[ \t]+(?=\r?\n)/gu, "");
}

/** Takes a fact away and leaves those beside it on its line. */
function taken(file: SourceFile, fact: Bound): Edit {
  const span = ownSpan(fact);
  if (span === undefined || span.end === fact.whole.end) return remove(file, fact);
  const before = /,[ \t]*$/.exec(file.text.slice(0, span.start));
  return { path: file.path, start: before === null ? span.start : span.start - before[0].length, end: span.end, newText: "" };
}

function kindStated(setup: Setup, name: string | undefined): { readonly file: SourceFile; readonly bound: Bound } | undefined {
  for (const file of setup.files) for (const bound of file.statements) if (bound.row.head === "kind" && canonical(setup.names.full(file.path, nameOf(bound))) === canonical(name ?? "")) return { file, bound };
  return undefined;
}

const typeOf = (setup: Setup, name: string | undefined): string | undefined => {
  const found = kindStated(setup, name)?.bound;
  return found && valueOf(found, "type", "word")?.word;
};

/** What the former kind says and the device does not say anew, as lines of the text; nothing where it cannot be told apart. */
function inheritedBy(setup: Setup, name: string | undefined, typical: Bound | undefined, facts: readonly Bound[]): readonly string[] | undefined {
  const stated = typical === undefined ? kindStated(setup, name) : { file: { text: TYPICAL_TEXT }, bound: typical };
  if (stated === undefined) return undefined;
  // Parts and ports are told apart by their names, everything else by its word.
  const keyOf = (fact: Bound): string => ["part", "port", "ports"].includes(fact.row.head) ? `${fact.row.head} ${canonical(nameOf(fact))}` : fact.row.head;
  // A part that is said more of is in both: which of the two holds line by line is for a person to say.
  if (facts.some((fact) => fact.row.head === "part")) return undefined;
  const anew = new Set(facts.map(keyOf));
  return stated.bound.children.filter((fact) => !anew.has(keyOf(fact))).map((fact) => stated.file.text.slice(fact.whole.start, fact.whole.end));
}

/** Accepting what was found at a place of the setup's own text: a line for each, with a reason to be written. */
export function acceptances(study: Study, span: Span): readonly Refactoring[] {
  const { setup } = study;
  const file = setup.files[0];
  if (file === undefined || !study.isSetup) return [];
  return study.findings.filter((one) => one.severity !== "plan" && one.where.path === study.root && one.where.start <= span.end && span.start <= one.where.end).map((finding) => ({
    title: `Accept this risk, and say why: ${finding.code}`, sort: "accept", creates: [],
    edits: [append(file, `accept ${finding.code}${subjectsOf(setup, finding)} because "${REASON}"`, ["accept"])],
  }));
}

/** Stands where the author is to say why. */
export const REASON = "why this may be so";

const ACCEPTED = new Set(["device", "talker", "seats", "internet", "spot", "surface"]);
/** The subjects that a name of the text stands for; without any the whole code would be accepted, so one at least must be. */
function subjectsOf(setup: Setup, { subjects }: Finding): string {
  const named = subjects.filter((one) => ACCEPTED.has(setup.names.find(setup.root, one)?.kind ?? ""));
  return named.length === 0 ? "" : ` of ${named.join(" and ")}`;
}
