import type { Row, Takes } from "./row";

const evening = (lines: string): string =>
  `setup "Choir committee"\nroom hall 8 m by 6 m\nplace laptop is laptop, at lectern\nplace hub is access-point, at back\nplace upstairs is powerline-adapter, at left\nplace downstairs is powerline-adapter, at right\nplace phone is phone, at operator\n${lines}\n`;
const q = (dimension: Extract<Takes, { kind: "quantity" }>["dimension"], min: number, max: number): Takes => ({ kind: "quantity", dimension, min, max });

/** Through what each device reaches the internet, what the way allows, and in which order things are given up on it. */
export const NETWORK_ROWS: readonly Row[] = [
  {
    head: "powerline", within: ["file"], nature: "choice", body: "link",
    slots: [
      { id: "from", after: "from", takes: { kind: "name", of: ["device"] }, required: true, meaning: "one adapter of the pair" },
      { id: "to", after: "to", takes: { kind: "name", of: ["device"] }, required: true, meaning: "the other one" },
    ],
    meaning: "A pair of powerline adapters: the network goes over the mains wires between them. Plug them straight into the wall; what they carry has to be measured.",
    example: evening("powerline from upstairs to downstairs, rate 18 Mb/s measured 2026-10-07 18:40"),
  },
  {
    head: "rate", within: ["link"], nature: "fact", once: true,
    slots: [{ id: "rate", takes: q("rate", 1e3, 1e12), required: true, meaning: "as measured from end to end, one way" }],
    meaning: "How much a cable, a radio link or a powerline pair was measured to carry.",
    example: evening("radio from laptop.wifi to hub.wifi, rate 20 Mb/s measured 2026-10-07 18:40"),
  },
  {
    head: "signal", within: ["link", "internet"], nature: "fact", once: true,
    slots: [{ id: "level", takes: q("level", -120, 0), required: true, meaning: "in dBm, as the device shows it" }],
    meaning: "How strong the wireless network is where it is used.", example: evening("radio from laptop.wifi to hub.wifi, signal -63 dBm"),
  },
  {
    head: "margin", within: ["link", "internet"], nature: "fact", once: true,
    slots: [{ id: "level", takes: q("level", -20, 90), required: true, meaning: "signal over noise" }],
    meaning: "How far the wireless network stands above the noise where it is used.", example: evening("radio from laptop.wifi to hub.wifi, margin 28 dB"),
  },
  {
    head: "enters", within: ["internet"], nature: "fact", once: true,
    slots: [{ id: "at", after: "at", takes: { kind: "name", of: ["device"] }, required: true, meaning: "the router, the socket's switch or the access point that everything goes through" }],
    meaning: "Where the way from the joined devices ends and the internet begins.", example: evening("internet venue { enters at hub }"),
  },
  {
    head: "login", within: ["internet"], nature: "fact", once: true,
    slots: [{ id: "for", after: "for", takes: q("time", 60, 8.64e6), required: true, meaning: "how long it holds" }],
    meaning: "The network asks for a login on a page of its own, and asks again after so long.", example: evening("internet guests { up 6 Mb/s, login for 1 h }"),
  },
  {
    head: "allowance", within: ["internet"], nature: "fact", once: true,
    slots: [{ id: "data", takes: q("data", 8e6, 8e15), required: true, meaning: "what is left of it for the meeting" }],
    meaning: "How much data may pass, both ways together.", example: evening("internet router { up 8 Mb/s, allowance 5 GB }"),
  },
  {
    head: "ipv6", within: ["internet"], nature: "fact", once: true, slots: [],
    meaning: "Packets carry the longer headers of version 6 of the internet protocol; version 4 is counted with where nothing is said.", example: evening("internet venue { up 6 Mb/s, ipv6 }"),
  },
  {
    head: "codec", within: ["call"], nature: "choice", once: true,
    slots: [{ id: "name", takes: { kind: "word", words: {
      vp8: "older and undemanding; counted with where nothing is said", h264: "as VP8, and widely built in", vp9: "needs about two thirds of that", av1: "likewise, and more of the processor", h265: "likewise",
    } }, required: true, meaning: "which" }],
    meaning: "In which standard pictures are coded, where one can choose.", example: evening("call { codec vp9 }"),
  },
  {
    head: "packets", within: ["call"], nature: "choice", once: true,
    slots: [{ id: "every", takes: q("time", 0.0025, 0.12), required: true, meaning: "how much sound one packet holds; 20 ms where nothing is said",
      default: { best: 0.02, low: 0.02, high: 0.02, source: "RFC 7587 §4.2, the default" } }],
    meaning: "How often a packet of sound leaves. Longer packets need fewer headers, and lose more at once.", example: evening("call { packets 40 ms }"),
  },
  {
    head: "keeps", within: ["call"], nature: "wish", once: true,
    slots: [{ id: "what", takes: { kind: "name", of: ["device", "part"] }, required: true, many: true, meaning: "cameras, and joined devices for what they present, the most important first" }],
    meaning: "What is kept longest when the internet is thin, in that order: sound comes before all of it, whatever is not named after. Where nothing is said: what is presented, the first picture, the others.",
    example: evening("call { keeps laptop.camera and phone }\njoin laptop\njoin phone"),
  },
];
