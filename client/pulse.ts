/** Notices that a worker is dead. The end of a process is told; a worker that is gone, or whose script fails, falls silent. */
export interface Heard {
  /** Asks it for a sign of life; `heard` is to be called with whatever comes of that. */
  ask(): void;
  /** It is dead: called once. */
  died(): void;
}

/** How often it is asked, in ms, and how many questions in a row it may leave open: a long piece of work, or a folder far away, is no death. */
const EVERY = 20_000;
const MOST_OPEN = 4;

export class Pulse {
  readonly #heard: Heard;
  readonly #most: number;
  readonly #timer: ReturnType<typeof setInterval>;
  #open = 0;
  #over = false;

  constructor(heard: Heard, every = EVERY, most = MOST_OPEN) {
    this.#heard = heard;
    this.#most = most;
    // Counted in questions, not in time: a computer that slept asks no more than one on waking.
    this.#timer = setInterval(() => this.#beat(), every);
  }

  /** Something came from it. */
  heard(): void {
    this.#open = 0;
  }

  /** Its script failed: on a desktop that ends the process. */
  failed(): void {
    if (this.#over) return;
    this.stop();
    this.#heard.died();
  }

  /** It is ended on purpose. */
  stop(): void {
    this.#over = true;
    clearInterval(this.#timer);
  }

  #beat(): void {
    if (this.#open >= this.#most) {
      this.failed();
      return;
    }
    this.#open += 1;
    this.#heard.ask();
  }
}
