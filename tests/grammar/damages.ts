import { lex } from "../../grammar/lexer";

/** One line of a text spoiled: the text, and where its lines came from. */
export interface Damaged {
  readonly kind: string;
  readonly text: string;
  /** Index of the spoiled line in the spoiled text. */
  readonly line: number;
  /** Index that a line of the spoiled text had in the sound one; undefined for a line that is new. */
  readonly was: (line: number) => number | undefined;
}

/** Chance that comes out the same each time: mulberry32, a generator in the public domain. */
export function chance(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296) * below);
  };
}

const NOISE = [...'abcdefgh ijkl  mn 0123456789 ,.;:-+=()"#{}%&/°é'];
const HALF_TYPED = ["place ", "cable from lap", "join laptop {", 'note "the ke', "at (3.2 m, ", "sends picture from camera at 720", "a,"];

const without = (line: string, at: number, length: number): string => line.slice(0, at) + line.slice(at + length);
const indentOf = (line: string): string => /^[ \t]*/.exec(line)?.[0] ?? "";

/** What befalls a line, by kind; undefined where a kind does not apply to it. */
const SPOILERS: Readonly<Record<string, (line: string, random: (below: number) => number) => string | undefined>> = {
  "opening brace deleted": (line) => (line.includes("{") ? without(line, line.indexOf("{"), 1) : undefined),
  "closing brace deleted": (line) => (line.includes("}") ? without(line, line.lastIndexOf("}"), 1) : undefined),
  "token deleted": (line, random) => {
    const { tokens } = lex(line);
    const token = tokens[random(tokens.length)];
    return token && without(line, token.start, token.end - token.start);
  },
  "token doubled": (line, random) => {
    const { tokens } = lex(line);
    const token = tokens[random(tokens.length)];
    return token && `${line.slice(0, token.end)} ${token.text}${line.slice(token.end)}`;
  },
  "cut in half": (line) => indentOf(line) + line.trim().slice(0, Math.ceil(line.trim().length / 2)),
  "quotation mark inserted": (line, random) => insert(line, '"', random),
  "{ inserted": (line, random) => insert(line, "{", random),
  "} inserted": (line, random) => insert(line, "}", random),
  "replaced by noise in its column": (line, random) => indentOf(line) + noise(random),
  "replaced by noise at the left": (_line, random) => noise(random),
};

function insert(line: string, sign: string, random: (below: number) => number): string {
  const from = indentOf(line).length;
  const at = from + random(line.length - from + 1);
  return line.slice(0, at) + sign + line.slice(at);
}

function noise(random: (below: number) => number): string {
  return Array.from({ length: 3 + random(30) }, () => NOISE[random(NOISE.length)] ?? "x").join("");
}

/** All the ways in which line `at` of a text is spoiled; blank lines only get a half-typed line before them. */
export function damages(text: string, at: number, random: (below: number) => number): Damaged[] {
  const lines = text.split("\n");
  const line = lines[at] ?? "";
  const out: Damaged[] = [];
  if (line.trim() !== "") {
    for (const [kind, spoil] of Object.entries(SPOILERS)) {
      const spoiled = spoil(line, random);
      if (spoiled === undefined || spoiled === line) continue;
      out.push({ kind, text: [...lines.slice(0, at), spoiled, ...lines.slice(at + 1)].join("\n"), line: at, was: (index) => index });
    }
  }
  // Typed above this line, in the column of the line that is there.
  const typed = indentOf(line) + (HALF_TYPED[random(HALF_TYPED.length)] ?? "");
  out.push({
    kind: "half a line typed", text: [...lines.slice(0, at), typed, ...lines.slice(at)].join("\n"), line: at,
    was: (index) => (index === at ? undefined : index > at ? index - 1 : index),
  });
  return out;
}
