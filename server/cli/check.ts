import { CATALOGUE } from "../checks/catalogue";
import type { Finding, Fix } from "../finding";
import { fixesOf } from "../fixes/prove";
import { study, type Study } from "../study";
import { version } from "../../package.json";
import { COULD_NOT, FINE, formatOption, FOUND, ROOT_OPTION, type Command, type Status } from "./command";
import { checkJson, fileJson, type FileJson } from "./json";
import { Places } from "./places";
import { countsOf, countWords, printStudy, type Seen } from "./printStudy";
import { Progress } from "./progress";
import { SarifLog } from "./sarif";
import { Folders, shownPath, type Source } from "./texts";
import { counted, plain } from "./wording";

type Bar = "error" | "warning" | "never";

const above = (bar: Bar, counts: ReturnType<typeof countsOf>): boolean => {
  switch (bar) {
    case "error": return counts.error > 0;
    case "warning": return counts.error > 0 || counts.warning > 0;
    case "never": return false;
  }
};

/**
 * Proving the mends of one setup takes several studies of it: for more files than this the text leaves them to `fix`. JSON and
 * SARIF always have them, because programs that read them cannot ask back.
 */
const MOST_MENDED = 10;

/** Takes in one study after the other, so that none need be kept. */
interface Reporter {
  add(study: Study, places: Places, source: Source, fixes: (finding: Finding) => readonly Fix[]): string;
  unread(source: Source, problem: string): void;
  end(): string;
}

const textReporter = (print: (...args: Parameters<Reporter["add"]>) => string): Reporter => ({
  add: print, unread: () => undefined, end: () => "",
});

const jsonReporter = (): Reporter => {
  const files: FileJson[] = [];
  return {
    add: (one, places, _source, fixes) => {
      files.push(fileJson(one, places, fixes));
      return "";
    },
    unread: () => undefined,
    end: () => checkJson(files),
  };
};

const sarifReporter = (): Reporter => {
  const log = new SarifLog(CATALOGUE, version);
  return {
    add: (one, places, source, fixes) => {
      log.add(one, places, source.texts.root, fixes);
      return "";
    },
    unread: (source, problem) => log.unread(source.shown, problem),
    end: () => log.text(),
  };
};

/** `bothways check`. */
export const check: Command = {
  shape: {
    name: "check",
    usage: "check PATH…",
    summary: "says what will work and what will not, and why",
    about: [
      "Reads each file named, and all .bothways files in and below each folder named. For every setup it says for each of the six jobs whether it works, what is wrong where in the text, what would mend it, and what to find out first.",
      `With more than ${MOST_MENDED} files the text leaves the mends to bothways fix.`,
      "Exit status: 0 nothing at or above the bar, 1 something was found, 2 it could not run.",
    ],
    options: [
      formatOption(["text", "json", "sarif"]),
      {
        name: "fail-on", value: "BAR", choices: ["error", "warning", "never"],
        meaning: "what makes the exit status 1: error (unless said otherwise), warning (errors too), or never",
      },
      ROOT_OPTION,
    ],
    least: 1, most: Infinity, example: "bothways check autumn.bothways --fail-on warning",
  },

  async run(given, terminal) {
    const bar = (given.value("fail-on") ?? "error") as Bar;
    const sources = new Folders(given.value("root")).sources(given.words);
    const progress = new Progress(terminal);
    const seen: Seen = new Set();
    const total = { error: 0, warning: 0, hint: 0, plan: 0 };
    let setups = 0;
    let others = 0;
    let unread = 0;
    let found = false;
    const closed = new Set<string>();

    const format = given.value("format") ?? "text";
    const mending = format !== "text" || sources.length <= MOST_MENDED;
    const reporter = format === "json" ? jsonReporter() : format === "sarif" ? sarifReporter() : textReporter((one, places, _source, fixes) => {
      // Rooms and kits on their own have nothing to say unless their text is wrong.
      if (sources.length > 1 && !one.isSetup && one.problems.length === 0) return "";
      return `${printStudy(one, places, fixes, terminal, seen)}${sources.length > 1 ? "\n" : ""}`;
    });

    for (const [i, source] of sources.entries()) {
      progress.say(`checking ${i + 1} of ${sources.length}: ${source.shown}`);
      const read = source.texts.read(source.path);
      if ("problem" in read) {
        progress.clear();
        terminal.err(`${source.shown}: ${read.problem}.\n`);
        reporter.unread(source, read.problem);
        unread++;
        continue;
      }
      const one = study(source.texts, source.path);
      if (one.isSetup) setups++;
      else others++;
      const counts = countsOf(one);
      for (const severity of ["error", "warning", "hint", "plan"] as const) total[severity] += counts[severity];
      if (above(bar, counts)) found = true;
      if (one.problems.some((problem) => problem.code === "use-outside")) closed.add(source.texts.root);
      const text = reporter.add(one, Places.of(one, source.texts), source, (finding) => {
        if (!mending) return [];
        progress.say(`looking for mends, ${i + 1} of ${sources.length}: ${source.shown}`);
        // For a hint one mend is enough; the `fix` command and the editor tell the others.
        return fixesOf(source.texts, one, finding, finding.severity === "hint" ? 1 : undefined);
      });
      if (text !== "") {
        progress.clear();
        await terminal.out(text);
      }
    }
    progress.clear();
    await terminal.out(reporter.end());
    if (closed.size > 0) {
      terminal.err(`Only what lies in ${[...closed].map((root) => plain(shownPath(root) || root)).join(", ")} may be read: the nearest folder upwards with a .git, or the one that --root DIR names.\n`);
    }
    if (format === "text" && sources.length > 1) {
      const parts = [counted(setups, "setup")];
      if (others > 0) parts.push(`${counted(others, "other file")} read as text`);
      if (unread > 0) parts.push(`${counted(unread, "file")} could not be read`);
      await terminal.out(`${parts.join(", ")}: ${countWords(total)} in all.\n`);
      if (!mending) await terminal.out("With so many files no mends were tried: bothways fix FILE lists them.\n");
    }
    const status: Status = unread > 0 ? COULD_NOT : found ? FOUND : FINE;
    return status;
  },
};
