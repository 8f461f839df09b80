import { CATALOGUE } from "../checks/catalogue";
import type { Finding, Fix } from "../finding";
import { fixesOf } from "../fixes/prove";
import { study, type Study } from "../study";
import { CannotRun } from "./cannotRun";
import { FINE, FOUND, ROOT_OPTION, type Command, type Status } from "./command";
import { changes } from "./diff";
import { edited, mend, unsafe } from "./mending";
import { nearest } from "../model/near";
import { Places } from "./places";
import { countsOf, countWords } from "./printStudy";
import { Progress } from "./progress";
import type { Page, Terminal } from "./terminal";
import { Folders, shownPath, textOf, type Source } from "./texts";
import { counted, hung, plain, shortened } from "./wording";
import { writeWhole } from "./write";

/** Lines of difference that are printed of one file; a mend changes a few lines, so this is only for the unforeseen. */
const MOST_LINES = 60;

/** What changes in one text, as lines taken out and put in. */
export function printChanges(before: string, after: string, page: Page, indent: number): string[] {
  const out: string[] = [];
  const margin = " ".repeat(indent);
  for (const [i, group] of changes(before, after).entries()) {
    if (i > 0) out.push(`${margin}${page.unicode ? "⋮" : "..."}`);
    for (const [k, { sign, line, at }] of group.entries()) {
      // What stands behind the last line break is no line.
      if (sign === " " && line === "" && k === group.length - 1) continue;
      const text = `${String(at).padStart(4)} ${sign} ${shortened(plain(line), page.width - indent - 8)}`.trimEnd();
      out.push(margin + (sign === "-" ? page.paint("bad", text) : sign === "+" ? page.paint("good", text) : page.paint("quiet", text)));
    }
  }
  return out.length <= MOST_LINES ? out : [...out.slice(0, MOST_LINES), `${margin}… and ${out.length - MOST_LINES} more lines`];
}

const headOf = (finding: Finding, places: Places, page: Page): string => {
  const place = places.at(finding.where);
  const at = `${place.path}:${place.range.start.line + 1}:${place.range.start.character + 1}`;
  return `${page.paint(finding.severity === "error" ? "bad" : "poor", `${finding.severity} ${finding.code}`)}  ${page.paint("quiet", plain(at))}`;
};

/** Findings with the fixes that were proven, numbered, and what each would change. */
export function printOffers(
  one: Study, offers: readonly { readonly finding: Finding; readonly fixes: readonly Fix[] }[], places: Places, page: Page,
): string {
  const blocks: string[] = [];
  for (const { finding, fixes } of offers) {
    if (fixes.length === 0) continue;
    const out = [headOf(finding, places, page), hung("  ", finding.message, page.width)];
    for (const [i, fix] of fixes.entries()) {
      out.push(hung(`  ${i + 1}. `, fix.title, page.width));
      for (const [path, text] of edited(one, fix)) {
        if (path !== one.root) out.push(`     in ${plain(places.shown(path))}`);
        out.push(...printChanges(one.files.find((file) => file.path === path)?.text ?? "", text, page, 5));
      }
    }
    blocks.push(out.join("\n"));
  }
  const without = offers.filter((offer) => offer.fixes.length === 0);
  if (without.length > 0) {
    blocks.push([
      hung("", "No mend was proven for these: what they take is not a choice that this text can make alone (bothways explain CODE says what to do).", page.width),
      ...without.map(({ finding }) => `  ${headOf(finding, places, page)}`),
    ].join("\n"));
  }
  return `${blocks.join("\n\n")}\n`;
}

const isOffered = (finding: Finding): boolean => finding.severity !== "plan";

async function list(source: Source, terminal: Terminal): Promise<Status> {
  const one = study(source.texts, source.path);
  const progress = new Progress(terminal);
  const offers = one.findings.filter(isOffered).map((finding) => {
    progress.say(`trying mends for ${finding.code}`);
    return { finding, fixes: fixesOf(source.texts, one, finding) };
  });
  progress.clear();
  if (offers.length === 0) {
    const mistakes = one.problems.length;
    await terminal.out(mistakes > 0
      ? `Nothing to mend but ${counted(mistakes, "mistake")} in the text, which only its author can (bothways check ${source.shown}).\n`
      : "Nothing to mend.\n");
    return FINE;
  }
  await terminal.out(printOffers(one, offers, Places.of(one, source.texts), terminal));
  const first = offers.find((offer) => offer.fixes.length > 0)?.finding.code;
  if (first !== undefined) await terminal.out(`\nTo apply: bothways fix ${source.shown} --apply ${first}   or: --apply all\n`);
  return FINE;
}

/** What is computed without a part of the setup says nothing on the whole. */
const INCOMPLETE: ReadonlySet<string> = new Set(["cannot-read", "use-outside", "use-cycle", "too-many-files"]);

async function apply(source: Source, code: string, terminal: Terminal): Promise<Status> {
  const codes = CATALOGUE.map((entry) => entry.code);
  if (code !== "all" && !codes.includes(code)) {
    const meant = nearest(code, [...codes, "all"]);
    throw new CannotRun(`--apply ${code}: there is no such finding; ${meant === undefined ? "bothways explain lists them" : `did you mean ${meant}?`}`);
  }
  const wanted = (finding: Finding): boolean => isOffered(finding) && (code === "all" || finding.code === code);
  const progress = new Progress(terminal);
  const before = study(source.texts, source.path);
  // Before any work: a text whose blocks are in doubt is not touched.
  for (const file of before.files) {
    const why = unsafe(file.text);
    if (why !== undefined) {
      throw new CannotRun(`${shownPath(`${source.texts.root}/${file.path}`)}: nothing was changed, because the text itself must be mended first: ${why}`);
    }
  }
  const missing = before.problems.find((problem) => INCOMPLETE.has(problem.code));
  if (missing !== undefined) {
    throw new CannotRun(`${source.shown}: nothing was changed, because not all that it uses could be read: ${missing.message}`);
  }
  if (!before.findings.some(wanted)) {
    await terminal.out(code === "all" ? "Nothing to mend.\n" : `Nothing to mend: ${source.shown} has no finding ${code}.\n`);
    return FINE;
  }
  const { applied, texts, after } = mend(source.texts, source.path, wanted, (words) => progress.say(words));
  progress.clear();

  const writes = texts.all().flatMap(([path, text]) => {
    const old = before.files.find((file) => file.path === path)?.text;
    if (old === undefined || old === text) return [];
    const place = source.texts.locate(path);
    if ("problem" in place) throw new CannotRun(`${path}: ${place.problem}; nothing was changed.`);
    return [{ file: place.file, old, text }];
  });
  for (const { file, old, text } of writes) writeWhole(file, text, old);

  const out: string[] = [];
  for (const { finding, fix } of applied) out.push(hung("  ", `${fix.title}  (${finding.code})`, terminal.width, 4));
  if (out.length > 0) out.unshift(terminal.paint("strong", `${counted(applied.length, "mend")} applied`));
  for (const { file, old, text } of writes) {
    out.push("", terminal.paint("strong", plain(shownPath(file))), ...printChanges(old, text, terminal, 2));
  }
  const left = after.findings.filter(wanted);
  if (out.length > 0) out.push("");
  if (left.length > 0) {
    const names = [...new Set(left.map((finding) => finding.code))].join(", ");
    out.push(hung("", `No mend was proven for ${names}: bothways explain CODE says what to do.`, terminal.width));
  }
  out.push(`Now: ${countWords(countsOf(after))}.`);
  await terminal.out(`${out.join("\n")}\n`);
  const open = code === "all" ? countsOf(after).error > 0 : left.length > 0;
  return open ? FOUND : FINE;
}

/** `bothways fix`. */
export const fix: Command = {
  shape: {
    name: "fix",
    usage: "fix FILE",
    summary: "lists the mends that were tried and hold, or applies them",
    about: [
      "Every mend was tried on a copy of the text and checked anew: the finding is gone, no error is new, no way across is worse. Mends change choices, never facts.",
      "Exit status after --apply: 0 what was asked for is mended, 1 some of it is left (with all: an error is left), 2 it could not run.",
    ],
    options: [
      { name: "apply", value: "CODE", meaning: "applies the first mend of every finding with that code; all: of every finding" },
      ROOT_OPTION,
    ],
    least: 1, most: 1, example: "bothways fix autumn.bothways --apply echo-path",
  },

  run(given, terminal) {
    const source = new Folders(given.value("root")).file(given.words[0] ?? "");
    textOf(source);
    const code = given.value("apply");
    return code === undefined ? list(source, terminal) : apply(source, code, terminal);
  },
};
