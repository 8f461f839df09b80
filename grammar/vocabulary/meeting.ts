import type { Row } from "./row";

const evening = (line: string): string => `setup "Choir committee"\nroom hall 8 m by 6 m\n${line}\n`;

/** The file itself, the meeting, its programme, what is wanted of the call, and what the author has to say on risks. */
export const MEETING_ROWS: readonly Row[] = [
  {
    head: "bothways", within: ["file"], nature: "note", once: true,
    slots: [{ id: "version", takes: { kind: "quantity", dimension: "count", min: 1, max: 1 }, required: true, meaning: "the version of the language" }],
    meaning: "The version of the language that the file is written in; optional, and first where it stands.",
    example: `bothways 1\n${evening("")}`, use: "noted",
  },
  {
    head: "setup", within: ["file"], nature: "note", once: true,
    slots: [{ id: "title", takes: { kind: "text" }, required: true, meaning: "what the evening is called" }],
    meaning: "Makes the file a setup: something that is judged as a whole. Room and kit files have none.",
    example: evening(""),
  },
  {
    head: "use", within: ["file"], nature: "choice",
    slots: [
      { id: "file", takes: { kind: "text" }, required: true, meaning: "the file, from the folder of this one" },
      { id: "as", after: "as", takes: { kind: "new-name", of: "room" }, meaning: "a name put before all names of that file, where they would collide" },
    ],
    meaning: "Takes in what another file states: a room, a kit. What that file uses comes with it.",
    example: `use "rooms/hall.bothways"\nuse "kit/ours.bothways" as ours\n`,
  },
  {
    head: "meeting", within: ["file"], nature: "fact", once: true, slots: [], body: "meeting",
    meaning: "When the meeting is and how many attend from elsewhere.",
    example: evening("meeting {\n  date 2026-10-14\n  access 17:30\n  start 18:30\n  end 20:30\n  online 8 people\n}"),
  },
  {
    head: "date", within: ["meeting", "file"], nature: "fact", once: true,
    slots: [{ id: "date", takes: { kind: "date" }, required: true, meaning: "the day" }],
    meaning: "The day of the meeting. How old a measurement is counts from it.", example: evening("date 2026-10-14"),
  },
  {
    head: "zone", within: ["meeting", "file"], nature: "fact", once: true,
    slots: [{ id: "zone", takes: { kind: "zone" }, required: true, meaning: "the time zone of the room" }],
    meaning: "The time zone in which the times are meant.", example: evening("meeting { zone Europe/Tallinn }"),
  },
  {
    head: "access", within: ["meeting", "file"], nature: "fact", once: true,
    slots: [{ id: "time", takes: { kind: "clock" }, required: true, meaning: "the time" }],
    meaning: "From when the room can be set up. Batteries count from then.", example: evening("meeting { access 17:30, start 18:30, end 20:00 }"),
  },
  {
    head: "start", within: ["meeting", "file"], nature: "fact", once: true,
    slots: [{ id: "time", takes: { kind: "clock" }, required: true, meaning: "the time" }],
    meaning: "When the meeting begins.", example: evening("meeting { start 18:30 }"),
  },
  {
    head: "end", within: ["meeting", "file"], nature: "fact", once: true,
    slots: [{ id: "time", takes: { kind: "clock" }, required: true, meaning: "the time; `next-day` after it where it is past midnight" }],
    meaning: "When the meeting ends.", example: evening("meeting { start 22:00, end 00:15 next-day }"),
  },
  {
    head: "reserve", within: ["meeting", "file"], nature: "wish", once: true,
    slots: [{
      id: "time", takes: { kind: "quantity", dimension: "time", min: 0, max: 86400 }, required: true, meaning: "how long",
      default: { best: 1800, low: 1800, high: 1800, source: "common practice, no source" },
    }],
    meaning: "How long batteries shall last beyond the end.", example: evening("meeting { reserve 45 min }"),
  },
  {
    head: "online", within: ["meeting", "file"], nature: "fact", once: true,
    slots: [{
      id: "people", takes: { kind: "quantity", dimension: "count", min: 0, max: 100000 }, required: true, meaning: "how many",
      default: { best: 6, low: 2, high: 20, source: "common practice, no source" },
    }],
    meaning: "How many attend online.", example: evening("online about 8 people"),
  },
  {
    head: "programme", within: ["file"], nature: "fact", once: true, slots: [], body: "programme",
    meaning: "What happens when. Every check runs for every item.",
    example: evening("talker Ines at lectern\nprogramme {\n  item talk from 18:30, talkers Ines\n  item questions from 19:40, talkers audience\n}"),
  },
  {
    head: "item", within: ["programme", "file"], nature: "fact", body: "item",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "item" }, required: true, meaning: "what it is called" },
      { id: "from", after: "from", takes: { kind: "clock" }, meaning: "when it begins; else when the one before ends" },
      { id: "to", after: "to", takes: { kind: "clock" }, meaning: "when it ends; else when the next begins" },
    ],
    meaning: "One item of the programme.", example: evening("talker Ines at lectern\nitem talk from 18:30 to 19:30, talkers Ines"),
  },
  {
    head: "talkers", within: ["item"], nature: "fact",
    slots: [{ id: "who", takes: { kind: "name", of: ["talker", "seats"] }, required: true, many: true, meaning: "talkers, or seats whose people speak" }],
    meaning: "Who speaks in this item. Without it every talker of the setup does.",
    example: evening("talker Ines at lectern\ntalker Teo at operator\nitem talk, talkers Ines and Teo"),
  },
  {
    head: "call", within: ["file"], nature: "wish", once: true, slots: [], body: "call",
    meaning: "What the call is to achieve.", example: evening("call { shall show lectern and audience }"),
  },
  {
    head: "shall", within: ["call"], nature: "wish", during: { key: "what" },
    slots: [
      { id: "what", takes: { kind: "word", words: { show: "the people online see it", hear: "the people online hear whoever speaks there" } }, required: true, meaning: "what is wanted" },
      { id: "of", takes: { kind: "name", of: ["spot", "seats", "talker", "surface", "table"] }, required: true, many: true, meaning: "of which places or people" },
    ],
    meaning: "What the people online are to see or hear besides whoever speaks.", example: evening("call { shall show lectern and audience }"),
  },
  {
    head: "talker", within: ["file"], nature: "fact", body: "talker",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "talker" }, required: true, meaning: "who speaks" },
      { id: "place", takes: { kind: "place" }, meaning: "from where; the lectern where nothing is said" },
    ],
    meaning: "Somebody who speaks. `at audience` stands for anybody who sits there.", example: evening("talker Ines at lectern"),
  },
  {
    head: "talkers", within: ["file"], nature: "fact", body: "talker",
    slots: [
      { id: "count", takes: { kind: "quantity", dimension: "count", min: 1, max: 500 }, required: true, meaning: "how many" },
      { id: "place", takes: { kind: "place" }, meaning: "around what, or where" },
    ],
    meaning: "Several who speak from places of their own, named talker-1, talker-2 and so on.", example: evening("table ring at middle, size 3 m by 1.5 m\ntalkers 8 around ring"),
  },
  {
    head: "standing", within: ["talker"], nature: "fact", slots: [], meaning: "Speaks standing, mouth at 1.55 m, as to a hall.",
    example: evening("talker Ines at lectern, standing"),
  },
  {
    head: "seated", within: ["talker"], nature: "fact", slots: [], meaning: "Speaks seated, mouth at 1.15 m, as across a table.",
    example: evening("talker Ines at lectern, seated"),
  },
  {
    head: "raised", within: ["talker"], nature: "fact", slots: [], meaning: "Speaks with a raised voice, 66 dBA at 1 m, as one does without amplification.",
    example: evening("talker Ines at lectern, raised"),
  },
  {
    head: "repeats", within: ["talker"], nature: "choice", during: { key: "of" }, negatable: true,
    slots: [{ id: "of", takes: { kind: "name", of: ["seats", "talker"] }, many: true, required: true, meaning: "whose words" }],
    meaning: "Repeats what others say, so that it reaches those online through this talker's microphone.",
    example: evening("item talk\nitem questions\ntalker Ines at lectern, repeats audience during questions"),
  },
  {
    head: "accept", within: ["file"], nature: "note",
    slots: [
      { id: "code", takes: { kind: "code" }, required: true, meaning: "the finding" },
      { id: "of", after: "of", takes: { kind: "name", of: ["device", "part", "talker", "seats", "internet", "spot", "surface"] }, many: true, meaning: "its subjects; without them every finding of the code" },
      { id: "at", after: "at", takes: { kind: "any-quantity" }, meaning: "how bad it may be" },
    ],
    meaning: "Keeps a known risk quiet while it is no worse than that. Give the reason with `because`.",
    example: evening('device laptop is laptop\nplace laptop at lectern\njoin laptop\naccept one-device-carries-all of laptop because "Ines brings a second laptop"'),
  },
  {
    head: "limit", within: ["file"], nature: "wish",
    slots: [
      { id: "code", takes: { kind: "code" }, required: true, meaning: "the finding" },
      { id: "value", takes: { kind: "any-quantity" }, required: true, meaning: "the limit" },
    ],
    meaning: "Sets the limit of a finding. Give the reason with `because`.",
    example: evening('limit battery-short 1 h because "the caretaker is often late"'),
  },
  {
    head: "fallback", within: ["file"], nature: "choice",
    slots: [
      { id: "device", takes: { kind: "name", of: ["device", "internet"] }, required: true, many: true, meaning: "what steps in" },
      { id: "for", after: "for", takes: { kind: "name", of: ["device", "internet"] }, required: true, many: true, meaning: "for what" },
    ],
    meaning: "What is used when a device or an internet connection gives way: a second connection, a mobile router, a telephone that dials in.",
    example: evening("place laptop is laptop, at lectern\nplace spare is laptop, at operator\njoin laptop\nfallback spare for laptop"),
  },
  {
    head: "note", within: ["file", "room", "device", "meeting", "item", "join", "place", "talker"], nature: "note", use: "noted",
    slots: [{ id: "text", takes: { kind: "text" }, required: true, meaning: "what helpers shall read" }],
    meaning: "Printed for those who help; comments never are.", example: evening('note "The key hangs behind the hymn board."'),
  },
];
