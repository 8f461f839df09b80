/**
 * Every request and every notification comes in here: parameters checked, a request that was withdrawn not answered at length, whatever
 * goes wrong caught, written to the editor's log and answered safely. No handler is registered anywhere else.
 */
import { ErrorCodes, LSPErrorCodes, ResponseError, type CancellationToken, type Connection } from "vscode-languageserver";
import type { Read } from "./expect";

/** Why a request has no answer, for the person at the editor to read. */
export class Refusal {
  constructor(readonly reason: string) {}
}

/** The texts changed while an answer was worked out: it would not fit any more. */
export const STALE: unique symbol = Symbol("stale");

/** What a handler gives: an answer, a refusal that is shown to the person, or that it came too late. */
export type Given<R> = R | Refusal | typeof STALE;

/** Lets whatever came in meanwhile be read, a withdrawal among it. */
export const pause = (): Promise<void> => new Promise((resolve) => {
  setTimeout(resolve, 0);
});

/** How long work goes on before whatever came in is looked at, in ms: shorter than a person notices. */
const TURN = 12;

/** Does work a piece at a time and looks now and then at what came in; nothing where it is not to go on. */
export async function inTurns<R>(work: Generator<unknown, R>, goOn: () => boolean): Promise<{ readonly done: R } | undefined> {
  for (let since = performance.now(), step = work.next(); ; step = work.next()) {
    if (step.done === true) return { done: step.value };
    if (performance.now() - since < TURN) continue;
    await pause();
    if (!goOn()) return undefined;
    since = performance.now();
  }
}

/** The words of an exception for the log, with where it arose. */
const wordsOf = (error: unknown): string => (error instanceof Error ? error.stack ?? error.message : String(error));

const tooEarly = (method: string): ResponseError => new ResponseError(ErrorCodes.ServerNotInitialized, `${method} came before initialize.`);

export class Guard {
  readonly #connection: Connection;
  #phase: "fresh" | "running" | "down" = "fresh";
  /** Set while files are being read that an answer may need: nothing is answered from half a folder. */
  pending: () => Promise<unknown> | undefined = () => undefined;

  constructor(connection: Connection) {
    this.#connection = connection;
    // What no handler is for is told apart from what came too early, when there was none yet.
    connection.onRequest((method: string) => this.#phase === "fresh" ? tooEarly(method) : new ResponseError(ErrorCodes.MethodNotFound, `${method} is not known here.`));
  }

  /** `initialize` was answered. */
  begin(): void {
    this.#phase = "running";
  }

  /** Whether `initialize` was answered already: it is asked once. */
  get begun(): boolean {
    return this.#phase !== "fresh";
  }

  /** `shutdown` was asked: nothing more is answered. */
  end(): void {
    this.#phase = "down";
  }

  get ended(): boolean {
    return this.#phase === "down";
  }

  /** Writes to the editor's log. */
  log(what: string, error: unknown): void {
    this.#connection.console.error(`${what}: ${wordsOf(error)}`);
  }

  note(words: string): void {
    this.#connection.console.info(words);
  }

  /** Answers a request; `otherwise` is the answer where something went wrong. */
  request<P, R>(method: string, read: Read<P>, answer: (params: P, token: CancellationToken) => Given<R> | Promise<Given<R>>, otherwise: R): void {
    this.#connection.onRequest(method, async (...given: unknown[]): Promise<R | ResponseError> => {
      // Without parameters, or with several, there are fewer or more arguments than the two that are wanted.
      const token = given.at(-1) as CancellationToken;
      if (this.#phase === "fresh") return tooEarly(method);
      if (this.#phase === "down") return new ResponseError(ErrorCodes.InvalidRequest, `${method} came after shutdown.`);
      const params = given.length === 2 ? read(given[0]) : undefined;
      if (params === undefined) return new ResponseError(ErrorCodes.InvalidParams, `${method}: these parameters are not what the protocol says.`);
      const withdrawn = (): ResponseError | undefined => (token.isCancellationRequested ? new ResponseError(LSPErrorCodes.RequestCancelled, `${method} was withdrawn.`) : undefined);
      const before = withdrawn();
      if (before !== undefined) return before;
      try {
        const pending = this.pending();
        if (pending !== undefined) await pending;
        const meanwhile = withdrawn();
        if (meanwhile !== undefined) return meanwhile;
        const result = await answer(params, token);
        if (result === STALE) return withdrawn() ?? new ResponseError(LSPErrorCodes.ContentModified, "The text changed meanwhile.");
        if (result instanceof Refusal) return new ResponseError(LSPErrorCodes.RequestFailed, result.reason);
        return withdrawn() ?? result;
      } catch (error) {
        this.log(method, error);
        return otherwise;
      }
    });
  }

  /** Takes a notification in; what cannot be understood is logged and left. */
  notification<P>(method: string, read: Read<P>, act: (params: P) => void): void {
    this.#connection.onNotification(method, (...given: unknown[]) => {
      if (this.#phase !== "running") return;
      try {
        const params = given.length === 1 ? read(given[0]) : undefined;
        if (params === undefined) this.#connection.console.warn(`${method}: these parameters are not what the protocol says; nothing was done.`);
        else act(params);
      } catch (error) {
        this.log(method, error);
      }
    });
  }
}
