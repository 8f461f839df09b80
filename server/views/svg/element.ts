/** A small typed builder of SVG: elements are data until they are written, and every string goes through one escaping function. */
import { escape } from "./escape";

export type Attribute = string | number | undefined;
export interface Element {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, Attribute>>;
  readonly children: readonly Node[];
}
/** A style sheet: written as it is, so it may only ever hold text of the program itself. */
export interface StyleSheet {
  readonly css: string;
}
export type Node = Element | StyleSheet | string;

/** An element; attributes that are undefined are left out. */
export function element(tag: string, attributes: Readonly<Record<string, Attribute>>, ...children: readonly Node[]): Element {
  return { tag, attributes, children };
}

/** A number as it stands in the drawing: two decimals at most, so that drawings are small and equal on every machine. */
export function tidy(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return Object.is(rounded, -0) ? "0" : String(rounded);
}

function attributesOf(element: Element): string {
  let written = "";
  for (const [name, value] of Object.entries(element.attributes)) {
    if (value === undefined) continue;
    written += ` ${name}="${typeof value === "number" ? tidy(value) : escape(value)}"`;
  }
  return written;
}

/** The element as text, one element a line where it has elements inside. */
export function write(node: Node, indent = ""): string {
  if (typeof node === "string") return `${indent}${escape(node)}`;
  if ("css" in node) return `${indent}<style>\n${node.css}\n${indent}</style>`;
  const open = `${indent}<${node.tag}${attributesOf(node)}`;
  const [first] = node.children;
  if (first === undefined) return `${open}/>`;
  if (node.children.length === 1 && typeof first === "string") return `${open}>${escape(first)}</${node.tag}>`;
  const inside = node.children.map((child) => write(child, `${indent} `)).join("\n");
  return `${open}>\n${inside}\n${indent}</${node.tag}>`;
}

/** The `d` of a path, from commands and numbers. */
export function path(...parts: readonly (string | number)[]): string {
  return parts.map((part) => (typeof part === "number" ? tidy(part) : part)).join(" ");
}
