/** Reads the words after a command's name; every mistake gets one line that says what was wanted and shows one. */
import { parseArgs } from "node:util";
import { CannotRun } from "./cannotRun";
import { nearest } from "../model/near";

export interface Option {
  readonly name: string;
  /** What stands for the value in help, in capitals; a switch has none. */
  readonly value?: string;
  readonly choices?: readonly string[];
  readonly meaning: string;
}

/** What a command takes; help and messages are made from it. */
export interface Shape {
  readonly name: string;
  /** As in help: `check PATH…`. */
  readonly usage: string;
  readonly summary: string;
  readonly about: readonly string[];
  readonly options: readonly Option[];
  /** How many words it takes beside its options. */
  readonly least: number;
  readonly most: number;
  readonly example: string;
}

export interface Arguments {
  readonly words: readonly string[];
  /** An option's value; the last one counts. */
  value(name: string): string | undefined;
  /** Whether a switch is set. */
  has(name: string): boolean;
}

const asWritten = (option: Option): string =>
  option.value === undefined ? `--${option.name}` : `--${option.name} ${option.choices?.join("|") ?? option.value}`;

const unknown = (shape: Shape, raw: string): CannotRun => {
  const meant = nearest(raw.replace(/^-+/, ""), shape.options.map((o) => o.name));
  const known = shape.options.map((o) => `--${o.name}`).join(", ") || "none";
  const hint = meant === undefined ? `its options are ${known}` : `did you mean --${meant}?`;
  return new CannotRun(`${shape.name} has no option ${raw}: ${hint}  For example: ${shape.example}`);
};

/** The words and options of `argv` as `shape` wants them; throws `CannotRun` with one line where they do not fit. */
export function readArguments(shape: Shape, argv: readonly string[]): Arguments {
  const options = Object.fromEntries(shape.options.map((o) => [
    o.name, { type: o.value === undefined ? "boolean" as const : "string" as const, multiple: true },
  ]));
  // Not strict: its own messages speak to programmers.
  const { tokens } = parseArgs({ args: [...argv], options, strict: false, allowPositionals: true, tokens: true });
  const words: string[] = [];
  const values = new Map<string, string>();
  const switches = new Set<string>();
  for (const token of tokens) {
    if (token.kind === "option-terminator") continue;
    if (token.kind === "positional") {
      words.push(token.value);
      continue;
    }
    const option = shape.options.find((o) => o.name === token.name);
    if (option === undefined || !token.rawName.startsWith("--")) throw unknown(shape, token.rawName);
    if (option.value === undefined) {
      if (token.value !== undefined) throw new CannotRun(`--${option.name} takes no value.  For example: ${shape.example}`);
      switches.add(option.name);
      continue;
    }
    const value = token.value;
    // `--out --view flow`: the value was forgotten, not a file called --view.
    if (value === undefined || (!token.inlineValue && value.startsWith("--"))) {
      throw new CannotRun(`--${option.name} wants a value: ${asWritten(option)}.  For example: ${shape.example}`);
    }
    if (option.choices !== undefined && !option.choices.includes(value)) {
      const meant = nearest(value, option.choices);
      throw new CannotRun(
        `--${option.name} is one of ${option.choices.join(", ")}, not “${value}”.` +
        `  For example: --${option.name} ${meant ?? option.choices[0] ?? ""}`);
    }
    values.set(option.name, value);
  }
  if (words.length < shape.least) throw new CannotRun(`${shape.name} wants ${wanted(shape)}.  For example: ${shape.example}`);
  if (words.length > shape.most) {
    throw new CannotRun(`${shape.name} takes ${wanted(shape)}; “${words[shape.most] ?? ""}” is too much.  For example: ${shape.example}`);
  }
  return { words, value: (name) => values.get(name), has: (name) => switches.has(name) };
}

const wanted = (shape: Shape): string => {
  const word = /[A-Z]+/.exec(shape.usage)?.[0];
  switch (word) {
    case undefined: return "no further words";
    case "PATH": return "a file or a folder";
    case "FILE": return "one file";
    case "FOLDER": return "at most one folder";
    case "CODE": return "at most one code of a finding";
    case "COMMAND": return "at most one command";
    default: return `one ${word}`;
  }
};
