/** The top of the sheet: what and when, how the six jobs stand, and what nobody may overlook. */
import type { WayVerdict } from "../../finding";
import { figure, sentence as asSentence } from "../../model/show";
import { VERDICT_WORDS, VERDICTS, WAY_TITLES, WAYS } from "../../model/ways";
import { verdictMark } from "../flow/marks";
import { write } from "../svg/element";
import { html, listed, name, sentenceOf, type Html, type Part } from "./html";
import { notesOf } from "./notes";
import { placeWords } from "./place-words";
import { bounded, command, inline, runIn, section, type Sheet } from "./sheet";
import { clock, day } from "./times";

/** Title, day, times, room, programme. */
export function heading(sheet: Sheet): Part[] {
  const { setup } = sheet.study;
  const times = ([["room open", setup.access], ["start", setup.start], ["end", setup.end]] as const)
    .flatMap(([word, at]): Part[] => (at === undefined ? [] : [html("span", {}, `${word} `, html("b", {}, clock(at)))]));
  const { zone } = setup;
  const facts: Part[] = [
    ...(setup.date === undefined ? [html("span", {}, "Day: ", html("span", { class: "fill short" }))] : [html("b", {}, day(setup.date))]),
    ...(times.length === 0 ? [html("span", {}, "Times: ", html("span", { class: "fill short" }))] : times),
    ...(zone === undefined ? [] : [html("span", {}, name(zone))]),
    setup.room.where === undefined ? html("span", {}, "Room: ", html("span", { class: "fill short" })) : html("span", {}, "room ", html("b", {}, name(setup.room.name))),
    html("span", {}, "online: ", html("b", {}, `${setup.online.from.how === "assumed" ? "about " : ""}${figure(setup.online.best)} people`)),
  ];
  return [
    html("h1", {}, name(sheet.study.title, 110)),
    html("p", { class: "facts" }, ...listed(facts, " · ", " · ")),
    ...programme(sheet),
  ];
}

function programme(sheet: Sheet): Part[] {
  const { items } = sheet.study.setup;
  if (items.length === 0) return [];
  const { shown, more } = bounded(sheet, items, 12, "items of the programme");
  return [html("p", { class: "programme" }, html("b", {}, "Programme: "), ...listed(shown.map((item): Part => html("span", {},
    item.from === undefined ? "" : html("b", {}, clock(item.from)), " ", name(item.name),
    ...(item.talkers.length === 0 ? [] : [" (", ...listed(item.talkers.slice(0, 4).map((who) => name(who, 30))), item.talkers.length > 4 ? ` and ${item.talkers.length - 4} more` : "", ")"]))), " · ", " · ")), ...more];
}

/** What must be known before anything else on the sheet is believed. */
export function warnings(sheet: Sheet): Part[] {
  const { problems } = sheet.study;
  const wrong = problems.filter((problem) => problem.severity === "error").length;
  if (wrong === 0) return [];
  return [html("p", { class: "wrong" }, html("b", {}, wrong === 1 ? "The text has a mistake" : `The text has ${wrong} mistakes`),
    ", so this sheet may lack something. ", html("code", {}, command(sheet).replace("handout", "check")), " shows what.")];
}

/** The six verdicts, the worst over the programme; below them, over the whole width, why those do not work that do not. */
export function verdictStrip(sheet: Sheet): Html {
  const ways = WAYS.flatMap((way) => {
    const of = sheet.study.ways.filter((w) => w.way === way);
    const [worst] = [...of].sort((a, b) => VERDICTS.indexOf(b.verdict) - VERDICTS.indexOf(a.verdict));
    return worst === undefined ? [] : [{ way, worst, of }];
  });
  // What works in one item and not in another: the item that does not is the one to be told.
  const told = ways.flatMap(({ worst, of }) => (worst.verdict === "works" ? [] : of.filter((w) => w.verdict === worst.verdict).slice(0, 2).map((w) => ({ w, differs: of.length > 1 }))));
  return html("section", { class: "ways", "aria-label": "How the six jobs stand" },
    html("ul", {}, ...ways.map(({ way, worst }) => html("li", { class: `way ${worst.verdict}` }, { drawn: write(mark(worst)) },
      html("span", {}, `${WAY_TITLES[way]}: `, html("b", {}, VERDICT_WORDS[worst.verdict]))))),
    ...(told.length === 0 ? [] : [html("p", { class: "why" }, ...told.flatMap(({ w, differs }, i): Part[] => [
      ...(told[i - 1]?.w.way === w.way ? [] : [html("b", {}, `${WAY_TITLES[w.way]}: `)]), ...reason(w, differs, told[i - 1]?.w.way === w.way), " "]))]));
}

const mark = (way: WayVerdict) => ({
  tag: "svg", attributes: { class: "verdict", viewBox: "0 0 26 26", width: 16, height: 16, "aria-hidden": "true" }, children: [verdictMark(way.verdict, 13, 13)],
});

function reason(way: WayVerdict, differs: boolean, begins: boolean): Part[] {
  const item: Part[] = differs && way.item !== undefined ? [begins ? "During " : "during ", name(way.item, 24), ": "] : [];
  return [...item, sentenceOf(item.length === 0 ? asSentence(way.weakest) : `${way.weakest.replace(/\.$/, "")}.`, 220)];
}

/** Before anybody touches a plug. What these ask for: common practice, no source; they defer to those who may decide. */
const CAUTIONS: readonly (readonly [string, string])[] = [
  ["Mains", "unwind leads, plug none into another, keep drinks away."],
  ["Trips", "cables along walls, taped down or bridged where people walk, exits clear."],
  ["Overhead", "only licensed riggers hang anything."],
  ["Loud", "begin turned down; no ear close to a loudspeaker."],
  ["Hot", "lamps and projectors cool before they are moved."],
];

/** Placed where it is read first: loads, mains and ways are decided by the venue, the local code and licensed people. */
export function cautions(): Html {
  return html("section", { class: "cautions", "aria-labelledby": "h-cautions" }, html("h2", { id: "h-cautions" }, "Take care"), " ",
    html("p", {}, ...CAUTIONS.flatMap(([title, text]): Part[] => [html("b", {}, `${title}: `), `${text} `]),
      html("b", {}, "What mains, ceiling and ways may bear, the venue, the local code and licensed people decide.")));
}

/** Longest note that is printed whole, in letters. */
const LONGEST_NOTE = 1200;

/** What the author wrote for helpers. */
export function notes(sheet: Sheet): Part[] {
  const { shown, more } = bounded(sheet, notesOf(sheet.study.setup), 10, "notes");
  return shown.length === 0 ? [] : section("notes", "Please note", html("ul", {}, ...shown.map(({ on, text }) => {
    const letters = Array.from(text.slice(0, 2 * LONGEST_NOTE));
    const whole = letters.length > LONGEST_NOTE || text.length > 2 * LONGEST_NOTE ? `${letters.slice(0, LONGEST_NOTE).join("")}…` : text;
    return html("li", {}, ...(on === undefined ? [] : [html("b", {}, name(on)), ": "]), html("bdi", {}, whole));
  })), ...more);
}

/** Where chairs and named places are, for whoever comes first. */
export function roomPlan(sheet: Sheet): Part[] {
  const { room } = sheet.study.setup;
  const metres = (n: number): string => `${figure(n)} m`;
  const chairs = room.seats.slice(0, 6).map((seats): Part[] => [
    html("b", {}, name(seats.name)), `: ${seats.count} ${seats.count === 1 ? "chair" : "chairs"}${seats.rows > 1 ? ` in ${seats.rows} rows` : ""}`,
    ...(seats.place === undefined ? [] : [" ", name(placeWords(seats.place))]),
    ...(seats.first?.from.how === "stated" || seats.first?.from.how === "measured" ? [`, row 1 at ${metres(seats.first.best)} from the front wall`] : []),
    ...(seats.rows > 1 && seats.pitch.from.how === "stated" ? [`, rows ${metres(seats.pitch.best)} apart`] : []),
  ]);
  const spots = [...room.spots, ...[...room.outlets].map(([, o]) => [o.name, o] as const), ...[...room.surfaces].map(([, s]) => [s.name, s] as const), ...[...room.tables].map(([, t]) => [t.name, t] as const)]
    .flatMap(([called, { place }]): Part[][] => (place === undefined ? [] : [[html("b", {}, name(called)), ": ", name(placeWords(place), 90)]]));
  const rows = [...chairs, ...spots];
  const { shown, more } = bounded(sheet, rows, 12, "places");
  return shown.length === 0 ? [] : runIn("room", "The room", ...inline(shown), ...more);
}
