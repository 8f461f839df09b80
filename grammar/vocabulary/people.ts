import type { Row } from "./row";

const evening = (lines: string): string =>
  `setup "Choir committee"\nroom hall 8 m by 6 m\ntalker Ines at lectern\nplace laptop is laptop, at lectern\njoin laptop\n${lines}\n`;

/** What is to be there and done before and during the meeting, and by whom. */
export const PEOPLE_ROWS: readonly Row[] = [
  {
    head: "job", within: ["file"], nature: "choice",
    slots: [
      { id: "what", takes: { kind: "word", words: {
        listen: "listens, with earphones, to what the people online hear", "run-call": "starts the call, lets people in and out of it, ends it", record: "starts and stops the recording, and says so", admit: "lets people into the call", chat: "reads what the people online write, and answers",
        camera: "turns the camera", sound: "minds loudspeakers and microphones", "set-up": "knows the whole setup, and sets it up", keys: "has the keys, and knows whom to ask",
      } }, required: true, meaning: "which" },
      { id: "who", after: "by", takes: { kind: "who" }, many: true, meaning: "who does it; nobody yet where nothing is said" },
    ],
    meaning: "Who sees to what, before and during the meeting.", example: evening("job listen by Teo\njob set-up by Teo and Marit\njob camera"),
  },
  {
    head: "rehearsal", within: ["meeting", "file"], nature: "choice", once: true,
    slots: [
      { id: "date", takes: { kind: "date" }, required: true, meaning: "the day" },
      { id: "time", takes: { kind: "clock" }, meaning: "the time" },
    ],
    meaning: "When everything is tried in the room beforehand.", example: evening("date 2026-10-14\nrehearsal 2026-10-12 19:00"),
  },
  {
    head: "zones", within: ["meeting", "file"], nature: "fact", once: true,
    slots: [{ id: "zones", takes: { kind: "zone" }, required: true, many: true, meaning: "their time zones" }],
    meaning: "The time zones from which people attend online, where they are not that of the room.", example: evening("zone Europe/Tallinn\nzones Europe/Lisbon and Asia/Kolkata"),
  },
  {
    head: "budget", within: ["meeting", "file"], nature: "wish", once: true,
    slots: [{ id: "money", takes: { kind: "quantity", dimension: "count", min: 0, max: 1e9 }, required: true, meaning: "how much, in the money in which the text counts" }],
    meaning: "What may be spent on what has to be bought.", example: evening("budget 150"),
  },
  {
    head: "to-buy", within: ["device"], nature: "choice", once: true,
    slots: [{ id: "price", after: "for", takes: { kind: "quantity", dimension: "count", min: 0, max: 1e9 }, meaning: "its price, in the money in which the text counts" }],
    meaning: "It has to be bought.", example: evening("place camera is webcam, at front, to-buy for 40"),
  },
  {
    head: "missing", within: ["device"], nature: "fact", once: true, slots: [],
    meaning: "Nobody has one, and nobody brings one.", example: evening("place camera is webcam, at front, missing"),
  },
  {
    head: "calls", within: ["device"], nature: "choice", once: true,
    slots: [{ id: "how", takes: { kind: "word", words: { off: "flight mode with the wireless network on, or do not disturb", on: "telephone calls come through" } }, required: true, meaning: "off or on" }],
    meaning: "Whether telephone calls come through on a telephone that is in use for the meeting.", example: evening("place phone is phone, at front, calls off"),
  },
  {
    head: "isolates", within: ["internet"], nature: "fact", once: true,
    slots: [{ id: "what", takes: { kind: "word", words: { guests: "devices reach the outside, and not each other" } }, required: true, meaning: "the word `guests`" }],
    meaning: "Its wireless network keeps guests apart from each other.", example: evening("internet inn { up 6 Mb/s, wireless, isolates guests }"),
  },
];
