/**
 * Tells the editor what is shown in each open document and how its setup stands: a moment after the last change, one study for a burst
 * of them, nothing that was worked out for an older text, and nothing twice.
 */
import type { CancellationToken, Diagnostic } from "vscode-languageserver";
import { keyOf } from "../workspace/uris";
import type { Folder, OpenDocument } from "../workspace/workspace";
import type { Convert } from "./convert";
import { inTurns, pause } from "./guard";
import type { VerdictsOf } from "./messages";
import type { Session } from "./session";
import { verdictsOf } from "./status";

/** How long the author must pause, in ms: shorter than one looks up, longer than between two letters. */
export const DELAY = 150;
/** How long an answer that needs a study waits for it, in ms: one of a thousand lines on a slow machine is done by then. */
const LONGEST_WAIT = 20_000;

export interface Outlet {
  diagnostics(uri: string, version: number, diagnostics: readonly Diagnostic[]): void;
  verdicts(verdicts: VerdictsOf): void;
  /** Verdicts changed: lenses are to be asked for again. */
  refreshLenses(): void;
  log(what: string, error: unknown): void;
  /** Whether somebody says when files of the folder change; else they are read anew each time. */
  watched(folder: Folder): boolean;
}

export class Publisher {
  readonly #session: Session;
  readonly #convert: Convert;
  readonly #outlet: Outlet;
  /** By document: what it was told last. */
  readonly #told = new Map<string, { readonly diagnostics: string; readonly verdicts: string }>();
  /** Documents that changed since they were looked at last, the latest last. */
  readonly #changed = new Set<string>();
  #timer: NodeJS.Timeout | undefined;
  #round = 0;
  #waiting: (() => void)[] = [];
  #busy = false;

  constructor(session: Session, convert: Convert, outlet: Outlet) {
    this.#session = session;
    this.#convert = convert;
    this.#outlet = outlet;
  }

  /** Something changed, a document where one is named: looks again after the author has paused. */
  touch(uri?: string, delay = DELAY): void {
    if (uri !== undefined) {
      this.#changed.delete(keyOf(uri));
      this.#changed.add(keyOf(uri));
    }
    this.#round += 1;
    this.#busy = true;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#run(), delay);
  }

  /** A document was closed: nothing is shown in it any more. */
  forget(document: OpenDocument): void {
    this.#told.delete(keyOf(document.uri));
    this.#changed.delete(keyOf(document.uri));
    this.#outlet.diagnostics(document.uri, document.version, []);
  }

  /** Nothing more is told. */
  stop(): void {
    this.#round += 1;
    clearTimeout(this.#timer);
    this.#release();
  }

  /** Comes back once the author has paused and everything is told, or the answer is not wanted any more. */
  async settled(token: CancellationToken): Promise<void> {
    if (!this.#busy || token.isCancellationRequested) return;
    await new Promise<void>((resolve) => {
      const timer = setTimeout(done, LONGEST_WAIT);
      const watch = token.onCancellationRequested(done);
      function done(): void {
        clearTimeout(timer);
        watch.dispose();
        resolve();
      }
      this.#waiting.push(done);
    });
  }

  #release(): void {
    this.#busy = false;
    const waiting = this.#waiting;
    this.#waiting = [];
    for (const go of waiting) go();
  }

  async #run(): Promise<void> {
    const round = this.#round;
    const { workspace } = this.#session;
    const documents = [...workspace.documents];
    for (const folder of new Set(documents.map((document) => document.place.folder))) {
      if (this.#outlet.watched(folder)) continue;
      if (folder.shelf.refresh === undefined) folder.shelf.forget();
      else folder.shelf.refresh();
    }
    const latest = [...this.#changed];
    const order = documents.map((document) => ({ document, at: latest.indexOf(keyOf(document.uri)) })).sort((a, b) => b.at - a.at);
    let told = false;
    for (const { document } of order) {
      await pause();
      // A later change has its own round; what this one would tell is out of date.
      if (round !== this.#round) return;
      if (workspace.document(document.uri) !== document) continue;
      try {
        // Twice: judging may ask for a file that nobody has read yet. Whatever comes has a round of its own.
        for (const judge of [false, true]) {
          if (judge && await inTurns(workspace.studying(this.#session.judged(document.place)), () => round === this.#round) === undefined) return;
          const { pending } = document.place.folder.shelf;
          if (pending !== undefined) await pending;
          if (round !== this.#round) return;
        }
        this.#changed.delete(keyOf(document.uri));
        told = this.#tell(document) || told;
      } catch (error) {
        this.#outlet.log(`${document.uri} could not be looked at`, error);
      }
    }
    if (told) this.#outlet.refreshLenses();
    this.#release();
  }

  /** What is shown in a document, for an editor that asks; equal ids are equal answers. */
  answer(document: OpenDocument): { readonly items: Diagnostic[]; readonly id: string } {
    const items = this.#session.shown(document).map((shown) => this.#convert.diagnostic(document.place.folder, document.text, shown));
    return { items, id: hash(JSON.stringify(items)) };
  }

  /** Says whether verdicts changed. */
  #tell(document: OpenDocument): boolean {
    const { uri, version, place, text } = document;
    const before = this.#told.get(keyOf(uri));
    const diagnostics = this.#session.shown(document).map((shown) => this.#convert.diagnostic(place.folder, text, shown));
    const verdicts = verdictsOf(this.#session, uri, place);
    const now = { diagnostics: `${version}\n${JSON.stringify(diagnostics)}`, verdicts: JSON.stringify(verdicts) };
    this.#told.set(keyOf(uri), now);
    if (before?.diagnostics !== now.diagnostics) this.#outlet.diagnostics(uri, version, diagnostics);
    if (before?.verdicts === now.verdicts) return false;
    this.#outlet.verdicts(verdicts);
    return true;
  }
}

/** A short name for a text: FNV-1a, 32 bits, with the length; two answers of one document that differ do not meet by chance. */
function hash(text: string): string {
  let sum = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) sum = Math.imul(sum ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return `${text.length.toString(36)}-${sum.toString(36)}`;
}
