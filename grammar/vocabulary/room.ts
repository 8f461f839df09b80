import type { Row } from "./row";
import { FINISH_WORDS } from "./finishes";

const hall = (line: string): string => `room hall 9 m by 6.4 m by 3.1 m {\n  ${line.replace(/\n/g, "\n  ")}\n}\n`;
const ASSUMED_CP = "common practice, no source";

/** The room, its furniture and its surfaces: facts of the world. */
export const ROOM_ROWS: readonly Row[] = [
  {
    head: "room", within: ["file"], nature: "fact", body: "room",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "room" }, meaning: "what it is called" },
      { id: "length", takes: { kind: "quantity", dimension: "length", min: 1, max: 200 }, meaning: "from the front wall to the back wall",
        default: { best: 9, low: 6, high: 14, source: ASSUMED_CP } },
      { id: "width", after: "by", takes: { kind: "quantity", dimension: "length", min: 1, max: 200 }, meaning: "from the left wall to the right wall",
        default: { best: 6.5, low: 4.5, high: 10, source: ASSUMED_CP } },
      { id: "height", after: "by", takes: { kind: "quantity", dimension: "length", min: 1.8, max: 60 }, meaning: "from the floor to the ceiling",
        default: { best: 2.9, low: 2.4, high: 4, source: ASSUMED_CP } },
    ],
    meaning: "A room: how long, how wide, how high. The front is where the audience looks.", example: hall("noise 38 dBA"),
  },
  {
    head: "in", within: ["file"], nature: "fact", body: "room",
    slots: [{ id: "room", takes: { kind: "name", of: ["room"] }, required: true, meaning: "which room" }],
    meaning: "What differs in a room this evening only.", example: `${hall("noise 38 dBA")}in hall { noise 41 dBA because "the heating is on" }\n`,
  },
  {
    head: "noise", within: ["room"], nature: "fact", once: true,
    slots: [{ id: "level", takes: { kind: "quantity", dimension: "level", min: 10, max: 100 }, required: true, meaning: "A-weighted, with the people in",
      default: { best: 40, low: 35, high: 48, source: "noise criteria for meeting rooms" } }],
    meaning: "How loud the room is while nobody speaks: heating, street, projector.", example: hall("noise 38 dBA measured 2026-10-07 18:40"),
  },
  {
    head: "reverberation", within: ["room"], nature: "fact", once: true,
    slots: [{ id: "time", takes: { kind: "quantity", dimension: "time", min: 0.1, max: 15 }, required: true, meaning: "time for 60 dB" }],
    meaning: "How long sound stays in the room. Without it, it follows from the surfaces.", example: hall("reverberation 0.8 s guessed"),
  },
  {
    head: "clap", within: ["room"], nature: "fact", once: true,
    slots: [
      { id: "dies", takes: { kind: "word", words: { dies: "is no longer heard" } }, required: true, meaning: "the word `dies`" },
      { id: "time", after: "in", takes: { kind: "quantity", dimension: "time", min: 0.1, max: 15 }, required: true, meaning: "until it cannot be heard" },
    ],
    meaning: "How long a hand clap is heard, for want of an instrument: near the reverberation time, give or take a quarter.",
    example: hall("clap dies in about 1 s"),
  },
  ...(["floor", "walls", "ceiling"] as const).map((head): Row => ({
    head, within: ["room"], nature: "fact", once: true,
    slots: [{ id: "finish", takes: { kind: "word", words: FINISH_WORDS }, required: true, meaning: "what it is made of" }],
    meaning: `What the ${head} ${head === "walls" ? "are" : "is"} made of.`, example: hall(`${head} ${{ floor: "wood", walls: "plaster", ceiling: "acoustic-tile" }[head]}`),
  })),
  {
    head: "curtains", within: ["room"], nature: "choice",
    slots: [
      { id: "weight", takes: { kind: "word", words: { light: "thin, hung straight", medium: "draped to half their width", heavy: "velour, draped to half their width" } }, required: true, meaning: "how heavy" },
      { id: "area", takes: { kind: "quantity", dimension: "area", min: 0, max: 5000 }, meaning: "how much is drawn; of a window all of it where nothing is said" },
      { id: "over", after: "over", takes: { kind: "name", of: ["window"] }, meaning: "over which window" },
    ],
    meaning: "Curtains that are drawn during the meeting. They take sound and daylight away.", example: hall("curtains heavy 12 m2\nwindow street-side at left, width 2 m\ncurtains medium over street-side"),
  },
  {
    head: "windows", within: ["room"], nature: "fact", once: true,
    slots: [
      { id: "glass", takes: { kind: "word", words: { glass: "single panes", "double-glazing": "two panes" } }, required: true, meaning: "which glass" },
      { id: "area", takes: { kind: "quantity", dimension: "area", min: 0, max: 5000 }, required: true, meaning: "how much is bare" },
    ],
    meaning: "Bare glass.", example: hall("windows glass 8 m2"),
  },
  {
    head: "chairs", within: ["room", "file"], nature: "fact", body: "seats",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "seats" }, meaning: "what these seats are called; `audience` where nothing is said" },
      { id: "count", takes: { kind: "quantity", dimension: "count", min: 1, max: 5000 }, required: true, meaning: "how many" },
      { id: "rows", after: "in", takes: { kind: "quantity", dimension: "count", min: 1, max: 400 }, meaning: "how many rows" },
      { id: "place", takes: { kind: "place" }, meaning: "around what, or where" },
    ],
    meaning: "Where people sit. Row 1 is the one in front.", example: hall("chairs 24 in 4 rows"),
  },
  {
    head: "first", within: ["seats"], nature: "choice", once: true,
    slots: [{ id: "distance", takes: { kind: "quantity", dimension: "length", min: 0, max: 200 }, required: true, meaning: "from the front wall" }],
    meaning: "Where the first row stands.", example: hall("chairs 24 in 4 rows { first 3.2 m }"),
  },
  {
    head: "pitch", within: ["seats"], nature: "choice", once: true,
    slots: [{ id: "distance", takes: { kind: "quantity", dimension: "length", min: 0.4, max: 5 }, required: true, meaning: "from row to row",
      default: { best: 0.9, low: 0.8, high: 1.1, source: ASSUMED_CP } }],
    meaning: "How far the rows are apart.", example: hall("chairs 24 in 4 rows { pitch 0.9 m }"),
  },
  {
    head: "spacing", within: ["seats"], nature: "choice", once: true,
    slots: [{ id: "distance", takes: { kind: "quantity", dimension: "length", min: 0.3, max: 5 }, required: true, meaning: "from chair to chair",
      default: { best: 0.55, low: 0.5, high: 0.7, source: ASSUMED_CP } }],
    meaning: "How far the chairs of a row are apart.", example: hall("chairs 24 in 4 rows { spacing 0.6 m }"),
  },
  {
    head: "spot", within: ["room", "file"], nature: "fact",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "spot" }, required: true, meaning: "what it is called" },
      { id: "place", takes: { kind: "place" }, required: true, meaning: "where it is" },
    ],
    meaning: "A place with a name, so that a setup can say `at lectern`.", example: hall("spot pulpit at (2.0 m, 2.2 m, 1.2 m)"),
  },
  {
    head: "table", within: ["room", "file"], nature: "fact",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "table" }, required: true, meaning: "what it is called" },
      { id: "place", takes: { kind: "place" }, required: true, meaning: "where it stands" },
    ],
    body: "surface", meaning: "A table that people sit around or things stand on.", example: hall("table ring at middle, size 3 m by 1.4 m\nchairs 10 around ring"),
  },
  {
    head: "screen", within: ["room", "file"], nature: "fact", body: "surface",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "surface" }, required: true, meaning: "what it is called" },
      { id: "place", takes: { kind: "place" }, required: true, meaning: "where it hangs" },
    ],
    meaning: "A bare surface to project on.", example: hall("screen front-screen at front, width 2.0 m"),
  },
  {
    head: "lower-edge", within: ["surface"], nature: "fact", once: true,
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0, max: 60 }, required: true, meaning: "above the floor",
      default: { best: 1.2, low: 0.8, high: 1.8, source: ASSUMED_CP } }],
    meaning: "How high the lower edge of the picture on a surface is. From behind, what hangs low is hidden by heads.", example: hall("screen front-screen at front, width 2.0 m, lower-edge 1.4 m"),
  },
  {
    head: "size", within: ["surface"], nature: "fact", once: true,
    slots: [
      { id: "length", takes: { kind: "quantity", dimension: "length", min: 0.2, max: 100 }, required: true, meaning: "the long way",
        default: { best: 1.6, low: 1.2, high: 2.4, source: ASSUMED_CP } },
      { id: "width", after: "by", takes: { kind: "quantity", dimension: "length", min: 0.2, max: 100 }, required: true, meaning: "the other way",
        default: { best: 0.8, low: 0.6, high: 1.2, source: ASSUMED_CP } },
    ],
    meaning: "How large a table is.", example: hall("table ring at middle { size 3 m by 1.4 m }"),
  },
  {
    head: "outlet", within: ["room", "file"], nature: "fact", body: "outlet",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "outlet" }, required: true, meaning: "what it is called" },
      { id: "place", takes: { kind: "place" }, required: true, meaning: "where it is" },
    ],
    meaning: "A mains outlet. What it may carry is for the venue and the local code to say.", example: hall("outlet back-wall at back, sockets 2, rated 13 A"),
  },
  {
    head: "circuit", within: ["room", "file"], nature: "fact", body: "circuit",
    slots: [{ id: "name", takes: { kind: "new-name", of: "circuit" }, required: true, meaning: "what it is called: as at its breaker" }],
    meaning: "Outlets behind one breaker: what hangs on all of them together goes through it. What it may carry, and what else hangs on it, the venue knows.",
    example: hall("circuit stage-side, rated 16 A, draws 900 W\noutlet stage-left at left, sockets 2, fed-by stage-side"),
  },
  {
    head: "fed-by", within: ["outlet"], nature: "fact", once: true,
    slots: [{ id: "circuit", takes: { kind: "name", of: ["circuit"] }, required: true, meaning: "which circuit" }],
    meaning: "Behind which breaker an outlet is.", example: hall("circuit stage-side, rated 16 A\noutlet stage-left at left, fed-by stage-side"),
  },
  {
    head: "voltage", within: ["room", "file"], nature: "fact", once: true,
    slots: [{ id: "volts", takes: { kind: "quantity", dimension: "voltage", min: 90, max: 260 }, required: true, meaning: "between the two poles of an outlet",
      default: { best: 230, low: 220, high: 240, source: ASSUMED_CP } }],
    meaning: "The voltage of the mains, to reckon watts from amperes; 230 V where nothing is said, 120 V where the time zone is American.", example: hall("voltage 230 V"),
  },
];
