/** How a drawing gets into the page of the preview, without a browser. */
import { describe, expect, it } from "vitest";
import { policy, pageOf, newNonce } from "../../client/preview-page";
import { hereOf } from "../../client/preview/here";
import { asKept, fromPage, toPage, type Cursor } from "../../client/preview/messages";
import { seatIn, standing } from "../../client/preview/standing";
import { longestRising, Morph, type Host } from "../../client/preview/morph";
import { markOf, shapeOf, SVG, type Shape, type XmlNode } from "../../client/preview/shape";
import { fitted, LEAST, MOST, scrolled, stepped } from "../../client/preview/zoom";
import { drawFlow } from "../../server/views/flow/draw";
import type { ViewIn } from "../../server/signal/perspective/perspective";
import { drawSide } from "../../server/views/elevation/draw";
import { drawPerspective } from "../../server/views/perspective/draw";
import { drawnPlan } from "../../server/views/plan/draw";
import { association, smallest } from "../views/flows";
import { SCHOOLROOM, studyOf } from "../views/plans";
import { parseXml, type XmlElement } from "../views/xml";

const textNode = (text: string): XmlNode => ({ nodeType: 3, textContent: text, childNodes: [] });
/** The strict reader's tree, in the form in which a browser's parser gives it. */
function asNode(element: XmlElement, namespace = SVG): XmlNode {
  return {
    nodeType: 1, localName: element.tag, namespaceURI: namespace, textContent: element.text,
    attributes: Object.entries(element.attributes).map(([name, value]) => ({ name, value })),
    childNodes: element.children.length > 0 ? element.children.map((child) => asNode(child, namespace)) : element.text === "" ? [] : [textNode(element.text)],
  };
}
const shaped = (svg: string): Shape => {
  const shape = shapeOf(asNode(parseXml(svg.replace(/<style>[^<]*<\/style>/gu, ""))));
  if (shape === undefined) throw new Error("no drawing");
  return shape;
};
const flat = (shape: Shape): Shape[] => [shape, ...shape.children.flatMap(flat)];

describe("what of a drawing gets in", () => {
  const schoolroom = studyOf(SCHOOLROOM);
  const seen = (view: ViewIn, of: string): string => {
    const one = schoolroom.sees(view, of);
    return "known" in one ? expect.fail(one.known) : drawPerspective(one);
  };
  it.each([
    ["flow", drawFlow(association())], ["plan", drawnPlan(schoolroom.plan(undefined, "reads")).svg], ["side", drawSide(schoolroom.side())],
    ["camera", seen("camera", "stage-camera")], ["seat", seen("seat", "audience.row-4.seat-2")],
  ])("is everything that the server draws of a %s but its style", (_, svg) => {
    const source = parseXml(svg);
    const count = (element: XmlElement): number => 1 + element.children.reduce((sum, child) => sum + count(child), 0);
    expect(flat(shaped(svg))).toHaveLength(count(source) - 1);
    const words = (element: XmlElement): string[] => [...(element.tag === "text" ? [element.text] : []), ...element.children.flatMap(words)];
    expect(flat(shaped(svg)).filter((one) => one.tag === "text").map((one) => one.text)).toEqual(words(source));
    // No element loses an attribute but those that say how it is reached, which the page sets itself.
    const own = ["xmlns", "tabindex", "role", "aria-labelledby", "aria-describedby", "width", "height"];
    const names = (attributes: Iterable<string>): string[] => [...attributes].filter((name) => !own.includes(name)).sort();
    const attributes = (element: XmlElement): string[][] => [...(element.tag === "style" ? [] : [names(Object.keys(element.attributes))]), ...element.children.flatMap(attributes)];
    expect(flat(shaped(svg)).map((one) => names(one.attributes.keys()))).toEqual(attributes(source));
  });

  it("is no script, link, style, handler, foreign content or animation", () => {
    const evil = `<svg viewBox="0 0 1 1" onload="x()" style="a:b" id="live"><script>x()</script><a href="javascript:x()"><text>a</text></a>
      <g onclick="x()" class="post" data-post="&lt;b&gt;" id="flow-1"><text x="1" fill="url(http://x.invalid/)">ok</text><image href="http://x.invalid/"/></g>
      <foreignObject><div>x</div></foreignObject><use href="#y"/><animate attributeName="href"/><path d="url(http://x.invalid)"/></svg>`;
    const shape = shaped(evil);
    expect(flat(shape).map((one) => one.tag)).toEqual(["svg", "g", "text", "path"]);
    expect(Object.fromEntries(shape.attributes)).toEqual({ viewBox: "0 0 1 1", role: "group" });
    expect(Object.fromEntries(shape.children[0]?.attributes ?? [])).toEqual({ class: "post", "data-post": "<b>", id: "flow-1" });
    expect(Object.fromEntries(shape.children[0]?.children[0]?.attributes ?? [])).toEqual({ x: "1" });
    expect(shape.children[1]?.attributes.size).toBe(0);
  });

  it("is nothing of another kind of document, and nothing without end", () => {
    const svg = parseXml('<svg viewBox="0 0 1 1"><g><text>a</text></g></svg>');
    expect(shapeOf(asNode(svg, "http://www.w3.org/1999/xhtml"))).toBeUndefined();
    expect(shapeOf(asNode(parseXml("<html/>")))).toBeUndefined();
    expect(shapeOf(null)).toBeUndefined();
    expect(shapeOf(asNode(parseXml(`<svg>${"<g/>".repeat(40_001)}</svg>`)))).toBeUndefined();
    expect(flat(shaped(`<svg>${"<g>".repeat(40)}${"</g>".repeat(40)}</svg>`))).toHaveLength(13);
  });

  it("is a link that the keyboard reaches only where it has a name", () => {
    const heads = flat(shaped(seen("seat", "audience.row-4.seat-2"))).filter((one) => one.attributes.has("data-path"));
    const links = heads.filter((one) => one.attributes.get("role") === "link");
    expect(links.length).toBeGreaterThan(3);
    expect(links.length).toBeLessThan(heads.length);
    for (const one of heads) expect(one.attributes.has("tabindex")).toBe((one.attributes.get("aria-label") ?? "") !== "");
  });

  it("has a key of its own for everything, and links that can be reached", () => {
    const unique = (shape: Shape): void => {
      const keys = shape.children.map((child) => `${child.tag} ${child.key}`);
      expect(new Set(keys).size).toBe(keys.length);
      shape.children.forEach(unique);
    };
    unique(shaped(drawFlow(association())));
    const led = flat(shaped(drawFlow(association()))).filter((one) => one.attributes.has("data-path"));
    expect(led.length).toBeGreaterThan(3);
    for (const one of led) {
      expect(one.attributes.get("role")).toBe("link");
      expect(one.attributes.get("tabindex")).toBe("0");
      expect(one.attributes.get("aria-label")).not.toBe("");
      expect(markOf((name) => one.attributes.get(name))).toMatchObject({ path: "evening.bothways" });
    }
  });
});

interface Fake { tag: string; attributes: Map<string, string>; children: Fake[]; text: string }
class Page implements Host<Fake> {
  made = 0;
  moved = 0;
  create(tag: string): Fake { this.made += 1; return { tag, attributes: new Map(), children: [], text: "" }; }
  names(node: Fake): string[] { return [...node.attributes.keys()]; }
  get(node: Fake, name: string): string | null { return node.attributes.get(name) ?? null; }
  set(node: Fake, name: string, value: string): void { node.attributes.set(name, value); }
  remove(node: Fake, name: string): void { node.attributes.delete(name); }
  children(node: Fake): Fake[] { return [...node.children]; }
  put(parent: Fake, child: Fake, before: Fake | null): void {
    this.moved += 1;
    const old = parent.children.indexOf(child);
    if (old >= 0) parent.children.splice(old, 1);
    parent.children.splice(before === null ? parent.children.length : parent.children.indexOf(before), 0, child);
  }
  drop(parent: Fake, child: Fake): void { parent.children.splice(parent.children.indexOf(child), 1); }
  text(node: Fake): string { return node.children.length === 0 ? node.text : ""; }
  setText(node: Fake, text: string): void { node.text = text; }
}
const plain = (node: Fake): unknown => ({ tag: node.tag, attributes: Object.fromEntries(node.attributes), text: node.children.length === 0 ? node.text : "", children: node.children.map(plain) });
const wanted = (shape: Shape): unknown => ({ tag: shape.tag, attributes: Object.fromEntries(shape.attributes), text: shape.children.length === 0 ? shape.text : "", children: shape.children.map(wanted) });

describe("from one drawing to the next", () => {
  it("ends in exactly the new drawing, whichever two they are", () => {
    const drawings = [smallest(), association(), { ...association(), posts: [...association().posts].reverse() }].map((flow) => shaped(drawFlow(flow)));
    for (const from of drawings) {
      for (const to of drawings) {
        const morph = new Morph(new Page());
        const node = morph.show(from, undefined);
        expect(plain(node)).toEqual(wanted(from));
        expect(morph.show(to, node)).toBe(node);
        expect(plain(node)).toEqual(wanted(to));
      }
    }
  });

  it("touches nothing where nothing is new, and keeps the element of a thing that moves", () => {
    const page = new Page();
    const morph = new Morph(page);
    const list = (names: string): Shape => shaped(`<svg>${[...names].map((name) => `<g data-post="${name}"><text>${name}</text></g>`).join("")}</svg>`);
    const node = morph.show(list("abcd"), undefined);
    const [a, b, c, d] = node.children;
    Object.assign(page, { made: 0, moved: 0 });
    morph.show(list("abcd"), node);
    expect([page.made, page.moved]).toEqual([0, 0]);
    morph.show(list("xabcd"), node);
    expect([page.made, page.moved]).toEqual([2, 2]); // x with its words
    morph.show(list("bcda"), node);
    expect(node.children).toEqual([b, c, d, a]);
    expect([page.made, page.moved]).toEqual([2, 3]); // only a has moved
  });

  it("leaves alone what the page itself marks", () => {
    const morph = new Morph(new Page());
    const node = morph.show(shaped("<svg><g/></svg>"), undefined);
    node.attributes.set("data-here", "");
    node.attributes.set("data-old", "");
    morph.show(shaped("<svg><g/></svg>"), node);
    expect([...node.attributes.keys()].sort()).toEqual(["data-here", "role"]);
  });

  it("moves as few as can be", () => {
    expect([...longestRising([3, 1, 2, -1, 4, 0])].sort()).toEqual([1, 2, 4]);
    expect(longestRising([]).size).toBe(0);
  });
});

describe("the cursor in the text", () => {
  const marks = [
    { path: "a", start: 10, end: 40, post: "laptop" }, { path: "a", start: 20, end: 25 }, { path: "b", start: 20, end: 25, post: "box" }, { path: "a", start: 60, end: 70, post: "Phone" },
  ];
  const at = (more: Partial<Cursor>): Cursor => ({ kind: "cursor", path: "a", at: 0, lineStart: 0, lineEnd: 5, name: "", ...more });
  it("stands in the shortest thing that holds it", () => {
    expect(hereOf(marks, at({ at: 22 }))).toEqual([1]);
    expect(hereOf(marks, at({ at: 12 }))).toEqual([0]);
    expect(hereOf(marks, at({ path: "b", at: 25 }))).toEqual([2]);
  });
  it("else on the device whose name or port it is at, in whichever file", () => {
    expect(hereOf(marks, at({ at: 100, lineStart: 90, lineEnd: 120, name: "box" }))).toEqual([2]);
    expect(hereOf(marks, at({ at: 100, lineStart: 90, lineEnd: 120, name: "phone.camera" }))).toEqual([3]);
  });
  it("else on what its line has, else on nothing", () => {
    expect(hereOf(marks, at({ at: 58, lineStart: 55, lineEnd: 80 }))).toEqual([3]);
    expect(hereOf(marks, at({ path: "c", at: 22 }))).toEqual([]);
  });
});

describe("the size of the drawing", () => {
  it("goes up and down through exactly 100 %, and no further than its ends", () => {
    expect(stepped(0.9, true)).toBe(1);
    expect(stepped(1.1, false)).toBe(1);
    expect(stepped(stepped(1, true), false)).toBe(1);
    expect(stepped(MOST, true)).toBe(MOST);
    expect(stepped(LEAST, false)).toBe(LEAST);
  });
  it("fits the page without being blown up", () => {
    expect(fitted(1200, 600)).toBe(0.5);
    expect(fitted(100, 5000)).toBe(1.25);
    expect(fitted(0, 600)).toBe(1);
  });
  it("leaves the point under the pointer where it is", () => {
    const [scroll, anchor, before, after] = [300, 120, 0.8, 1.4];
    const point = (scroll + anchor) / before;
    expect((scrolled(scroll, anchor, before, after) + anchor) / after).toBeCloseTo(point, 9);
    expect(scrolled(0, 100, 1, 0.5)).toBe(0);
  });
});

describe("messages", () => {
  it("are taken only in their own form", () => {
    expect(fromPage({ kind: "go", path: "a", start: 1, end: 2, more: 1 })).toEqual({ kind: "go", path: "a", start: 1, end: 2 });
    for (const bad of [null, 1, {}, { kind: "go", path: "a", start: -1, end: 2 }, { kind: "go", path: 1, start: 1, end: 2 }, { kind: "item" }, { kind: "eval" }]) expect(fromPage(bad)).toBeUndefined();
    const picture = { kind: "picture", uri: "u", title: "t", svg: "<svg/>", verdicts: [], items: [] };
    expect(toPage(picture)).toEqual(picture);
    expect(toPage({ ...picture, verdicts: [{}] })).toBeUndefined();
    expect(toPage({ ...picture, svg: 1 })).toBeUndefined();
  });
  it("and what was kept, too: a state that is damaged loses only what is damaged", () => {
    expect(asKept({ uri: "u", left: -3, top: "x", zoom: NaN, picture: { kind: "picture" } })).toEqual({ uri: "u", left: 0, top: 0 });
    expect(asKept({ left: 1 })).toBeUndefined();
  });
});

describe("the page", () => {
  const nonce = newNonce();
  const page = pageOf({ nonce, script: "https://a.invalid/p.js?\"><script>", style: "https://a.invalid/p.css", uri: 'file:///"><script>x' });
  it("may run its one script, by a nonce that nobody can guess, and load nothing from anywhere", () => {
    expect(nonce).toMatch(/^[0-9a-f]{32}$/u);
    expect(newNonce()).not.toBe(nonce);
    expect(policy(nonce)).toContain("default-src 'none'");
    expect(policy(nonce)).not.toMatch(/unsafe|https?:|\*/u);
    expect(page.match(/<script/gu)).toHaveLength(1);
    expect(page).toContain(`<script nonce="${nonce}"`);
  });
  it("has nothing of a file's name as mark-up", () => expect(page).toContain('data-uri="file:///&quot;&gt;&lt;script&gt;x"'));
});

describe("where one looks from", () => {
  const places = [{ of: "Ines", title: "Ines" }, { of: "stalls.row-1", title: "stalls, row 1", seats: 10 }, { of: "stalls.row-10", title: "stalls, row 10", seats: 4 }, { of: "ring", title: "ring", seats: 12 }];

  it("is a place, and of a row one of its seats", () => {
    const found = (of: string | undefined) => {
      const at = standing(places, of);
      return at === undefined ? undefined : [at.place.of, at.seat];
    };
    expect(found("Ines")).toEqual(["Ines", undefined]);
    expect(found("stalls.row-10.seat-3")).toEqual(["stalls.row-10", 3]);
    expect(found("stalls.row-1.seat-3")).toEqual(["stalls.row-1", 3]);
    expect(found("ring.seat-12")).toEqual(["ring", 12]);
    expect([found("stalls.row-1.seat-x"), found("stalls"), found(undefined)]).toEqual([undefined, undefined, undefined]);
  });

  it("in another row is as far along as before, and the middle of a row that one comes to first", () => {
    const [ines, first, last] = places.map((place) => (seat: number | undefined) => seatIn(place, seat));
    expect([ines?.(3), first?.(3), last?.(7), last?.(undefined), first?.(undefined)]).toEqual(["Ines", "stalls.row-1.seat-3", "stalls.row-10.seat-4", "stalls.row-10.seat-2", "stalls.row-1.seat-5"]);
  });

  it("crosses to the page and back as it is, and not otherwise", () => {
    const looking = { view: "seat" as const, views: [{ view: "seat" as const, title: "What is seen from a seat" }], places, of: "Ines" };
    const picture = { kind: "picture", uri: "file:///a", title: "A", svg: "<svg/>", verdicts: [], items: [], looking, why: "no" };
    expect(toPage(picture)).toEqual(picture);
    expect(toPage({ ...picture, looking: { ...looking, view: "roof" } })).not.toHaveProperty("looking");
    expect(toPage({ ...picture, looking: { ...looking, places: [{ of: 1 }] } })).not.toHaveProperty("looking");
    expect(fromPage({ kind: "look", view: "camera", of: "eye" })).toEqual({ kind: "look", view: "camera", of: "eye" });
    expect(fromPage({ kind: "look", view: "camera", of: 3 })).toEqual({ kind: "look", view: "camera" });
    expect(fromPage({ kind: "look", view: "roof" })).toBeUndefined();
    expect(asKept({ uri: "file:///a", left: 0, top: 0, look: { view: "side", of: "stalls.row-2" } })).toMatchObject({ look: { view: "side", of: "stalls.row-2" } });
    expect(asKept({ uri: "file:///a", left: 0, top: 0, look: { view: "roof" } })).not.toHaveProperty("look");
  });
});
