/**
 * The page of the preview: the six verdicts, and the drawing under them. It is never replaced: each new drawing changes the elements
 * that are there, so that zoom, scroll, focus and what was chosen stay.
 */
import type { ShownVerdict } from "../../server/protocol/messages";
import { verdictMark } from "../../server/views/flow/marks";
import { element as drawn, write } from "../../server/views/svg/element";
import { reason, sixOf, spoken } from "../verdict-words";
import { gripOf, moved, scaleOf, strokeOf, type Grip, type Scale } from "./drag";
import { hereOf } from "./here";
import { asKept, toPage, type Cursor, type FromPage, type Kept, type Picture } from "./messages";
import { Morph, type Host } from "./morph";
import { markOf, shapeOf, SVG, type Mark, type Shape } from "./shape";
import { fitted, scrolled, stepped, within } from "./zoom";

declare function acquireVsCodeApi(): { postMessage(message: FromPage): void; getState(): unknown; setState(state: Kept): void };

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

/** A drawing that is larger is not kept over a reload: it comes anew soon enough. */
const MOST_KEPT = 400_000;

const editor = acquireVsCodeApi();
const byId = (id: string): HTMLElement => {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no ${id}`);
  return found;
};
const stage = byId("stage");
const sheet = byId("sheet");
const verdictList = byId("verdicts");
const note = byId("note");
const live = byId("live");
const heading = byId("title");
const chooser = byId("item") as HTMLSelectElement;
const itemTools = byId("items");
const askChooser = byId("ask") as HTMLSelectElement;
const askTools = byId("asks");
const shows = document.body.dataset["view"] === "plan" ? "Floor plan" : "Signal flow";
const zoomWord = byId("zoom-word");

const morph = new Morph<Element>(dom);
let drawing: Element | undefined;
let natural = { width: 0, height: 0 };
let picture: Picture | undefined;
/** Absent: as wide as the page. */
let zoom: number | undefined;
let chosen: string | undefined;
let cursor: Cursor | undefined;
let told: readonly ShownVerdict[] | undefined;
let toldOf = "";

const element = <K extends keyof HTMLElementTagNameMap>(tag: K, className: string, text = ""): HTMLElementTagNameMap[K] => {
  const made = document.createElement(tag);
  if (className !== "") made.className = className;
  made.textContent = text;
  return made;
};

// — what is shown

/** Drawings, and marks such as those in the drawing, come in by this door alone. */
function parsed(svg: string): Shape | undefined {
  return shapeOf(new DOMParser().parseFromString(svg, "image/svg+xml").documentElement);
}

function showMark(place: Element, verdict: ShownVerdict["verdict"]): void {
  const shape = parsed(write(drawn("svg", { xmlns: SVG, class: "bothways-flow", viewBox: "-13 -13 26 26" }, verdictMark(verdict, 0, 0))));
  if (shape !== undefined) place.replaceChildren(morph.show(shape, undefined));
}

/** A row of the six: its mark and its words, and the reason, of which a click shows all. */
function newRow(): HTMLElement {
  const row = element("li", "");
  const button = element("button", "verdict");
  button.type = "button";
  button.setAttribute("aria-expanded", "false");
  const sign = element("span", "sign");
  sign.setAttribute("aria-hidden", "true");
  const words = element("span", "words");
  words.append(element("span", "way"), " ", element("strong", "word"), element("span", "reason"));
  button.append(sign, words);
  button.addEventListener("click", () => button.setAttribute("aria-expanded", String(button.getAttribute("aria-expanded") !== "true")));
  row.append(button);
  return row;
}

function showVerdicts(six: readonly ShownVerdict[]): void {
  six.forEach((one, index) => {
    const row = verdictList.children[index] ?? verdictList.appendChild(newRow());
    const part = (name: string): Element => row.querySelector(`.${name}`) ?? row;
    const put = (name: string, text: string): void => {
      const at = part(name);
      if (at.textContent !== text) at.textContent = text;
    };
    if (row.getAttribute("data-verdict") !== one.verdict) {
      row.setAttribute("data-verdict", one.verdict);
      showMark(part("sign"), one.verdict);
    }
    put("way", `${one.title}:`);
    put("word", one.item === undefined || one.item === picture?.item ? one.word : `${one.word} (${one.item})`);
    put("reason", reason(one));
  });
  while (verdictList.children.length > six.length) verdictList.lastElementChild?.remove();
}

function showItems(items: readonly string[], item: string | undefined): void {
  itemTools.hidden = items.length < 2;
  const now = [...chooser.options].map((option) => option.value);
  if (now.length !== items.length || now.some((value, index) => value !== items[index])) {
    chooser.replaceChildren(...items.map((name) => {
      const option = element("option", "", name);
      option.value = name;
      return option;
    }));
  }
  if (item !== undefined && chooser.value !== item) chooser.value = item;
}

/** The question that is put to the drawing; the first is none. */
function showAsks(asks: Picture["asks"], ask: string | undefined): void {
  askTools.hidden = asks === undefined;
  const wanted = [{ ask: "", title: "What stands where?" }, ...(asks ?? [])];
  if (askChooser.options.length !== wanted.length) {
    askChooser.replaceChildren(...wanted.map(({ ask: value, title }) => {
      const option = element("option", "", title);
      option.value = value;
      return option;
    }));
  }
  if (askChooser.value !== (ask ?? "")) askChooser.value = ask ?? "";
}

function showDrawing(svg: string): boolean {
  // The page has its own style for drawings. That of the drawing would not be taken anyway; without it, nobody need complain of it.
  const shape = parsed(svg.replace(/<style>[^<]*<\/style>/gu, ""));
  if (shape === undefined) return false;
  const focused = document.activeElement;
  const next = morph.show(shape, drawing);
  if (next !== drawing) sheet.replaceChildren(next);
  drawing = next;
  if (focused instanceof SVGElement && focused.isConnected && document.activeElement !== focused) focused.focus({ preventScroll: true });
  const [, , width = "", height = ""] = (shape.attributes.get("viewBox") ?? "").split(/\s+/u);
  natural = { width: Number(width) || 0, height: Number(height) || 0 };
  return true;
}

function show(next: Picture, announce: boolean): void {
  picture = next;
  const six = sixOf(next.verdicts, next.item);
  if (heading.textContent !== next.title) heading.textContent = next.title;
  showVerdicts(six);
  showItems(next.items, next.item);
  showAsks(next.asks, next.ask);
  held = undefined;
  const drawn = showDrawing(next.svg);
  note.hidden = drawn;
  if (!drawn) note.textContent = "The drawing could not be shown.";
  document.body.classList.remove("old");
  applyZoom();
  highlight();
  const of = `${shows} of ${next.title}${next.item === undefined ? "" : `, during ${next.item}`}`;
  if (announce) {
    const words = spoken(of === toldOf ? told : undefined, six, of);
    if (words !== "") live.textContent = words;
  }
  told = six;
  toldOf = of;
  keep();
}

// — zoom and scroll

const room = (): number => stage.clientWidth - 16;
const factor = (): number => zoom ?? fitted(natural.width, room());

function applyZoom(): void {
  if (!(drawing instanceof SVGElement)) return;
  const z = factor();
  drawing.style.width = `${Math.round(natural.width * z)}px`;
  drawing.style.height = `${Math.round(natural.height * z)}px`;
  zoomWord.textContent = `${Math.round(z * 100)} %`;
}

/** Zooms so that the point at `x`, `y` of the stage stays; the middle where none is given. */
function zoomTo(next: number | undefined, x = stage.clientWidth / 2, y = stage.clientHeight / 2): void {
  const before = factor();
  zoom = next === undefined ? undefined : within(next);
  const after = factor();
  const left = scrolled(stage.scrollLeft, x, before, after);
  const top = scrolled(stage.scrollTop, y, before, after);
  applyZoom();
  stage.scrollTo({ left, top });
  keep();
}

// — places in the text

const marked = (): { node: SVGElement; mark: Mark }[] =>
  [...sheet.querySelectorAll<SVGElement>("[data-path]")].flatMap((node) => {
    const mark = markOf((name) => node.getAttribute(name));
    return mark === undefined ? [] : [{ node, mark }];
  });

function highlight(bring = false): void {
  const all = marked();
  const here = new Set(cursor === undefined ? [] : hereOf(all.map(({ mark }) => mark), cursor));
  all.forEach(({ node }, index) => {
    node.toggleAttribute("data-here", here.has(index));
    if (morph.keyOf(node) === chosen) node.setAttribute("aria-current", "true");
    else node.removeAttribute("aria-current");
  });
  const [first] = here;
  if (bring && first !== undefined) intoView(all[first]?.node);
}

/** Scrolls only where nothing of it can be seen. */
function intoView(node: SVGElement | undefined): void {
  if (node === undefined) return;
  const box = node.getBoundingClientRect();
  const seen = stage.getBoundingClientRect();
  const apart = box.right < seen.left || box.left > seen.right || box.bottom < seen.top || box.top > seen.bottom;
  if (apart) node.scrollIntoView({ block: "center", inline: "center" });
}

function go(target: EventTarget | null): boolean {
  const node = target instanceof Element ? target.closest<SVGElement>("[data-path]") : null;
  const mark = node === null ? undefined : markOf((name) => node.getAttribute(name));
  if (node === null || mark === undefined) return false;
  chosen = morph.keyOf(node);
  highlight();
  keep();
  editor.postMessage({ kind: "go", path: mark.path, start: mark.start, end: mark.end });
  return true;
}

// — what is kept

let keeping: ReturnType<typeof setTimeout> | undefined;
function keep(): void {
  clearTimeout(keeping);
  keeping = setTimeout(keepNow, 120);
}

function keepNow(): void {
  const uri = picture?.uri ?? document.body.dataset["uri"];
  if (uri === undefined) return;
  editor.setState({
    uri, left: stage.scrollLeft, top: stage.scrollTop,
    ...(picture?.item === undefined ? {} : { item: picture.item }),
    ...(picture?.ask === undefined ? {} : { ask: picture.ask }),
    ...(zoom === undefined ? {} : { zoom }),
    ...(chosen === undefined ? {} : { chosen }),
    ...(picture === undefined || picture.svg.length > MOST_KEPT ? {} : { picture }),
  });
}

// — what happens

window.addEventListener("message", (event) => {
  const message = toPage(event.data);
  if (message === undefined) return;
  switch (message.kind) {
    case "picture":
      show(message, true);
      break;
    case "nothing":
      note.textContent = message.why;
      note.hidden = false;
      live.textContent = message.why;
      document.body.classList.toggle("old", picture !== undefined);
      break;
    case "told":
      if (!message.done) {
        letGo();
        note.textContent = message.words;
        note.hidden = message.words === "";
      }
      live.textContent = message.words;
      break;
    case "cursor":
      cursor = message;
      highlight(true);
      break;
  }
});

// — what is moved

/** What is under way: dragged by the pointer, or moved by keys. `dx`, `dy`: how far, in units of the drawing. */
let held: { readonly node: SVGElement; readonly grip: Grip; readonly scale: Scale; dx: number; dy: number; facts: boolean; from?: readonly [number, number] | undefined } | undefined;
let settling: ReturnType<typeof setTimeout> | undefined;
/** A click that ends a drag leads nowhere. */
let dragged = false;
/** Less than this is a click and no drag, pixels. */
const SLACK = 4;

function gripAt(target: EventTarget | null): { node: SVGElement; grip: Grip; scale: Scale } | undefined {
  const node = target instanceof Element ? target.closest<SVGElement>("[data-x]") : null;
  const room = sheet.querySelector("[data-scale]");
  const grip = node === null ? undefined : gripOf((name) => node.getAttribute(name));
  const scale = room === null ? undefined : scaleOf((name) => room.getAttribute(name));
  return node === null || grip === undefined || scale === undefined ? undefined : { node, grip, scale };
}

function shift(): void {
  if (held === undefined) return;
  const dx = held.grip.what === "row" ? 0 : held.dx;
  held.node.setAttribute("transform", `translate(${Math.round(dx)} ${Math.round(held.dy)})`);
}

/** What was under way goes back to where it is drawn. */
function letGo(): void {
  clearTimeout(settling);
  held?.node.removeAttribute("transform");
  held = undefined;
}

function drop(): void {
  clearTimeout(settling);
  if (held === undefined) return;
  const message = moved(held.grip, held.scale, held.dx, held.dy, held.facts);
  if (Math.hypot(message.x - held.grip.x, message.y - held.grip.y) < 0.05) letGo();
  else editor.postMessage(message);
}

sheet.addEventListener("pointerdown", (event) => {
  dragged = false;
  if (event.button !== 0) return;
  const at = gripAt(event.target);
  const facts = event.ctrlKey || event.metaKey;
  if (at === undefined || (at.grip.fact && !facts)) return;
  letGo();
  held = { ...at, dx: 0, dy: 0, facts: facts && at.grip.fact, from: [event.clientX, event.clientY] };
});

window.addEventListener("pointermove", (event) => {
  if (held?.from === undefined || event.buttons === 0) return;
  const [x, y] = held.from;
  if (!dragged && Math.hypot(event.clientX - x, event.clientY - y) < SLACK) return;
  if (!dragged) sheet.setPointerCapture(event.pointerId);
  dragged = true;
  held.dx = (event.clientX - x) / factor();
  held.dy = (event.clientY - y) / factor();
  shift();
});

window.addEventListener("pointerup", () => {
  if (held?.from === undefined) return;
  held.from = undefined;
  if (dragged) drop();
  else letGo();
});
window.addEventListener("pointercancel", letGo);

/** Alt and an arrow move what has the focus; it is written when no further key follows. */
function moveByKey(event: KeyboardEvent): boolean {
  if (!event.altKey) return false;
  const at = gripAt(event.target);
  const stroke = at === undefined ? undefined : strokeOf(event.key, event.shiftKey, at.scale);
  const facts = event.ctrlKey || event.metaKey;
  if (at === undefined || stroke === undefined || (at.grip.fact && !facts)) return false;
  if (held?.node !== at.node) {
    letGo();
    held = { ...at, dx: 0, dy: 0, facts: facts && at.grip.fact };
  }
  held.dx += stroke[0];
  held.dy += stroke[1];
  shift();
  clearTimeout(settling);
  settling = setTimeout(drop, 350);
  return true;
}

sheet.addEventListener("click", (event) => {
  if (!dragged) go(event.target);
  dragged = false;
});
sheet.addEventListener("keydown", (event) => {
  if (event.key === "Escape") letGo();
  if (moveByKey(event)) event.preventDefault();
  else if ((event.key === "Enter" || event.key === " ") && go(event.target)) event.preventDefault();
});

const acts: Readonly<Record<string, () => void>> = {
  "zoom-in": () => zoomTo(stepped(factor(), true)),
  "zoom-out": () => zoomTo(stepped(factor(), false)),
  "zoom-fit": () => zoomTo(undefined),
  "zoom-whole": () => zoomTo(1),
};
for (const [id, act] of Object.entries(acts)) byId(id).addEventListener("click", act);

const KEYS: Readonly<Record<string, string>> = { "+": "zoom-in", "=": "zoom-in", "-": "zoom-out", 0: "zoom-fit", 1: "zoom-whole" };
document.addEventListener("keydown", (event) => {
  const act = event.ctrlKey || event.metaKey || event.altKey || event.target === chooser || event.target === askChooser ? undefined : acts[KEYS[event.key] ?? ""];
  if (act === undefined) return;
  act();
  event.preventDefault();
});

stage.addEventListener("wheel", (event) => {
  if (!event.ctrlKey && !event.metaKey) return;
  event.preventDefault();
  const at = stage.getBoundingClientRect();
  zoomTo(factor() * Math.exp(-event.deltaY / 400), event.clientX - at.left, event.clientY - at.top);
}, { passive: false });

stage.addEventListener("scroll", keep, { passive: true });
window.addEventListener("pagehide", keepNow);
chooser.addEventListener("change", () => editor.postMessage({ kind: "item", item: chooser.value }));
askChooser.addEventListener("change", () => editor.postMessage({ kind: "ask", ask: askChooser.value }));
new ResizeObserver(() => applyZoom()).observe(stage);

const kept = asKept(editor.getState());
if (kept?.picture !== undefined) {
  zoom = kept.zoom;
  chosen = kept.chosen;
  show(kept.picture, false);
  stage.scrollTo({ left: kept.left, top: kept.top });
} else if (kept !== undefined) {
  zoom = kept.zoom;
}
editor.postMessage({ kind: "ready" });
