import type { Row } from "./row";

const hall = (lines: string): string => `room hall 12 m by 8 m by 4 m {\n  ${lines.replace(/\n/g, "\n  ")}\n}\n`;
const ASSUMED_CP = "common practice, no source";

/** The eight points of the compass. */
const COMPASS: Readonly<Record<string, string>> = {
  north: "north", "north-east": "between north and east", east: "east", "south-east": "between south and east",
  south: "south", "south-west": "between south and west", west: "west", "north-west": "between north and west",
};

/** What a room is like beyond a box, and what is built into it: facts of the world. */
export const SHAPE_ROWS: readonly Row[] = [
  {
    head: "corners", within: ["room", "area"], nature: "fact", once: true,
    slots: [{ id: "points", takes: { kind: "point" }, required: true, many: true, meaning: "the corners one after the other, going round: from the front wall, then from the left wall" }],
    meaning: "The corners of a room that is no plain rectangle, or of a stage or walkway. The first figure of each is measured from the front wall, the second from the left wall.",
    example: "room hall 12 m by 8 m by 4 m {\n  corners (0 m, 0 m) (12 m, 0 m) (12 m, 5 m) (8 m, 5 m) (8 m, 8 m) (0 m, 8 m)\n}\n",
  },
  {
    head: "slope", within: ["room"], nature: "fact", once: true,
    slots: [
      { id: "rise", takes: { kind: "quantity", dimension: "length", min: -10, max: 20 }, required: true, meaning: "how much higher the floor is at the back" },
      { id: "from", after: "from", takes: { kind: "quantity", dimension: "length", min: 0, max: 200 }, meaning: "where it begins to rise, from the front wall; there where nothing is said" },
      { id: "to", after: "to", takes: { kind: "quantity", dimension: "length", min: 0, max: 200 }, meaning: "where it ends, from the front wall; at the back wall where nothing is said" },
    ],
    meaning: "A floor that slopes evenly up toward the back. For rows on steps say `riser` with the chairs.", example: hall("slope 0.8 m from 4 m to 12 m"),
  },
  {
    head: "north", within: ["room", "file"], nature: "fact", once: true,
    slots: [
      { id: "side", takes: { kind: "word", words: { front: "where the front wall is", right: "where the right wall is", back: "where the back wall is", left: "where the left wall is" } }, meaning: "on which side of the room north is" },
      { id: "angle", takes: { kind: "quantity", dimension: "angle", min: 0, max: 360 }, meaning: "or how far round it is from the front, with the clock, seen from above" },
    ],
    meaning: "Where north is, so that it is known when the sun comes in.", example: hall("north left"),
  },
  {
    head: "latitude", within: ["room", "file"], nature: "fact", once: true,
    slots: [{ id: "angle", takes: { kind: "quantity", dimension: "angle", min: -90, max: 90 }, required: true, meaning: "north of the equator; below 0 south of it" }],
    meaning: "How far north the room is, as maps give it: with date, hour and windows it says how much daylight there is. Where nothing is said it is taken from the time zone, roughly.", example: hall("latitude 52 deg"),
  },
  {
    head: "stage", within: ["room", "file"], nature: "fact", body: "area",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "area" }, meaning: "what it is called; `stage` where nothing is said" },
      { id: "place", takes: { kind: "place" }, meaning: "where its middle is; along the front wall where nothing is said" },
    ],
    meaning: "A raised part of the floor. Who and what stands on it is higher by as much.", example: hall("stage at front, size 2.5 m by 5 m, height 0.6 m\nspot pulpit at (1.5 m, 4 m)"),
  },
  {
    head: "walkway", within: ["room", "file"], nature: "fact", body: "area", use: "noted",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "area" }, meaning: "what it is called" },
      { id: "from", after: "from", takes: { kind: "place", bare: true }, meaning: "where it begins: a door, a spot, a point" },
      { id: "to", after: "to", takes: { kind: "place", bare: true }, many: true, meaning: "where it leads" },
      { id: "place", takes: { kind: "place" }, meaning: "or, for one that is an area, where its middle is" },
    ],
    meaning: "Where people walk, and where nothing may lie or stand. How wide it has to stay is for the venue and the local code to say.",
    example: hall("door main at (12 m, 4 m)\nwalkway from main to (2 m, 4 m), width 1.2 m"),
  },
  {
    head: "size", within: ["area"], nature: "fact", once: true,
    slots: [
      { id: "length", takes: { kind: "quantity", dimension: "length", min: 0.2, max: 200 }, required: true, meaning: "from the front to the back",
        default: { best: 2, low: 1.5, high: 3, source: ASSUMED_CP } },
      { id: "width", after: "by", takes: { kind: "quantity", dimension: "length", min: 0.2, max: 200 }, required: true, meaning: "from left to right",
        default: { best: 4, low: 3, high: 6, source: ASSUMED_CP } },
    ],
    meaning: "How large a stage or a walkway is.", example: hall("stage at front, size 2.5 m by 5 m"),
  },
  {
    head: "height", within: ["area"], nature: "fact", once: true,
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0, max: 5 }, required: true, meaning: "above the floor",
      default: { best: 0.4, low: 0.2, high: 0.8, source: ASSUMED_CP } }],
    meaning: "How high a stage is.", example: hall("stage at front, height 0.6 m"),
  },
  {
    head: "width", within: ["area", "opening", "column"], nature: "fact", once: true,
    slots: [{ id: "length", takes: { kind: "quantity", dimension: "length", min: 0.05, max: 100 }, required: true, meaning: "from side to side" }],
    meaning: "How wide a walkway, a door, a window or a column is: 1.2 m, 0.9 m, 1.2 m and 0.4 m where nothing is said.", example: hall("column at (4 m, 2 m), width 0.5 m"),
  },
  {
    head: "column", within: ["room", "file"], nature: "fact", body: "column",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "column" }, meaning: "what it is called" },
      { id: "place", takes: { kind: "place" }, required: true, meaning: "where its middle is" },
    ],
    meaning: "A column or post, from the floor to the ceiling, that stands in the way of seeing.", example: hall("column at (4 m, 2 m), width 0.5 m"),
  },
  {
    head: "door", within: ["room", "file"], nature: "fact", body: "opening", use: "noted",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "door" }, meaning: "what it is called" },
      { id: "place", takes: { kind: "place" }, required: true, meaning: "where in its wall: the nearest wall to that place is taken" },
    ],
    meaning: "A door.", example: hall("door main at back, width 1.6 m"),
  },
  {
    head: "window", within: ["room", "file"], nature: "fact", body: "opening",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "window" }, meaning: "what it is called" },
      { id: "place", takes: { kind: "place" }, required: true, meaning: "where in its wall: the nearest wall to that place is taken" },
    ],
    meaning: "A window. Daylight comes in by it, on the picture and on faces, and it is bright behind whoever stands before it. Its glass counts as bare glass where no `windows` says how much there is in all.", example: hall("window street-side at left, width 2.4 m, height 1.5 m, sill 0.9 m, looks south"),
  },
  {
    head: "height", within: ["opening"], nature: "fact", once: true,
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0.1, max: 30 }, required: true, meaning: "of a door from the floor, of a window from its sill" }],
    meaning: "How high a door or a window is: 2 m and 1.4 m where nothing is said.", example: hall("window at left, width 2.4 m, height 1.5 m"),
  },
  {
    head: "sill", within: ["opening"], nature: "fact", once: true,
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0, max: 30 }, required: true, meaning: "above the floor",
      default: { best: 0.9, low: 0, high: 1.2, source: ASSUMED_CP } }],
    meaning: "How high the lower edge of a window is.", example: hall("window at left, sill 0.9 m"),
  },
  {
    head: "looks", within: ["opening"], nature: "fact", once: true,
    slots: [{ id: "way", takes: { kind: "word", words: COMPASS }, required: true, meaning: "which way one looks out" }],
    meaning: "Which way a window looks. It follows where the room says where `north` is.", example: hall("window at left, looks south-west"),
  },
];
