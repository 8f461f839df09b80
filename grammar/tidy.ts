import { DEEPEST, type SyntaxProblem, type Token } from "./tree";

/**
 * Tokens made fit for a grammar without exceptions: signs that stand where none may are reported and left out, points are
 * closed, and exactly one line end stands between two statements. What is left always parses.
 *
 * A point always has its closing parenthesis: one with an empty text where the line has none.
 */
export interface Tidied {
  readonly tokens: readonly TidyToken[];
  readonly problems: readonly SyntaxProblem[];
}

/** A token and the part it plays; any token that is no punctuation is a value. */
export interface TidyToken {
  readonly part: "value" | "separator" | "comma" | "open-brace" | "close-brace" | "open-paren" | "close-paren";
  readonly token: Token;
}

/** Takes tokens whose braces balance (see `repairBraces`). */
export function tidy(text: string, tokens: readonly Token[]): Tidied {
  const hand = new Tidy(text);
  for (const token of tokens) hand.take(token);
  return hand.finish();
}

class Tidy {
  private readonly tokens: TidyToken[] = [];
  private readonly problems: SyntaxProblem[] = [];
  /** One entry for each block that is open; `dropped` ones have no owner or lie too deep, and count as lines of the outer. */
  private readonly blocks: ("kept" | "dropped")[] = [];
  private tooDeep = false;

  /** In a statement: something of it has been put out on this line. */
  private inStatement = false;
  /** A statement stands before this place in the block, so that the next one needs a line end before it. */
  private needsSeparator = false;
  /** The statement before the line end has no block and could own a brace at the beginning of this line. */
  private mayOwn = false;
  /** A block ended on this line. */
  private afterBlock = false;
  private comma: Token | undefined;
  /** The fact of which we are part has a head. */
  private hasHead = false;
  private point: Token | undefined;
  /** A parenthesis began the fact; it ends as a point does, but a head is one token. */
  private headPoint = false;
  /** Signs that mean nothing: the first of this fact, kept as its head if nothing else is there. */
  private sign: Token | undefined;
  private signReported = false;
  private lastNewline: Token | undefined;
  private last: Token | undefined;

  constructor(private readonly text: string) {}

  take(token: Token): void {
    switch (token.kind) {
      case "newline": return this.newline(token);
      case "conflict": return;
      case "open-brace": return this.openBrace(token);
      case "close-brace": return this.closeBrace(token);
      case "open-paren": return this.openParen(token);
      case "close-paren": return this.closeParen(token);
      case "comma": return this.takeComma(token);
      case "unknown": return this.unknown(token);
      case "decimal-comma":
        this.report("decimal-comma", token, commaInNumber(token.text, this.point !== undefined));
        return this.value(token);
      case "open-text":
        this.report("unclosed-text", token, "This text is not closed: write a second quotation mark at its end, on the same line.");
        return this.value(token);
      case "word": case "number": case "date": case "clock": case "mode": case "size": case "symbol": case "text":
        return this.value(token);
    }
  }

  finish(): Tidied {
    this.endFact();
    return { tokens: this.tokens, problems: this.problems };
  }

  private value(token: Token): void {
    this.begin(token);
    this.put("value", token);
    this.hasHead = true;
  }

  /** Puts out what must stand before the next token of a fact. */
  private begin(token: Token): void {
    if (!this.inStatement) {
      if (this.afterBlock) {
        this.report("after-block", token, "Nothing may follow a } on its line: write this on a line of its own.");
        this.afterBlock = false;
      }
      if (this.needsSeparator) this.put("separator", this.empty("newline"));
      this.inStatement = true;
      this.needsSeparator = true;
    } else if (this.comma !== undefined) this.put("comma", this.comma);
    this.comma = undefined;
    this.mayOwn = false;
  }

  private newline(token: Token): void {
    this.endFact();
    // A brace may stand on the line below its head, but not below a blank line. A line of comment is not blank.
    const from = this.lastNewline?.end;
    const blank = from !== undefined && !this.inStatement && this.text.slice(from, token.start).trim() === "";
    this.mayOwn = this.inStatement || (this.mayOwn && !blank);
    this.inStatement = false;
    this.afterBlock = false;
    this.signReported = false;
    this.lastNewline = token;
  }

  private openBrace(token: Token): void {
    this.endFact();
    const owned = this.inStatement || this.mayOwn;
    this.inStatement = false;
    this.mayOwn = false;
    this.afterBlock = false;
    if (!owned && this.blocks.length < DEEPEST) {
      // A brace of the repair has its own problem already.
      if (token.text !== "") {
        this.report("surplus-brace", token, "This { belongs to nothing: write a word before it that says what the block is of, such as “meeting {”.");
      }
      this.blocks.push("dropped");
    } else if (this.blocks.length >= DEEPEST) {
      if (!this.tooDeep) {
        this.report("too-deep", token, `Blocks stand more than ${DEEPEST} deep here: close some before you open another.`);
      }
      this.tooDeep = true;
      this.blocks.push("dropped");
    } else {
      this.put("open-brace", token);
      this.blocks.push("kept");
      this.needsSeparator = false;
    }
  }

  private closeBrace(token: Token): void {
    this.endFact();
    this.inStatement = false;
    this.mayOwn = false;
    this.afterBlock = true;
    if (this.blocks.pop() !== "kept") return;
    this.put("close-brace", token);
    this.needsSeparator = true;
  }

  private openParen(token: Token): void {
    if (this.point !== undefined || this.headPoint) {
      this.stray(token, "A ( cannot stand inside another: close the first one with a ).");
    } else if (!this.inStatement || this.comma !== undefined) {
      this.value(token);
      this.headPoint = true;
    } else {
      this.begin(token);
      this.put("open-paren", token);
      this.point = token;
    }
  }

  private closeParen(token: Token): void {
    if (this.point !== undefined) {
      this.put("close-paren", token);
      this.point = undefined;
    } else if (this.headPoint) this.headPoint = false;
    else this.stray(token, "This ) closes nothing: delete it, or write the ( that it belongs to.");
  }

  private takeComma(token: Token): void {
    if (this.point !== undefined) {
      this.put("comma", token);
      return;
    }
    if (this.headPoint) return;
    this.endHead();
    if (this.comma !== undefined) this.stray(token, "One comma is enough here.");
    else if (this.inStatement) {
      this.comma = token;
      this.hasHead = false;
    } else if (this.afterBlock) {
      this.report("after-block", token, "Nothing may follow a } on its line: delete this comma and begin a new line.");
      this.afterBlock = false;
    } else this.stray(token, "A line cannot begin with a comma: write the comma at the end of the fact before, on the same line.");
  }

  private unknown(token: Token): void {
    if (!this.signReported) this.stray(token, this.signMessage(token));
    this.signReported = true;
    if (!this.hasHead && this.point === undefined) this.sign ??= token;
    this.last = token;
  }

  /** A fact of nothing but signs keeps the first as its head, so that a block stays where it belongs. */
  private endHead(): void {
    const { sign } = this;
    this.sign = undefined;
    if (sign !== undefined && !this.hasHead) this.value(sign);
  }

  private endFact(): void {
    if (this.point !== undefined) {
      this.report("unclosed-point", this.point, "This ( is not closed: write a ) after the last coordinate, as in (3.2 m, 1.0 m).");
      this.put("close-paren", this.empty("close-paren"));
      this.point = undefined;
    }
    this.headPoint = false;
    this.endHead();
    if (this.comma !== undefined) {
      this.report("dangling-comma", this.comma, "Another fact should follow this comma on the same line: write one, or delete the comma.");
      this.comma = undefined;
    }
    this.hasHead = false;
  }

  private signMessage(token: Token): string {
    const before = this.last;
    if (/^[-–—−]$/.test(token.text) && before?.kind === "number" && before.end === token.start) {
      return "Write a range with the word “to”, as in 8 m to 10 m.";
    }
    return SIGN_MESSAGES[token.text] ?? (INVISIBLE.test(token.text)
      ? `An invisible character (U+${codePoint(token.text)}) stands here: delete it.`
      : `The sign ${token.text} means nothing here: leave it out, or write it in quotation marks as part of a text.`);
  }

  private stray(token: Token, message: string): void {
    this.report("stray-sign", token, message);
  }

  private report(code: SyntaxProblem["code"], { start, end }: Token, message: string): void {
    this.problems.push({ code, message, start, end });
  }

  private put(part: TidyToken["part"], token: Token): void {
    this.tokens.push({ part, token });
    this.last = token;
  }

  /** A token that the text does not hold, right after the last one that it does. */
  private empty(kind: Token["kind"]): Token {
    const at = this.tokens.at(-1)?.token.end ?? 0;
    return { kind, text: "", start: at, end: at };
  }
}

const INVISIBLE = /^[\p{C}\p{Z}]$/u;
const codePoint = (character: string): string =>
  (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0");

const CURRENCY = "Write an amount with the three letters of its currency first, as in EUR 120.";
const VALUE = "No sign is wanted between a word and its value: write noise 41 dBA.";
const DASH = "A dash means nothing here: write a range as 8 m to 10 m, a link as from lapel to laptop, a list as one fact a line.";
const JOINT = "Write “and” between the members of a list, as in lectern and audience.";
const ANGLE = "Write links in words: from lapel to laptop.";
const SEMICOLON = "Write a comma between two facts of one line, or begin a new line.";
const PARENTHESES = "Write parentheses around the coordinates of a point, as in (3.2 m, 1.0 m), and braces { } around a block.";

/** Signs that people bring along from elsewhere, and what the language has in their place. */
const SIGN_MESSAGES: Readonly<Record<string, string | undefined>> = {
  "€": CURRENCY, "$": CURRENCY, "£": CURRENCY, "¥": CURRENCY,
  "=": VALUE, ":": VALUE,
  ";": SEMICOLON,
  "-": DASH, "–": DASH, "—": DASH, "−": DASH, "*": DASH, "•": DASH,
  "&": JOINT, "+": JOINT,
  ">": ANGLE, "<": ANGLE, "→": ANGLE, "←": ANGLE,
  "~": "Write “about” before a value that is not exact, as in about 9 m.",
  "≈": "Write “about” before a value that is not exact, as in about 9 m.",
  "±": "Write a value that is not exact as a range, 8 m to 10 m, or as about 9 m.",
  "×": "Write 9 m by 6 m for the sides of a room, 1920x1080 for a picture.",
  "[": PARENTHESES, "]": PARENTHESES,
  "/": "A comment begins with #.",
  "'": "Write texts in double quotation marks, as in \"the heating is on\".",
  "‘": "Write texts in double quotation marks, as in \"the heating is on\".",
  "’": "Write texts in double quotation marks, as in \"the heating is on\".",
  ".": "A line needs no full stop at its end.",
  "…": "Write the rest out: the dots mean nothing here.",
};

/** What to write instead of a number with a comma in it. */
function commaInNumber(written: string, inPoint: boolean): string {
  const parts = written.split(",");
  if (inPoint || (parts.length > 2 && !/^[-+−]?\d{1,3}(,\d{3})+(\.\d+)?$/.test(written))) {
    return parts.length > 2
      ? `Write a blank after each comma: ${parts.join(", ")}.`
      : `Write one number with a point, ${parts.join(".")}, or two with a blank after the comma, ${parts.join(", ")}.`;
  }
  if (/^[-+−]?[1-9]\d{0,2}(,\d{3})+(\.\d+)?$/.test(written)) return `Write ${parts.join("")} without a comma.`;
  return `Write ${parts.join(".")} with a point, not ${written}.`;
}
