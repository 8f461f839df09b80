/** Every place in one text that means the thing under the cursor, told apart by whether it gets its name there. */
import type { Asked, Span } from "./asked";
import { occurrenceAt, occurrences } from "./names";

export interface Highlight extends Span {
  /** Whether the thing gets its name here. */
  readonly declares: boolean;
}

/** In the order of the text; empty where no name is under the cursor. */
export function highlights(asked: Pick<Asked, "setup" | "path">, offset: number): readonly Highlight[] {
  const all = occurrences(asked.setup);
  const here = occurrenceAt(all, asked.path, offset);
  if (here === undefined) return [];
  return all.filter((one) => one.path === asked.path && one.key === here.key).map(({ start, end, declares }) => ({ start, end, declares }));
}
