/** The smallest setups, code by code. Names are invented. */
import type { Pair } from "./harness";
import { ACCESS_PAIRS } from "./pairs/access";
import { CALL_PAIRS } from "./pairs/call";
import { INTERNET_PAIRS } from "./pairs/internet";
import { HEARING_PAIRS } from "./pairs/hearing";
import { CAMERA_PAIRS } from "./pairs/cameras";
import { DISPLAY_PAIRS } from "./pairs/displays";
import { LOOP_PAIRS } from "./pairs/loops";
import { PEOPLE_PAIRS } from "./pairs/people";
import { PICK_UP_PAIRS } from "./pairs/pick-up";
import { POWER_PAIRS } from "./pairs/power";
import { PORT_PAIRS } from "./pairs/ports";
import { SEAT_PAIRS } from "./pairs/seats";

/** A room that is stated well enough for nothing to hang on it. */
const HALL = `setup "Pair"
room hall 9.2 m by 6.4 m by 3.1 m {
  noise 38 dBA
  reverberation 0.8 s
  chairs 24 in 4 rows { first 3.2 m, pitch 0.9 m, spacing 0.55 m }
  screen wall at front, width 2.4 m
  outlet left-wall at left, sockets 4
  outlet back-wall at back, sockets 4
}
talker Ines at (1.0 m, 3.2 m), standing
online 4 people
internet venue { up 20 Mb/s measured 2026-10-07 18:40, wired }
`;
const LAPTOP = `place laptop is laptop, at (1.2 m, 2.4 m), aim Ines
mains from left-wall to laptop
`;
const BOX = `place box is battery-loudspeaker, at (0.6 m, 4.8 m), aim audience
`;
const LAPEL = `place lapel is lapel-microphone, on Ines
cable from lapel.plug to laptop.headset
`;
const BEAMER = `place beamer is projector, on table at middle, fills wall
cable from laptop.hdmi to beamer.hdmi
`;
const POWERED = "mains from back-wall to beamer\n";
const join = (...lines: string[]): string => `join laptop {\n${lines.map((l) => `  ${l}\n`).join("")}}\n`;
const SOUND = "sends sound from lapel";
const PLAYS = "plays sound on box";
const LINK = "radio from laptop.bluetooth to box.bluetooth\n";
const SHOWN = "shows call on beamer";
/** Everything in order: what each neighbour differs from in one thing. */
const SOUND_EVENING = HALL + LAPTOP + BOX + LINK + LAPEL + BEAMER + POWERED;
const ALL = join(SOUND, PLAYS, SHOWN);
const PHONE = "place phone is phone, at (0.5 m, 1.0 m), aim audience\n";
const phone = (...lines: string[]): string => `join phone {\n${lines.map((l) => `  ${l}\n`).join("")}}\n`;

const UNCOVERED: readonly Pair[] = [
  {
    code: "uncovered-direction", about: "the room hears the people online: a loudspeaker that a stated plan leaves out", severity: "error", subjects: ["laptop", "box"],
    raises: HALL + LAPTOP + BOX + LAPEL + BEAMER + POWERED + ALL, doesNot: SOUND_EVENING + ALL, fix: "Link laptop.bluetooth with box.bluetooth by radio",
  },
  {
    code: "uncovered-direction", about: "the room hears the people online: nothing plays", severity: "error", subjects: ["laptop"],
    raises: SOUND_EVENING + join(SOUND, "plays no sound", SHOWN), doesNot: SOUND_EVENING + ALL, fix: "Let laptop play sound",
  },
  {
    code: "uncovered-direction", about: "the people online hear the room: no cable", severity: "error", subjects: ["laptop", "lapel"],
    raises: HALL + LAPTOP + BOX + LINK + "place lapel is lapel-microphone, on Ines\n" + BEAMER + POWERED + ALL, doesNot: SOUND_EVENING + ALL,
    fix: "Run a cable from lapel.plug to laptop.headset",
  },
  {
    code: "uncovered-direction", about: "the people online hear the room: the wrong port, which gives but does not take", severity: "error", subjects: ["laptop", "lapel"],
    raises: SOUND_EVENING.replace("cable from lapel.plug to laptop.headset", "cable from lapel.plug to laptop.hdmi") + ALL, doesNot: SOUND_EVENING + ALL,
    fix: "Run the cable from lapel.plug to laptop.headset",
  },
  {
    code: "uncovered-direction", about: "the people online hear the room: nothing sends", severity: "error", subjects: ["laptop"],
    raises: SOUND_EVENING + join("sends no sound", PLAYS, SHOWN), doesNot: SOUND_EVENING + ALL, fix: "Let laptop send sound",
  },
  {
    code: "face-small", about: "only a laptop's screen", severity: "hint", subjects: ["laptop.screen"],
    raises: SOUND_EVENING + join(SOUND, PLAYS, "shows call on laptop.screen"), doesNot: SOUND_EVENING + ALL, fix: "Show whoever speaks on laptop.screen",
  },
  {
    code: "uncovered-direction", about: "the people online see the room: no picture is sent", severity: "error", subjects: ["laptop"],
    raises: SOUND_EVENING + join(SOUND, PLAYS, SHOWN, "sends no picture"), doesNot: SOUND_EVENING + ALL, fix: "Let laptop send its picture",
  },
  {
    code: "out-of-frame", about: "the people online see the room: the camera looks away", severity: "error", subjects: ["Ines"],
    raises: (SOUND_EVENING + ALL).replace("at (1.2 m, 2.4 m), aim Ines", "at (4.0 m, 2.4 m), aim (9.0 m, 2.4 m)"), doesNot: (SOUND_EVENING + ALL).replace("at (1.2 m, 2.4 m), aim Ines", "at (4.0 m, 2.4 m), aim Ines"),
    fix: "Aim laptop at Ines",
  },
  {
    code: "uncovered-direction", about: "no device joins", severity: "warning", subjects: [],
    raises: HALL + LAPTOP, doesNot: SOUND_EVENING + ALL,
  },
];

const ECHO: readonly Pair[] = [
  {
    code: "echo-path", about: "a second device with its sound on", severity: "error", subjects: ["phone", "laptop"],
    raises: SOUND_EVENING + PHONE + ALL + phone("sends no picture"), doesNot: SOUND_EVENING + PHONE + ALL + phone("sends no sound", "plays no sound", "sends no picture"), fix: "Turn off the sound of phone",
  },
  {
    code: "echo-path", about: "a second device that sends but does not play", severity: "error", subjects: ["phone", "laptop"],
    raises: SOUND_EVENING + PHONE + ALL + phone("plays no sound", "sends no picture"), doesNot: SOUND_EVENING + PHONE + ALL + phone("sends no sound", "plays no sound", "sends no picture"),
    fix: "Turn off the sound of phone",
  },
  {
    code: "echo-path", about: "a second device that plays but does not send, heard by the first one's own microphone", severity: "error", subjects: ["phone", "laptop"],
    raises: SOUND_EVENING + PHONE + join("sends sound from laptop.microphone", PLAYS, SHOWN) + phone("sends no sound", "sends no picture"),
    doesNot: SOUND_EVENING + PHONE + join("sends sound from laptop.microphone", PLAYS, SHOWN) + phone("sends no sound", "plays no sound", "sends no picture"), fix: "Turn off the sound of phone",
  },
  {
    code: "echo-path", about: "one device whose canceller is switched off", severity: "error", subjects: ["laptop"],
    raises: SOUND_EVENING + join("sends sound from laptop.microphone", PLAYS, SHOWN, "cancels no echo"), doesNot: SOUND_EVENING + join("sends sound from laptop.microphone", PLAYS, SHOWN),
    fix: "Switch echo cancellation on at laptop",
  },
  {
    code: "echo-path", about: "through a wire at full level: a second computer's sound comes out of the mix that the first one sends", severity: "error", subjects: ["second", "laptop"],
    raises: `${HALL + LAPTOP}place second is laptop, at operator
place desk is mixer, at operator
mains from back-wall to second
mains from back-wall to desk
cable from second.headset to desk.in-7
cable from desk.usb to laptop.usb-1
mixer desk {
  channel online from desk.in-7
  bus far-end to desk.usb { holds online }
}
join laptop {
  sends sound from desk
  plays no sound
}
join second {
  sends no sound
  plays sound on desk
}
`,
    doesNot: `${HALL + LAPTOP}place second is laptop, at operator
place desk is mixer, at operator
mains from back-wall to second
mains from back-wall to desk
cable from second.headset to desk.in-7
cable from desk.usb to laptop.usb-1
mixer desk {
  channel online from desk.in-7
  bus far-end to desk.usb { holds no online }
}
join laptop {
  sends sound from desk
  plays no sound
}
join second {
  sends no sound
  plays sound on desk
}
`,
  },
  {
    code: "hears-itself", about: "the room's own voices come back through a second device", severity: "error", subjects: ["phone"],
    raises: SOUND_EVENING + PHONE + ALL + phone("sends no sound", "sends no picture"), doesNot: SOUND_EVENING + PHONE + ALL + phone("sends no sound", "plays no sound", "sends no picture"),
    fix: "Turn off the sound of phone",
  },
  {
    code: "canceller-blind", about: "a speakerphone that listens while another unit plays, the computer's canceller off", severity: "error", subjects: ["pod", "box"],
    raises: `${HALL + LAPTOP + BOX + LINK}place pod is conference-speakerphone, at (3.0 m, 3.2 m)\ncable from pod.usb to laptop.usb-1\n${join("sends sound from pod", PLAYS, "cancels no echo")}`,
    doesNot: `${HALL + LAPTOP + BOX + LINK}place pod is conference-speakerphone, at (3.0 m, 3.2 m)\ncable from pod.usb to laptop.usb-1\n${join("sends sound from pod", "plays sound on pod", "cancels no echo")}`,
    fix: "Switch the canceller of laptop on",
  },
];

const POWER: readonly Pair[] = [
  {
    code: "no-power", about: "a projector in no outlet", severity: "error", subjects: ["beamer"],
    raises: HALL + LAPTOP + BOX + LINK + LAPEL + BEAMER + ALL, doesNot: SOUND_EVENING + ALL, fix: "Plug beamer into left-wall",
  },
  {
    code: "no-power", about: "no mains is stated at all: it is asked for, not an error", severity: "warning", subjects: ["beamer"],
    raises: (HALL + LAPTOP + BOX + LINK + LAPEL + BEAMER + ALL).replace("mains from left-wall to laptop\n", ""), doesNot: SOUND_EVENING + ALL, fix: "Plug beamer into left-wall",
  },
  {
    code: "no-power", about: "a lead that is in no outlet", severity: "error", subjects: ["lead"],
    raises: `${SOUND_EVENING + ALL}place lead is extension-lead, at right\nmains from lead to box\n`, doesNot: `${SOUND_EVENING + ALL}place lead is extension-lead, at right\nmains from lead to box\nmains from left-wall to lead\n`,
    fix: "Plug lead into left-wall",
  },
  {
    code: "battery-short", about: "stated figures: an error where it does not last the meeting", severity: "error", subjects: ["box"],
    raises: `${SOUND_EVENING + ALL}meeting { access 17:00, start 18:00, end 21:00 }\n`.replace("aim audience\n", "aim audience {\n  battery 20 Wh\n  draws 10 W\n}\n"),
    doesNot: `${SOUND_EVENING + ALL}meeting { access 17:00, start 18:00, end 21:00 }\n`.replace("aim audience\n", "aim audience {\n  battery 80 Wh\n  draws 10 W\n}\n"), fix: "Plug box into left-wall meanwhile",
  },
  {
    code: "battery-short", about: "figures of a kind alone: never more than a warning", severity: "warning", subjects: ["laptop"],
    raises: `${HALL}place laptop is laptop, at (1.2 m, 2.4 m), aim Ines\nmeeting { access 12:00, start 13:00, end 22:00 }\njoin laptop\n`,
    doesNot: `${HALL + LAPTOP}meeting { access 12:00, start 13:00, end 22:00 }\njoin laptop\n`, fix: "Plug laptop into left-wall meanwhile",
  },
];

const REST: readonly Pair[] = [
  {
    code: "uplink-short", about: "not even the sound fits", severity: "error", subjects: ["venue"],
    raises: (SOUND_EVENING + ALL).replace("up 20 Mb/s", "up 30 kb/s"), doesNot: SOUND_EVENING + ALL,
  },
  {
    code: "uplink-short", about: "the picture does not fit at its target", severity: "warning", subjects: ["venue"],
    raises: (SOUND_EVENING + join(SOUND, PLAYS, SHOWN, "sends picture from laptop.camera at 720p30")).replace("up 20 Mb/s", "up 1.5 Mb/s"),
    doesNot: (SOUND_EVENING + join(SOUND, PLAYS, SHOWN, "sends picture from laptop.camera at 720p30")).replace("up 20 Mb/s", "up 5 Mb/s"), fix: "Send laptop.camera at 540p30",
  },
  {
    code: "one-device-carries-all", about: "one computer for everything", severity: "hint", subjects: ["laptop"],
    raises: SOUND_EVENING + ALL, doesNot: `${SOUND_EVENING + ALL}place spare is laptop, at operator\nmains from back-wall to spare\nfallback spare for laptop\n`,
  },
];

export const PAIRS: readonly Pair[] = [...UNCOVERED, ...ECHO, ...POWER, ...REST, ...INTERNET_PAIRS, ...LOOP_PAIRS, ...DISPLAY_PAIRS, ...CAMERA_PAIRS, ...PORT_PAIRS, ...PICK_UP_PAIRS, ...HEARING_PAIRS, ...SEAT_PAIRS, ...CALL_PAIRS, ...PEOPLE_PAIRS, ...POWER_PAIRS, ...ACCESS_PAIRS];
