/** Where output goes: colour only on a terminal, marks that a plain one can show, and quiet when nobody reads any more. */
import { once } from "node:events";

export type Ink = "strong" | "quiet" | "good" | "poor" | "bad" | "open";

/** What printing needs to know of the page it prints on. */
export interface Page {
  readonly width: number;
  readonly unicode: boolean;
  paint(ink: Ink, text: string): string;
}

export interface Terminal extends Page {
  /** Whether somebody sits there who can be asked. */
  readonly interactive: boolean;
  /** Whether standard error is a terminal, so that progress can be shown and wiped away. */
  readonly watched: boolean;
  out(text: string): Promise<void>;
  err(text: string): void;
}

const SGR: Readonly<Record<Ink, string>> = {
  strong: "1", quiet: "2", good: "32", poor: "33", bad: "1;31", open: "36",
};

/** A page without colour; also what a pipe gets. */
export const plainPage = (width = 100, unicode = true): Page => ({ width, unicode, paint: (_ink, text) => text });

/** The terminal of this process. */
export function terminal(): Terminal {
  const { stdout, stderr, stdin, env } = process;
  const tty = stdout.isTTY;
  // NO_COLOR counts when set and not empty.
  const colour = tty && (env["NO_COLOR"] ?? "") === "" && env["TERM"] !== "dumb";
  const locale = env["LC_ALL"] || env["LC_CTYPE"] || env["LANG"] || "";
  // A file or a pipe is read as UTF-8; a terminal says in its locale what it can show.
  const unicode = !tty || process.platform === "win32" || /utf-?8/i.test(locale);
  // A reader that has seen enough (`| head`) closes the pipe: that is no fault.
  for (const stream of [stdout, stderr]) {
    stream.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EPIPE") process.exit();
      process.exit(2);
    });
  }
  return {
    width: tty ? Math.min(100, Math.max(40, stdout.columns || 80)) : 100,
    unicode,
    interactive: stdin.isTTY && tty,
    watched: stderr.isTTY && env["TERM"] !== "dumb",
    paint: (ink, text) => (colour && text !== "" ? `\u001b[${SGR[ink]}m${text}\u001b[0m` : text),
    async out(text) {
      if (!stdout.write(text)) await once(stdout, "drain");
    },
    err(text) {
      stderr.write(text);
    },
  };
}
