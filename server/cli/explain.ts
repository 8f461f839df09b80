import { CATALOGUE, type Entry } from "../checks/catalogue";
import type { Severity } from "../finding";
import { CannotRun } from "./cannotRun";
import { FINE, formatOption, FOUND, ROOT_OPTION, type Command, type Status } from "./command";
import { nearest } from "../model/near";
import { study } from "../study";
import { suspectsOf } from "../views/symptoms/chain";
import { symptomLike } from "../views/symptoms/like";
import { bySymptom } from "./symptoms";
import { Folders, textOf } from "./texts";
import type { Arguments } from "./arguments";
import type { Page, Terminal } from "./terminal";
import { hung, plain } from "./wording";

const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  error: "error", warning: "warning", hint: "hint", plan: "gap in the plan",
};

/** An entry in the list, with the keys that scripts count on. */
export const entryJson = (entry: Entry): Pick<Entry, "code" | "title" | "severity" | "group"> => ({
  code: entry.code, title: entry.title, severity: entry.severity, group: entry.group,
});

/** All that is known of a code. */
export function printEntry(entry: Entry, page: Page): string {
  const out = [
    `${page.paint("strong", entry.code)}  ${page.paint("quiet", `${SEVERITY_WORDS[entry.severity]}, ${entry.group}`)}`,
    hung("", entry.title, page.width),
  ];
  const part = (title: string, text: string): void => {
    if (text !== "") out.push("", page.paint("strong", title), hung("  ", text, page.width));
  };
  part("What one notices", entry.notice);
  part("Why", entry.why);
  if (entry.todo.length > 0) {
    out.push("", page.paint("strong", "What to do"), ...entry.todo.map((step, i) => hung(`  ${i + 1}. `, step, page.width)));
  }
  part("Limit", entry.limit);
  part("Source", entry.source);
  return `${out.join("\n")}\n`;
}

/** The list of codes by group. */
export function printList(entries: readonly Entry[], page: Page): string {
  const widest = Math.max(0, ...entries.map((entry) => entry.code.length));
  const blocks = [...new Set(entries.map((entry) => entry.group))].map((group) => [
    page.paint("strong", group),
    ...entries.filter((entry) => entry.group === group)
      .map((entry) => hung(`  ${entry.code.padEnd(widest)}  `, `${entry.title} (${SEVERITY_WORDS[entry.severity]})`, page.width)),
  ].join("\n"));
  return `${blocks.join("\n\n")}\n`;
}

/** Where to look in one setup. */
async function looking(file: string, words: string, given: Arguments, terminal: Terminal): Promise<Status> {
  const source = new Folders(given.value("root")).file(file);
  textOf(source);
  const one = study(source.texts, source.path);
  if (!one.isSetup) throw new CannotRun(`${source.shown}: it holds no setup to look along.`);
  const told = symptomLike(words);
  const symptom = told?.symptom;
  const suspects = told === undefined ? [] : suspectsOf(one, told.symptom, told.code);
  if (given.value("format") === "json") await terminal.out(`${JSON.stringify({ version: 1, symptom: symptom?.says, look: suspects }, undefined, 2)}\n`);
  else if (symptom === undefined || suspects.length === 0) await terminal.out("Nothing in this setup sounds like that. Say what is heard or seen, and by whom: they hear themselves\n");
  else await terminal.out(`${terminal.paint("strong", symptom.says)}: look along this, the likeliest first\n\n${suspects.map((s, i) => hung(`  ${i + 1}. `, `${plain(s.name)}: ${plain(s.look)}`, terminal.width)).join("\n")}\n`);
  return suspects.length === 0 ? FOUND : FINE;
}

/** `bothways explain`. */
export const explain: Command = {
  shape: {
    name: "explain",
    usage: "explain [CODE|FILE]",
    summary: "says what a finding means, what one notices, and what to do",
    about: ["Without a code it lists all findings. With --symptom it looks for those that would sound or look like that on the evening; with a file too it says where to look in that setup, the likeliest first."],
    options: [
      { name: "symptom", value: "WORDS", meaning: "what somebody notices, in your own words" },
      ROOT_OPTION,
      formatOption(["text", "json"]),
    ],
    least: 0, most: 1, example: "bothways explain --symptom \"they hear themselves\"",
  },

  async run(given, terminal) {
    const [code] = given.words;
    const symptom = given.value("symptom");
    const json = given.value("format") === "json";
    if (code !== undefined && symptom !== undefined && !CATALOGUE.some((e) => e.code === code.toLowerCase())) return looking(code, symptom, given, terminal);
    if (code !== undefined && symptom !== undefined) {
      throw new CannotRun(`explain takes a code or a symptom, not both.  For example: ${explain.shape.example}`);
    }
    if (code !== undefined) {
      const entry = CATALOGUE.find((e) => e.code === code.toLowerCase());
      if (entry === undefined) {
        const meant = nearest(code, CATALOGUE.map((e) => e.code));
        throw new CannotRun(`there is no finding ${code}; ${meant === undefined ? "bothways explain lists them all." : `did you mean ${meant}?`}`);
      }
      await terminal.out(json ? `${JSON.stringify(entry, undefined, 2)}\n` : printEntry(entry, terminal));
      return FINE;
    }
    if (symptom === undefined) {
      await terminal.out(json ? `${JSON.stringify(CATALOGUE.map(entryJson), undefined, 2)}\n` : printList(CATALOGUE, terminal));
      return FINE;
    }
    const found = bySymptom(symptom, CATALOGUE);
    if (json) {
      await terminal.out(`${JSON.stringify(found.map(entryJson), undefined, 2)}\n`);
    } else if (found.length === 0) {
      await terminal.out("No finding sounds like that. Say what is heard or seen, and by whom: bothways explain --symptom \"the room cannot hear them\"\n");
    } else {
      const [first, ...others] = found;
      if (first !== undefined) await terminal.out(printEntry(first, terminal));
      if (others.length > 0) await terminal.out(`\n${terminal.paint("strong", "It might also be")}\n${others.map((e) => hung(`  ${e.code}  `, e.title, terminal.width, 4)).join("\n")}\n`);
    }
    return found.length === 0 ? FOUND : FINE;
  },
};
