/** How those in the room get into the call. Names are invented. */
import { BEAMER, BOX, hall, IN_ORDER, LAPEL } from "../../study/setups";
import type { Pair } from "../harness";

const GARDEN = hall(IN_ORDER).replace("  noise 38 dBA\n  reverberation 0.8 s\n", "  noise 38 dBA\n  outdoors\n  wind force 4\n");
const OWN = `${BOX + BEAMER}join laptop { sends sound from laptop.microphone, plays sound on box, shows call on beamer }\n`;
/** Straight before the mouth, an arm's length away. */
const NEAR = hall(OWN).replace("at (1.2 m, 2.4 m), aim Ines", "at (1.5 m, 3.2 m), aim Ines");
const FILM = `${hall(IN_ORDER)}meeting { start 18:00, end 20:00 }\nitem film { clip on laptop }\n`;
const SPEAKERS = `place desk is mixer, at operator
place pa is mains-loudspeaker, at (1.6 m, 1.6 m, 1.6 m), aim (6 m, 3.2 m, 1.2 m)
mains from back-wall to desk
mains from left-wall to pa
place stand is gooseneck-microphone, at (1.3 m, 3.2 m, 1.5 m), aim (1.0 m, 3.2 m, 1.5 m)
cable from stand.plug to desk.in-1
cable from desk.main-left to pa.line
cable from desk.usb to laptop.usb-1
mixer desk {
  channel speech from desk.in-1
  bus room to desk.main-left { holds speech }
  bus far-end to desk.usb { holds speech }
}
`;
const TWO = (apart: string, set = ""): string => hall(`place desk is mixer, at operator
mains from back-wall to desk
place left is gooseneck-microphone, at (1.6 m, 3.2 m, 1.5 m), aim (1.0 m, 3.2 m, 1.5 m)
place right is gooseneck-microphone, at (1.6 m, ${apart}, 1.5 m), aim (1.0 m, 3.2 m, 1.5 m)
cable from left.plug to desk.in-1
cable from right.plug to desk.in-2
cable from desk.usb to laptop.usb-1
mixer desk {
  channel one from desk.in-1
  channel two from desk.in-2
  bus far-end to desk.usb { holds all }
${set}}
join laptop { sends sound from desk, plays no sound }
`);

export const PICK_UP_PAIRS: readonly Pair[] = [
  { code: "wind", about: "a garden at force 4, with foam and without", severity: "warning", subjects: ["lapel"], raises: GARDEN, doesNot: GARDEN.replace("on Ines\n", "on Ines { windshield }\n"), fix: "Put a windshield on lapel" },
  { code: "wind", about: "hardly any wind", severity: "warning", subjects: ["lapel"], raises: GARDEN, doesNot: GARDEN.replace("force 4", "force 1") },
  {
    code: "talker-turned-away", about: "turned to the screen, a laptop behind", severity: "hint", subjects: ["Ines"],
    raises: NEAR.replace("standing\n", "standing, faces (0 m, 3.2 m)\n"), doesNot: NEAR, fix: "Let Ines face the audience",
  },
  { code: "talker-turned-away", about: "a worn microphone turns along", severity: "hint", subjects: ["Ines"], raises: hall(OWN).replace("standing\n", "standing, faces (0 m, 6 m)\n"), doesNot: hall(IN_ORDER).replace("standing\n", "standing, faces (0 m, 6 m)\n") },
  { code: "source-without-mic", about: "a film on the laptop that sends its microphone alone", severity: "warning", subjects: ["laptop"], raises: FILM, doesNot: FILM.replace("sends sound from lapel,", "sends sound from lapel, sends clip,"), fix: "Send the clip's own sound from laptop" },
  {
    code: "no-direct-send", about: "a mixer for the room, and the laptop's own microphone for the call", severity: "warning", subjects: ["stand"],
    raises: hall(`${SPEAKERS}join laptop { sends sound from laptop.microphone, plays no sound }\n`), doesNot: hall(`${SPEAKERS}join laptop { sends sound from desk, plays no sound }\n`),
    fix: "Send the sound of desk from laptop",
  },
  { code: "no-direct-send", about: "a microphone for the call alone is no detour", severity: "warning", subjects: ["stand"], raises: hall(`${SPEAKERS}join laptop { sends sound from laptop.microphone, plays no sound }\n`), doesNot: hall(`${BOX + LAPEL + BEAMER}join laptop { sends sound from lapel, plays sound on box, shows call on beamer }\n`) },
  { code: "mic-spacing", about: "two on one bus, an arm's length apart", severity: "hint", subjects: ["left", "right"], raises: TWO("3.6 m"), doesNot: TWO("5.6 m"), fix: "Let desk mix automatically" },
  { code: "mic-spacing", about: "a mixer that opens one at a time", severity: "hint", subjects: ["left", "right"], raises: TWO("3.6 m"), doesNot: TWO("3.6 m", "  automatic\n") },
];
