/** Says that a folder is still being read or judged, where the editor can show it: only where that takes so long that somebody wonders. */
import type { Connection } from "vscode-languageserver";

/** How long nothing is said, in ms: shorter work is done before one has looked. */
const UNNOTICED = 700;

export interface Steps {
  /** Files that an editor hands over are on their way; nothing where none is. */
  readonly reading: () => Promise<unknown> | undefined;
  /** What is open is judged. */
  readonly judging: () => Promise<void>;
}

export class Opening {
  readonly #connection: Connection;
  readonly #after: number;
  /** The folders that are open now: what went before has been overtaken. */
  #round = 0;

  constructor(connection: Connection, after = UNNOTICED) {
    this.#connection = connection;
    this.#after = after;
  }

  /** Folders were opened. Never fails, and comes back when everything is done. */
  async begin({ reading, judging }: Steps): Promise<void> {
    const round = ++this.#round;
    let words = "reading the folder";
    let shown: { readonly report: (message: string) => void; readonly done: () => void } | undefined;
    let over = false;
    const show = async (): Promise<void> => {
      const reporter = await this.#connection.window.createWorkDoneProgress().catch(() => undefined);
      if (reporter === undefined) return;
      reporter.begin("Bothways", undefined, words);
      if (over) reporter.done();
      else shown = { report: (message) => reporter.report(message), done: () => reporter.done() };
    };
    const timer = setTimeout(() => void show(), this.#after);
    const say = (now: string): void => {
      words = now;
      shown?.report(now);
    };
    try {
      for (let pending = reading(); pending !== undefined && round === this.#round; pending = reading()) await pending;
      say("judging what is open");
      if (round === this.#round) await judging();
    } finally {
      over = true;
      clearTimeout(timer);
      shown?.done();
    }
  }

  /** Nothing more is told. */
  stop(): void {
    this.#round += 1;
  }
}
