/** The files that a text uses, as links to follow. */
import { valueOf } from "../model/bound";
import { resolve } from "../model/files";
import { fileAsked, type Asked, type Span } from "./asked";

export interface Link extends Span {
  /** The file's path within the folder. */
  readonly target: string;
}

/** A link for each `use` whose file lies in the folder and could be read. */
export function links(asked: Pick<Asked, "setup" | "path" | "texts">): readonly Link[] {
  return (fileAsked(asked)?.statements ?? []).flatMap((statement): Link[] => {
    const file = statement.row.head === "use" ? valueOf(statement, "file", "text") : undefined;
    const target = file && resolve(asked.path, file.text);
    if (file === undefined || target === undefined || !("text" in asked.texts.read(target))) return [];
    return [{ start: file.start, end: file.end, target }];
  });
}
