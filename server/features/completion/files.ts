/** Files that a `use` could take in. */
import type { Span } from "../asked";
import { offer, type Bare, type Offer } from "./offer";

/** Files of the folder, written from the folder of the file that would use them; those beside it and below it first. */
function files(path: string, all: readonly string[], quoted: boolean): Bare[] {
  const here = path.split("/").slice(0, -1);
  return all.filter((file) => file !== path).map((file) => {
    const parts = file.split("/");
    let same = 0;
    while (same < here.length && same < parts.length - 1 && here[same] === parts[same]) same += 1;
    const written = [...here.slice(same).map(() => ".."), ...parts.slice(same)].join("/");
    return offer("file", quoted ? written : `"${written}"`, "", file, written.startsWith("..") ? 1 : 0);
  });
}

/** Within a quotation that has begun; where it is not closed, it is. */
export const filesToUse = (path: string, all: readonly string[], quoted: Span & { readonly closed: boolean }): Offer[] =>
  files(path, all, true).map((bare) => ({ ...bare, insert: quoted.closed ? bare.insert : `${bare.insert}"`, replaces: { start: quoted.start, end: quoted.end } }));

/** With their quotation marks. */
export const quotedFiles = (path: string, all: readonly string[]): Bare[] => files(path, all, false);
