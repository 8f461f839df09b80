/** Every way across, broken in every kind of place; and echoes that are none. Names are invented. */
import { BEAMER, BOX, hall, IN_ORDER, JOIN, LAPEL } from "../study/setups";
import type { Pair } from "./harness";

const all = hall(IN_ORDER);
const covered = (pair: Omit<Pair, "code" | "doesNot" | "severity"> & Partial<Pair>): Pair => ({ code: "uncovered-direction", severity: "error", doesNot: all, ...pair });
const swap = (text: string, from: string, to: string): string => {
  if (!text.includes(from)) throw new Error(`the text has no “${from}”`);
  return text.replace(from, to);
};
const without = (text: string, line: string): string => swap(text, line, "");

/** A loudspeaker that needs an outlet, on a cable. */
const LOUD = `place box is mains-loudspeaker, at (0.6 m, 4.8 m), aim audience
cable from laptop.headset to box.line
mains from left-wall to box
`;
const EYE = `place eye is webcam, at (4 m, 3.2 m), aim Ines
cable from eye.usb to laptop.usb-1
`;
const DESK = `place desk is mixer, at operator
mains from back-wall to desk
place stand is gooseneck-microphone, at Ines
cable from stand.plug to desk.in-1
cable from desk.usb to laptop.usb-1
`;
const loud = hall(`${LOUD}${BEAMER}join laptop { sends sound, plays sound on box, shows call on beamer }\n`);
const eye = hall(BOX + LAPEL + BEAMER + EYE + swap(JOIN, " }\n", ", sends picture from eye }\n"));
const desk = hall(`${BOX}${BEAMER}${DESK}join laptop { sends sound from desk, plays sound on box, shows call on beamer }\n`);
const bus = (holds: string): string => `${desk}mixer desk {\n  channel speech from desk.in-1\n  bus far-end to desk.usb { ${holds} }\n}\n`;
/** What the laptop plays goes through an interface into the desk, and from the desk back into the laptop. */
const circle = (said: string): string => hall(`${DESK}place turn is sound-interface, at operator
cable from turn.usb to laptop.usb-2
cable from turn.out-1 to desk.in-7
join laptop { sends sound from desk, plays sound on turn${said} }
`);
const second = (said: string): string => `${all}place second is laptop, at (4 m, 1 m)
mains from left-wall to second
place ears is wired-headset, at (4 m, 1 m)
cable from ears.plug to second.headset
join second { sends no picture, plays sound on ears, ${said} }
`;
const phone = (said: string): string => `${all}place phone is phone, at (3 m, 3 m)\njoin phone { sends no picture, ${said} }\n`;
const pod = (said: string): string => hall(`${BOX}place pod is conference-speakerphone, at (3.0 m, 3.2 m)\ncable from pod.usb to laptop.usb-1\njoin laptop { sends sound from pod, plays sound on box, ${said} }\n`);

const WAYS_BROKEN: readonly Pair[] = [
  // The room hears the people online.
  covered({ about: "room hears online: no power at the loudspeaker", subjects: ["box"], raises: without(loud, "mains from left-wall to box\n"), doesNot: loud, fix: "Plug box into left-wall" }),
  covered({ about: "room hears online: the cable in a port that gives no sound", subjects: ["laptop", "box"], raises: swap(loud, "laptop.headset to box.line", "laptop.usb-1 to box.line"), doesNot: loud, fix: "Run the cable from laptop.headset to box.line" }),
  covered({
    about: "room hears online: earphones are no loudspeaker", subjects: ["laptop"], fix: "Let laptop play sound",
    raises: hall(`${swap(LAPEL, "lapel-microphone", "wired-headset")}${BEAMER}join laptop { sends sound from lapel, plays sound on lapel, shows call on beamer }\n`),
    doesNot: hall(`${swap(LAPEL, "lapel-microphone", "wired-headset")}${BEAMER}join laptop { sends sound from lapel, plays sound, shows call on beamer }\n`),
  }),
  // The people online hear the room.
  covered({ about: "online hears room: no power at the mixer", subjects: ["desk"], raises: without(desk, "mains from back-wall to desk\n"), doesNot: desk, fix: "Plug desk into back-wall" }),
  covered({ about: "online hears room: a mixer with no microphone in it", subjects: ["laptop"], raises: without(desk, "cable from stand.plug to desk.in-1\n"), doesNot: desk }),
  covered({ about: "online hears room: the channel taken off the bus", subjects: ["laptop"], raises: bus("holds no speech"), doesNot: bus("holds speech") }),
  // The room sees the people online.
  covered({ about: "room sees online: no cable", subjects: ["laptop", "beamer"], raises: without(all, "cable from laptop.hdmi to beamer.hdmi\n"), fix: "Run a cable from laptop.hdmi to beamer.hdmi" }),
  covered({ about: "room sees online: no power", subjects: ["beamer"], raises: without(all, "mains from back-wall to beamer\n"), fix: "Plug beamer into left-wall" }),
  covered({ about: "room sees online: a port that carries no picture", subjects: ["laptop", "beamer"], raises: swap(all, "laptop.hdmi to beamer.hdmi", "laptop.usb-1 to beamer.hdmi"), fix: "Run the cable from laptop.hdmi to beamer.hdmi" }),
  // The people online see the room.
  covered({ about: "online sees room: no cable", subjects: ["laptop", "eye"], raises: without(eye, "cable from eye.usb to laptop.usb-1\n"), doesNot: eye, fix: "Run a cable from eye.usb to laptop.usb-1" }),
  covered({ about: "online sees room: a port that takes no picture", subjects: ["laptop", "eye"], raises: swap(eye, "cable from eye.usb to laptop.usb-1", "cable from eye.usb to laptop.headset"), doesNot: eye, fix: "Run the cable from eye.usb to laptop.usb-1" }),
];

const ECHOES: readonly Pair[] = [
  {
    code: "echo-path", about: "back through a mixer by the very device that plays: its own canceller holds it, and nothing else", severity: "error", subjects: ["laptop"],
    raises: circle(", cancels no echo"), doesNot: circle(""), fix: "Switch echo cancellation on at laptop",
  },
  {
    code: "echo-path", about: "a second listener with earphones: no echo unless the headset's microphone is live", severity: "error", subjects: ["second", "laptop"],
    raises: second("sends sound from ears"), doesNot: second("sends no sound"), fix: "Turn off the sound of second",
  },
  {
    code: "echo-path", about: "the canceller of one device does not hold what another plays", severity: "error", subjects: ["phone", "laptop"],
    raises: phone("cancels echo"), doesNot: phone("cancels echo, sends no sound, plays no sound"), fix: "Turn off the sound of phone",
  },
  {
    code: "hears-itself", about: "a second device that only sends: the first one plays in the room what it hears there", severity: "error", subjects: ["phone"],
    raises: phone("plays no sound"), doesNot: phone("plays no sound, sends no sound"), fix: "Turn off the sound of phone",
  },
  {
    code: "canceller-blind", about: "the same speakerphone with the program's canceller on", severity: "error", subjects: ["pod", "box"],
    raises: pod("cancels no echo"), doesNot: pod("cancels echo"), fix: "Switch the canceller of laptop on",
  },
];

export const BREAKS: readonly Pair[] = [...WAYS_BROKEN, ...ECHOES];
