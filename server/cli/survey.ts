import { study } from "../study";
import { CannotRun } from "./cannotRun";
import { FINE, formatOption, ROOT_OPTION, type Command } from "./command";
import { Places } from "./places";
import { blankHtml, blankMarkdown, openHtml, openMarkdown, type Sheet } from "./surveySheet";
import { Folders, textOf } from "./texts";
import { counted } from "./wording";

/** `bothways survey`. */
export const survey: Command = {
  shape: {
    name: "survey",
    usage: "survey [FILE]",
    summary: "a sheet of what to find out at the venue",
    about: [
      "Without a file a blank form: what one asks of any venue. With a file what this setup leaves open, ordered by what would change a verdict, and what each answer would mean.",
    ],
    options: [formatOption(["markdown", "html"]), ROOT_OPTION],
    least: 0, most: 1, example: "bothways survey autumn.bothways --format html > survey.html",
  },

  async run(given, terminal) {
    const html = given.value("format") === "html";
    const [word] = given.words;
    if (word === undefined) {
      await terminal.out(html ? blankHtml() : blankMarkdown());
      return FINE;
    }
    const source = new Folders(given.value("root")).file(word);
    textOf(source);
    const one = study(source.texts, source.path);
    if (!one.isSetup) throw new CannotRun(`${source.shown}: it holds no setup, so nothing is asked of it.`);
    if (one.problems.length > 0) {
      terminal.err(`${source.shown}: ${counted(one.problems.length, "mistake")} in the text (bothways check shows them); the questions may change once mended.\n`);
    }
    const places = Places.of(one, source.texts);
    const sheet: Sheet = {
      title: one.title === "" ? source.shown : one.title,
      open: one.questions.map((question) => {
        const place = question.where === undefined ? undefined : places.at(question.where);
        return { question, place: place?.text === undefined ? undefined : `${place.path}, line ${place.range.start.line + 1}` };
      }),
    };
    await terminal.out(html ? openHtml(sheet) : openMarkdown(sheet));
    return FINE;
  },
};
