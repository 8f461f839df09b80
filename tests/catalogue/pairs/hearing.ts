/** How well those in the room are heard online. Names are invented. */
import { BEAMER, BOX, hall, LAPEL } from "../../study/setups";
import type { Pair } from "../harness";

const swap = (text: string, from: string, to: string): string => {
  if (!text.includes(from)) throw new Error(`the text has no “${from}”`);
  return text.replace(from, to);
};
/** Known, so that nothing hangs on it. */
const LOUD = (text: string): string => swap(text, "standing\n", "standing, speech-level 66 dBA\n");
const OWN = `${BOX}${BEAMER}join laptop { sends sound from laptop.microphone, plays sound on box, shows call on beamer }\n`;
/** The laptop's own microphone at some distance straight before the talker. */
const at = (x: string, rest = ""): string => swap(LOUD(hall(OWN + rest)), "at (1.2 m, 2.4 m), aim Ines", `at (${x}, 3.2 m), aim Ines`);
const CLIP = "device clip is lapel-microphone, owned by Marit\n";
const CLIPPED = `${BOX}${BEAMER}${LAPEL}join laptop { sends sound from lapel, plays sound on box, shows call on beamer }\n`;
const church = (text: string): string => swap(text, "reverberation 0.8 s", "reverberation 5 s");
const noisy = (text: string, level: string): string => swap(text, "noise 38 dBA", `noise ${level}`);

/** Six of one kind open on a desk, one of them before the talker, the others about the room. */
const MANY = (set = ""): string => noisy(LOUD(hall(`place desk is mixer, at operator
mains from back-wall to desk
place stand is gooseneck-microphone, at (1.9 m, 3.2 m, 1.4 m), aim Ines
${[1, 2, 3, 4, 5].map((n) => `place more-${n} is gooseneck-microphone, at (${2 + n} m, 6 m, 1.1 m), aim (${2 + n} m, 5 m, 1.1 m)\ncable from more-${n}.plug to desk.in-${n + 1}\n`).join("")}cable from stand.plug to desk.in-1
cable from desk.usb to laptop.usb-1
mixer desk {
  channel speech from desk.in-1
${[1, 2, 3, 4, 5].map((n) => `  channel more-${n} from desk.in-${n + 1}\n`).join("")}  bus far-end to desk.usb { holds all }
${set}}
join laptop { sends sound from desk, plays no sound }
`)), "52 dBA");

const PROGRAMME = "meeting { start 18:00, end 20:00 }\nprogramme {\n  item talk from 18:00, talkers Ines\n  item questions from 19:00, talkers audience\n}\n";
const ASKED = LOUD(hall(`${PROGRAMME}${CLIPPED}`));
const DESK = `place desk is mixer, at operator
mains from back-wall to desk
place stand is gooseneck-microphone, at Ines
cable from stand.plug to desk.in-1
cable from desk.usb to laptop.usb-1
device hand is handheld-microphone, owned by Marit
mixer desk {
  channel speech from desk.in-1
  bus far-end to desk.usb { holds speech }
}
join laptop { sends sound from desk, plays no sound }
`;
const desk = LOUD(hall(`${PROGRAMME}${DESK}`));
const WALKS = swap(LOUD(hall(OWN + CLIP)), "standing,", "standing, walks 1 m by 6 m,");

export const HEARING_PAIRS: readonly Pair[] = [
  { code: "talker-far", about: "a laptop across the room, and the same laptop beside the talker", severity: "warning", subjects: ["Ines", "laptop"], raises: at("5 m"), doesNot: at("1.5 m"), fix: "Move laptop beside Ines" },
  { code: "talker-far", about: "a clip that somebody owns and nobody wears", severity: "warning", subjects: ["Ines", "laptop"], raises: at("5 m", CLIP), doesNot: LOUD(hall(CLIPPED)), fix: "Let Ines wear clip" },
  { code: "talker-far", about: "a table's width away: a little hollow", severity: "hint", subjects: ["Ines", "laptop"], raises: at("2.4 m"), doesNot: at("1.5 m") },
  { code: "talker-unclear", about: "a hall that rings for five seconds, and one that does not", severity: "error", subjects: ["Ines", "laptop"], raises: church(at("5 m", CLIP)), doesNot: at("5 m", CLIP), fix: "Let Ines wear clip" },
  { code: "talker-unclear", about: "a microphone at the mouth does not hear the hall", severity: "error", subjects: ["Ines", "laptop"], raises: church(at("5 m", CLIP)), doesNot: church(LOUD(hall(CLIPPED))) },
  { code: "mic-noise", about: "beside a machine that drowns the voice", severity: "error", subjects: ["Ines", "laptop"], raises: noisy(at("2 m", CLIP), "66 dBA"), doesNot: at("2 m", CLIP), fix: "Let Ines wear clip" },
  { code: "mic-noise", about: "a fan under every word", severity: "warning", subjects: ["Ines", "laptop"], raises: noisy(at("2 m", CLIP), "54 dBA"), doesNot: noisy(LOUD(hall(CLIPPED)), "54 dBA"), fix: "Let Ines wear clip" },
  { code: "mic-noise", about: "six open on one bus add up, one at a time do not", severity: "warning", subjects: ["Ines", "stand"], raises: MANY(), doesNot: MANY("  automatic\n"), fix: "Let desk mix automatically" },
  { code: "mic-noise", about: "five into which nobody speaks are closed", severity: "warning", subjects: ["Ines", "stand"], raises: MANY(), doesNot: MANY("  automatic\n"), fix: "Close more-1, more-2, more-3 and 2 more, into which nobody speaks" },
  { code: "seat-unheard", about: "questions that nobody repeats", severity: "warning", subjects: ["audience"], raises: ASKED, doesNot: swap(ASKED, "standing,", "standing, repeats audience during questions,"), fix: "Let Ines repeat what audience says" },
  { code: "seat-unheard", about: "a microphone that is passed round", severity: "warning", subjects: ["audience"], raises: desk, doesNot: swap(desk, "device hand is handheld-microphone, owned by Marit\n", "place hand is handheld-microphone, with audience\ncable from hand.plug to desk.in-2\n").replace("  bus far-end to desk.usb { holds speech }", "  channel hand from desk.in-2\n  bus far-end to desk.usb { holds all }"), fix: "Pass hand round in audience" },
  { code: "talker-roams", about: "up and down before a laptop on a stand", severity: "warning", subjects: ["Ines"], raises: WALKS, doesNot: LOUD(hall(OWN + CLIP)), fix: "Let Ines wear clip" },
  { code: "talker-roams", about: "a clip walks along", severity: "warning", subjects: ["Ines"], raises: WALKS, doesNot: swap(LOUD(hall(CLIPPED)), "standing,", "standing, walks 1 m by 6 m,") },
];
