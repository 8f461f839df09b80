import type { Row, Takes } from "./row";

const q = (dimension: Extract<Takes, { kind: "quantity" }>["dimension"], min: number, max: number): Takes => ({ kind: "quantity", dimension, min, max });
const kind = (type: string, line: string): string => `kind thing is a ${type} {\n  ${line}\n}\n`;
const hall = (lines: string): string => `room hall 9 m by 6.4 m by 3.1 m {\n  ${lines.replace(/\n/g, "\n  ")}\n}\n`;
const evening = (lines: string): string =>
  `setup "Film evening"\nroom hall 8 m by 6 m\ntalker Ines at lectern\nplace laptop is laptop, at lectern\nplace tv is flat-display, at front\ncable from laptop.hdmi to tv.hdmi\n${lines}\n`;

/** What decides how pictures are shown, taken and lit, beyond how large they are and where things stand. */
export const OPTICS_ROWS: readonly Row[] = [
  {
    head: "aspect", within: ["device", "surface"], nature: "fact", once: true,
    slots: [{ id: "ratio", takes: { kind: "ratio" }, required: true, meaning: "width to height" }],
    meaning: "The shape of a picture; 16:9 where nothing is said.", example: kind("display", "aspect 16:10"),
  },
  {
    head: "pixels", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "mode", takes: { kind: "mode" }, required: true, meaning: "across and down" }],
    meaning: "How many pixels a display, a projector or a camera has.", example: kind("display", "pixels 1920x1080"),
  },
  {
    head: "brightness", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "luminance", takes: q("luminance", 1, 20000), required: true, meaning: "of white",
      default: { best: 300, low: 200, high: 450, source: "common practice, no source" } }],
    meaning: "How bright a display is. Of a projector say its `light`.", example: kind("display", "brightness 350 cd/m2"),
  },
  {
    head: "throw", within: ["device"], nature: "fact", once: true,
    slots: [
      { id: "ratio", takes: q("ratio", 0.1, 20), required: true, meaning: "distance to width of the picture, the least of a lens that zooms",
        default: { best: 1.5, low: 1.2, high: 2, source: "common practice, no source" } },
      { id: "to", after: "to", takes: q("ratio", 0.1, 20), meaning: "the most of a lens that zooms" },
    ],
    meaning: "The throw ratio of a projector's lens: how far away it stands for a picture one metre wide.", example: kind("projector", "throw 1.2 to 1.6"),
  },
  {
    head: "keystone", within: ["device"], nature: "fact", once: true,
    slots: [
      { id: "angle", takes: q("angle", 0, 60), required: true, meaning: "up or down",
        default: { best: 30, low: 15, high: 40, source: "common practice, no source" } },
      { id: "sideways", after: "by", takes: q("angle", 0, 60), meaning: "to the side",
        default: { best: 15, low: 0, high: 40, source: "common practice, no source" } },
    ],
    meaning: "How far a projector may be tilted, or turned aside, and still make its picture square again.", example: kind("projector", "keystone 30 deg by 15 deg"),
  },
  {
    head: "viewing-angle", within: ["device"], nature: "fact", once: true,
    slots: [
      { id: "horizontal", takes: q("angle", 10, 180), required: true, meaning: "from side to side, the whole of it" },
      { id: "vertical", after: "by", takes: q("angle", 10, 180), meaning: "from top to bottom" },
    ],
    meaning: "From how far round a display can be looked at.", example: kind("display", "viewing-angle 120 deg by 80 deg"),
  },
  {
    head: "gain", within: ["surface"], nature: "fact", once: true,
    slots: [{ id: "factor", takes: q("ratio", 0.1, 10), required: true, meaning: "beside a surface that scatters all light evenly",
      default: { best: 0.9, low: 0.7, high: 1.1, source: "common practice, no source" } }],
    meaning: "How much light a screen gives back straight ahead. More than 1 lifts the picture above the light of the room; less takes as much off both.", example: hall("screen front-screen at front, width 2 m, gain 1.1"),
  },
  {
    head: "light", within: ["room", "file"], nature: "choice", during: { key: "on" },
    slots: [
      { id: "level", takes: q("illuminance", 0, 100000), required: true, meaning: "as a light meter reads it" },
      { id: "on", after: "on", takes: { kind: "word", words: { screen: "what falls on the picture besides the picture itself", faces: "upright, on the faces of those who speak", tables: "level, on tables" } }, meaning: "on what; in the room where nothing is said" },
    ],
    meaning: "How much light there is in the room during the meeting.", example: hall("light 300 lx\nlight 60 lx on screen measured 2026-10-07 18:40"),
  },
  {
    head: "lamps", within: ["room", "file"], nature: "choice", during: { key: "which" },
    slots: [
      { id: "which", takes: { kind: "word", words: { all: "every lamp", front: "those near the front wall", back: "those behind" } }, required: true, meaning: "which" },
      { id: "how", takes: { kind: "word", words: { on: "switched on", dimmed: "turned down", off: "switched off" } }, required: true, meaning: "on, dimmed or off" },
    ],
    meaning: "Which lamps are on.", example: hall("lamps front off"),
  },
  {
    head: "purpose", within: ["shows"], nature: "wish", once: true,
    slots: [{ id: "of", takes: { kind: "word", words: {
      glance: "one sees what it is: faces, a film", reading: "one reads it: slides, tables of figures", inspection: "every detail counts: plans, maps, code",
    } }, required: true, meaning: "which" }],
    meaning: "What people have to make out in what is shown. It sets the contrast that is wanted, 7, 15 or 50 to 1; nothing is read at a glance, for reading letters count, and for inspection every line of the picture. Where nothing is said, slides are read, and everything is to be as clear as for reading.", example: evening("join laptop { shows slides on tv, purpose inspection }"),
  },
  {
    head: "sensor", within: ["device"], nature: "fact", once: true,
    slots: [
      { id: "width", takes: q("length", 0.001, 0.1), required: true, meaning: "the long way" },
      { id: "height", after: "by", takes: q("length", 0.001, 0.1), required: true, meaning: "the other way" },
    ],
    meaning: "The size of a camera's sensor. With `focal-length` it gives the view, where none is stated.", example: kind("camera", "sensor 23.6 mm by 15.6 mm, focal-length 35 mm"),
  },
  {
    head: "focal-length", within: ["device"], nature: "choice", once: true,
    slots: [
      { id: "length", takes: q("length", 0.001, 2), required: true, meaning: "as printed on the lens, the shortest of one that zooms" },
      { id: "to", after: "to", takes: q("length", 0.001, 2), meaning: "the longest of one that zooms" },
    ],
    meaning: "The focal length of a camera's lens, as it is and not as for another sensor.", example: kind("camera", "sensor 36 mm by 24 mm\n  focal-length 24 mm to 70 mm"),
  },
  {
    head: "zoom", within: ["device"], nature: "fact", once: true,
    slots: [{ id: "factor", takes: q("ratio", 1, 100), required: true, meaning: "how many times longer its longest focal length is than its shortest" }],
    meaning: "How far a camera can be zoomed in from its widest view, which is the `view` that is stated. How far it is zoomed in, `zoomed` says. Of a projector's lens that zooms say both ends of its `throw`.", example: kind("camera", "view 60 deg\n  zoom 12 times"),
  },
  {
    head: "zoomed", within: ["device"], nature: "choice", once: true,
    slots: [{ id: "factor", takes: q("ratio", 1, 100), required: true, meaning: "how many times from the widest view" }],
    meaning: "How far a camera is zoomed in; not at all where nothing is said, but for a lens of which two focal lengths are stated.", example: evening("place eye is webcam, on table at middle, aim Ines, zoom 5 times, zoomed 2 times"),
  },
  {
    head: "tilt", within: ["place"], nature: "choice", once: true,
    slots: [
      { id: "angle", takes: q("angle", 0, 90), required: true, meaning: "from level" },
      { id: "way", takes: { kind: "word", words: { down: "downwards", up: "upwards" } }, required: true, meaning: "up or down" },
    ],
    meaning: "How far a camera or a projector is tilted, where `aim` does not say it.", example: evening("place eye is webcam, on table at middle, tilt 10 deg down"),
  },
  {
    head: "exposure", within: ["device"], nature: "choice", once: true,
    slots: [{ id: "time", takes: q("time", 1e-5, 1), required: true, meaning: "for each picture" }],
    meaning: "How long a camera exposes each picture. What does not go with the mains, 20 ms or 10 ms at 50 Hz, flickers under lamps.", example: kind("camera", "exposure 20 ms"),
  },
  {
    head: "output", within: ["device"], nature: "choice", once: true,
    slots: [{ id: "how", takes: { kind: "word", words: { clean: "the picture alone", overlaid: "with what its own screen shows: marks, battery, focus" } }, required: true, meaning: "clean or overlaid" }],
    meaning: "What a camera's output shows.", example: kind("camera", "output clean"),
  },
];
