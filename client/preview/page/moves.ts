/** What is moved in a drawing: dragged by the pointer, or by Alt and arrow keys. */
import { gripOf, moved, scaleOf, strokeOf, type Grip, type Scale } from "../drag";
import type { FromPage } from "../messages";
import type { Sheet } from "./sheet";

/** Less than this is a click and no drag, pixels. */
const SLACK = 4;
/** It is written when no further key follows for so long, ms. */
const SETTLES = 350;

interface Hold {
  readonly node: SVGElement;
  readonly grip: Grip;
  readonly scale: Scale;
}

/** What is under way. `dx`, `dy`: how far, in units of the drawing. */
interface Held extends Hold {
  dx: number;
  dy: number;
  readonly facts: boolean;
  /** Where the pointer took hold; nothing where keys move it, or it was let go of. */
  from?: readonly [number, number] | undefined;
}

export class Moves {
  readonly #on: Sheet;
  readonly #post: (message: FromPage) => void;
  #held: Held | undefined;
  #settling: ReturnType<typeof setTimeout> | undefined;
  #dragged = false;

  constructor(on: Sheet, post: (message: FromPage) => void) {
    this.#on = on;
    this.#post = post;
    on.sheet.addEventListener("pointerdown", (event) => this.#take(event));
    window.addEventListener("pointermove", (event) => this.#drag(event));
    window.addEventListener("pointerup", () => {
      if (this.#held?.from === undefined) return;
      this.#held.from = undefined;
      if (this.#dragged) this.#drop();
      else this.letGo();
    });
    window.addEventListener("pointercancel", () => this.letGo());
  }

  /** Whether the click that comes now ends a drag; asked once. */
  endsDrag(): boolean {
    const was = this.#dragged;
    this.#dragged = false;
    return was;
  }

  /** A new drawing is there: what was moved stands where it is drawn now. */
  forget(): void {
    this.#held = undefined;
  }

  /** What was under way goes back to where it is drawn. */
  letGo(): void {
    clearTimeout(this.#settling);
    this.#held?.node.removeAttribute("transform");
    this.#held = undefined;
  }

  /** Whether a key moves what has the focus. */
  byKey(event: KeyboardEvent): boolean {
    if (!event.altKey) return false;
    const at = this.#gripAt(event.target);
    const stroke = at === undefined ? undefined : strokeOf(event.key, event.shiftKey, at.scale);
    const facts = event.ctrlKey || event.metaKey;
    if (at === undefined || stroke === undefined || (at.grip.fact && !facts)) return false;
    if (this.#held?.node !== at.node) this.letGo();
    const held = this.#held ??= { ...at, dx: 0, dy: 0, facts: facts && at.grip.fact };
    held.dx += stroke[0];
    held.dy += stroke[1];
    shift(held);
    clearTimeout(this.#settling);
    this.#settling = setTimeout(() => this.#drop(), SETTLES);
    return true;
  }

  #take(event: PointerEvent): void {
    this.#dragged = false;
    if (event.button !== 0) return;
    const at = this.#gripAt(event.target);
    const facts = event.ctrlKey || event.metaKey;
    if (at === undefined || (at.grip.fact && !facts)) return;
    this.letGo();
    this.#held = { ...at, dx: 0, dy: 0, facts: facts && at.grip.fact, from: [event.clientX, event.clientY] };
  }

  #drag(event: PointerEvent): void {
    if (this.#held?.from === undefined || event.buttons === 0) return;
    const [x, y] = this.#held.from;
    if (!this.#dragged && Math.hypot(event.clientX - x, event.clientY - y) < SLACK) return;
    if (!this.#dragged) this.#on.sheet.setPointerCapture(event.pointerId);
    this.#dragged = true;
    this.#held.dx = (event.clientX - x) / this.#on.factor();
    this.#held.dy = (event.clientY - y) / this.#on.factor();
    shift(this.#held);
  }

  #drop(): void {
    clearTimeout(this.#settling);
    if (this.#held === undefined) return;
    const { grip, scale, dx, dy, facts } = this.#held;
    const message = moved(grip, scale, dx, dy, facts);
    if (Math.hypot(message.x - grip.x, message.y - grip.y) < 0.05) this.letGo();
    else this.#post(message);
  }

  #gripAt(target: EventTarget | null): Hold | undefined {
    const node = target instanceof Element ? target.closest<SVGElement>("[data-x]") : null;
    const room = this.#on.sheet.querySelector("[data-scale]");
    const grip = node === null ? undefined : gripOf((name) => node.getAttribute(name));
    const scale = room === null ? undefined : scaleOf((name) => room.getAttribute(name));
    return node === null || grip === undefined || scale === undefined ? undefined : { node, grip, scale };
  }
}

/** A row of seats goes only forth and back. */
function shift({ node, grip, dx, dy }: Held): void {
  node.setAttribute("transform", `translate(${Math.round(grip.what === "row" ? 0 : dx)} ${Math.round(dy)})`);
}
