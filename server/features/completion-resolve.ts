/** What is said of one offer when somebody looks at it: worked out for the one that is looked at, not for all that could be. */
import { CATALOGUE } from "../checks/catalogue";
import { aboutName } from "./about-name";
import type { Asked } from "./asked";
import type { Offer } from "./completion";

/** Markdown, or nothing where there is no more to say than the label does. */
export function documentation(asked: Asked, { kind, label, about }: Offer): string {
  const more = kind === "name" ? ofName(asked, label) : kind === "word" ? ofCode(label) : "";
  return [more, about].filter((part, i, all) => part !== "" && all.indexOf(part) === i).join("\n\n");
}

/** A device with its figures, a place with where it is: what hovering it says. */
function ofName(asked: Asked, name: string): string {
  const named = asked.setup.names.find(asked.path, name);
  return named === undefined ? "" : aboutName(asked, named);
}

/** What one notices of a finding, and what to do about it. */
function ofCode(code: string): string {
  const entry = CATALOGUE.find((one) => one.code === code);
  return entry === undefined ? "" : [entry.notice, ...entry.todo.map((line) => `- ${line}`)].join("\n");
}
