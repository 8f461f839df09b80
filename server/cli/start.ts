import { mkdirSync, existsSync, realpathSync } from "node:fs";
import path from "node:path";
import { createInterface } from "node:readline/promises";
import { study } from "../study";
import type { Arguments } from "./arguments";
import { CannotRun, systemWords, wordsOf } from "./cannotRun";
import { FINE, type Command } from "./command";
import { remarks, starter, type Answers } from "../views/starter";
import type { Terminal } from "./terminal";
import { ENDING, shownPath } from "./texts";
import { counted, hung } from "./wording";
import { writeWhole } from "./write";

const NAME = `meeting${ENDING}`;

const count = (words: string, most: number): number | undefined => {
  const value = Number(words.trim().replace(/^about\s+/u, "").split(/\s+/u)[0]);
  return Number.isInteger(value) && value >= 0 && value <= most ? value : undefined;
};

const SIZE = /^(?:about\s+)?\d+(?:\.\d+)?\s*(?:m|ft|feet|foot|steps?)\s+by\s+(?:about\s+)?\d+(?:\.\d+)?\s*(?:m|ft|feet|foot|steps?)(?:\s+by\s+(?:about\s+)?\d+(?:\.\d+)?\s*(?:m|ft|feet|foot|steps?))?$/u;

/** `yes`, `no`, `y`, `n`. */
const yes = (words: string): boolean | undefined =>
  /^y(?:es)?$/iu.test(words.trim()) ? true : /^no?$/iu.test(words.trim()) ? false : undefined;

interface Asked {
  readonly option: string;
  readonly ask: string;
  /** What an answer looks like, for when one does not fit. */
  readonly like: string;
  /** The answer, or nothing where it does not fit. */
  read(words: string): Answers | undefined;
}

const QUESTIONS: readonly Asked[] = [
  { option: "talkers", ask: "Who talks, and where do they stand or sit?", like: "Ines at lectern, Teo", read: (words) => ({ talkers: words.trim() }) },
  {
    option: "audience", ask: "Do people in the audience speak too, so that those online must hear them?", like: "yes",
    read: (words) => { const value = yes(words); return value === undefined ? undefined : { audience: value }; },
  },
  {
    option: "seats", ask: "How many sit in the room?", like: "24",
    read: (words) => { const value = count(words, 2000); return value === undefined || value === 0 ? undefined : { seats: value }; },
  },
  {
    option: "online", ask: "How many attend online?", like: "8",
    read: (words) => { const value = count(words, 100_000); return value === undefined ? undefined : { online: value }; },
  },
  {
    option: "size", ask: "About how large is the room, front to back by side to side?", like: "about 9 m by 6 m",
    read: (words) => (SIZE.test(words.trim()) ? { size: words.trim() } : undefined),
  },
  { option: "own", ask: "What do you have already?", like: "laptop, battery loudspeaker, projector", read: (words) => ({ own: words.trim() }) },
];

function fromOptions(given: Arguments): Answers {
  let answers: Answers = {};
  const title = given.value("title");
  if (title !== undefined) answers = { title };
  for (const question of QUESTIONS) {
    const words = given.value(question.option);
    if (words === undefined) continue;
    const read = question.read(words);
    if (read === undefined) throw new CannotRun(`--${question.option} “${words}”: write it like --${question.option} "${question.like}".`);
    answers = { ...answers, ...read };
  }
  return answers;
}

async function ask(given: Arguments, answers: Answers, terminal: Terminal): Promise<Answers> {
  const lines = createInterface({ input: process.stdin, output: process.stdout });
  const ended = new AbortController();
  lines.on("close", () => ended.abort());
  lines.on("SIGINT", () => lines.close());
  let all = answers;
  try {
    await terminal.out("Answer what you know; Enter alone leaves it open.\n\n");
    for (const question of QUESTIONS) {
      if (given.value(question.option) !== undefined) continue;
      for (;;) {
        const words = await lines.question(`${question.ask}  (such as: ${question.like})\n> `, { signal: ended.signal });
        if (words.trim() === "") break;
        const read = question.read(words);
        if (read !== undefined) {
          all = { ...all, ...read };
          break;
        }
        await terminal.out(`  Write it like this: ${question.like}\n`);
      }
    }
    return all;
  } catch (error) {
    if (ended.signal.aborted) throw new CannotRun("nothing was written.");
    throw error;
  } finally {
    lines.close();
  }
}

/** `evenings/next-month` is a title too: `Next month`. */
const titleFrom = (folder: string | undefined): string | undefined => {
  const words = path.basename(folder ?? "").replace(/[-_]+/gu, " ").trim();
  return /\p{L}/u.test(words) ? words.slice(0, 1).toUpperCase() + words.slice(1) : undefined;
};

/** `bothways start`. */
export const start: Command = {
  shape: {
    name: "start",
    usage: "start [FOLDER]",
    summary: "asks five or six questions and writes a first setup",
    about: [
      `Writes FOLDER/${NAME} (in the current folder where none is named), never over a file that is there. What is given as an option is not asked; without a terminal nothing is asked, and what was assumed is said.`,
    ],
    options: [
      { name: "title", value: "TEXT", meaning: "what the evening is called" },
      { name: "talkers", value: "NAMES", meaning: "who talks, and where: \"Ines at lectern, Teo\"" },
      { name: "audience", value: "ANSWER", choices: ["yes", "no"], meaning: "whether people in the audience speak too: yes or no" },
      { name: "seats", value: "NUMBER", meaning: "how many sit in the room" },
      { name: "online", value: "NUMBER", meaning: "how many attend online" },
      { name: "size", value: "SIZE", meaning: "front to back by side to side: \"9 m by 6 m\", \"about 13 steps by 9 steps\"" },
      { name: "own", value: "THINGS", meaning: "what is there already: \"laptop, battery loudspeaker\"" },
    ],
    least: 0, most: 1, example: "bothways start evenings --talkers Ines --seats 24 --online 8 --size \"9 m by 6 m\" --own \"laptop, battery loudspeaker\"",
  },

  async run(given, terminal) {
    const folder = path.resolve(given.words[0] ?? ".");
    const file = path.join(folder, NAME);
    if (existsSync(file)) throw new CannotRun(`${shownPath(file)}: it is there already and stays as it is; name another folder, such as bothways start next-month.`);
    const said = fromOptions(given);
    const answers = terminal.interactive ? await ask(given, said, terminal) : said;
    const started = starter({ title: titleFrom(given.words[0]), ...answers });

    // What is written must at least read well: an answer that breaks the text is told before there is a file.
    const one = study({ read: (name) => (name === NAME ? { text: started.text } : { problem: "there is no such file" }) }, NAME);
    const [problem] = one.problems;
    if (problem !== undefined) {
      const line = started.text.slice(0, problem.where.start).split("\n").length - 1;
      throw new CannotRun(`an answer does not fit: ${problem.message} (in the line: ${started.text.split("\n")[line] ?? ""}). Nothing was written.`);
    }
    try {
      mkdirSync(folder, { recursive: true });
    } catch (error) {
      throw new CannotRun(`${folder}: the folder cannot be made (${systemWords(error) ?? wordsOf(error)}).`);
    }
    writeWhole(path.join(realpathSync(folder), NAME), started.text);
    const shown = shownPath(path.join(realpathSync(folder), NAME));
    const out = [`Written: ${shown} (${counted(started.text.trimEnd().split("\n").length, "line")})`, ...remarks(started).map((line) => hung("", line, terminal.width))];
    out.push(`Next: bothways check ${shown}`);
    await terminal.out(`${out.join("\n")}\n`);
    return FINE;
  },
};
