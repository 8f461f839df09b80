import type { Row } from "./row";

const evening = (lines: string): string =>
  `setup "Choir committee"\nroom hall 8 m by 6 m\nchairs 12 in 3 rows\ntalker Ines at lectern\nplace laptop is laptop, at lectern\njoin laptop\n${lines}\n`;

/** Who else shall be able to follow, and what those who are there have agreed to. */
export const ACCESS_ROWS: readonly Row[] = [
  {
    head: "captions", within: ["call"], nature: "wish", during: {},
    slots: [{ id: "who", after: "by", takes: { kind: "who" }, meaning: "who writes them, in the call; else the service, where it makes them" }],
    meaning: "The people online can read what is said while it is said.", example: evening('call { captions by "Vera" }'),
  },
  {
    head: "records", within: ["call"], nature: "wish", during: {},
    slots: [{ id: "on", after: "on", takes: { kind: "name", of: ["device"] }, meaning: "the device that keeps it: one that joins, or a recorder; else the service" }],
    meaning: "The meeting is recorded; with `during`, those items alone.", example: evening("service { recording service }\ncall { records, consent given }\njob record by Teo"),
  },
  {
    head: "consent", within: ["call"], nature: "fact", once: true,
    slots: [{ id: "how", takes: { kind: "word", words: {
      given: "whoever is heard or seen has been asked, and agrees", announced: "it stands in the invitation, and is said before it begins",
    } }, required: true, meaning: "given or announced; which of them is needed the local law says" }],
    meaning: "What those who are heard and seen know of the recording.", example: evening("service { recording service }\ncall { records, consent announced }"),
  },
  {
    head: "receives", within: ["join"], nature: "choice", during: { key: "what" },
    slots: [
      { id: "what", takes: { kind: "word", words: { picture: "the picture of somebody online", content: "what somebody online presents" } }, required: true, meaning: "picture or content" },
      { id: "mode", after: "at", takes: { kind: "mode" }, required: true, meaning: "the largest size, and the most frames a second" },
    ],
    meaning: "The largest picture that the device takes in. Less than the service hands out spares the downlink.", example: evening("join laptop { receives picture at 180p15 }").replace("join laptop\n", ""),
  },
];
