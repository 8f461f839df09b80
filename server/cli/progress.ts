/** What long work is at, on one line of a terminal's standard error that is wiped away again. */
import { shortened } from "./wording";
import type { Terminal } from "./terminal";

const PATIENCE_MS = 400;

export class Progress {
  readonly #terminal: Pick<Terminal, "watched" | "width" | "err">;
  readonly #started = Date.now();
  #shown = 0;

  constructor(terminal: Pick<Terminal, "watched" | "width" | "err">) {
    this.#terminal = terminal;
  }

  /** Says what comes next; nothing while it is quick, and nothing where standard error is no terminal. */
  say(words: string): void {
    const now = Date.now();
    if (!this.#terminal.watched || now - this.#started < PATIENCE_MS || now - this.#shown < 100) return;
    this.#terminal.err(`\r\u001b[K${shortened(words, this.#terminal.width - 1)}`);
    this.#shown = now;
  }

  /** Wipes the line, before anything else is printed. */
  clear(): void {
    if (this.#shown > 0) this.#terminal.err("\r\u001b[K");
    this.#shown = 0;
  }
}
