/** Makes what is in the page equal to a new drawing by as few changes as that takes; what stays the same thing stays the same element. */
import type { Shape } from "./shape";

/** As much of a document as is changed here; in the page it is the DOM, in tests a small stand-in that counts. */
export interface Host<N extends object> {
  create(tag: string): N;
  names(node: N): readonly string[];
  get(node: N, name: string): string | null;
  set(node: N, name: string, value: string): void;
  remove(node: N, name: string): void;
  children(node: N): readonly N[];
  /** Puts a child before another, or last; one that is in the page already is moved. */
  put(parent: N, child: N, before: N | null): void;
  drop(parent: N, child: N): void;
  text(node: N): string;
  setText(node: N, text: string): void;
}

/** Attributes that the page itself sets: a new drawing says nothing about them. */
const OWN = new Set(["data-here", "aria-current", "style"]);

/** Remembers what each element stands for, and brings elements up to date. */
export class Morph<N extends object> {
  readonly #host: Host<N>;
  readonly #keys = new WeakMap<N, { key: string; tag: string }>();

  constructor(host: Host<N>) {
    this.#host = host;
  }

  keyOf(node: N): string | undefined {
    return this.#keys.get(node)?.key;
  }

  /** The element for a drawing: the one given where there is one, brought up to date; else a new one. */
  show(shape: Shape, old: N | undefined): N {
    const node = old !== undefined && this.#keys.get(old)?.tag === shape.tag ? old : this.#make(shape);
    this.#update(node, shape);
    return node;
  }

  #make(shape: Shape): N {
    const node = this.#host.create(shape.tag);
    this.#keys.set(node, { key: shape.key, tag: shape.tag });
    return node;
  }

  #update(node: N, shape: Shape): void {
    const host = this.#host;
    for (const name of host.names(node)) if (!shape.attributes.has(name) && !OWN.has(name)) host.remove(node, name);
    for (const [name, value] of shape.attributes) if (host.get(node, name) !== value) host.set(node, name, value);
    if (shape.children.length === 0) {
      for (const child of host.children(node)) host.drop(node, child);
      if (host.text(node) !== shape.text) host.setText(node, shape.text);
      return;
    }
    const before = host.children(node);
    if (before.length === 0 && host.text(node) !== "") host.setText(node, "");
    const known = new Map<string, N>();
    for (const child of before) {
      const is = this.#keys.get(child);
      if (is !== undefined) known.set(`${is.tag} ${is.key}`, child);
    }
    const wanted = shape.children.map((child) => {
      const found = known.get(`${child.tag} ${child.key}`);
      if (found !== undefined) known.delete(`${child.tag} ${child.key}`);
      return { shape: child, node: found ?? this.#make(child), old: found };
    });
    for (const child of known.values()) host.drop(node, child);
    // Those that keep their order are not touched: an element that is moved loses the focus.
    const places = new Map(before.map((child, index) => [child, index]));
    const still = longestRising(wanted.map(({ old }) => (old === undefined ? -1 : places.get(old) ?? -1)));
    let next: N | null = null;
    for (let index = wanted.length - 1; index >= 0; index -= 1) {
      const want = wanted[index];
      if (want === undefined) continue;
      this.#update(want.node, want.shape);
      if (!still.has(index)) host.put(node, want.node, next);
      next = want.node;
    }
  }
}

/** Positions of a longest rising subsequence (patience sorting, O(n log n)); negative numbers take no part. */
export function longestRising(numbers: readonly number[]): ReadonlySet<number> {
  const tails: number[] = [];
  const previous = new Map<number, number | undefined>();
  numbers.forEach((number, index) => {
    if (number < 0) return;
    let low = 0;
    let high = tails.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((numbers[tails[middle] ?? 0] ?? 0) < number) low = middle + 1;
      else high = middle;
    }
    previous.set(index, tails[low - 1]);
    tails[low] = index;
  });
  const out = new Set<number>();
  for (let at = tails.at(-1); at !== undefined; at = previous.get(at)) out.add(at);
  return out;
}
