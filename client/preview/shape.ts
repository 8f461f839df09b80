/**
 * What of a drawing gets into the page: shapes and words, by a list. The server's drawing is parsed as XML and copied element by
 * element; whatever is not listed – scripts, links, styles, handlers, foreign content – does not exist on this side.
 */
export interface Shape {
  readonly tag: string;
  /** Equal for the same thing in two drawings, and unlike that of its sisters. */
  readonly key: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly Shape[];
  /** Words; only where there are no children. */
  readonly text: string;
}

/** As much of an XML document as is read here. */
export interface XmlNode {
  readonly nodeType: number;
  readonly localName?: string | null;
  readonly namespaceURI?: string | null;
  readonly textContent: string | null;
  readonly attributes?: ArrayLike<{ readonly name: string; readonly value: string }>;
  readonly childNodes: ArrayLike<XmlNode>;
}

export const SVG = "http://www.w3.org/2000/svg";
const ELEMENTS = new Set(["svg", "g", "title", "desc", "rect", "circle", "ellipse", "path", "line", "text"]);
/** Attributes whose values are numbers, path data, or words of closed lists: letters, digits and a few signs. */
const PLAIN = new Set([
  "viewBox", "width", "height", "x", "y", "rx", "ry", "cx", "cy", "r", "d", "x1", "x2", "y1", "y2", "class", "font-size", "text-anchor",
  "stroke-width", "stroke-linecap", "stroke-linejoin", "stroke-dasharray",
]);
const PLAIN_VALUE = /^[\w\s.,%+-]*$/u;
/** Attributes that hold names and words of the text; nothing is ever loaded or run from them. */
const WORDS = new Set(["aria-label", "data-path", "data-start", "data-end", "data-post", "data-from", "data-to", "data-way", "data-echo", "data-seats", "data-row", "data-field", "data-aim", "data-fact", "data-x", "data-y", "data-scale"]);
const NAME = /^(?:flow|plan|side|view)-[\w-]+$/u;
/** More than this is no drawing of a meeting. */
const MOST_ELEMENTS = 40_000;
const DEEPEST = 12;

function attributesOf(node: XmlNode, tag: string): Map<string, string> {
  const kept = new Map<string, string>();
  for (const { name, value } of Array.from(node.attributes ?? [])) {
    if (PLAIN.has(name) ? PLAIN_VALUE.test(value) : WORDS.has(name)) kept.set(name, value);
    else if (name === "id" && NAME.test(value)) kept.set(name, value);
    else if (tag === "svg" && name === "aria-labelledby") {
      const [title, description] = value.split(/\s+/u);
      if (title !== undefined && NAME.test(title)) kept.set("aria-labelledby", title);
      if (description !== undefined && NAME.test(description)) kept.set("aria-describedby", description);
    }
  }
  // The page has things in it that can be reached, so it is a group and no picture; each of them leads to its line.
  if (tag === "svg") kept.set("role", "group");
  // What leads somewhere without a name of its own – a head among many, a name beside its thing – is for the pointer alone.
  if (kept.has("data-path") && kept.has("aria-label")) {
    kept.set("role", "link");
    kept.set("tabindex", "0");
  }
  return kept;
}

function stem(tag: string, attributes: ReadonlyMap<string, string>): string {
  const aim = attributes.get("data-aim");
  if (aim !== undefined) return `aim ${aim}`;
  const seats = attributes.get("data-seats");
  if (seats !== undefined) return `seats ${seats} ${attributes.get("data-row") ?? ""}`;
  const field = attributes.get("data-field");
  if (field !== undefined) return `field ${field}`;
  const post = attributes.get("data-post");
  if (post !== undefined) return `post ${post}`;
  const from = attributes.get("data-from");
  if (from !== undefined) return `line ${from} > ${attributes.get("data-to") ?? ""}`;
  const way = attributes.get("data-way");
  if (way !== undefined) return `way ${way}`;
  const echo = attributes.get("data-echo");
  if (echo !== undefined) return `echo ${echo}`;
  return `${tag} ${attributes.get("class") ?? ""}`;
}

/** A parsed drawing as shapes; nothing where it is no drawing, or more than anybody could look at. */
export function shapeOf(root: XmlNode | null): Shape | undefined {
  let count = 0;
  const read = (node: XmlNode, key: string, depth: number): Shape | undefined => {
    const tag = node.localName ?? "";
    if (node.namespaceURI !== SVG || !ELEMENTS.has(tag) || depth > DEEPEST || ++count > MOST_ELEMENTS) return undefined;
    const seen = new Map<string, number>();
    const children: Shape[] = [];
    for (const child of Array.from(node.childNodes)) {
      if (child.nodeType !== 1) continue;
      const name = stem(child.localName ?? "", attributesOf(child, child.localName ?? ""));
      const n = seen.get(name) ?? 0;
      seen.set(name, n + 1);
      const shape = read(child, n === 0 ? name : `${name} #${n}`, depth + 1);
      if (shape !== undefined) children.push(shape);
    }
    const texts = Array.from(node.childNodes).every((child) => child.nodeType === 3 || child.nodeType === 4);
    return { tag, key, attributes: attributesOf(node, tag), children, text: texts ? node.textContent ?? "" : "" };
  };
  if (root?.localName !== "svg") return undefined;
  const shape = read(root, "svg", 0);
  return count > MOST_ELEMENTS ? undefined : shape;
}

/** The place in the text that an element leads to; `post`: the name of the device or person that it stands for. */
export interface Mark {
  readonly path: string;
  readonly start: number;
  readonly end: number;
  readonly post?: string;
}

/** Where an element leads, from its attributes; nothing where it leads nowhere. */
export function markOf(attribute: (name: string) => string | null | undefined): Mark | undefined {
  const path = attribute("data-path");
  const start = Number(attribute("data-start") ?? NaN);
  const end = Number(attribute("data-end") ?? NaN);
  if (path === null || path === undefined || !Number.isInteger(start) || !Number.isInteger(end) || start < 0 || end < start) return undefined;
  const post = attribute("data-post");
  return { path, start, end, ...(post === null || post === undefined ? {} : { post }) };
}
