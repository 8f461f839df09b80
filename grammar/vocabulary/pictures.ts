import type { Row } from "./row";

const hall = (line: string): string => `room hall 9 m by 6.4 m by 3.1 m {\n  ${line.replace(/\n/g, "\n  ")}\n}\n`;
const evening = (lines: string): string => `setup "Choir committee"\nroom hall 8 m by 6 m\nchairs 12 in 3 rows\nplace laptop is laptop, at lectern\n${lines}\n`;

/** Who and what must be seen, beyond faces: what is written on a board, who signs, who reads lips. */
export const PICTURE_ROWS: readonly Row[] = [
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
