/** What one asks of any venue: the blank survey sheet, as data. */

export interface Blank {
  readonly ask: string;
  /** What is filled in, with room to write where the row of dots stands. */
  readonly fill: string;
}

export interface Group {
  readonly title: string;
  readonly blanks: readonly Blank[];
  /** Statements of the language that take up what was found, with example figures. */
  readonly write: readonly string[];
}

/** Grouped so that one walks through the venue once: in at the door, along the walls, to the internet, and out again. */
export const FORM: readonly Group[] = [
  {
    title: "The room",
    blanks: [
      { ask: "Length (front to back), width, height", fill: "… × … × … m" },
      { ask: "Which wall does the audience face? Pillars, alcoves, steps", fill: "…" },
      { ask: "Floor, walls, ceiling are made of", fill: "…" },
      { ask: "Curtains (thin or heavy) and bare glass", fill: "… m² / … m²" },
      { ask: "Clap once: how long until it has died away?", fill: "… s" },
      { ask: "How loud is it with heating and ventilation on?", fill: "… dBA" },
    ],
    write: ["room hall 9.2 m by 6.4 m by 3.1 m", "clap dies in about 1 s", "noise 41 dBA measured 2026-10-07 18:40", "curtains heavy 12 m2"],
  },
  {
    title: "Seats and ways",
    blanks: [
      { ask: "Chairs, rows, tables", fill: "… in … rows" },
      { ask: "First row from the front wall; row to row", fill: "… m; … m" },
      { ask: "Gangways and exits that must stay clear", fill: "…" },
      { ask: "Places for wheelchairs; is there a hearing loop?", fill: "…" },
    ],
    write: ["chairs 24 in 4 rows { first 3.2 m, pitch 0.9 m }"],
  },
  {
    title: "Picture and light",
    blanks: [
      { ask: "Screen or bare light wall: width, lower edge above the floor", fill: "… m, … m" },
      { ask: "Display that is there: size, which socket, who may use it?", fill: "…" },
      { ask: "Windows behind the lectern or beside the screen? Blinds?", fill: "…" },
      { ask: "Can the lamps over the screen be switched off alone?", fill: "…" },
    ],
    write: ["screen front-screen at front, width 2.0 m", "spot lectern at (1.0 m, 2.6 m)"],
  },
  {
    title: "Power (ask the caretaker; leave the fuse board to those who may open it)",
    blanks: [
      { ask: "Outlets: where, how many sockets, rated", fill: "… A" },
      { ask: "Which of them share one fuse? What else runs on it (urn, heater)?", fill: "…" },
      { ask: "May leads cross a walkway if they are bridged or taped down?", fill: "…" },
    ],
    write: ["outlet back-wall at back, sockets 2, rated 13 A"],
  },
  {
    title: "Internet (measure on the same weekday, at the same hour)",
    blanks: [
      { ask: "Up, down, there and back", fill: "… Mb/s, … Mb/s, … ms" },
      { ask: "Network socket: where? May it be used?", fill: "…" },
      { ask: "Wireless: name, password from whom, a page to sign in on?", fill: "…" },
      { ask: "Who else uses it at that hour?", fill: "…" },
      { ask: "Mobile reception in the room and at the window: up", fill: "… Mb/s" },
    ],
    write: ["internet venue { up 4.0 Mb/s measured 2026-10-07 18:40, down 22 Mb/s measured 2026-10-07 18:40 }"],
  },
  {
    title: "Sound that is there",
    blanks: [
      { ask: "Loudspeakers, microphones, mixer: who may use them, which sockets?", fill: "…" },
      { ask: "Noise at that hour: street, bar, choir next door, bells", fill: "…" },
    ],
    write: [],
  },
  {
    title: "Keys and people",
    blanks: [
      { ask: "In from, out by; keys, alarm, heating", fill: "…" },
      { ask: "Caretaker on the evening: name and telephone", fill: "…" },
      { ask: "Unloading, steps, lift", fill: "…" },
      { ask: "May we take pictures and record? Who else is in the house?", fill: "…" },
      { ask: "Tape on the floor, stands, candles: what is not allowed?", fill: "…" },
    ],
    write: ["meeting { access 17:30, start 18:30, end 20:30 }"],
  },
];
