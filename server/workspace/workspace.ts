/**
 * What is open: folders, documents over the files of those folders, studies of both, and which setup is judged for a room or a kit.
 * Knows no protocol and no disk: whoever opens a folder hands over a shelf to read from.
 */
import type { Texts } from "../model/files";
import { readSetup, type Setup } from "../model/setup";
import { atOnce, type Pieces } from "../pieces";
import { studying, type Study } from "../study";
import { isPlain, keyOf, pathWithin, split, trimmed, uriWithin } from "./uris";
import { Outlines } from "./uses";

/** The files of one folder that no editor holds. */
export interface Shelf extends Texts {
  /** Paths of all files of the language, sorted. */
  list(): readonly string[];
  /** A file may have changed, or all may. */
  forget(path?: string): void;
  /** Instead of `forget` where nobody says when files change: anew, but not with every letter that is typed. Absent where reading is cheap. */
  refresh?(): void;
  /** Set while files are being read that somebody else hands over: settles when they are there, and never fails. */
  readonly pending?: Promise<void> | undefined;
}

/** For documents that lie in no folder that can be read. */
export const EMPTY_SHELF: Shelf = { read: () => ({ problem: "there is no such file" }), list: () => [], forget: () => undefined };

export interface Folder {
  readonly uri: string;
  readonly key: string;
  readonly shelf: Shelf;
  /** Open documents over the files of the shelf. */
  readonly texts: Texts;
  readonly outlines: Outlines;
}

/** A file by its folder and its path there. */
export interface Place {
  readonly folder: Folder;
  readonly path: string;
}

export interface OpenDocument {
  readonly uri: string;
  readonly version: number;
  readonly text: string;
  readonly place: Place;
}

interface Kept<T> {
  readonly reads: ReadonlyMap<string, { readonly text: string } | { readonly problem: string }>;
  readonly value: T;
}

/** The longest text that is read, in UTF-16 units: an open document is no other than a file on disk. */
const LONGEST = 2_000_000;
/** Studies and readings that are remembered; more setups than anybody has open side by side. */
const MOST_KEPT = 24;

export class Workspace {
  readonly #open: (uri: string) => Shelf;
  readonly #documents = new Map<string, OpenDocument>();
  readonly #byPlace = new Map<string, OpenDocument>();
  readonly #named: Folder[] = [];
  /** Folders of documents that lie in no folder that was opened. */
  readonly #loose = new Map<string, Folder>();
  /** By place: when its document was last opened or changed. */
  readonly #touched = new Map<string, number>();
  readonly #chosen = new Map<string, string>();
  readonly #studies = new Map<string, Kept<Study>>();
  readonly #setups = new Map<string, Kept<Setup>>();
  #clock = 0;

  /** `open` gives the shelf of a folder that is opened. */
  constructor(open: (uri: string) => Shelf) {
    this.#open = open;
  }

  addFolder(uri: string): void {
    const key = keyOf(trimmed(uri));
    if (this.#named.some((folder) => folder.key === key)) return;
    this.#named.push(this.#folder(trimmed(uri), this.#open(uri)));
    this.#rehouse();
  }

  removeFolder(uri: string): void {
    const at = this.#named.findIndex((folder) => folder.key === keyOf(trimmed(uri)));
    if (at >= 0) this.#named.splice(at, 1);
    this.#rehouse();
  }

  /** Opens a document, or takes in a change of it. */
  put(uri: string, version: number, text: string): OpenDocument {
    const document: OpenDocument = { uri, version, text, place: this.document(uri)?.place ?? this.#home(uri) };
    this.#documents.set(keyOf(uri), document);
    this.#byPlace.set(idOf(document.place), document);
    this.#clock += 1;
    this.#touched.set(idOf(document.place), this.#clock);
    return document;
  }

  /** Closes a document: from now on the file counts as it lies on the shelf. */
  close(uri: string): void {
    const document = this.document(uri);
    this.#documents.delete(keyOf(uri));
    if (document === undefined) return;
    const { folder } = document.place;
    this.#byPlace.delete(idOf(document.place));
    folder.shelf.forget(document.place.path);
    if (!this.#named.includes(folder) && ![...this.#documents.values()].some((other) => other.place.folder === folder)) this.#loose.delete(folder.key);
  }

  /** A file was made, changed or deleted by somebody else. Nothing where no folder holds it. */
  changed(uri: string): Place | undefined {
    const key = keyOf(uri);
    for (const folder of [...this.#named, ...this.#loose.values()]) {
      const path = pathWithin(folder.key, key);
      if (path === undefined) continue;
      folder.shelf.forget(path);
      return { folder, path };
    }
    return undefined;
  }

  /** Nobody says when files change: whatever is not open is read anew. */
  forgetAll(): void {
    for (const folder of [...this.#named, ...this.#loose.values()]) folder.shelf.forget();
  }

  document(uri: string): OpenDocument | undefined {
    return this.#documents.get(keyOf(uri));
  }

  get documents(): readonly OpenDocument[] {
    return [...this.#documents.values()];
  }

  /** The document that lies there, where it is open. */
  documentAt(place: Place): OpenDocument | undefined {
    return this.#byPlace.get(idOf(place));
  }

  /** Where a document lies that is open, or a file of a folder that was opened; nothing for any other address. */
  place(uri: string): Place | undefined {
    return this.document(uri)?.place ?? this.#named
      .flatMap((folder): Place[] => {
        const path = pathWithin(folder.key, keyOf(uri));
        return path === undefined ? [] : [{ folder, path }];
      })
      .sort((a, b) => b.folder.key.length - a.folder.key.length)[0];
  }

  /** A document's address: as its editor spells it where it is open. */
  uri(place: Place): string {
    return this.documentAt(place)?.uri ?? uriWithin(place.folder.uri, place.path);
  }

  text(place: Place): string | undefined {
    const read = place.folder.texts.read(place.path);
    return "text" in read ? read.text : undefined;
  }

  isSetup({ folder, path }: Place): boolean {
    return folder.outlines.of(path).isSetup;
  }

  title({ folder, path }: Place): string {
    return folder.outlines.of(path).title || path;
  }

  /** The folders that were opened, and those of documents that lie in none. */
  get folders(): readonly Folder[] {
    return [...this.#named, ...this.#loose.values()];
  }

  /** Set while files of any folder are being read. */
  get pending(): Promise<unknown> | undefined {
    const all = this.folders.flatMap(({ shelf }) => shelf.pending ?? []);
    return all.length === 0 ? undefined : Promise.all(all);
  }

  /** Every file of a folder, on the shelf or open, sorted. */
  paths(folder: Folder): readonly string[] {
    const open = this.documents.filter((document) => document.place.folder === folder).map((document) => document.place.path);
    return [...new Set([...folder.shelf.list(), ...open])].sort();
  }

  /** Every setup that takes a file in; a setup itself stands first. */
  setupsWith({ folder, path }: Place): readonly string[] {
    const known = new Set(folder.shelf.list());
    for (const document of this.documents) if (document.place.folder === folder) known.add(document.place.path);
    const others = [...known].sort().filter((other) => other !== path && folder.outlines.of(other).isSetup && folder.outlines.reaches(other, path));
    return folder.outlines.of(path).isSetup ? [path, ...others] : others;
  }

  /**
   * The setup that is judged for a file: a setup for itself; for a room or a kit the one that was chosen, else the one that was last
   * opened or changed, else the first by name. Nothing where no setup takes the file in.
   */
  inView(place: Place): string | undefined {
    if (this.isSetup(place)) return place.path;
    const setups = this.setupsWith(place);
    const chosen = this.#chosen.get(idOf(place));
    if (chosen !== undefined && setups.includes(chosen)) return chosen;
    const lately = (path: string): number => this.#touched.get(idOf({ folder: place.folder, path })) ?? 0;
    return setups.reduce<string | undefined>((best, path) => (best === undefined || lately(path) > lately(best) ? path : best), undefined);
  }

  /** Chooses the setup that is judged for a file; without one the choice is taken back. Says whether it could be. */
  choose(place: Place, setup: string | undefined): boolean {
    if (setup === undefined) {
      this.#chosen.delete(idOf(place));
      return true;
    }
    if (!this.setupsWith(place).includes(setup)) return false;
    this.#chosen.set(idOf(place), setup);
    return true;
  }

  study(place: Place): Study {
    return atOnce(this.studying(place));
  }

  /** The same a piece at a time; the texts are those of when it began. What the last study found and no edit can have changed is not judged again. */
  studying(place: Place): Pieces<Study> {
    const before = this.#studies.get(idOf(place))?.value;
    return this.#remember(this.#studies, place, (texts, path) => studying(texts, path, before));
  }

  /** What the files say, without judging it: quick. */
  setup(place: Place): Setup {
    const known = this.#studies.get(idOf(place));
    if (known !== undefined && holds(known, place.folder.texts)) return known.value.setup;
    return atOnce(this.#remember(this.#setups, place, readingSetup));
  }

  *#remember<T>(kept: Map<string, Kept<T>>, place: Place, make: (texts: Texts, path: string) => Pieces<T>): Pieces<T> {
    const id = idOf(place);
    let current = kept.get(id);
    if (current === undefined || !holds(current, place.folder.texts)) {
      const reads = new Map<string, { readonly text: string } | { readonly problem: string }>();
      const value = yield* make({ read: (path) => {
        const read = reads.get(path) ?? place.folder.texts.read(path);
        reads.set(path, read);
        return read;
        // Of the files beside it nothing is kept: a study is not made anew with every letter that is typed in another setup.
      }, beside: (path) => place.folder.texts.beside?.(path) ?? [] }, place.path);
      current = { value, reads };
    }
    kept.delete(id);
    kept.set(id, current);
    const oldest = kept.keys().next();
    if (kept.size > MOST_KEPT && oldest.done !== true) kept.delete(oldest.value);
    return current.value;
  }

  #folder(uri: string, shelf: Shelf): Folder {
    const key = keyOf(uri);
    const texts: Texts = {
      read: (path) => {
        const document = this.#byPlace.get(idOf({ folder, path }));
        if (document === undefined) return shelf.read(path);
        return document.text.length > LONGEST ? { problem: "it is larger than 2 MB, and no setup is" } : { text: document.text };
      },
      beside: (path) => shelf.beside?.(path) ?? [],
    };
    const folder: Folder = { uri, key, shelf, texts, outlines: new Outlines(texts) };
    return folder;
  }

  /** Where a document lies that is opened now: in the innermost folder that was opened, else in a folder of its own. */
  #home(uri: string): Place {
    const place = this.place(uri);
    if (place !== undefined) return place;
    const { folder: at, name } = split(uri);
    const path = keyOf(name);
    const key = keyOf(at);
    let folder = this.#loose.get(key);
    if (folder === undefined) {
      folder = this.#folder(at, isPlain(path) && !key.split("/").includes("..") ? this.#open(at) : EMPTY_SHELF);
      this.#loose.set(key, folder);
    }
    return { folder, path };
  }

  /** Folders came or went: every document is put where it now belongs. */
  #rehouse(): void {
    const all = this.documents;
    this.#documents.clear();
    this.#byPlace.clear();
    for (const old of all) {
      const document = { ...old, place: this.#home(old.uri) };
      this.#documents.set(keyOf(old.uri), document);
      this.#byPlace.set(idOf(document.place), document);
    }
    for (const [key, folder] of this.#loose) if (!this.documents.some((document) => document.place.folder === folder)) this.#loose.delete(key);
  }
}

/** Quick enough to be one piece. */
function* readingSetup(texts: Texts, path: string): Pieces<Setup> {
  return readSetup(texts, path);
}

const idOf = ({ folder, path }: Place): string => `${folder.key}\n${path}`;

/** Whether everything that was read reads the same now. */
const holds = (kept: Kept<unknown>, texts: Texts): boolean => [...kept.reads].every(([path, before]) => {
  const now = texts.read(path);
  return "text" in before ? "text" in now && now.text === before.text : "problem" in now && now.problem === before.problem;
});
