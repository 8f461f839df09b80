/** What a command is to the dispatcher. */
import type { Arguments, Shape } from "./arguments";
import type { Terminal } from "./terminal";

/** Exit statuses that scripts count on. */
export const FINE = 0 as const;
export const FOUND = 1 as const;
export const COULD_NOT = 2 as const;
export type Status = typeof FINE | typeof FOUND | typeof COULD_NOT;

export interface Command {
  readonly shape: Shape;
  run(given: Arguments, terminal: Terminal): Promise<Status> | Status;
}

/** Options that several commands share. */
export const ROOT_OPTION = {
  name: "root", value: "DIR",
  meaning: "the folder that may be read; without it the nearest one upwards with a .git, else the file's own",
} as const;

/** `--format` with the given choices, the first being the default. */
export const formatOption = (choices: readonly string[]) => ({
  name: "format", value: "FORMAT", choices, meaning: `${choices.join(", ")} (${choices[0] ?? ""} unless said otherwise)`,
});
