/** From the drawing to places in the text and back. */
import { hereOf } from "../here";
import type { Cursor, FromPage } from "../messages";
import { markOf, type Mark } from "../shape";
import type { Sheet } from "./sheet";

export class Places {
  readonly #on: Sheet;
  readonly #post: (message: FromPage) => void;
  #cursor: Cursor | undefined;
  /** Key of the element that was chosen. */
  chosen: string | undefined;

  constructor(on: Sheet, post: (message: FromPage) => void) {
    this.#on = on;
    this.#post = post;
  }

  cursorAt(cursor: Cursor): void {
    this.#cursor = cursor;
    this.highlight(true);
  }

  /** `bring`: what the cursor stands on is scrolled to. */
  highlight(bring = false): void {
    const all = this.#marked();
    const here = new Set(this.#cursor === undefined ? [] : hereOf(all.map(({ mark }) => mark), this.#cursor));
    all.forEach(({ node }, index) => {
      node.toggleAttribute("data-here", here.has(index));
      if (this.#on.keyOf(node) === this.chosen) node.setAttribute("aria-current", "true");
      else node.removeAttribute("aria-current");
    });
    const [first] = here;
    if (bring && first !== undefined) this.#intoView(all[first]?.node);
  }

  /** Leads to the text; whether there is a place that it leads to. */
  go(target: EventTarget | null): boolean {
    const node = target instanceof Element ? target.closest<SVGElement>("[data-path]") : null;
    const mark = node === null ? undefined : markOf((name) => node.getAttribute(name));
    if (node === null || mark === undefined) return false;
    this.chosen = this.#on.keyOf(node);
    this.highlight();
    this.#post({ kind: "go", path: mark.path, start: mark.start, end: mark.end });
    return true;
  }

  #marked(): { node: SVGElement; mark: Mark }[] {
    return [...this.#on.sheet.querySelectorAll<SVGElement>("[data-path]")].flatMap((node) => {
      const mark = markOf((name) => node.getAttribute(name));
      return mark === undefined ? [] : [{ node, mark }];
    });
  }

  /** Scrolls only where nothing of it can be seen. */
  #intoView(node: SVGElement | undefined): void {
    if (node === undefined) return;
    const box = node.getBoundingClientRect();
    const seen = this.#on.stage.getBoundingClientRect();
    const apart = box.right < seen.left || box.left > seen.right || box.bottom < seen.top || box.top > seen.bottom;
    if (apart) node.scrollIntoView({ block: "center", inline: "center" });
  }
}
