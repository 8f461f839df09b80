import { CONNECTOR_WORDS, DEVICE_TYPES } from "./connectors";
import type { Row, Takes } from "./row";

const q = (dimension: Extract<Takes, { kind: "quantity" }>["dimension"], min: number, max: number): Takes => ({ kind: "quantity", dimension, min, max });
const kind = (type: string, line: string): string => `kind thing is a ${type} {\n  ${line.replace(/\n/g, "\n  ")}\n}\n`;
const ON: Readonly<Record<string, string>> = {
  mains: "from an outlet", battery: "from its own battery", usb: "from the port it is plugged into", phantom: "from a microphone input",
  nothing: "needs no power",
};
const SIGNALS: Readonly<Record<string, string>> = {
  sound: "sound", picture: "picture", network: "network", power: "power",
};

/** Kinds, devices, their parts and ports. What a thing is, is a fact; whose it is, too. */
export const KIT_ROWS: readonly Row[] = [
  {
    head: "kind", within: ["file"], nature: "fact", body: "device",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "kind" }, required: true, meaning: "what the kind is called" },
      { id: "type", after: "is", takes: { kind: "word", words: DEVICE_TYPES }, required: true, meaning: "what it is, with or without `a`" },
    ],
    meaning: "A kind of device, with the figures of its data sheet.", example: kind("camera", "view 70 deg\nport usb is usb-b, gives picture\nruns on usb"),
  },
  {
    head: "device", within: ["file"], nature: "fact", body: "device",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "device" }, required: true, meaning: "what it is called" },
      { id: "kind", after: "is", takes: { kind: "name", of: ["kind"] }, required: true, meaning: "of which kind" },
    ],
    meaning: "A thing that somebody owns. It is in use once a setup places it.", example: "device stage-camera is webcam, owned by Teo\n",
  },
  {
    head: "devices", within: ["file"], nature: "fact", body: "device",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "device" }, required: true, meaning: "what they are called, before the number" },
      { id: "first", takes: q("count", 0, 9999), required: true, meaning: "the first number" },
      { id: "last", after: "to", takes: q("count", 0, 9999), required: true, meaning: "the last number" },
      { id: "kind", after: "is", takes: { kind: "name", of: ["kind"] }, required: true, meaning: "of which kind" },
    ],
    meaning: "Several alike: `mic 1 to 12` are mic-1 … mic-12, and `each mic` means all of them.", example: "devices mic 1 to 12 is gooseneck-microphone\n",
  },
  {
    head: "owned", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "by", after: "by", takes: { kind: "who" }, required: true, meaning: "by whom" }],
    meaning: "Whose it is.", example: 'device box is battery-loudspeaker, owned by "the choir"\n',
  },
  {
    head: "borrowed", within: ["device"], nature: "choice", once: true,
    slots: [{ id: "from", after: "from", takes: { kind: "who" }, required: true, meaning: "from whom" }],
    meaning: "From whom it is borrowed.", example: 'device box is battery-loudspeaker, borrowed from "the school"\n',
  },
  {
    head: "part", within: ["device"], nature: "fact", body: "device",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "part" }, required: true, meaning: "what it is called: `laptop.camera`" },
      { id: "type", after: "is", takes: { kind: "word", words: { camera: "takes a picture", microphone: "picks up sound", loudspeaker: "plays sound to the room", earphones: "plays sound to whoever wears it", display: "shows a picture" } }, required: true, meaning: "what it is" },
    ],
    meaning: "A part of a device that picks up, plays or shows.", example: kind("computer", "part camera is a camera { view 62 deg }"),
  },
  {
    head: "port", within: ["device"], nature: "fact", body: "port",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "port" }, required: true, meaning: "what it is called: `laptop.hdmi`" },
      { id: "connector", after: "is", takes: { kind: "word", words: CONNECTOR_WORDS }, required: true, meaning: "which connector or radio" },
    ],
    meaning: "Where a cable or a radio link ends.", example: kind("computer", "port hdmi is hdmi, gives picture and sound"),
  },
  {
    head: "ports", within: ["device"], nature: "fact", body: "port",
    slots: [
      { id: "name", takes: { kind: "new-name", of: "port" }, required: true, meaning: "what they are called, before the number" },
      { id: "first", takes: q("count", 0, 999), required: true, meaning: "the first number" },
      { id: "last", after: "to", takes: q("count", 0, 999), required: true, meaning: "the last number" },
      { id: "connector", after: "is", takes: { kind: "word", words: CONNECTOR_WORDS }, required: true, meaning: "which connector" },
    ],
    meaning: "Several ports alike: `in 1 to 8` are in-1 … in-8.", example: kind("mixer", "ports in 1 to 8 is xlr, takes sound, phantom"),
  },
  {
    head: "gives", within: ["port"], nature: "fact", once: true,
    slots: [
      { id: "what", takes: { kind: "word", words: SIGNALS }, required: true, many: true, meaning: "what comes out of it" },
      { id: "power", after: "at", takes: q("power", 0, 300), meaning: "how much power, for `gives power`" },
    ],
    meaning: "What comes out of a port. Without `gives` and `takes` a port does both, as its connector can.",
    example: kind("computer", "port usb-c is usb-c, gives power and picture at 15 W"),
  },
  {
    head: "takes", within: ["port"], nature: "fact", once: true,
    slots: [{ id: "what", takes: { kind: "word", words: SIGNALS }, required: true, many: true, meaning: "what goes into it" }],
    meaning: "What goes into a port.", example: kind("loudspeaker", "port line is jack-6, takes sound"),
  },
  {
    head: "host", within: ["port"], nature: "fact", once: true, slots: [],
    meaning: "A USB port that others are plugged into: it takes what they give and gives what they take.", example: kind("computer", "ports usb 1 to 2 is usb-a, host"),
  },
  {
    head: "phantom", within: ["port"], nature: "fact", once: true, slots: [],
    meaning: "Can feed a microphone with 48 V.", example: kind("interface", "port in-1 is xlr, takes sound, phantom"),
  },
  {
    head: "runs", within: ["device"], nature: "fact",
    slots: [
      { id: "on", after: "on", takes: { kind: "word", words: ON }, many: true, meaning: "from what it takes its power; any one of them will do" },
      { id: "for", after: "for", takes: q("time", 0, 3.2e6), meaning: "how long on its own battery" },
    ],
    meaning: "What a device runs on, and for how long on its own battery.", example: kind("microphone", "runs on battery\nruns for 6 h"),
  },
  {
    head: "draws", within: ["device", "circuit"], nature: "fact", once: true,
    slots: [{ id: "power", takes: q("power", 0, 50000), required: true, meaning: "while in use" }],
    meaning: "How much power it takes while in use. Of a circuit: what hangs on it besides, heaters, an urn, the fridge.", example: kind("projector", "runs on mains\ndraws 240 W"),
  },
  {
    head: "battery", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "energy", takes: q("energy", 0, 4e7), required: true, meaning: "as printed on it" }],
    meaning: "The energy of its battery when new.", example: kind("loudspeaker", "runs on battery\nbattery 60 Wh\ndraws 8 W"),
  },
  {
    head: "sockets", within: ["device", "outlet"], nature: "fact", once: true,
    slots: [{ id: "count", takes: q("count", 1, 200), required: true, meaning: "how many plugs it takes" }],
    meaning: "How many plugs go in.", example: kind("lead", "sockets 4\nlength 10 m"),
  },
  {
    head: "rated", within: ["device", "outlet", "circuit"], nature: "fact", once: true,
    slots: [{ id: "current", takes: q("current", 1, 125), required: true, meaning: "as printed on it or on its breaker" }],
    meaning: "What it may carry. Do not guess: ask the venue. A rule of the venue below it is a limit: limit circuit-overload 80 %.", example: kind("lead", "sockets 4\nrated 13 A"),
  },
  {
    head: "wound", within: ["device"], nature: "choice", once: true, slots: [],
    meaning: "An extension lead that stays wound up on its drum. Under load it gets hot: unwind all of it.", example: "device drum is extension-lead, wound\n",
  },
  {
    head: "length", within: ["device", "link"], nature: "fact", once: true,
    slots: [{ id: "length", takes: q("length", 0.05, 500), required: true, meaning: "from plug to plug" }],
    meaning: "How long a lead or a cable is.", example: kind("lead", "length 10 m"),
  },
  {
    head: "pattern", within: ["device", "place"], nature: "choice", once: true,
    slots: [{ id: "pattern", takes: { kind: "word", words: {
      omni: "alike from all sides", cardioid: "weak from behind", supercardioid: "narrower, a little from behind", hypercardioid: "narrowest, some from behind", "figure-8": "front and back, not the sides",
    } }, required: true, meaning: "which" }],
    meaning: "From where a microphone picks up.", example: kind("microphone", "pattern cardioid"),
  },
  {
    head: "mouth", within: ["device", "place"], nature: "choice", once: true,
    slots: [{ id: "distance", takes: q("length", 0.01, 10), required: true, meaning: "from the mouth" }],
    meaning: "How far from the mouth it is used.", example: kind("microphone", "mouth 10 cm to 20 cm"),
  },
  {
    head: "speech-level", within: ["device", "talker"], nature: "fact", once: true,
    slots: [{ id: "level", takes: q("level", 30, 130), required: true, meaning: "A-weighted, at 1 m" }],
    meaning: "For a loudspeaker the loudest speech that it plays cleanly; for a talker how loud one speaks.", example: kind("loudspeaker", "speech-level 82 dBA"),
  },
  {
    head: "directivity", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "factors", takes: q("ratio", 0.5, 200), required: true, many: true, exactly: 7, meaning: "seven factors Q, for 125 Hz to 8 kHz" }],
    meaning: "How much a loudspeaker aims its sound, by octave band.", example: kind("loudspeaker", "directivity 1 1.3 1.8 2.5 4 6 9"),
  },
  {
    head: "coverage", within: ["device"], nature: "fact", once: true,
    slots: [
      { id: "horizontal", takes: q("angle", 5, 360), required: true, meaning: "from side to side" },
      { id: "vertical", after: "by", takes: q("angle", 5, 360), required: true, meaning: "from top to bottom" },
    ],
    meaning: "The angles over which a loudspeaker covers, as data sheets give them.", example: kind("loudspeaker", "coverage 90 deg by 60 deg"),
  },
  {
    head: "view", within: ["device", "place"], nature: "fact", once: true,
    slots: [
      { id: "angle", takes: q("angle", 1, 180), required: true, meaning: "of the picture" },
      { id: "way", takes: { kind: "word", words: { horizontal: "from side to side", vertical: "from top to bottom", diagonal: "from corner to corner" } }, meaning: "measured how; horizontal where nothing is said" },
    ],
    meaning: "How much a camera sees.", example: kind("camera", "view 78 deg diagonal"),
  },
  {
    head: "diagonal", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "length", takes: q("length", 0.05, 20), required: true, meaning: "from corner to corner" }],
    meaning: "The size of a display.", example: kind("display", "diagonal 55 inch"),
  },
  {
    head: "width", within: ["device", "surface"], nature: "fact", once: true,
    slots: [{ id: "length", takes: q("length", 0.05, 100), required: true, meaning: "from side to side" }],
    meaning: "How wide a display or a surface is.", example: kind("display", "width 1.2 m"),
  },
  {
    head: "light", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "flux", takes: q("luminous-flux", 1, 100000), required: true, meaning: "as printed", default: { best: 3000, low: 2000, high: 4500, source: "planning guide, common practice" } }],
    meaning: "How much light a projector gives.", example: kind("projector", "light 3200 lm"),
  },
  {
    head: "delay", within: ["device", "port", "link"], nature: "fact", once: true,
    slots: [{ id: "time", takes: q("time", 0, 5), required: true, meaning: "from what goes in to what comes out" }],
    meaning: "How late sound or picture comes out.", example: kind("loudspeaker", "port bluetooth is bluetooth, takes sound, delay 200 ms"),
  },
  {
    head: "cancels", within: ["device", "join"], nature: "choice", during: {}, negatable: true,
    slots: [{ id: "what", takes: { kind: "word", words: { echo: "what the unit itself plays is taken out of what it sends" } }, required: true, meaning: "the word `echo`" }],
    meaning: "Whether there is an echo canceller. It holds only what its own unit plays.", example: kind("speakerphone", "cancels echo"),
  },
  {
    head: "stops", within: ["device"], nature: "fact", once: true,
    slots: [
      { id: "what", takes: { kind: "word", words: { recording: "what it records itself; its output goes on", output: "what it gives out" } }, meaning: "what stops; the whole camera where nothing is said" },
      { id: "after", after: "after", takes: q("time", 1, 864000), required: true, meaning: "after how long" },
    ],
    meaning: "A camera that switches itself off.", example: kind("camera", "stops recording after 29 min"),
  },
];
