/** The files of a folder for the editor: what there is, and each text, remembered until somebody says that it changed. */
import { readdirSync } from "node:fs";
import path from "node:path";
import { ENDING, FolderTexts } from "./folder-texts";

/** Files of the language that are listed, and entries of folders that are looked at for them; near ones are found first. */
const MOST_LISTED = 2000;
const MOST_SEEN = 20_000;

export class FolderShelf extends FolderTexts {
  #listed: readonly string[] | undefined;

  /** Paths of the setups, rooms and kits in the folder and below it, sorted; hidden folders, packages and linked folders left out. */
  list(): readonly string[] {
    this.#listed ??= this.#look();
    return this.#listed;
  }

  override forget(given?: string): void {
    super.forget(given);
    this.#listed = undefined;
  }

  #look(): string[] {
    const found: string[] = [];
    let seen = 0;
    const open = [""];
    for (let at = open.shift(); at !== undefined && seen < MOST_SEEN && found.length < MOST_LISTED; at = open.shift()) {
      for (const entry of entries(path.join(this.root, at))) {
        seen += 1;
        if (entry.name.startsWith(".") || entry.name === "node_modules") continue;
        const place = at === "" ? entry.name : `${at}/${entry.name}`;
        if (entry.isDirectory()) open.push(place);
        // A linked file is read only if it stays inside: reading sees to that.
        else if (entry.name.endsWith(ENDING) && (entry.isFile() || entry.isSymbolicLink())) found.push(place);
      }
    }
    return found.sort();
  }
}

function entries(folder: string) {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch {
    // A folder that is gone or may not be read has no files for anybody.
    return [];
  }
}
