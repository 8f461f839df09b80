/** The command line: hands the words to a command, and its result to the shell. */
import { version } from "../../package.json";
import { readArguments } from "./arguments";
import { CannotRun, wordsOf } from "./cannotRun";
import { check } from "./check";
import { COULD_NOT, FINE, type Command, type Status } from "./command";
import { draw } from "./draw";
import { explain } from "./explain";
import { figures } from "./figures";
import { fix } from "./fix";
import { format } from "./format";
import { handout } from "./handout";
import { missing } from "./missing";
import { manual, overview } from "./help";
import { nearest } from "../model/near";
import { start } from "./start";
import { survey } from "./survey";
import { terminal, type Terminal } from "./terminal";
import { plain } from "./wording";

const COMMANDS: readonly Command[] = [start, survey, check, explain, figures, draw, handout, missing, format, fix];
const HELP = new Set(["help", "--help", "-h"]);

const command = (name: string): Command => {
  const found = COMMANDS.find((one) => one.shape.name === name);
  if (found !== undefined) return found;
  const meant = nearest(name, COMMANDS.map((one) => one.shape.name));
  throw new CannotRun(`there is no command ${name}; ${meant === undefined ? "bothways help lists them." : `did you mean bothways ${meant}?`}`);
};

async function run(argv: readonly string[], page: Terminal): Promise<Status> {
  const [first, ...rest] = argv;
  if (first === undefined || HELP.has(first)) {
    const about = rest[0];
    await page.out(about === undefined ? overview(COMMANDS.map((one) => one.shape), version, page) : manual(command(about).shape, page));
    // Nothing at all was asked for: a script that forgot the command should notice.
    return first === undefined ? COULD_NOT : FINE;
  }
  if (first === "--version" || first === "version") {
    await page.out(`${version}\n`);
    return FINE;
  }
  const chosen = command(first);
  const until = rest.indexOf("--");
  if (rest.slice(0, until < 0 ? rest.length : until).some((word) => word === "--help" || word === "-h")) {
    await page.out(manual(chosen.shape, page));
    return FINE;
  }
  return chosen.run(readArguments(chosen.shape, rest), page);
}

async function main(): Promise<void> {
  const page = terminal();
  try {
    process.exitCode = await run(process.argv.slice(2), page);
  } catch (error) {
    process.exitCode = COULD_NOT;
    if (error instanceof CannotRun) page.err(`bothways: ${error.message.split("\n").map(plain).join("\n")}\n`);
    else page.err(`bothways: this is a fault in Bothways, not in your file: ${plain(wordsOf(error))}\n`);
  }
}

void main();
