/** Studies made by hand, so that printing is tested without the engine. */
import type { Finding, Question, WayVerdict } from "../../server/finding";
import { WAYS } from "../../server/model/ways";
import { Places } from "../../server/cli/places";
import type { Study } from "../../server/study";

export const TEXT = `setup "Tuesday Fern Society"
use "kit.bothways"
place box beside lectern
join laptop {
  plays sound on box
}
`;

const at = (part: string): { path: string; start: number; end: number } => {
  const start = TEXT.indexOf(part);
  if (start < 0) throw new Error(`the text has no “${part}”`);
  return { path: "fern.bothways", start, end: start + part.length };
};

export const finding = (over: Partial<Finding> = {}): Finding => ({
  code: "echo-path", severity: "error", identity: "echo-path phone box", ways: ["online-hears-room"], items: [], subjects: ["phone", "box"],
  where: at("plays sound on box"), message: "Those online hear themselves: 38 dB between box and phone where 50 dB are needed.",
  effect: "the people online hear themselves", notice: "They hear their own words a moment later.", chain: ["laptop plays the call on box", "phone picks it up", "phone sends it back"],
  measured: { value: 38.2, unit: "dB" }, limit: { value: 50.1, unit: "dB" }, assumed: [{ text: "room noise 40 dBA" }],
  related: [{ where: { path: "kit.bothways", start: 0, end: 6 }, message: "phone stands here" }], folded: [], ...over,
});

export const question: Question = {
  id: "up", ask: "What uplink does the venue have?", weight: 3, ways: ["internet", "online-sees-room"],
  answers: [{ when: "2.7 Mb/s or more", then: "everything can be sent" }, { when: "less", then: "the second camera goes first" }],
  write: "internet venue { up 4 Mb/s measured 2026-11-20 19:00 }", where: at("join laptop"),
};

const way = (name: WayVerdict["way"], over: Partial<WayVerdict> = {}): WayVerdict => ({
  way: name, verdict: "works", weakest: "row 4 is the farthest", hangsOn: [], ...over,
});

export const study = (over: Partial<Study> = {}): Study => ({
  root: "fern.bothways", isSetup: true, title: "Tuesday Fern Society",
  files: [{ path: "fern.bothways", text: TEXT }, { path: "kit.bothways", text: "device phone is phone\n" }], items: ["talk", "questions"],
  problems: [], ways: WAYS.map((name) => way(name)), findings: [finding()], accepted: [], disproved: [], noticed: [], narrowed: new Map(), questions: [question],
  // Printing never looks at these.
  setup: {} as Study["setup"], version: {} as Study["version"], remedies: () => [],
  figures: () => [], flow: () => { throw new Error("not drawn in these tests"); }, plan: () => { throw new Error("not drawn in these tests"); },
  sees: () => { throw new Error("not drawn in these tests"); }, side: () => { throw new Error("not drawn in these tests"); }, ...over,
});

export const verdict = way;
export const place = at;
export const places = (of: Study = study()): Places => new Places(of, (name) => name);
