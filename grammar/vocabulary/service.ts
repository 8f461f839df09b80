import type { Row } from "./row";

const evening = (lines: string): string =>
  `setup "Choir committee"\nroom hall 8 m by 6 m\nchairs 12 in 3 rows\ntalker Ines at lectern\nplace laptop is laptop, at lectern\nplace phone is phone, at left front corner\n${lines}\n`;
const service = (line: string): string => evening(`service { ${line} }\njoin laptop`);

/** What the call runs on, told by what matters and never by whose it is; and what the people online get to see of it. */
export const SERVICE_ROWS: readonly Row[] = [
  {
    head: "service", within: ["file"], nature: "choice", once: true, slots: [], body: "service",
    meaning: "What the call runs on, told by what it allows. What is not said is taken as most services have it, and marked as assumed.",
    example: evening("service {\n  ends after 40 min\n  capacity 100 people\n  devices-per-account 1\n}\njoin laptop"),
  },
  {
    head: "ends", within: ["service"], nature: "fact", once: true,
    slots: [{ id: "after", after: "after", takes: { kind: "quantity", dimension: "time", min: 60, max: 864000 }, required: true, meaning: "how long a call may last" }],
    meaning: "The call is cut off after that time. Without it a call has no end of its own.", example: service("ends after 40 min"),
  },
  {
    head: "reopens", within: ["service"], nature: "choice",
    slots: [{ id: "at", after: "at", takes: { kind: "clock" }, required: true, meaning: "when the call is closed and opened anew" }],
    meaning: "The call is opened anew, by a second invitation sent out beforehand.", example: service("ends after 40 min, reopens at 19:10"),
  },
  {
    head: "capacity", within: ["service"], nature: "fact", once: true,
    slots: [{ id: "people", takes: { kind: "quantity", dimension: "count", min: 2, max: 1e6 }, required: true, meaning: "how many may be in the call, the devices in the room among them",
      default: { best: 100, low: 50, high: 500, source: "common practice, no source" } }],
    meaning: "How many the call holds.", example: service("capacity 25 people"),
  },
  {
    head: "devices-per-account", within: ["service"], nature: "fact", once: true,
    slots: [{ id: "count", takes: { kind: "quantity", dimension: "count", min: 1, max: 1000 }, required: true, meaning: "how many at the same time" }],
    meaning: "How many devices may be in one call under one account.", example: service("devices-per-account 1"),
  },
  {
    head: "enters", within: ["service"], nature: "choice", once: true, use: "noted",
    slots: [{ id: "how", takes: { kind: "word", words: { muted: "with the microphone off", live: "with the microphone on" } }, required: true, meaning: "muted or live" }],
    meaning: "How whoever joins comes in.", example: service("enters muted"),
  },
  {
    head: "admission", within: ["service"], nature: "choice", once: true,
    slots: [{ id: "how", takes: { kind: "word", words: { open: "whoever has the invitation comes in", gated: "somebody in the call lets people in, one by one" } }, required: true, meaning: "open or gated" }],
    meaning: "How people come into the call.", example: service("admission gated"),
  },
  {
    head: "run-by", within: ["service"], nature: "choice", once: true,
    slots: [{ id: "whom", takes: { kind: "word", words: { opener: "only the device that opened the call", named: "whoever is named for it beforehand", anybody: "everybody in the call" } }, required: true, meaning: "who" }],
    meaning: "Who can run the call: let people in, turn their sound off, end it.", example: service("run-by named"),
  },
  ...(["sends", "receives"] as const).map((head): Row => ({
    head, within: ["service"], nature: "fact", ...(head === "sends" ? { once: true } : {}),
    slots: [
      { id: "what", takes: { kind: "word", words: { picture: "a moving picture of a camera", ...(head === "sends" ? {} : { content: "what is presented" }) } }, required: true, meaning: head === "sends" ? "the word `picture`" : "picture or content" },
      { id: "mode", after: "at", takes: { kind: "mode" }, required: true, meaning: "the largest size, and the most frames a second" },
      { id: "rate", after: "of", takes: { kind: "quantity", dimension: "rate", min: 1e4, max: 1e9 }, meaning: "the most that it takes for it" },
    ],
    meaning: head === "sends" ? "The largest picture that it takes from a device. A join that sends a larger one is cut down to it." : "The largest picture that it hands out to whoever takes part.",
    example: service(`${head} picture at 720p30 of 1.7 Mb/s`),
  })),
  {
    head: "cancels", within: ["service"], nature: "choice", once: true, negatable: true,
    slots: [{ id: "what", takes: { kind: "word", words: { echo: "what the device itself plays is taken out of what it sends" } }, required: true, meaning: "the word `echo`" }],
    meaning: "Whether its program cancels echo, on every device that does not say otherwise.", example: service("cancels echo"),
  },
  {
    head: "suppresses", within: ["service"], nature: "choice", once: true, negatable: true,
    slots: [{ id: "what", takes: { kind: "word", words: { noise: "what is no speech is taken out" } }, required: true, meaning: "the word `noise`" }],
    meaning: "Whether its program suppresses noise, on every device that does not say otherwise.", example: service("suppresses no noise"),
  },
  ...([
    ["captions", { made: "it writes along by itself", none: "it does not" }, "Whether it makes captions."],
    ["dial-in", { offered: "one can take part by telephone", none: "one cannot" }, "Whether an ordinary telephone can take part."],
    ["recording", { service: "the service keeps it", device: "a device in the call keeps it", none: "nothing is kept" }, "Where the call can be recorded. Those who speak are asked first."],
  ] as const).map(([head, words, meaning]): Row => ({
    head, within: ["service"], nature: "fact", once: true,
    slots: [{ id: "how", takes: { kind: "word", words }, required: true, meaning: "which" }], meaning, example: service(`${head} none`),
  })),
  {
    head: "account", within: ["join"], nature: "choice", once: true,
    slots: [{ id: "name", takes: { kind: "who" }, required: true, meaning: "the account, or the name of a guest" }],
    meaning: "Under which account, or as which guest, the device joins.", example: evening('join laptop { account "the choir" }\njoin phone { account phone, sends no sound, plays no sound }'),
  },
  {
    head: "large", within: ["call"], nature: "choice", during: {},
    slots: [
      { id: "of", takes: { kind: "name", of: ["device", "part", "port"] }, meaning: "the picture of which camera" },
      { id: "what", takes: { kind: "word", words: { content: "what is presented", speaker: "whoever speaks", alike: "all pictures alike" } }, meaning: "or one of these" },
    ],
    meaning: "Which picture the people online see large; the others are small beside it.", example: evening("call { large laptop.camera }\njoin laptop"),
  },
];
