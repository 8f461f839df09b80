/** Addresses of documents, as far as they must be understood: what lies in which folder, under which path. */

/** Two spellings of one address have one key: escapes undone, the letter of a drive in lower case. */
export function keyOf(uri: string): string {
  let plain = uri;
  try {
    plain = decodeURIComponent(uri);
  } catch {
    // Not an escape after all: the address is taken as it stands.
  }
  return plain.replace(/^(file:\/\/\/)([A-Z]):/, (_, lead: string, drive: string) => `${lead}${drive.toLowerCase()}:`);
}

/** A folder's address without the stroke at its end. */
export const trimmed = (uri: string): string => uri.replace(/\/+$/, "");

/** The path of a document within a folder, parts joined by `/`; nothing where it does not lie there. */
export function pathWithin(folderKey: string, documentKey: string): string | undefined {
  if (!documentKey.startsWith(`${folderKey}/`)) return undefined;
  const path = documentKey.slice(folderKey.length + 1);
  return isPlain(path) ? path : undefined;
}

/** Whether a path goes straight down, with no step up and none that is empty. */
export const isPlain = (path: string): boolean =>
  !path.includes("\\") && !path.includes("\0") && path.split("/").every((part) => part !== "" && part !== "." && part !== "..");

/** The address of a path within a folder. */
export const uriWithin = (folder: string, path: string): string => `${trimmed(folder)}/${path.split("/").map(encodeURIComponent).join("/")}`;

/** The address of the folder that a document lies in and its name there; a document without folders has an address that is all name. */
export function split(uri: string): { readonly folder: string; readonly name: string } {
  const at = Math.max(uri.lastIndexOf("/"), /^[a-z][a-z0-9+.-]*:/i.exec(uri)?.[0].length ?? 0);
  const cut = uri.charAt(at) === "/" ? at : at - 1;
  return { folder: uri.slice(0, Math.max(cut, 0)), name: uri.slice(cut + 1) };
}
