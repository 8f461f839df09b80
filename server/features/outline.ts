/** The statements of a text as a list of what they are about, with what stands in their blocks. */
import type { Bound, Value } from "../model/bound";
import { fileAsked, type Asked, type Span } from "./asked";

export interface OutlineNode {
  readonly name: string;
  /** The statement's first word. */
  readonly head: string;
  /** The whole statement, and its words alone. */
  readonly whole: Span;
  readonly words: Span;
  readonly children: readonly OutlineNode[];
}

/** Statements that are nothing but a detail of what they stand with; they are left out. */
const shown = (statement: Bound): boolean => statement.row.body !== undefined || statement.owner === "file" || ["sends", "plays", "shows", "port", "ports", "part", "spot", "channel", "bus"].includes(statement.row.head);

/** The outline of the file that is asked about. */
export function outline(asked: Pick<Asked, "setup" | "path" | "text">): readonly OutlineNode[] {
  const file = fileAsked(asked);
  return file === undefined ? [] : file.statements.map(node);
}

const node = (statement: Bound): OutlineNode => {
  const children = statement.children.filter(shown).map(node);
  const { start, end } = statement.where;
  const last = children.reduce((most, child) => Math.max(most, child.whole.end), Math.max(end, statement.whole.end));
  return { name: title(statement), head: statement.row.head, whole: { start, end: last }, words: { start, end }, children };
};

/** `cable lapel.plug → laptop.headset`, `room hall`, `sends sound from lapel`. */
function title({ row, negated, values }: Bound): string {
  const words = row.slots.flatMap((slot) => {
    const found = (values.get(slot.id) ?? []).map(spoken).filter((word) => word !== "");
    if (found.length === 0) return [];
    return [`${slot.after === undefined || row.head === "setup" ? "" : `${slot.after} `}${found.slice(0, 3).join(" and ")}${found.length > 3 ? " …" : ""}`];
  });
  const text = [row.head, ...(negated ? ["no"] : []), ...words.slice(0, 3)].join(" ");
  return text.length > 80 ? `${text.slice(0, 79)}…` : text;
}

/** A value as a word of a title; quantities are left to the text itself. */
function spoken(value: Value): string {
  switch (value.kind) {
    case "name": return `${value.each ? "each " : ""}${value.text}`;
    case "word": return value.word;
    case "text": return value.text;
    case "date": return value.date;
    case "place": return value.words;
    case "clock": return `${String(Math.floor(value.minutes / 60)).padStart(2, "0")}:${String(value.minutes % 60).padStart(2, "0")}`;
    case "quantity": case "mode": case "ratio": case "point": return "";
  }
}
