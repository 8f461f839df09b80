import { existsSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import type { Texts } from "../../server/model/files";
import { readSetup, type Setup } from "../../server/model/setup";

export const ROOT = path.resolve(import.meta.dirname, "../..");

/** The `.bothways` files below a folder of the project, by path from its root, parts joined by `/`. */
export function bothwaysFiles(folder: string): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  const whole = path.join(ROOT, folder);
  if (!existsSync(whole)) return files;
  for (const name of readdirSync(whole, { recursive: true, encoding: "utf8" }).sort()) {
    if (!name.endsWith(".bothways")) continue;
    files.set([folder, ...name.split(path.sep)].join("/"), readFileSync(path.join(whole, name), "utf8"));
  }
  return files;
}

/** Texts that are kept in memory. */
export const inMemory = (files: ReadonlyMap<string, string>): Texts => ({
  read: (file) => {
    const text = files.get(file);
    return text === undefined ? { problem: "there is no such file" } : { text };
  },
});

/** Files that the examples of the vocabulary and of the documentation may use: an empty room and an empty kit would do, these say a little. */
export const BESIDE: ReadonlyMap<string, string> = new Map([
  ["rooms/hall.bothways", "room hall 9 m by 6 m { noise 38 dBA }\n"],
  ["kit/ours.bothways", "device webcam is webcam\n"],
]);

/** Reads one text as a setup of its own. */
export const readText = (text: string): Setup => readSetup(inMemory(new Map([...BESIDE, ["evening.bothways", text]])), "evening.bothways");

/** What is wrong with a setup, as one line each: where, and in which words. */
export const said = (setup: Setup): string[] => setup.problems.map((problem) => {
  const text = setup.files.find((file) => file.path === problem.where.path)?.text ?? "";
  return `${problem.code} at “${text.slice(problem.where.start, problem.where.end)}”: ${problem.message}`;
});
