/** From a name to where it is given. */
import { valueOf } from "../model/bound";
import { resolve } from "../model/files";
import { everywhere } from "../model/reading";
import type { Where } from "../model/where";
import { fileAsked, touches, type Asked } from "./asked";
import { occurrenceAt, occurrences } from "./names";

/** Where the thing under the cursor gets its name; for the file of a `use`, its beginning. Empty for what no text states. */
export function definition(asked: Asked, offset: number): readonly Where[] {
  const file = fileAsked(asked);
  if (file === undefined) return [];
  for (const statement of file.statements) {
    const used = statement.row.head === "use" ? valueOf(statement, "file", "text") : undefined;
    if (used === undefined || !touches(used, offset)) continue;
    const path = resolve(asked.path, used.text);
    return path === undefined || !asked.setup.files.some((other) => other.path === path) ? [] : [{ path, start: 0, end: 0 }];
  }
  const all = occurrences(asked.setup);
  const here = occurrenceAt(all, asked.path, offset);
  if (here === undefined) return [];
  const given = all.filter((one) => one.key === here.key && one.declares);
  if (given.length > 0) return given.map(({ path, start, end }) => ({ path, start, end }));
  // Seats, a connection or numbered talkers may be stated without a name.
  const word = asked.setup.names.ofKinds(here.kind === "alias" ? [] : [here.kind]).find((named) => `name ${named.name}`.toLowerCase() === here.key);
  const stated = word?.where;
  const known = stated !== undefined && asked.setup.files.some((other) => other.path === stated.path && everywhere(other.statements).some((s) => s.where.start === stated.start));
  return stated === undefined || !known ? [] : [stated];
}
