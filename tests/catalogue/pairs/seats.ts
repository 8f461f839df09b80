/** What seats hear. Names are invented. */
import { BEAMER, BOX, hall, IN_ORDER, LAPEL } from "../../study/setups";
import type { Pair } from "../harness";

const all = hall(IN_ORDER);
const swap = (text: string, from: string, to: string): string => {
  if (!text.includes(from)) throw new Error(`the text has no “${from}”`);
  return text.replace(from, to);
};
const noise = (text: string, dBA: number): string => swap(text, "noise 38 dBA", `noise ${dBA} dBA`);
const OWN = swap(all, "plays sound on box", "plays sound on laptop.loudspeaker");

/** The call and a lectern microphone through a mixer into two loudspeakers of the hall, each on a mix of its own. */
const DESK = (left = "holds online", right = "holds online"): string => hall(`place desk is mixer, at operator
place turn is sound-interface, at operator
place pa is mains-loudspeaker, at (0.6 m, 4.8 m, 1.8 m), aim audience
place pb is mains-loudspeaker, at (0.6 m, 1.6 m, 1.8 m), aim audience
place stand is gooseneck-microphone, at (1.3 m, 3.2 m, 1.5 m), aim (1.0 m, 3.2 m, 1.5 m)
mains from back-wall to desk
mains from left-wall to pa
mains from left-wall to pb
cable from turn.usb to laptop.usb-1
cable from turn.out-1 to desk.in-7
cable from stand.plug to desk.in-1
cable from desk.main-left to pa.line
cable from desk.main-right to pb.line
${LAPEL + BEAMER}mixer desk {
  channel speech from desk.in-1
  channel online from desk.in-7
  bus front to desk.main-left { ${left} }
  bus side to desk.main-right { ${right} }
}
join laptop { sends sound from lapel, plays sound on turn, shows call on beamer }
`);
const SLOW = (left?: string): string => swap(DESK(left), "place pb is mains-loudspeaker, at (0.6 m, 1.6 m, 1.8 m), aim audience", "place pb is mains-loudspeaker, at (0.6 m, 1.6 m, 1.8 m), aim audience { port line is xlr, takes sound, delay 80 ms }");
const SHOUTED = noise(DESK(), 78);
const DAY = "meeting { start 09:00, end 17:00 }\n";
const TWO = hall(`${BOX + BEAMER}place second is battery-loudspeaker, at (0.6 m, 1.6 m), aim audience
cable from laptop.headset to second.line
join laptop { sends sound from laptop.microphone, plays sound on box and second, shows call on beamer }
`);
const LOUD_ROOM = swap(noise(DESK(), 62), "standing\n", "standing, speech-level 66 dBA\n");
const GARDEN = (at: string): string => swap(swap(swap(all, "  reverberation 0.8 s\n", "  outdoors\n"), "chairs 24 in 4 rows { first 3.2 m, pitch 0.9 m, spacing 0.55 m }", "chairs 60 in 10 rows { first 1.6 m, pitch 0.8 m, spacing 0.9 m }"), "at (0.6 m, 4.8 m), aim audience", `at ${at}`);

export const SEAT_PAIRS: readonly Pair[] = [
  { code: "too-quiet", about: "a laptop’s own loudspeaker against 70 dBA of noise", severity: "error", subjects: ["audience"], raises: noise(OWN, 70), doesNot: OWN, fix: "Play the call on box" },
  { code: "too-quiet", about: "against 60 dBA it hangs on what the laptop can give", severity: "hint", subjects: ["audience"], raises: noise(OWN, 60), doesNot: noise(all, 60) },
  { code: "too-loud", about: "shouted over 78 dBA of noise for a whole day", severity: "warning", subjects: ["pb"], raises: SHOUTED + DAY, doesNot: DESK() + DAY, fix: "Turn side down by 14 dB" },
  { code: "seat-uncovered", about: "in a garden, a loudspeaker that is turned aside", severity: "hint", subjects: ["audience"], raises: GARDEN("(1.0 m, 3.2 m), aim (0.6 m, 6.2 m)"), doesNot: GARDEN("(1.0 m, 3.2 m), aim audience"), fix: "Aim box at audience" },
  { code: "speech-unclear", about: "a room that rings for 2.4 s", severity: "error", subjects: ["audience", "Ines"], fix: "Stand box at the right wall beside row 3 of audience", raises: swap(all, "reverberation 0.8 s", "reverberation 2.4 s"), doesNot: swap(all, "reverberation 0.8 s", "reverberation 0.5 s") },
  { code: "talker-unheard-in-room", about: "a voice against 62 dBA of noise, with and without the loudspeakers", severity: "warning", subjects: ["Ines"], raises: LOUD_ROOM, doesNot: LOUD_ROOM.replaceAll("{ holds online }", "{ holds online and speech }") },
  { code: "late-arrival", about: "one loudspeaker by radio, one by cable", severity: "warning", subjects: ["second", "box"], raises: TWO, doesNot: swap(TWO, "on box and second", "on second"), fix: "Play the call on second alone" },
  { code: "late-arrival", about: "a loudspeaker that takes its time, and the mix of the other kept back", severity: "warning", subjects: ["pa", "pb"], raises: SLOW(), doesNot: SLOW("holds online, delay 80 ms"), fix: "Keep front back by 80 ms" },
];
