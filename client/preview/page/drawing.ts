/** The one door by which drawings, and marks such as those in drawings, come into the page. */
import { Morph, type Host } from "../morph";
import { shapeOf, SVG, type Shape } from "../shape";

const dom: Host<Element> = {
  create: (tag) => document.createElementNS(SVG, tag),
  names: (node) => node.getAttributeNames(),
  get: (node, name) => node.getAttribute(name),
  set: (node, name, value) => node.setAttribute(name, value),
  remove: (node, name) => node.removeAttribute(name),
  children: (node) => [...node.children],
  put: (parent, child, before) => parent.insertBefore(child, before),
  drop: (parent, child) => parent.removeChild(child),
  text: (node) => (node.childElementCount === 0 ? node.textContent : ""),
  setText: (node, text) => {
    node.textContent = text;
  },
};

export const newMorph = (): Morph<Element> => new Morph<Element>(dom);

/** Only shapes and words of it; nothing where it is no drawing. */
export function parsed(svg: string): Shape | undefined {
  // The page has its own style for drawings. That of the drawing would not be taken anyway; without it, nobody need complain of it.
  return shapeOf(new DOMParser().parseFromString(svg.replace(/<style>[^<]*<\/style>/gu, ""), "image/svg+xml").documentElement);
}
