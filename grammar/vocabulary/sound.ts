import type { Row } from "./row";

const evening = (lines: string): string =>
  `setup "Choir committee"\nroom hall 8 m by 6 m\nchairs 12 in 3 rows\ntalker Ines at lectern\nplace laptop is laptop, at lectern\nplace box is battery-loudspeaker, near front\nplace desk is mixer, at operator\n${lines}\n`;

/** What decides how things sound, beyond where they stand and what is plugged into what. */
export const SOUND_ROWS: readonly Row[] = [
  {
    head: "walks", within: ["talker"], nature: "fact", once: true,
    slots: [
      { id: "length", takes: { kind: "quantity", dimension: "length", min: 0.2, max: 100 }, required: true, meaning: "from the front to the back of the area" },
      { id: "width", after: "by", takes: { kind: "quantity", dimension: "length", min: 0.2, max: 100 }, meaning: "from its left to its right; as much again where nothing is said" },
    ],
    meaning: "Walks about while speaking, over an area around the place stated.", example: evening("talker Teo at front, walks 2 m by 4 m"),
  },
  {
    head: "faces", within: ["talker"], nature: "choice", once: true, during: {},
    slots: [{ id: "at", takes: { kind: "place", bare: true }, required: true, meaning: "a spot, seats, a surface, a point" }],
    meaning: "Where a talker looks while speaking; the audience where nothing is said.", example: evening("talker Teo at lectern, faces front-screen"),
  },
  {
    head: "interprets", within: ["talker"], nature: "choice", during: { key: "of" }, negatable: true,
    slots: [{ id: "of", takes: { kind: "name", of: ["seats", "talker"] }, many: true, meaning: "whose words; everybody's where nothing is said" }],
    meaning: "Says in another language what others say, for those who listen to that: nobody else has to hear it.",
    example: evening("talker Lena at back, interprets Ines"),
  },
  {
    head: "carries", within: ["device"], nature: "choice", once: true,
    slots: [{ id: "of", takes: { kind: "name", of: ["seats", "talker"] }, many: true, required: true, meaning: "whose words" }],
    meaning: "Whose words a hearing loop, a transmitter or a recorder is for; a hearing loop is for everybody's where nothing is said.",
    example: evening("talker Lena at back, interprets\nplace receivers is assistive-transmitter, at back, carries Lena"),
  },
  {
    head: "music", within: ["talker"], nature: "fact", once: true, slots: [],
    meaning: "Sings or plays an instrument: what takes noise out of speech takes music out, too.", example: evening("talker choir at front, music"),
  },
  {
    head: "clip", within: ["item"], nature: "fact",
    slots: [{ id: "on", after: "on", takes: { kind: "name", of: ["device"] }, required: true, meaning: "the device that plays it" }],
    meaning: "A recording with sound of its own is played in this item.", example: evening("item film, clip on laptop\njoin laptop { sends clip }"),
  },
  {
    head: "outdoors", within: ["room"], nature: "fact", once: true, slots: [],
    meaning: "No walls and no ceiling: nothing reverberates, and there may be wind.", example: "room garden 12 m by 9 m { outdoors }\n",
  },
  {
    head: "wind", within: ["room"], nature: "fact", once: true,
    slots: [
      { id: "force", takes: { kind: "word", words: { force: "on the scale of Beaufort" } }, required: true, meaning: "the word `force`" },
      { id: "number", takes: { kind: "quantity", dimension: "count", min: 0, max: 12 }, required: true, meaning: "of the scale of Beaufort" },
    ],
    meaning: "How windy it is to be. With leaves and small twigs in constant motion it is force 3.", example: "room garden 12 m by 9 m { outdoors, wind force 3 }\n",
  },
  {
    head: "windshield", within: ["device"], nature: "choice", once: true, slots: [],
    meaning: "Foam or fur over a microphone.", example: "device lapel is lapel-microphone, windshield\n",
  },
  {
    head: "gain", within: ["device", "channel"], nature: "choice", once: true,
    slots: [{ id: "how", takes: { kind: "word", words: { fixed: "stays where it is set", automatic: "follows how loud one speaks, by itself" } }, required: true, meaning: "fixed or automatic" }],
    meaning: "Whether a microphone, an interface or a channel is turned up and down by itself.", example: "device lapel is lapel-microphone, gain automatic\n",
  },
  {
    head: "level", within: ["port"], nature: "fact", once: true,
    slots: [{ id: "of", takes: { kind: "word", words: {
      microphone: "a few thousandths of a volt", line: "about a volt, as mixers and players give", loudspeaker: "for a loudspeaker without an amplifier",
    } }, required: true, meaning: "which" }],
    meaning: "How strong the sound is that a port gives or expects.", example: "kind thing is a mixer { port out is xlr, gives sound, level line }\n",
  },
  {
    head: "pad", within: ["channel", "link"], nature: "choice", once: true,
    slots: [{ id: "loss", takes: { kind: "quantity", dimension: "level", min: 0, max: 60 }, required: true, meaning: "how much softer it makes" }],
    meaning: "Takes a line down to what a microphone input expects.", example: evening("mixer desk { channel player from desk.in-3, pad 20 dB }"),
  },
  {
    head: "automatic", within: ["mixer"], nature: "choice", once: true, slots: [],
    meaning: "Opens only the channels in which somebody speaks, and shares the gain between them.", example: evening("mixer desk {\n  automatic\n  channel voice from desk.in-1\n}"),
  },
  {
    head: "monitors", within: ["join"], nature: "choice", negatable: true, during: {},
    slots: [{ id: "on", after: "on", takes: { kind: "name", of: ["device", "part", "port"] }, many: true, meaning: "on what; on its own loudspeaker where nothing is said" }],
    meaning: "Plays at once what it takes in, as systems offer for earphones.", example: evening("join laptop { monitors on laptop.loudspeaker }"),
  },
  {
    head: "watch", within: ["file"], nature: "choice", body: "watch",
    slots: [{ id: "device", takes: { kind: "name", of: ["device"] }, required: true, meaning: "on what" }],
    meaning: "A device in the room on which the public stream of the meeting is watched, without joining the call.", example: evening("place tablet is tablet, at operator\nwatch tablet { plays no sound }"),
  },
  {
    head: "visitors", within: ["file", "call"], nature: "fact", once: true,
    slots: [{ id: "how", takes: { kind: "word", words: {
      none: "nobody in the room joins but the devices of this text", muted: "who joins from the room is asked to come in with sound off", "may-join": "people in the room may join with devices of their own",
    } }, required: true, meaning: "which" }],
    meaning: "Whether people in the room join the call with telephones and computers of their own.", example: evening("call { visitors muted }"),
  },
  {
    head: "remote-room", within: ["file"], nature: "fact", body: "remote-room",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "remote-room" }, required: true, meaning: "what it is called" },
      { id: "people", takes: { kind: "quantity", dimension: "count", min: 1, max: 10000 }, meaning: "how many sit there" },
    ],
    meaning: "Another room that joins the call as one, with loudspeakers and microphones of its own.", example: evening("remote-room annex 12 people { cancels echo }"),
  },
  {
    head: "cancels", within: ["remote-room"], nature: "fact", negatable: true,
    slots: [{ id: "what", takes: { kind: "word", words: { echo: "what it plays is taken out of what it sends" } }, required: true, meaning: "the word `echo`" }],
    meaning: "Whether the other room cancels the echo of what it plays.", example: evening("remote-room annex { cancels no echo }"),
  },
  {
    head: "observed", within: ["file"], nature: "fact", negatable: true, during: {},
    slots: [
      { id: "subject", takes: { kind: "name", of: ["device", "part", "talker", "seats", "internet", "remote-room"] }, meaning: "of what or whom; of everything where nothing is said" },
      { id: "what", takes: { kind: "word", words: {
        clear: "every word was understood", unclear: "words were lost", quiet: "hard to hear", loud: "too loud, or loud enough to be in the way",
        echo: "people heard themselves come back", howl: "a tone that rose by itself", level: "so loud, with the figure that was read", uplink: "so much could go out, with the figure that was measured",
      } }, required: true, meaning: "what was noticed" },
      { id: "of", after: "of", takes: { kind: "name", of: ["device", "part", "talker", "seats", "internet", "remote-room"] }, meaning: "the same behind the word: `no echo of phone`" },
      { id: "value", takes: { kind: "any-quantity" }, meaning: "the figure, for level and uplink" },
      { id: "place", takes: { kind: "place" }, meaning: "where it was noticed; everywhere where nothing is said" },
    ],
    meaning: "What was noticed on the evening. It narrows what was assumed, quiets what it disproves, and shows where the model was wrong.",
    example: evening("observed box clear at row 3\nobserved no echo"),
  },
];
