/** The files of a folder where somebody else reads them and hands them over, by and by: for a server without a disk of its own. */
import type { Texts } from "../model/files";
import type { Shelf } from "./workspace";

type Read = ReturnType<Texts["read"]>;

/** Whoever reads the files of one folder. Neither may fail, and each must come to an end. */
export interface Lender {
  /** Paths of the files of the language in the folder and below it. */
  list(): Promise<readonly string[]>;
  read(path: string): Promise<Read>;
}

const ENDING = ".bothways";
/** Files that are listed, and files that are remembered at all; the texts together, in UTF-16 units; files that are asked for at a time. */
const MOST_LISTED = 2000;
const MOST_KEPT = 4000;
const MOST_TEXT = 32_000_000;
const MOST_BESIDE = 500;
const AT_A_TIME = 16;
/** How long the files hold where nobody says when they change, in ms. */
const FRESH = 5000;

const NOT_YET: Read = { problem: "it has not been read yet" };
const TOO_MUCH: Read = { problem: "the folder holds more text than is read" };

export class LentShelf implements Shelf {
  readonly #lender: Lender;
  readonly #changed: () => void;
  readonly #kept = new Map<string, Read>();
  #size = 0;
  /** Files that are to be read, in their order. */
  readonly #wanted = new Set<string>();
  readonly #reading = new Set<string>();
  #listing = false;
  #listAgain = false;
  /** When the folder was listed last. */
  #listed = 0;
  /** Something reads otherwise than when `changed` was called last. */
  #different = false;
  #pending: { readonly done: Promise<void>; readonly settle: () => void } | undefined;

  /** `changed` is called once all is read that was asked for, if anything reads otherwise than before. */
  constructor(lender: Lender, changed: () => void) {
    this.#lender = lender;
    this.#changed = changed;
    this.forget();
  }

  get pending(): Promise<void> | undefined {
    return this.#pending?.done;
  }

  /** What is known of a file; one that nobody has asked for yet is sent for. */
  read(path: string): Read {
    const known = this.#kept.get(path);
    if (known !== undefined) return known;
    if (!this.#reading.has(path)) this.#want(path);
    return NOT_YET;
  }

  list(): readonly string[] {
    return [...this.#kept].flatMap(([path, read]) => ("text" in read && path.endsWith(ENDING) ? [path] : [])).sort();
  }

  beside(path: string): { path: string; text: string }[] {
    const folder = path.slice(0, path.lastIndexOf("/") + 1);
    const near = this.list().filter((other) => other !== path && other.startsWith(folder) && !other.slice(folder.length).includes("/"));
    return near.slice(0, MOST_BESIDE).flatMap((other) => {
      const read = this.#kept.get(other);
      return read !== undefined && "text" in read ? [{ path: other, text: read.text }] : [];
    });
  }

  /** Sends for a file again, or for all; until it comes, it reads as before. */
  forget(path?: string): void {
    if (path !== undefined) this.#want(path);
    else {
      this.#begin();
      void this.#list();
    }
  }

  refresh(): void {
    if (performance.now() - this.#listed > FRESH) this.forget();
  }

  #want(path: string): void {
    this.#begin();
    this.#wanted.add(path);
    this.#go();
  }

  #begin(): void {
    if (this.#pending !== undefined) return;
    let settle = (): void => undefined;
    const done = new Promise<void>((resolve) => (settle = resolve));
    this.#pending = { done, settle };
  }

  /** Ends when nothing is on its way any more. */
  #end(): void {
    const pending = this.#pending;
    if (pending === undefined || this.#listing || this.#wanted.size > 0 || this.#reading.size > 0) return;
    this.#pending = undefined;
    if (this.#different) {
      this.#different = false;
      this.#changed();
    }
    pending.settle();
  }

  async #list(): Promise<void> {
    if (this.#listing) {
      this.#listAgain = true;
      return;
    }
    this.#listing = true;
    do {
      this.#listAgain = false;
      const listed = (await this.#lender.list()).slice(0, MOST_LISTED);
      for (const path of [...this.#kept.keys(), ...listed]) this.#wanted.add(path);
    } while (this.#listAgain);
    this.#listing = false;
    this.#listed = performance.now();
    this.#go();
    this.#end();
  }

  /** Sends for what is wanted; a file that is on its way and has changed meanwhile is sent for again when it has come. */
  #go(): void {
    for (const path of this.#wanted) {
      if (this.#reading.size >= AT_A_TIME) return;
      if (this.#reading.has(path)) continue;
      this.#wanted.delete(path);
      this.#reading.add(path);
      void this.#lender.read(path).then((read) => {
        this.#reading.delete(path);
        this.#put(path, read);
        this.#go();
        this.#end();
      });
    }
  }

  #put(path: string, read: Read): void {
    const before = this.#kept.get(path);
    const sizeOf = (one: Read | undefined): number => (one !== undefined && "text" in one ? one.text.length : 0);
    const size = this.#size - sizeOf(before) + sizeOf(read);
    // What is not there may be asked for again; of what is, nothing is let go.
    if (this.#kept.size >= MOST_KEPT && before === undefined) for (const [other, known] of this.#kept) if ("problem" in known) this.#kept.delete(other);
    const now = size > MOST_TEXT || (this.#kept.size >= MOST_KEPT && before === undefined) ? TOO_MUCH : read;
    this.#size = this.#size - sizeOf(before) + sizeOf(now);
    if (!same(before ?? NOT_YET, now)) this.#different = true;
    this.#kept.set(path, now);
  }
}

const same = (a: Read, b: Read): boolean => ("text" in a ? "text" in b && a.text === b.text : "problem" in b && a.problem === b.problem);
