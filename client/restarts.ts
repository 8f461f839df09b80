/** When a server that died is started again, and when that is given up: a few times in a few minutes, each without a word. */
export class Restarts {
  readonly #times: number[] = [];

  /** `most` restarts within `window` milliseconds. */
  constructor(readonly most = 4, readonly window = 3 * 60_000) {}

  /** The server died at `now` (milliseconds): whether to start it again. */
  again(now: number): boolean {
    while (this.#times.length > 0 && now - (this.#times[0] ?? 0) > this.window) this.#times.shift();
    if (this.#times.length >= this.most) return false;
    this.#times.push(now);
    return true;
  }

  forget(): void {
    this.#times.length = 0;
  }
}
