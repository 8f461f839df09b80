import { study } from "../study";
import { whatIfMissing, type Loss, type Missing } from "../missing";
import { alike, insteadWords, leftWords, lossWords } from "../views/missing-words";
import { CannotRun } from "./cannotRun";
import { FINE, formatOption, ROOT_OPTION, type Command } from "./command";
import { Folders, textOf } from "./texts";
import { counted, hung, plain } from "./wording";

const json = (row: Missing): object => ({
  missing: row.what, name: row.name, ...(row.ends.length === 0 ? {} : { with: row.ends }), lost: row.lost.map(loss), ...(row.instead === undefined ? {} : { instead: row.instead }), left: row.left.map(loss), poorer: row.poorer, jobs: row.jobs,
});
const loss = ({ way, says, items }: Loss): object => ({ way, says, items });

/** `bothways missing`. */
export const missing: Command = {
  shape: {
    name: "missing", usage: "missing FILE", summary: "what is lost if one thing or one person is missing, and what stands in",
    about: ["Takes each device, each person and each lead out in turn, puts the best of what is at hand in its place, and says what stays lost. What costs nothing is not listed."],
    options: [formatOption(["text", "json"]), ROOT_OPTION],
    least: 1, most: 1, example: "bothways missing autumn.bothways",
  },

  async run(given, terminal) {
    const source = new Folders(given.value("root")).file(given.words[0] ?? "");
    textOf(source);
    const one = study(source.texts, source.path);
    if (!one.isSetup) throw new CannotRun(`${source.shown}: it holds no setup, so nothing can be missing.`);
    const { rows, untried } = whatIfMissing(one.setup);
    if (given.value("format") === "json") {
      await terminal.out(`${JSON.stringify({ version: 1, rows: rows.map(json), untried }, undefined, 2)}\n`);
      return FINE;
    }
    const out = alike(rows).map(({ rows: same, first }) => {
      const names = same.map((row) => (row.what === "person" && row.ends.length > 0 ? `${row.name} with ${row.ends.join(", ")}` : row.what === "lead" ? `the lead ${row.name}` : row.name)).join(", or ");
      return [
        terminal.paint("strong", plain(names)), ...(first.lost.length === 0 ? [] : [hung("  without it  ", lossWords(same[0]?.lost ?? []), terminal.width), hung("  instead     ", insteadWords(first), terminal.width)]),
        hung("  stays lost  ", leftWords(first, one.setup), terminal.width),
      ].join("\n");
    });
    if (untried > 0) out.push(`${counted(untried, "more thing")} could not be tried: this setup is too large for it.`);
    await terminal.out(out.length === 0 ? "Nothing that could be missing takes anything with it.\n" : `${out.join("\n\n")}\n`);
    return FINE;
  },
};
