import type { Row, Slot } from "./row";

const hall = (lines: string): string => `room hall 14 m by 10 m by 4 m {\n  ${lines.replace(/\n/g, "\n  ")}\n}\n`;
const EYES = "planning practice for the mean; spread: published measures of people's bodies";

/** `in row 4 from seat 1 to 3`: which seats of a group. */
const WHICH: readonly Slot[] = [
  { id: "what", after: "in", takes: { kind: "word", words: { row: "one row" } }, meaning: "the word `row`" },
  { id: "row", takes: { kind: "quantity", dimension: "count", min: 1, max: 400 }, meaning: "which row; all of them where nothing is said" },
  { id: "seat", after: "from", takes: { kind: "word", words: { seat: "counted from the left, as one sits there" } }, meaning: "the word `seat`" },
  { id: "first", takes: { kind: "quantity", dimension: "count", min: 1, max: 1000 }, meaning: "the first of them; the whole row where nothing is said" },
  { id: "last", after: "to", takes: { kind: "quantity", dimension: "count", min: 1, max: 1000 }, meaning: "the last of them" },
];

/** How seats stand beyond plain rows, and who sits there. Where seats stand is a choice, unless they are screwed down. */
export const SEATING_ROWS: readonly Row[] = [
  {
    head: "riser", within: ["seats"], nature: "fact", once: true,
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0, max: 2 }, required: true, meaning: "from row to row" }],
    meaning: "Rows that stand on steps: how much higher each is than the one before it.", example: hall("chairs 80 in 8 rows { riser 0.2 m }"),
  },
  {
    head: "staggered", within: ["seats"], nature: "choice", once: true, slots: [],
    meaning: "Every second row is shifted by half a chair, so that one looks between heads.", example: hall("chairs 24 in 4 rows, staggered"),
  },
  {
    head: "curved", within: ["seats"], nature: "choice", once: true,
    slots: [
      { id: "radius", takes: { kind: "quantity", dimension: "length", min: 0.5, max: 200 }, meaning: "radius of the first row" },
      { id: "place", takes: { kind: "place" }, meaning: "or `around` what" },
    ],
    meaning: "Rows that are arcs: around a spot, or with a radius. `curved 6 m around lectern` says both.", example: hall("chairs 40 in 4 rows { first 4 m, curved around lectern }"),
  },
  {
    head: "aisle", within: ["seats"], nature: "choice",
    slots: [
      { id: "width", takes: { kind: "quantity", dimension: "length", min: 0.3, max: 10 }, required: true, meaning: "how wide",
        default: { best: 1.2, low: 0.9, high: 1.5, source: "common practice, no source" } },
      { id: "after", after: "after", takes: { kind: "quantity", dimension: "count", min: 1, max: 1000 }, meaning: "behind so many chairs, from the left; in the middle where nothing is said" },
    ],
    meaning: "A gangway that runs through the rows from the front to the back.", example: hall("chairs 48 in 6 rows, aisle 1.2 m"),
  },
  {
    head: "faces", within: ["seats"], nature: "choice", once: true,
    slots: [{ id: "at", takes: { kind: "place", bare: true }, required: true, meaning: "a side of the room toward which the rows are set, or what people there look at" }],
    meaning: "Which way people sit. Rows are set toward the front where nothing is said; seats around a table face its middle.",
    example: hall("chairs gallery 12 in 2 rows { faces left }\nchairs 24 in 4 rows { faces lectern }"),
  },
  {
    head: "turned", within: ["seats"], nature: "choice", once: true,
    slots: [
      { id: "angle", takes: { kind: "quantity", dimension: "angle", min: 0, max: 180 }, required: true, meaning: "how far" },
      { id: "way", takes: { kind: "word", words: { left: "to the left of those who sit there", right: "to their right" } }, required: true, meaning: "left or right" },
    ],
    meaning: "A block of rows that is set at an angle, turned about the middle of its first row.", example: hall("chairs wing 12 in 3 rows at (6 m, 2 m), turned 25 deg right"),
  },
  {
    head: "wheelchair", within: ["seats"], nature: "fact", use: "noted", slots: WHICH,
    meaning: "Places for wheelchairs, in place of chairs.", example: hall("chairs 24 in 4 rows { wheelchair in row 1 from seat 1 to 2 }"),
  },
  {
    head: "off-camera", within: ["seats"], nature: "fact", slots: WHICH,
    meaning: "Seats for those who do not want to be in any picture.", example: hall("chairs 24 in 4 rows { off-camera in row 4 }"),
  },
  {
    head: "seat", within: ["room", "file"], nature: "choice", body: "seats",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "seats" }, required: true, meaning: "what it is called" },
      { id: "place", takes: { kind: "place" }, required: true, meaning: "where it stands" },
    ],
    meaning: "One seat with a name of its own.", example: hall("seat chair-person at (2 m, 5 m), faces back"),
  },
  {
    head: "eyes", within: ["seats", "talker"], nature: "fact", once: true,
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0.5, max: 2.3 }, required: true, meaning: "above the floor on which they sit or stand",
      default: { best: 1.2, low: 1.1, high: 1.3, source: EYES } }],
    meaning: "How high people's eyes and ears are: 1.2 m seated, 1.7 m standing where nothing is said.", example: hall("chairs 12 in 2 rows { eyes 1.05 m because \"a class of ten-year-olds\" }"),
  },
  {
    head: "mouth", within: ["seats", "talker"], nature: "fact", once: true,
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0.4, max: 2.2 }, required: true, meaning: "above the floor on which they sit or stand" }],
    meaning: "How high the mouth is: 1.15 m seated, 1.55 m standing where nothing is said.", example: `${hall("chairs 12 in 2 rows")}talker Ines at lectern, mouth 1.4 m\n`,
  },
  {
    head: "head", within: ["seats", "talker"], nature: "fact", once: true, use: "noted",
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0.6, max: 2.5 }, required: true, meaning: "its top, above the floor on which they sit or stand" }],
    meaning: "How high the top of the head is: 12 cm above the eyes where nothing is said.", example: hall("chairs 12 in 2 rows { head 1.35 m }"),
  },
];
