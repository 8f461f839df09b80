/**
 * From tree to statements: every fact is held against the vocabulary and its words are put into slots. What does not fit gives one
 * message and costs that statement alone.
 */
import { clip } from "../../grammar/clip";
import { lineTable } from "../../grammar/lines";
import type { Fact, Item, SyntaxProblem, Tree } from "../../grammar/tree";
import { HEADS, rowFor, rowsOf, VOCABULARY, type Owner, type Row } from "../../grammar/vocabulary";
import { startsPlace } from "./binding/place";
import { fillSlots } from "./binding/slots";
import { ownerWord } from "./binding/wanted";
import type { Bound } from "./bound";
import { nearest } from "./near";
import type { TextProblem } from "./text-problem";

export interface BoundFile {
  readonly path: string;
  readonly statements: readonly Bound[];
  readonly problems: readonly TextProblem[];
}

/** What is wrong with a line as text may be why its statement does not fit: the statement then says nothing more. */
const SPOILS: ReadonlySet<SyntaxProblem["code"]> = new Set(["unclosed-text", "unclosed-point", "stray-sign", "decimal-comma"] as const);

/** Holds the facts of one tree against the vocabulary. `path`: the file, as messages and statements shall name it. */
export function bind(tree: Tree, path: string): BoundFile {
  const problems: TextProblem[] = tree.problems.map((p) => ({
    code: p.code, severity: "error", message: p.message, where: { path, start: p.start, end: p.end }, related: [],
  }));
  const lines = lineTable(tree.text);
  const spoilt = new Set(tree.problems.filter((p) => SPOILS.has(p.code)).map((p) => lines.at(p.start).line));
  const binder = new Binder(path, problems, (start) => spoilt.size > 0 && spoilt.has(lines.at(start).line));
  const statements = binder.block(tree.root.facts, "file");
  binder.onlyOnce(statements);
  problems.sort((a, b) => a.where.start - b.where.start);
  return { path, statements, problems };
}

class Binder {
  constructor(readonly path: string, readonly problems: TextProblem[], readonly spoilt: (start: number) => boolean) {}

  block(facts: readonly Fact[], owner: Owner): Bound[] {
    const out: Bound[] = [];
    for (const fact of facts) this.line(fact, owner, out);
    return out;
  }

  /** A line: its first fact, what stands after its commas, and its block. */
  private line(fact: Fact, owner: Owner, out: Bound[]): void {
    const row = this.rowOf(fact, owner);
    if (row === undefined) return;
    const children: Bound[] = [];
    const siblings: Bound[] = [];
    // A relation after a comma says more on the place of the line's owner, as if the comma were not there.
    const more: Item[] = [];
    for (const also of fact.also) {
      const head = also.head.text;
      const inner = row.body === undefined ? undefined : rowFor(row.body, head);
      if (inner !== undefined && row.body !== undefined) children.push(this.statement(also, inner, row.body));
      else if (row.slots.some((slot) => slot.takes.kind === "place") && startsPlace([also.head, ...also.items], 0)) more.push(also.head, ...also.items);
      else if (rowFor(owner, head) !== undefined) this.line(also, owner, siblings);
      else this.unknownHead(also, row.body ?? owner);
    }
    if (fact.block !== undefined) {
      if (row.body === undefined) {
        this.say("no-block", `“${row.head}” takes no block: write each of these on a line of its own.`, fact.block.start, fact.block.start + 1);
      } else children.push(...this.block(fact.block.facts, row.body));
    }
    this.onlyOnce(children);
    out.push(this.statement(fact, row, owner, children, more), ...siblings);
  }

  private rowOf(fact: Fact, owner: Owner): Row | undefined {
    const row = rowFor(owner, fact.head.text);
    if (row === undefined) this.unknownHead(fact, owner);
    return row;
  }

  private unknownHead(fact: Fact, owner: Owner): void {
    const head = fact.head;
    // What is wrong with the text as text has had its message: a sign that means nothing stands as a head where nothing else does.
    if (head.kind === "unknown" || head.kind === "conflict") return;
    const here = rowsOf(owner).map((row) => row.head);
    const where = owner === "file" ? "at the top of a file" : `with “${ownerWord(owner)}”`;
    if (HEADS.has(head.text.toLowerCase())) {
      const owners = VOCABULARY.filter((row) => row.head === head.text.toLowerCase()).flatMap((row) => row.within);
      const places = [...new Set(owners)].map((o) => (o === "file" ? "at the top of a file" : `with “${ownerWord(o)}”`));
      this.say("misplaced", `“${head.text}” does not stand ${where}; it stands ${places.join(" or ")}.`, head.start, head.end);
      return;
    }
    const near = nearest(head.text, here);
    const hint = near !== undefined ? ` Was “${near}” meant?` : here.length > 0 && here.length <= 14 ? ` What may stand here: ${here.join(", ")}.` : "";
    this.say("unknown-statement", `No statement ${where} begins with “${clip(head.text)}”.${hint}`, head.start, head.end);
  }

  /** Statements that may stand once with one owner, and stand twice. */
  onlyOnce(children: readonly Bound[]): void {
    const seen = new Map<string, Bound>();
    for (const child of children) {
      if (child.row.once !== true || child.tails.during.length > 0) continue;
      const first = seen.get(child.row.head);
      if (first === undefined) seen.set(child.row.head, child);
      else {
        this.problems.push({
          code: "said-twice", severity: "error", message: `“${child.row.head}” is stated twice here; keep one.`, where: child.where,
          related: [{ where: first.where, message: "the first one" }],
        });
      }
    }
  }

  private statement(fact: Fact, row: Row, owner: Owner, children: readonly Bound[] = [], more: readonly Item[] = []): Bound {
    const filled = fillSlots(fact, row, more, (...problem) => this.say(...problem));
    return {
      row, owner, fact, ...filled, children, where: { path: this.path, start: fact.start, end: fact.end },
      whole: { path: this.path, start: fact.start, end: fact.fullEnd },
    };
  }

  private say(code: string, message: string, start: number, end: number): void {
    if (this.spoilt(start)) return;
    this.problems.push({ code, severity: "error", message, where: { path: this.path, start, end }, related: [] });
  }
}
