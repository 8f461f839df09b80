import { format as tidy } from "../../grammar/printer";
import { CannotRun } from "./cannotRun";
import { COULD_NOT, FINE, FOUND, ROOT_OPTION, type Command } from "./command";
import { Progress } from "./progress";
import { Folders, type Source } from "./texts";
import { counted } from "./wording";
import { writeWhole } from "./write";

/** `bothways format`. */
export const format: Command = {
  shape: {
    name: "format",
    usage: "format PATH…",
    summary: "tidies blanks and line breaks, and nothing else",
    about: [
      "Rewrites files in the common form: two blanks a block, one between words, comments kept as they are. A file that it could not rewrite without losing something it leaves alone and says so.",
      "Exit status: 0 done, 1 with --check where something would change, 2 where a file could not be read or rewritten.",
    ],
    options: [{ name: "check", meaning: "writes nothing, lists the files that would change" }, ROOT_OPTION],
    least: 1, most: Infinity, example: "bothways format --check .",
  },

  async run(given, terminal) {
    const sources = new Folders(given.value("root")).sources(given.words);
    const progress = new Progress(terminal);
    const onlyCheck = given.has("check");
    let changed = 0;
    let refused = 0;
    const refuse = (source: Source, why: string): void => {
      progress.clear();
      terminal.err(`${source.shown}: ${why.replace(/\.$/u, "")}.\n`);
      refused++;
    };
    for (const [i, source] of sources.entries()) {
      progress.say(`formatting ${i + 1} of ${sources.length}: ${source.shown}`);
      const read = source.texts.read(source.path);
      if ("problem" in read) {
        refuse(source, read.problem);
        continue;
      }
      const result = tidy(read.text);
      if ("refused" in result) {
        refuse(source, `it is left as it is: ${result.refused}`);
        continue;
      }
      if (result.text === read.text) continue;
      changed++;
      if (!onlyCheck) {
        const place = source.texts.locate(source.path);
        if ("problem" in place) throw new CannotRun(`${source.shown}: ${place.problem}.`);
        writeWhole(place.file, result.text, read.text);
      }
      progress.clear();
      await terminal.out(`${onlyCheck ? "would change" : "formatted"}: ${source.shown}\n`);
    }
    progress.clear();
    if (changed === 0 && refused === 0) await terminal.out(`${counted(sources.length, "file")}: nothing to change.\n`);
    return refused > 0 ? COULD_NOT : onlyCheck && changed > 0 ? FOUND : FINE;
  },
};
