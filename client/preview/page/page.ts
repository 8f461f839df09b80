/**
 * The page of the preview: the six verdicts, and the drawing under them. It is never replaced: each new drawing changes the elements
 * that are there, so that zoom, scroll, focus and what was chosen stay.
 */
import type { ShownVerdict } from "../../../server/protocol/messages";
import { sixOf, spoken } from "../../verdict-words";
import { Choosers } from "./choosers";
import { asKept, toPage, type FromPage, type Kept, type Picture } from "../messages";
import { Moves } from "./moves";
import { byId } from "./parts";
import { Places } from "./places";
import { Sheet } from "./sheet";
import { showVerdicts } from "./verdict-list";

declare function acquireVsCodeApi(): { postMessage(message: FromPage): void; getState(): unknown; setState(state: Kept): void };

/** A drawing that is larger is not kept over a reload: it comes anew soon enough. */
const MOST_KEPT = 400_000;

const editor = acquireVsCodeApi();
const post = (message: FromPage): void => editor.postMessage(message);
const verdictList = byId("verdicts");
const note = byId("note");
const live = byId("live");
const heading = byId("title");
const SHOWS: Readonly<Record<string, string>> = { plan: "Floor plan", flow: "Signal flow" };

const on = new Sheet(keep);
const places = new Places(on, post);
const moves = new Moves(on, post);
const choosers = new Choosers(post);

let picture: Picture | undefined;
let told: readonly ShownVerdict[] | undefined;
let toldOf = "";

/** What is shown, in words. */
function named({ title, item, looking }: Picture): string {
  const view = looking?.views.find((one) => one.view === looking.view)?.title;
  const shows = view === undefined ? SHOWS[document.body.dataset["view"] ?? ""] ?? "Drawing" : looking?.of === undefined ? view : `${view}, ${looking.of}`;
  return `${shows} of ${title}${item === undefined ? "" : `, during ${item}`}`;
}

function show(next: Picture, announce: boolean): void {
  picture = next;
  const six = sixOf(next.verdicts, next.item);
  if (heading.textContent !== next.title) heading.textContent = next.title;
  showVerdicts(verdictList, six, next.item);
  choosers.show(next);
  moves.forget();
  const drawn = next.why === undefined && on.show(next.svg);
  if (next.why !== undefined) on.clear();
  note.hidden = drawn;
  if (!drawn) note.textContent = next.why ?? "The drawing could not be shown.";
  document.body.classList.remove("old");
  places.highlight();
  const of = named(next);
  if (announce) {
    const words = [spoken(of === toldOf ? told : undefined, six, of), next.why ?? ""].filter((part) => part !== "").join(" ");
    if (words !== "") live.textContent = words;
  }
  told = six;
  toldOf = of;
  keep();
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
  const { looking } = picture ?? {};
  editor.setState({
    uri, left: on.stage.scrollLeft, top: on.stage.scrollTop,
    ...(picture?.item === undefined ? {} : { item: picture.item }),
    ...(picture?.ask === undefined ? {} : { ask: picture.ask }),
    ...(looking === undefined ? {} : { look: { view: looking.view, ...(looking.of === undefined ? {} : { of: looking.of }) } }),
    ...(on.zoom === undefined ? {} : { zoom: on.zoom }),
    ...(places.chosen === undefined ? {} : { chosen: places.chosen }),
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
        moves.letGo();
        note.textContent = message.words;
        note.hidden = message.words === "";
      }
      live.textContent = message.words;
      break;
    case "cursor":
      places.cursorAt(message);
      break;
  }
});

on.sheet.addEventListener("click", (event) => {
  if (!moves.endsDrag() && places.go(event.target)) keep();
});
on.sheet.addEventListener("keydown", (event) => {
  if (event.key === "Escape") moves.letGo();
  if (moves.byKey(event)) event.preventDefault();
  else if ((event.key === "Enter" || event.key === " ") && places.go(event.target)) {
    keep();
    event.preventDefault();
  }
});
window.addEventListener("pagehide", keepNow);

const kept = asKept(editor.getState());
on.zoom = kept?.zoom;
if (kept?.picture !== undefined) {
  places.chosen = kept.chosen;
  show(kept.picture, false);
  on.stage.scrollTo({ left: kept.left, top: kept.top });
}
post({ kind: "ready" });
