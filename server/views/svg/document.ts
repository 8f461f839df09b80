/** A drawing as a whole: its frame, its words for those who cannot see it, its style sheet, its page. */
import { element, path, type Element, type Node } from "./element";
import { FONT_STACK } from "./glyphs";
import { paletteSheet, type Theme } from "./palette";

/** What a drawing is made for. */
export interface Manner {
  readonly id: string;
  readonly theme: Theme | undefined;
  /** Width in pixels at which it is shown; without one, its natural width. */
  readonly width: number | undefined;
  /** `false`: nothing in it can be reached by the keyboard, as is right on paper. */
  readonly stops: boolean;
  readonly title: string;
  readonly description: string;
}

/** A short name that is equal for equal drawings, so that several can stand in one document (FNV-1a, 32 bits). */
export function nameOf(kind: string, text: string): string {
  let hash = 0x811c9dc5;
  for (let index = 0; index < text.length; index += 1) hash = Math.imul(hash ^ text.charCodeAt(index), 0x01000193) >>> 0;
  return `${kind}-${hash.toString(16).padStart(8, "0")}`;
}

/** What all drawings have in common. */
const COMMON = [
  "text{font-family:" + FONT_STACK + ";fill:var(--ink)}",
  "text.b{font-weight:bold}",
  "text.ink2{fill:var(--ink2)}",
  "path,line{fill:none}",
  ".page{fill:var(--page)}",
  "[tabindex]:focus{outline:2px solid var(--ink);outline-offset:4px}",
];

/** How the parts of a drawing inside `root` look, by the custom properties of its palette: for a page that brings its own palette. */
export function rulesFor(root: string, own: readonly string[]): string {
  return [...COMMON, ...own].map((rule) => `${root} ${rule.replace(/,(?=[.a-z])(?=[^{]*\{)/gu, `,${root} `)}`).join("\n");
}

/** A complete drawing of that kind, `width` by `height` pixels, that needs nothing from elsewhere. */
export function documentOf(kind: string, size: { readonly width: number; readonly height: number }, manner: Manner, rules: readonly string[], ...children: readonly Node[]): Element {
  const width = Math.ceil(size.width);
  const height = Math.ceil(size.height);
  const scale = manner.width === undefined ? 1 : manner.width / size.width;
  const titleId = `${manner.id}-title`;
  const descriptionId = `${manner.id}-description`;
  const root = `.${kind}${manner.theme === undefined ? "" : `.${manner.theme}`}`;
  return element("svg", {
    xmlns: "http://www.w3.org/2000/svg", class: `${kind}${manner.theme === undefined ? "" : ` ${manner.theme}`}`,
    viewBox: path(0, 0, width, height), width: Math.round(width * scale), height: Math.round(height * scale),
    role: "img", "aria-labelledby": `${titleId} ${descriptionId}`,
  },
  element("title", { id: titleId }, manner.title),
  element("desc", { id: descriptionId }, manner.description),
  { css: [paletteSheet(root, manner.theme), rulesFor(root, rules)].join("\n") },
  element("rect", { class: "page", x: 0, y: 0, width, height }),
  ...children);
}
