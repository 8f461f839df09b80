/** What the author wrote for helpers. Comments are the author's own and never get here: they are not part of what is bound. */
import { valueOf, type Bound } from "../../model/bound";
import type { Setup } from "../../model/setup";

export interface Note {
  /** What it is on: `laptop`; absent where it stands by itself. */
  readonly on: string | undefined;
  readonly text: string;
}

/** All notes, those that stand by themselves first. */
export function notesOf(setup: Setup): Note[] {
  const out: Note[] = [];
  const walk = (statements: readonly Bound[], owner: Bound | undefined): void => {
    for (const statement of statements) {
      if (statement.row.head === "note") {
        const text = valueOf(statement, "text", "text")?.text ?? "";
        const on = owner && (valueOf(owner, "name", "name") ?? valueOf(owner, "device", "name"))?.text;
        if (text.trim() !== "") out.push({ on, text });
      } else walk(statement.children, statement);
    }
  };
  for (const file of setup.files) walk(file.statements, undefined);
  return [...out.filter((note) => note.on === undefined), ...out.filter((note) => note.on !== undefined)];
}
