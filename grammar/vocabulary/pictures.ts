import type { Row } from "./row";

const hall = (line: string): string => `room hall 9 m by 6.4 m by 3.1 m {\n  ${line.replace(/\n/g, "\n  ")}\n}\n`;
const evening = (lines: string): string => `setup "Choir committee"\nroom hall 8 m by 6 m\nchairs 12 in 3 rows\nplace laptop is laptop, at lectern\n${lines}\n`;
const kind = (type: string, line: string): string => `kind thing is a ${type} {\n  ${line}\n}\n`;

/** What decides how pictures are seen, beyond where things stand: light, lenses, what is written on a board, who reads lips. */
export const PICTURE_ROWS: readonly Row[] = [
  ...([
    ["light-on-screens", "How much light of the room falls on what pictures are shown on, while the projector is off.", "light-on-screens 40 lx"],
    ["light-on-faces", "How much light falls on faces, measured upright at the face, toward the camera.", "light-on-faces 200 lx"],
  ] as const).map(([head, meaning, example]): Row => ({
    head, within: ["room"], nature: "fact", once: true,
    slots: [{ id: "light", takes: { kind: "quantity", dimension: "illuminance", min: 0, max: 100000 }, required: true, meaning: "as measured; a telephone with a light meter will do" }],
    meaning, example: hall(example),
  })),
  {
    head: "throw", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "ratio", takes: { kind: "quantity", dimension: "ratio", min: 0.1, max: 20 }, required: true, meaning: "distance to width of the picture; a range for a zoom: 1.2 to 1.6" }],
    meaning: "From how far a projector throws how wide a picture, as its data sheet has it.", example: kind("projector", "throw 1.2 to 1.6"),
  },
  {
    head: "exposure", within: ["device", "place"], nature: "choice", once: true,
    slots: [{ id: "time", takes: { kind: "quantity", dimension: "time", min: 0.00001, max: 1 }, required: true, meaning: "how long: a fiftieth of a second is 20 ms" }],
    meaning: "A camera's exposure, where it is set by hand.", example: kind("camera", "exposure 20 ms"),
  },
  {
    head: "output", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "how", takes: { kind: "word", words: { clean: "the picture alone", "with-menus": "what stands on its own screen, menus and signs too" } }, required: true, meaning: "which" }],
    meaning: "Whether what a camera gives is its picture alone.", example: kind("camera", "output clean"),
  },
  {
    head: "mirrored", within: ["device", "place"], nature: "choice", once: true, slots: [],
    meaning: "What goes out at a computer's picture port is what stands on its own screen.", example: evening("place slides-laptop is laptop, at lectern, mirrored"),
  },
  {
    head: "letters", within: ["surface"], nature: "fact", once: true,
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0.005, max: 1 }, required: true, meaning: "of a capital letter" }],
    meaning: "How high letters are that are written on a board.", example: hall("screen blackboard at front, width 3 m, letters 5 cm"),
  },
  {
    head: "signs", within: ["talker"], nature: "fact", once: true, slots: [],
    meaning: "Speaks, or interprets, in sign language: the picture carries the words.", example: `${hall("noise 38 dBA")}talker Lena at front, signs\n`,
  },
  {
    head: "lip-reading", within: ["meeting", "file"], nature: "fact", once: true, slots: [],
    meaning: "Somebody online reads lips.", example: evening("lip-reading"),
  },
];
