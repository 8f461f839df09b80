import type { Row } from "./row";

const evening = (lines: string): string =>
  `setup "Choir committee"\nroom hall 8 m by 6 m, outlet back-wall at back\ntalker Ines at lectern\nplace laptop is laptop, at lectern\nplace box is battery-loudspeaker, near front\nplace lapel is lapel-microphone, on Ines\n${lines}\n`;

/** Where things stand, what is plugged into what, which device joins the call and how: choices all. */
export const SETUP_ROWS: readonly Row[] = [
  {
    head: "place", within: ["file"], nature: "choice", body: "place",
    slots: [
      { id: "device", takes: { kind: "name", of: ["device"] }, required: true, meaning: "what is placed; a new name where `is` follows" },
      { id: "kind", after: "is", takes: { kind: "name", of: ["kind"] }, meaning: "of which kind, where the kit does not say" },
      { id: "place", takes: { kind: "place" }, meaning: "where it stands" },
    ],
    meaning: "Puts a device into the room.", example: evening("place projector is projector, on table at middle"),
  },
  {
    head: "aim", within: ["place"], nature: "choice", once: true,
    slots: [{ id: "at", takes: { kind: "place", bare: true }, required: true, meaning: "a spot, seats, a talker, a point" }],
    meaning: "Where a loudspeaker, a camera or a microphone points.", example: evening("place camera is webcam, behind row 2, aim lectern\nchairs 12 in 3 rows"),
  },
  {
    head: "fills", within: ["place"], nature: "choice", once: true,
    slots: [{ id: "surface", takes: { kind: "name", of: ["surface", "spot"] }, required: true, meaning: "the surface" }],
    meaning: "The surface that a projector's picture fills.", example: evening("screen white-wall at front, width 2 m\nplace beamer is projector, on table at middle, fills white-wall"),
  },
  {
    head: "height", within: ["place", "device"], nature: "choice", once: true,
    slots: [{ id: "height", takes: { kind: "quantity", dimension: "length", min: 0, max: 60 }, required: true, meaning: "above the floor" }],
    meaning: "How high it stands. Loads above people are work for licensed riggers, with the venue's consent.",
    example: evening("place tall is mains-loudspeaker, at front, height 1.8 m"),
  },
  {
    head: "cable", within: ["file"], nature: "choice", body: "link",
    slots: [
      { id: "from", after: "from", takes: { kind: "name", of: ["port", "device"] }, required: true, many: true, meaning: "one end" },
      { id: "to", after: "to", takes: { kind: "name", of: ["port", "device"] }, required: true, many: true, meaning: "the other end" },
    ],
    meaning: "A cable between two ports. `each` plugs in a whole set, one to one.", example: evening("cable from lapel.plug to laptop.headset, length 3 m"),
  },
  {
    head: "radio", within: ["file"], nature: "choice", body: "link",
    slots: [
      { id: "from", after: "from", takes: { kind: "name", of: ["port", "device"] }, required: true, many: true, meaning: "one end" },
      { id: "to", after: "to", takes: { kind: "name", of: ["port", "device"] }, required: true, many: true, meaning: "the other end" },
    ],
    meaning: "A radio link between two ports.", example: evening("radio from laptop.bluetooth to box.bluetooth"),
  },
  {
    head: "mains", within: ["file"], nature: "choice", body: "link",
    slots: [
      { id: "from", after: "from", takes: { kind: "name", of: ["outlet", "device"] }, required: true, meaning: "an outlet or an extension lead" },
      { id: "to", after: "to", takes: { kind: "name", of: ["device"] }, required: true, many: true, meaning: "what is plugged in" },
    ],
    meaning: "What is plugged into which outlet or lead. Cables across a way are taped down or bridged; leads are unwound.",
    example: evening("mains from back-wall to laptop, length 3 m"),
  },
  {
    head: "internet", within: ["file"], nature: "fact", body: "internet",
    slots: [{ id: "name", takes: { kind: "new-name", of: "internet" }, meaning: "what it is called" }],
    meaning: "What the venue has to the outside.", example: evening("internet venue { up 4.0 Mb/s measured 2026-10-07 18:40 }"),
  },
  ...(["up", "down"] as const).map((head): Row => ({
    head, within: ["internet"], nature: "fact", once: true,
    slots: [{ id: "rate", takes: { kind: "quantity", dimension: "rate", min: 1e3, max: 1e12 }, required: true, meaning: "as measured on a quiet line" }],
    meaning: head === "up" ? "How much can be sent." : "How much can be received.",
    example: evening(`internet venue { ${head} 4.0 Mb/s measured 2026-10-07 18:40 }`),
  })),
  {
    head: "round-trip", within: ["internet"], nature: "fact", once: true,
    slots: [{ id: "time", takes: { kind: "quantity", dimension: "time", min: 0, max: 10 }, required: true, meaning: "there and back" }],
    meaning: "How long a packet takes there and back; one way is half of it.", example: evening("internet venue { round-trip 28 ms }"),
  },
  {
    head: "loss", within: ["internet", "link"], nature: "fact", once: true,
    slots: [{ id: "share", takes: { kind: "quantity", dimension: "share", min: 0, max: 1 }, required: true, meaning: "of packets" }],
    meaning: "How much is lost.", example: evening("internet venue { loss 0.4 % guessed }"),
  },
  ...([["wired", "The joined devices reach it by cable."], ["wireless", "The joined devices reach it by radio."], ["shared", "Others use it at the same time."]] as const)
    .map(([head, meaning]): Row => ({
      head, within: ["internet"], nature: "fact", once: true, slots: [], meaning: `${meaning} Sets how much of the measured rate is counted on.`,
      example: evening(`internet venue { up 6 Mb/s, ${head} }`),
    })),
  {
    head: "join", within: ["file"], nature: "choice", body: "join",
    slots: [
      { id: "device", takes: { kind: "name", of: ["device"] }, required: true, meaning: "the device that joins the call" },
      { id: "over", after: "over", takes: { kind: "name", of: ["internet"] }, meaning: "over which internet; the only one where nothing is said" },
    ],
    meaning: "A device that joins the call. A join that says nothing on its sound is live both ways.",
    example: evening("join laptop {\n  sends sound from laptop.microphone\n  plays sound on laptop.loudspeaker\n}"),
  },
  {
    head: "sends", within: ["join"], nature: "choice", negatable: true, during: { key: "what" },
    slots: [
      { id: "what", takes: { kind: "word", words: { sound: "what a microphone or a mixer gives", picture: "what a camera gives", clip: "the sound of what the device itself plays", content: "what is presented: a screen, slides, a document camera" } }, required: true, meaning: "sound, picture, clip or content" },
      { id: "from", after: "from", takes: { kind: "name", of: ["device", "part", "port"] }, many: true, meaning: "from what; from its own where nothing is said" },
      { id: "mode", after: "at", takes: { kind: "mode" }, meaning: "size and frames a second of the picture" },
    ],
    meaning: "What the device sends into the call.", example: evening("join laptop {\n  sends sound from lapel\n  sends picture from laptop.camera at 720p30\n}\ncable from lapel.plug to laptop.headset"),
  },
  {
    head: "plays", within: ["join", "watch"], nature: "choice", negatable: true, during: { key: "what" },
    slots: [
      { id: "what", takes: { kind: "word", words: { sound: "what the others in the call say" } }, required: true, meaning: "the word `sound`" },
      { id: "on", after: "on", takes: { kind: "name", of: ["device", "part", "port"] }, many: true, meaning: "on what; on its own loudspeaker where nothing is said" },
    ],
    meaning: "Where the sound of the call is played.", example: evening("join laptop { plays no sound }"),
  },
  {
    head: "shows", within: ["join"], nature: "choice", negatable: true, during: { key: "on" }, body: "shows",
    slots: [
      { id: "what", takes: { kind: "word", words: { call: "the people online", slides: "what is presented", video: "a moving picture that is presented" } }, required: true, meaning: "what" },
      { id: "on", after: "on", takes: { kind: "name", of: ["device", "part"] }, many: true, meaning: "on what; on its own display where nothing is said" },
    ],
    meaning: "What is shown in the room, and on what.", example: evening("place tv is flat-display, at front\ncable from laptop.hdmi to tv.hdmi\njoin laptop { shows call on tv, faces 4 }"),
  },
  {
    head: "faces", within: ["shows"], nature: "choice", once: true,
    slots: [{ id: "count", takes: { kind: "quantity", dimension: "count", min: 1, max: 100 }, required: true, meaning: "how many at once" }],
    meaning: "How many people online are shown at once.", example: evening("join laptop { shows call, faces 2 }"),
  },
  {
    head: "text-height", within: ["shows"], nature: "choice", once: true,
    slots: [{ id: "share", takes: { kind: "quantity", dimension: "share", min: 0, max: 1 }, required: true, meaning: "of the height of the picture",
      default: { best: 0.023, low: 0.018, high: 0.04, source: "18 of 540 points; common practice, no source" } }],
    meaning: "How high the smallest capital letters are. With `shows call` it is what the people online present.", example: evening("join laptop { shows slides, text-height 3 % }"),
  },
  {
    head: "suppresses", within: ["join"], nature: "choice", negatable: true, during: {},
    slots: [{ id: "what", takes: { kind: "word", words: { noise: "what is no speech is taken out" } }, required: true, meaning: "the word `noise`" }],
    meaning: "Whether noise suppression is on.", example: evening("join laptop { suppresses no noise }"),
  },
  {
    head: "mixer", within: ["file"], nature: "choice", body: "mixer",
    slots: [{ id: "device", takes: { kind: "name", of: ["device"] }, required: true, meaning: "the mixer" }],
    meaning: "How a mixer is set: what comes in, and what each output holds. Without it, every output holds every input.",
    example: evening("place desk is mixer, at operator\nmixer desk {\n  channel voice from desk.in-1\n  bus hall to desk.main-left and desk.main-right { holds all }\n}"),
  },
  {
    head: "channel", within: ["mixer"], nature: "choice", body: "channel",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "channel" }, required: true, meaning: "what is written on its strip" },
      { id: "from", after: "from", takes: { kind: "name", of: ["port"] }, required: true, many: true, meaning: "its input" },
    ],
    meaning: "One input of a mixer.", example: evening("place desk is mixer, at operator\nmixer desk { channel voice from desk.in-1, trim -6 dB }"),
  },
  {
    head: "trim", within: ["channel"], nature: "choice", once: true,
    slots: [{ id: "gain", takes: { kind: "quantity", dimension: "level", min: -80, max: 40 }, required: true, meaning: "beside nominal level" }],
    meaning: "Makes a channel louder or softer.", example: evening("place desk is mixer, at operator\nmixer desk { channel voice from desk.in-1, trim -6 dB }"),
  },
  {
    head: "phantom", within: ["channel"], nature: "choice", once: true, slots: [],
    meaning: "48 V to the microphone is switched on.", example: evening("place desk is mixer, at operator\nmixer desk { channel voice from desk.in-1, phantom }"),
  },
  {
    head: "bus", within: ["mixer"], nature: "choice", body: "bus",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "bus" }, required: true, meaning: "what it is called" },
      { id: "to", after: "to", takes: { kind: "name", of: ["port"] }, required: true, many: true, meaning: "its outputs" },
    ],
    meaning: "One mix, and the outputs that carry it.", example: evening("place desk is mixer, at operator\nmixer desk {\n  channel voice from desk.in-1\n  bus far-end to desk.aux-1, before-faders { holds voice at -6 dB }\n}"),
  },
  {
    head: "before-faders", within: ["bus"], nature: "choice", once: true, slots: [], use: "noted",
    meaning: "The mix does not follow the faders of the channels.", example: evening("place desk is mixer, at operator\nmixer desk { bus far-end to desk.aux-1, before-faders }"),
  },
  {
    head: "delay", within: ["bus"], nature: "choice", once: true,
    slots: [{ id: "time", takes: { kind: "quantity", dimension: "time", min: 0, max: 2 }, required: true, meaning: "how much later" }],
    meaning: "Keeps a mix back, so that a loudspeaker that would come first comes with the others.", example: evening("place desk is mixer, at operator\nmixer desk {\n  channel voice from desk.in-1\n  bus back to desk.aux-2, delay 60 ms { holds voice }\n}"),
  },
  {
    head: "holds", within: ["bus"], nature: "choice", negatable: true, during: { key: "channel" },
    slots: [
      { id: "channel", takes: { kind: "name", of: ["channel"] }, required: true, many: true, meaning: "which channels, or `all`" },
      { id: "gain", after: "at", takes: { kind: "quantity", dimension: "level", min: -80, max: 40 }, meaning: "how loud, beside nominal" },
    ],
    meaning: "What the mix holds. `holds no …` leaves one out.", example: evening("place desk is mixer, at operator\nmixer desk {\n  channel voice from desk.in-1\n  channel online from desk.in-7\n  bus far-end to desk.aux-1 {\n    holds all\n    holds no online\n  }\n}"),
  },
];
