/** The sheet that the drawing lies on: which drawing it is, how large, and how far it is scrolled. */
import { newMorph, parsed } from "./drawing";
import { byId } from "./parts";
import { fitted, scrolled, stepped, within } from "../zoom";

const KEYS: Readonly<Record<string, string>> = { "+": "zoom-in", "=": "zoom-in", "-": "zoom-out", 0: "zoom-fit", 1: "zoom-whole" };

export class Sheet {
  readonly stage = byId("stage");
  readonly sheet = byId("sheet");
  readonly #word = byId("zoom-word");
  readonly #morph = newMorph();
  readonly #changed: () => void;
  #drawing: Element | undefined;
  #natural = { width: 0, height: 0 };
  /** Absent: as wide as the page. */
  zoom: number | undefined;

  /** `changed`: it was zoomed or scrolled. */
  constructor(changed: () => void) {
    this.#changed = changed;
    const acts: Readonly<Record<string, () => void>> = {
      "zoom-in": () => this.#zoomTo(stepped(this.factor(), true)),
      "zoom-out": () => this.#zoomTo(stepped(this.factor(), false)),
      "zoom-fit": () => this.#zoomTo(undefined),
      "zoom-whole": () => this.#zoomTo(1),
    };
    for (const [id, act] of Object.entries(acts)) byId(id).addEventListener("click", act);
    document.addEventListener("keydown", (event) => {
      const act = event.ctrlKey || event.metaKey || event.altKey || event.target instanceof HTMLSelectElement ? undefined : acts[KEYS[event.key] ?? ""];
      if (act === undefined) return;
      act();
      event.preventDefault();
    });
    this.stage.addEventListener("wheel", (event) => {
      if (!event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      const at = this.stage.getBoundingClientRect();
      this.#zoomTo(this.factor() * Math.exp(-event.deltaY / 400), event.clientX - at.left, event.clientY - at.top);
    }, { passive: false });
    this.stage.addEventListener("scroll", changed, { passive: true });
    new ResizeObserver(() => this.fit()).observe(this.stage);
  }

  keyOf(node: Element): string | undefined {
    return this.#morph.keyOf(node);
  }

  /** Changes the drawing that is there into another; whether that is one. */
  show(svg: string): boolean {
    const shape = parsed(svg);
    if (shape === undefined) return false;
    const focused = document.activeElement;
    const next = this.#morph.show(shape, this.#drawing);
    if (next !== this.#drawing) this.sheet.replaceChildren(next);
    this.#drawing = next;
    if (focused instanceof SVGElement && focused.isConnected && document.activeElement !== focused) focused.focus({ preventScroll: true });
    const [, , width = "", height = ""] = (shape.attributes.get("viewBox") ?? "").split(/\s+/u);
    this.#natural = { width: Number(width) || 0, height: Number(height) || 0 };
    this.fit();
    return true;
  }

  clear(): void {
    this.sheet.replaceChildren();
    this.#drawing = undefined;
  }

  /** Pixels of the page to one of the drawing. */
  factor(): number {
    return this.zoom ?? fitted(this.#natural.width, this.stage.clientWidth - 16);
  }

  fit(): void {
    if (!(this.#drawing instanceof SVGElement)) return;
    const z = this.factor();
    this.#drawing.style.width = `${Math.round(this.#natural.width * z)}px`;
    this.#drawing.style.height = `${Math.round(this.#natural.height * z)}px`;
    this.#word.textContent = `${Math.round(z * 100)} %`;
  }

  /** Zooms so that the point at `x`, `y` of the stage stays; the middle where none is given. */
  #zoomTo(next: number | undefined, x = this.stage.clientWidth / 2, y = this.stage.clientHeight / 2): void {
    const before = this.factor();
    this.zoom = next === undefined ? undefined : within(next);
    const after = this.factor();
    const left = scrolled(this.stage.scrollLeft, x, before, after);
    const top = scrolled(this.stage.scrollTop, y, before, after);
    this.fit();
    this.stage.scrollTo({ left, top });
    this.#changed();
  }
}
