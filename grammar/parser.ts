import type { TidyToken } from "./tidy";
import type { Block, Fact, Item, Point, Token } from "./tree";

/**
 * Builds the statements of a file from tidied tokens (see `tidy`):
 *
 * ```
 * statements = [ statement { separator statement } ]
 * statement  = fact { "," fact } [ "{" statements "}" ]
 * fact       = value { value | point }
 * point      = "(" { value } { "," { value } } ")"
 * ```
 *
 * A descent by hand: with nothing to recover from and one token to look ahead, Chevrotain's parser took 31 ms where this takes
 * 3 to 12 ms (10,000 lines, Node 20), for twice the code. Recursion goes no deeper than blocks, which `tidy` limits. Tidied
 * tokens always parse; that they do not is a mistake in `tidy`, and is thrown.
 */
export function parseStatements(tokens: readonly TidyToken[]): readonly Fact[] {
  const cursor = new Cursor(tokens);
  const facts = statements(cursor);
  if (!cursor.atEnd) throw new Error(`tidied tokens did not parse: ${cursor.describe()}`);
  return facts;
}

class Cursor {
  private at = 0;

  constructor(private readonly tokens: readonly TidyToken[]) {}

  get atEnd(): boolean {
    return this.at === this.tokens.length;
  }

  is(part: TidyToken["part"]): boolean {
    return this.tokens[this.at]?.part === part;
  }

  take(part: TidyToken["part"]): Token {
    const next = this.tokens[this.at];
    if (next?.part !== part) throw new Error(`tidied tokens did not parse: ${part} wanted, ${this.describe()}`);
    this.at += 1;
    return next.token;
  }

  /** Passes over a token if it is there. */
  skip(part: TidyToken["part"]): boolean {
    const there = this.is(part);
    if (there) this.at += 1;
    return there;
  }

  describe(): string {
    const next = this.tokens[this.at];
    return next === undefined ? "the end of the text found" : `${next.part} found at ${next.token.start}`;
  }
}

function statements(cursor: Cursor): readonly Fact[] {
  const facts: Fact[] = [];
  if (!cursor.is("value")) return facts;
  do facts.push(statement(cursor)); while (cursor.skip("separator"));
  return facts;
}

function statement(cursor: Cursor): Fact {
  const first = fact(cursor);
  const also: Fact[] = [];
  while (cursor.skip("comma")) also.push(fact(cursor));
  const block = cursor.is("open-brace") ? readBlock(cursor) : undefined;
  if (also.length === 0 && block === undefined) return first;
  return { ...first, also, block, fullEnd: block?.end ?? also.at(-1)?.end ?? first.end };
}

function readBlock(cursor: Cursor): Block {
  const open = cursor.take("open-brace");
  const facts = statements(cursor);
  const close = cursor.take("close-brace");
  return { open, close, facts, start: open.start, end: close.end };
}

function fact(cursor: Cursor): Fact {
  const head = cursor.take("value");
  const items: Item[] = [];
  for (;;) {
    if (cursor.is("value")) items.push(cursor.take("value"));
    else if (cursor.is("open-paren")) items.push(readPoint(cursor));
    else break;
  }
  const { end } = items.at(-1) ?? head;
  return { kind: "fact", head, items, also: [], block: undefined, start: head.start, end, fullEnd: end };
}

function readPoint(cursor: Cursor): Point {
  const open = cursor.take("open-paren");
  let coordinate: Token[] = [];
  const coordinates = [coordinate];
  for (;;) {
    if (cursor.is("value")) coordinate.push(cursor.take("value"));
    else if (cursor.skip("comma")) coordinates.push(coordinate = []);
    else break;
  }
  const close = cursor.take("close-paren");
  return {
    kind: "point", open, close: close.text === "" ? undefined : close, coordinates, start: open.start, end: close.end,
  };
}
