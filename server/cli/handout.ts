import { study } from "../study";
import { handout as page } from "../views/handout/handout";
import { CannotRun } from "./cannotRun";
import { FINE, ROOT_OPTION, type Command } from "./command";
import { itemOf, placeFor } from "./draw";
import { Folders, shownPath, textOf } from "./texts";
import { counted } from "./wording";
import { writeWhole } from "./write";

/** `bothways handout`. */
export const handout: Command = {
  shape: {
    name: "handout",
    usage: "handout FILE",
    summary: "makes the sheet for those who help on the evening",
    about: [
      "One page to print or to send round: how the six jobs stand, the drawing with numbers, who brings and does what, in which order to set up, cables with their labels, the line check, what to give up when the internet is thin, what was accepted and assumed, and cautions.",
      "It is an HTML file that needs nothing but a browser, and prints on A4. Without --out it goes to standard output. Comments of the text never get onto it; a note \"…\" does.",
    ],
    options: [
      { name: "out", value: "FILE.html", meaning: "the file to write" },
      { name: "item", value: "NAME", meaning: "the item of the programme to draw, where items differ; the first one without it" },
      { name: "all", meaning: "prints long lists whole, on however many pages" },
      ROOT_OPTION,
    ],
    least: 1, most: 1, example: "bothways handout autumn.bothways --out handout.html",
  },

  async run(given, terminal) {
    const source = new Folders(given.value("root")).file(given.words[0] ?? "");
    textOf(source);
    const out = given.value("out");
    const file = out === undefined ? undefined : placeFor(out, "handout.html");
    const one = study(source.texts, source.path);
    if (!one.isSetup) throw new CannotRun(`${source.shown}: it holds no setup, so there is nothing to hand out.`);
    const item = itemOf(given.value("item"), one, source.shown);
    const mistakes = one.problems.filter((problem) => problem.severity === "error").length;
    if (mistakes > 0) terminal.err(`${source.shown}: ${counted(mistakes, "mistake")} in the text (bothways check shows them); the hand-out may lack something.\n`);
    const text = page(one, { ...(item === undefined ? {} : { item }), all: given.has("all") });
    if (file === undefined) {
      await terminal.out(text);
      return FINE;
    }
    writeWhole(file, text);
    await terminal.out(`Hand-out: ${shownPath(file)}\n`);
    return FINE;
  },
};
