/** Ties a thing in a drawing to its line in the text. */
import type { Where } from "../../model/where";
import type { Attribute } from "./element";

/** Where in the text a thing is written, so that a preview can go there. `stops`: the keyboard reaches it. */
export function source(where: Where | undefined, label: string, stops: boolean): Record<string, Attribute> {
  if (where === undefined) return {};
  const at = { "data-path": where.path, "data-start": where.start, "data-end": where.end };
  return stops ? { ...at, tabindex: 0, role: "group", "aria-label": label } : at;
}
