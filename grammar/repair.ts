import { clip } from "./clip";
import { lineTable } from "./lines";
import type { SyntaxProblem, Token } from "./tree";

/**
 * Braces that do not balance, mended by what the writer shows otherwise: indentation, or, where nothing is indented, the heads
 * that stand only at top level. Only unbalanced text is touched; in balanced text the braces are right, however it is indented.
 */
export interface Repaired {
  /** The tokens with braces that balance: surplus ones left out, missing ones put in with an empty text. */
  readonly tokens: readonly Token[];
  readonly problems: readonly SyntaxProblem[];
}

/** Columns from one tab stop to the next, where tabs indent. */
const TAB = 4;

/** True if every brace that closes has one before it that opens, and none stays open. */
export function bracesBalance(tokens: readonly Token[]): boolean {
  let depth = 0;
  for (const token of tokens) {
    if (token.kind === "open-brace") depth += 1;
    else if (token.kind === "close-brace") depth -= 1;
    if (depth < 0) return false;
  }
  return depth === 0;
}

/** Gives tokens whose braces balance, and one problem for each brace that was missing or surplus. */
export function repairBraces(text: string, tokens: readonly Token[], topHeads: ReadonlySet<string>): Repaired {
  if (bracesBalance(tokens)) return { tokens, problems: [] };
  const mend = new Mend(text, tokens, readLines(text, tokens));
  if (isIndented(mend.lines)) repairByIndentation(mend);
  else repairByHeads(mend, topHeads);
  return mend.result();
}

/** A line with at least one token that is no line end. */
interface Line {
  /** Indices of its first and last token. */
  readonly first: number;
  readonly last: number;
  /** Column at which it begins. */
  readonly indent: number;
  /** Indices of the braces that open or close across lines: those without a partner in the line itself. */
  readonly opens: readonly number[];
  readonly closes: readonly number[];
  /** A quotation mark that is not closed runs to the line's end: the braces that it took with it. */
  readonly hidden: { readonly open: boolean; readonly close: boolean };
}

function readLines(text: string, tokens: readonly Token[]): Line[] {
  const lines: Line[] = [];
  let index = 0;
  let lineStart = 0;
  while (index < tokens.length) {
    const first = index;
    const opens: number[] = [];
    const closes: number[] = [];
    for (; index < tokens.length && tokens[index]?.kind !== "newline"; index += 1) {
      const kind = tokens[index]?.kind;
      if (kind === "open-brace") opens.push(index);
      else if (kind === "close-brace" && opens.pop() === undefined) closes.push(index);
    }
    const token = tokens[first];
    const last = tokens[index - 1];
    if (index > first && token !== undefined && last !== undefined) {
      const open = last.kind === "open-text";
      const hidden = { open: open && last.text.includes("{"), close: open && last.text.includes("}") };
      lines.push({ first, last: index - 1, indent: columnOf(text, lineStart, token.start), opens, closes, hidden });
    }
    lineStart = tokens[index]?.end ?? text.length;
    index += 1;
  }
  return lines;
}

function columnOf(text: string, lineStart: number, offset: number): number {
  let column = 0;
  for (let at = lineStart; at < offset; at += 1) {
    if (text[at] === "\t") column += TAB - (column % TAB);
    else if (text[at] !== "\ufeff") column += 1;
  }
  return column;
}

const startsWithClose = (line: Line): boolean => line.closes[0] === line.first;

/** Whether more blocks that begin at a line's end have their lines further right than not. */
function isIndented(lines: readonly Line[]): boolean {
  let indented = 0;
  let flat = 0;
  lines.forEach((line, index) => {
    const next = lines[index + 1];
    if (next === undefined || line.opens.at(-1) !== line.last || startsWithClose(next)) return;
    if (next.indent > line.indent) indented += 1;
    else flat += 1;
  });
  return indented >= flat;
}

/** A block that is open where the repair stands. */
interface Open {
  /** Column of the line that opened it. */
  readonly indent: number;
  /** The brace, and the line it stands in. */
  readonly brace: Token;
  readonly line: Line;
  /** Column of the first line inside, once there is one. */
  inner: number | undefined;
}

/** What the repair decides, gathered in terms of the tokens that were there. */
class Mend {
  private readonly dropped = new Set<number>();
  private readonly added = new Map<number, Token[]>();
  private readonly problems: SyntaxProblem[] = [];
  private readonly table;

  constructor(text: string, readonly tokens: readonly Token[], readonly lines: readonly Line[]) {
    this.table = lineTable(text);
  }

  token(index: number): Token {
    const token = this.tokens[index];
    if (token === undefined) throw new RangeError(`no token ${index}`);
    return token;
  }

  /** Puts a closing brace after line `after`; `before` is the line that showed it to be missing. */
  close(open: Open, after: Line, before: Line | undefined): void {
    this.add(after.last, "close-brace");
    // A quotation mark that swallowed the brace has its own problem.
    if (after.hidden.close || before?.hidden.close === true) return;
    const head = this.token(open.line.first);
    const name = head.kind === "word" ? `The block of “${clip(head.text)}”` : "This block";
    const where = before === undefined
      ? "at the end"
      : `before line ${this.lineNumber(this.token(before.first).start)}`;
    const from = this.lineNumber(open.brace.start);
    this.report("unclosed-block", after,
      `${name}, begun in line ${from}, is not closed: a } is missing ${where}.`);
  }

  /** Puts an opening brace at the end of a line; answers it. */
  open(line: Line): Token {
    const brace = this.add(line.last, "open-brace");
    if (!line.hidden.open) {
      const head = clip(this.token(line.first).text);
      this.report("missing-brace", line, `A { is missing at the end of this line: the block below it begins with “${head} … {”.`);
    }
    return brace;
  }

  /** Leaves a brace out. */
  drop(index: number): void {
    const again = this.dropped.has(index - 1);
    this.dropped.add(index);
    // A row of them is one mistake.
    if (again) return;
    const token = this.token(index);
    this.problems.push({
      code: "surplus-brace", start: token.start, end: token.end,
      message: token.kind === "close-brace"
        ? "This } closes nothing: delete it, or write the { that it belongs to."
        : "This { is one too many: delete it, or write the } that it belongs to.",
    });
  }

  result(): Repaired {
    const tokens: Token[] = [];
    this.tokens.forEach((token, index) => {
      if (!this.dropped.has(index)) tokens.push(token);
      for (const brace of this.added.get(index) ?? []) tokens.push(brace);
    });
    return { tokens, problems: this.problems };
  }

  private add(after: number, kind: "open-brace" | "close-brace"): Token {
    const { end } = this.token(after);
    const brace: Token = { kind, text: "", start: end, end };
    const others = this.added.get(after);
    if (others === undefined) this.added.set(after, [brace]);
    else others.push(brace);
    return brace;
  }

  private report(code: SyntaxProblem["code"], line: Line, message: string): void {
    const { start, end } = this.token(line.last);
    this.problems.push({ code, message, start, end });
  }

  private lineNumber(offset: number): number {
    return this.table.at(offset).line + 1;
  }
}

/** For each line the next line that stands no further right than it, by index; the number of lines where there is none. */
function nextNotDeeper(lines: readonly Line[]): number[] {
  const next = new Array<number>(lines.length).fill(lines.length);
  const waiting: number[] = [];
  lines.forEach((line, index) => {
    for (;;) {
      const top = waiting.at(-1);
      if (top === undefined || (lines[top]?.indent ?? 0) < line.indent) break;
      next[top] = index;
      waiting.pop();
    }
    waiting.push(index);
  });
  return next;
}

/** Indented text: a block lasts as long as its lines stand further right than the line that opened it. */
function repairByIndentation(mend: Mend): void {
  const { lines } = mend;
  const notDeeper = nextNotDeeper(lines);
  /** Columns of the lines so far, each slip put right. */
  const columns: number[] = [];
  const stack: Open[] = [];
  const top = (): Open | undefined => stack.at(-1);

  /** A } that is not where its block's } is looked for, ends the block if the text goes on further left without another. */
  const endsBlock = (next: Line | undefined): boolean => {
    const block = top();
    if (block === undefined) return false;
    if (next === undefined) return true;
    return next.indent <= block.indent && !(startsWithClose(next) && next.indent === block.indent);
  };

  lines.forEach((line, index) => {
    const before = lines[index - 1];
    const next = lines[index + 1];
    let { indent } = line;

    let from = index + 1;
    for (let open = top(); open !== undefined && before !== undefined; open = top()) {
      const inner = open.inner ?? next?.indent ?? 0;
      from = firstNotDeeper(lines, from, inner, notDeeper);
      if (isSlip(line, open, inner, lines[from])) {
        indent = inner;
        break;
      }
      if (startsWithClose(line) || indent > open.indent) break;
      mend.close(open, before, line);
      stack.pop();
    }
    if (!startsWithClose(line) && before !== undefined) {
      const column = columns[index - 1] ?? before.indent;
      const end = lines[firstNotDeeper(lines, index, column, notDeeper)];
      if (lacksOpen(mend, before, column, indent, end, top())) {
        stack.push({ indent: column, brace: mend.open(before), line: before, inner: indent });
      }
    }
    columns.push(indent);
    const block = top();
    if (block !== undefined) block.inner ??= indent;

    for (const close of line.closes) {
      const atStart = close === line.first;
      if (atStart && before !== undefined) {
        // The } of an outer block closes the inner ones with it; the outermost that it can mean takes it.
        let taken = false;
        for (let open = top(); open !== undefined && open.indent >= indent; open = top()) {
          stack.pop();
          taken = true;
          const outer = top();
          const meant = open.indent === indent || outer === undefined || outer.indent < indent;
          if (meant) break;
          mend.close(open, before, line);
        }
        if (taken) continue;
      }
      if (endsBlock(next)) stack.pop();
      else mend.drop(close);
    }
    for (const open of line.opens) {
      // Never further left than the block around it, so that the stack stays in order.
      const column = Math.max(indent, top()?.indent ?? 0);
      stack.push({ indent: column, brace: mend.token(open), line, inner: undefined });
    }
  });
  closeAll(mend, stack);
}

/** The first line from `from` on that stands no further right than `column`, by index. */
function firstNotDeeper(lines: readonly Line[], from: number, column: number, notDeeper: readonly number[]): number {
  let at = from;
  while ((lines[at]?.indent ?? -1) > column) at = notDeeper[at] ?? lines.length;
  return at;
}

/**
 * One line out of its column, to the left, in a block that goes on below it in its column `inner`, is a slip of that line
 * alone; `next` is the first line below that is not deeper. A line that ends with a { is no slip: it begins a block, and the }
 * of the one before is missing; neither is a line of nothing but }.
 */
function isSlip(line: Line, block: Open, inner: number, next: Line | undefined): boolean {
  if (block.inner === undefined ? line.indent > block.indent : line.indent >= inner) return false;
  if (line.opens.at(-1) === line.last || line.closes.length === line.last - line.first + 1) return false;
  if (inner <= block.indent || next === undefined) return false;
  return next.indent === inner || (startsWithClose(next) && next.indent === block.indent);
}

/**
 * Whether `before`, at `column`, lost its {: the next line stands further right, at `indent`, and the first that does not,
 * `end`, is a } in the column of `before`.
 */
function lacksOpen(
  mend: Mend, before: Line, column: number, indent: number, end: Line | undefined, block: Open | undefined,
): boolean {
  if (indent <= column || before.opens.length > 0) return false;
  if (mend.token(before.last).kind === "close-brace") return false;
  if (end === undefined || end.indent !== column || !startsWithClose(end)) return false;
  return block === undefined || block.indent < column;
}

/** Text that is not indented: a head that stands only at top level ends all blocks before it. */
function repairByHeads(mend: Mend, topHeads: ReadonlySet<string>): void {
  const { lines } = mend;
  const stack: Open[] = [];
  /** Braces that open less those that close, of the braces still ahead or kept: above 0 something is not closed. */
  let excess = 0;
  for (const line of lines) excess += line.opens.length - line.closes.length;
  const isTop = (line: Line): boolean => {
    const head = mend.token(line.first);
    return head.kind === "word" && topHeads.has(head.text.normalize("NFC").toLowerCase());
  };
  const drop = (index: number, change: number): void => {
    mend.drop(index);
    excess += change;
  };
  /** Last line of the top level that could have lost its {, by index. */
  let candidate: number | undefined;

  lines.forEach((line, index) => {
    const before = lines[index - 1];
    if (isTop(line) && before !== undefined) {
      for (let open = stack.pop(); open !== undefined; open = stack.pop()) {
        mend.close(open, before, line);
        excess -= 1;
      }
    }
    if (stack.length === 0 && isTop(line)) candidate = undefined;

    for (const close of line.closes) {
      // With braces to spare, one amid other things is the likelier slip than one on a line of its own.
      const ownLine = close === line.first && close === line.last;
      if (!ownLine && excess < 0) drop(close, 1);
      else if (stack.length > 0) stack.pop();
      else {
        const head = candidate === undefined ? undefined : lines[candidate];
        if (head !== undefined && candidate !== undefined && index - candidate > 1 && before !== undefined) {
          mend.open(head);
          excess += 1;
        } else drop(close, 1);
        candidate = undefined;
      }
    }
    line.opens.forEach((open, count) => {
      const twice = count > 0 && line.opens[count - 1] === open - 1;
      if (twice && excess > 0) {
        drop(open, -1);
        return;
      }
      const block: Open = { indent: line.indent, brace: mend.token(open), line, inner: undefined };
      if (open < line.last && line.opens[count + 1] !== open + 1 && excess > 0) {
        // Begun amid a line: the line's end is the likeliest place for the } that it lost.
        mend.close(block, line, lines[index + 1]);
        excess -= 1;
      } else stack.push(block);
    });
    if (stack.length === 0 && isTop(line) && line.opens.length === 0 && mend.token(line.last).kind !== "close-brace") {
      candidate = index;
    }
  });
  closeAll(mend, stack);
}

function closeAll(mend: Mend, stack: Open[]): void {
  const last = mend.lines.at(-1);
  if (last === undefined) return;
  for (let open = stack.pop(); open !== undefined; open = stack.pop()) mend.close(open, last, undefined);
}
