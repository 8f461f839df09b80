/** What is plugged into what and chosen where, when sound and picture arrive, and who minds it. */
import type { Pair } from "../harness";

const HALL = `setup "Pair"
room hall 9.2 m by 6.4 m by 3.1 m {
  noise 38 dBA
  reverberation 0.8 s
  outlet left-wall at left
}
chairs 6 in 1 rows { first 3 m }
talker Ines at (1.0 m, 3.2 m), standing
place laptop is laptop, at (1.2 m, 2.4 m), aim Ines
mains from left-wall to laptop
internet venue { up 20 Mb/s, round-trip 20 ms }
online 3 people
job listen by Marit
`;
const LAPEL = "place lapel is lapel-microphone, on Ines\ncable from lapel.plug to laptop.headset\n";
const POD = "place pod is conference-speakerphone, at (2.0 m, 3.2 m)\n";
const BY_RADIO = "radio from laptop.bluetooth to pod.bluetooth\n";
const BY_CABLE = "cable from pod.usb to laptop.usb-1\n";
const BOX = "place box is battery-loudspeaker, at (0.6 m, 4.8 m), aim audience\n";
const DESK = "place desk is mixer, at operator\nmains from left-wall to desk\nplace hand is handheld-microphone, with Ines\ncable from hand.plug to desk.in-1\n";
const join = (...lines: string[]): string => `join laptop {\n${lines.map((line) => `  ${line}\n`).join("")}}\n`;

export const PORT_PAIRS: readonly Pair[] = [
  {
    code: "wrong-input", about: "a lapel microphone is plugged in, and nobody chose it", severity: "warning", subjects: ["laptop"],
    raises: HALL + LAPEL + join("plays sound"), doesNot: HALL + LAPEL + join("sends sound from lapel", "plays sound"), fix: "Let laptop send the sound of lapel",
  },
  {
    code: "wrong-output", about: "a loudspeaker is plugged in, and nobody chose it", severity: "warning", subjects: ["laptop"],
    raises: `${HALL + BOX}cable from laptop.headset to box.line\n${join("sends sound", "plays sound")}`,
    doesNot: `${HALL + BOX}cable from laptop.headset to box.line\n${join("sends sound", "plays sound on box")}`, fix: "Let laptop play on box",
  },
  {
    code: "level-mismatch", about: "stated: a mixer's line into a microphone's socket", severity: "error", subjects: ["desk", "interface"],
    raises: `${HALL + DESK}place interface is sound-interface, at operator { port in-1 is xlr, takes sound, level microphone }\ncable from desk.main-left to interface.in-1\ncable from interface.usb to laptop.usb-1\n${join("sends sound from interface", "plays sound")}`,
    doesNot: `${HALL + DESK}place interface is sound-interface, at operator { port in-1 is xlr, takes sound, level line }\ncable from desk.main-left to interface.in-1\ncable from interface.usb to laptop.usb-1\n${join("sends sound from interface", "plays sound")}`,
    fix: "Put a pad of 20 dB into the cable from desk.main-left",
  },
  {
    code: "level-mismatch", about: "assumed: a mixer's line into the headset socket of a computer is asked for", severity: "warning", subjects: ["desk", "laptop"],
    raises: `${HALL + DESK}cable from desk.aux-1 to laptop.headset\n${join("sends sound from desk", "plays sound")}`,
    doesNot: `${HALL + DESK}cable from desk.usb to laptop.usb-1\n${join("sends sound from desk", "plays sound")}`,
    fix: "Put a pad of 20 dB into the cable from desk.aux-1",
  },
  {
    code: "headset-profile", about: "one wireless unit speaks and listens", severity: "warning", subjects: ["pod"],
    raises: HALL + POD + BY_RADIO + join("sends sound from pod", "plays sound on pod"), doesNot: HALL + POD + BY_CABLE + join("sends sound from pod", "plays sound on pod"),
    fix: "Let laptop send the sound of laptop.microphone instead",
  },
  {
    code: "music-suppressed", about: "a choir sings, and what is no speech is taken out", severity: "warning", subjects: ["laptop"],
    raises: `${HALL + LAPEL}talker choir at (1.5 m, 3.6 m), music\nprogramme {\n  item talk, talkers Ines\n  item hymn, talkers choir\n}\n${join("sends sound from laptop.microphone", "suppresses noise")}`,
    doesNot: `${HALL + LAPEL}talker choir at (1.5 m, 3.6 m), music\nprogramme {\n  item talk, talkers Ines\n  item hymn, talkers choir\n}\n${join("sends sound from laptop.microphone", "suppresses noise", "suppresses no noise during hymn")}`,
    fix: "Switch noise suppression off at laptop during hymn",
  },
  {
    code: "lip-sync", about: "a loudspeaker that stated radio keeps back by a third of a second", severity: "warning", subjects: ["box", "laptop"],
    raises: `${HALL}place box is battery-loudspeaker, at (0.6 m, 4.8 m), aim audience { port bluetooth is bluetooth, takes sound, delay 350 ms }\nradio from laptop.bluetooth to box.bluetooth\n${join("sends sound", "plays sound on box", "shows call on laptop.screen")}`,
    doesNot: `${HALL + BOX}cable from laptop.headset to box.line\n${join("sends sound", "plays sound on box", "shows call on laptop.screen")}`,
    fix: "Run a cable from laptop.headset to box.line in place of the radio",
  },
  {
    code: "picture-late", about: "a camera whose stated delay is long", severity: "hint", subjects: ["lapel", "stage"],
    raises: `${HALL + LAPEL}place stage is webcam, behind row 1, aim Ines { delay 250 ms }\ncable from stage.usb to laptop.usb-1\n${join("sends sound from lapel", "sends picture from stage")}`,
    doesNot: `${HALL + LAPEL}place stage is webcam, behind row 1, aim Ines { delay 50 ms }\ncable from stage.usb to laptop.usb-1\n${join("sends sound from lapel", "sends picture from stage")}`,
  },
  {
    code: "loop-misses", about: "a hearing loop that is fed with the talker alone", severity: "error", subjects: ["loop"],
    raises: `${HALL + DESK}place loop is hearing-loop-amplifier, at left\nmains from left-wall to loop\ncable from desk.main-left to loop.in\ncable from laptop.headset to desk.in-3\ncable from desk.usb to laptop.usb-1\nmixer desk {\n  channel hand from desk.in-1\n  channel online from desk.in-3, pad 20 dB\n  bus loop-feed to desk.main-left { holds hand }\n  bus far-end to desk.usb { holds hand }\n}\n${join("sends sound from desk", "plays sound on desk and laptop.loudspeaker")}`,
    doesNot: `${HALL + DESK}place loop is hearing-loop-amplifier, at left\nmains from left-wall to loop\ncable from desk.main-left to loop.in\ncable from laptop.headset to desk.in-3\ncable from desk.usb to laptop.usb-1\nmixer desk {\n  channel hand from desk.in-1\n  channel online from desk.in-3, pad 20 dB\n  bus loop-feed to desk.main-left { holds all }\n  bus far-end to desk.usb { holds hand }\n}\n${join("sends sound from desk", "plays sound on desk and laptop.loudspeaker")}`,
    fix: "Put every channel on loop-feed of desk",
  },
  {
    code: "nobody-listens", about: "a gap in the plan", severity: "plan", subjects: [],
    raises: HALL.replace("job listen by Marit\n", "") + LAPEL + join("sends sound from lapel"), doesNot: HALL + LAPEL + join("sends sound from lapel"),
  },
];
