/** How the people online see the room. Names are invented. */
import { BOX, hall, LAPEL } from "../../study/setups";
import type { Pair } from "../harness";

const EYE = (place: string, view = "60 deg", mode = "1080p30", more = ""): string => hall(`${BOX + LAPEL}place eye is webcam, ${place} { view ${view}${more} }
cable from eye.usb to laptop.usb-1
join laptop {
  sends sound from lapel
  sends picture from eye at ${mode}
  plays sound on box
}
`);
const AT = (x: string, y = "3.2 m", z = "1.7 m"): string => `at (${x}, ${y}, ${z})`;
const GOOD = EYE(`${AT("4.2 m")}, aim Ines`);
const WALKS = (how: string): string => GOOD.replace("talker Ines at (1.0 m, 3.2 m), standing", `talker Ines at (1.0 m, 3.2 m), standing${how}`);
const STILL = (after: string): string => hall(`${BOX + LAPEL}kind old-camera is a camera {
  view 40 deg
  stops after ${after}
  port usb is usb-b, gives picture
  runs on usb
}
place eye is old-camera, ${AT("4.2 m")}, aim Ines
cable from eye.usb to laptop.usb-1
meeting { start 18:30, end 20:30 }
join laptop { sends sound from lapel, sends picture from eye at 1080p30, plays sound on box }
`);
const LOOP = (aim: string): string => hall(`${BOX + LAPEL}place tv is flat-display, at (0.2 m, 5.2 m, 1.5 m), aim audience
place eye is webcam, ${AT("4.2 m", "2.2 m")}, aim ${aim} { view 60 deg }
cable from eye.usb to laptop.usb-1
cable from laptop.hdmi to tv.hdmi
mains from left-wall to tv
join laptop {
  sends sound from lapel
  sends picture from eye at 1080p30
  plays sound on box
  shows call on tv, faces 1
}
`);
const BRIGHT = (talker: string): string => hall(`${BOX + LAPEL}place beamer is projector, at (5 m, 3.2 m), height 2.8 m, fills wall { light 4000 lm }
place eye is webcam, ${AT("4.2 m")}, aim Ines { view 60 deg }
cable from eye.usb to laptop.usb-1
cable from laptop.hdmi to beamer.hdmi
mains from back-wall to beamer
join laptop {
  sends sound from lapel
  sends picture from eye at 1080p30
  plays sound on box
  shows slides on beamer, text-height 6 %
}
`).replace("lower-edge 1.7 m", "lower-edge 1.0 m").replace("talker Ines at (1.0 m, 3.2 m)", `talker Ines at ${talker}`);
const PILLAR = (at: string): string => GOOD.replace("  screen wall", `  column pillar at ${at}, width 0.4 m\n  screen wall`);
const GARDEN = (when: string): string => GOOD.replace("  screen wall", "  latitude 52 deg\n  window garden at front, width 2.4 m, height 1.6 m, sill 1 m, looks north\n  screen wall").concat(`meeting { ${when}, zone Europe/London }\n`);
const DARK = (light: string): string => GOOD.replace("light 200 lx on faces", `light ${light} on faces`);
const BOARD = (letters: string): string => `${GOOD.replace("lower-edge 1.7 m", `lower-edge 1.7 m, letters ${letters}`)}call { shall show wall }\n`;
const SIGNED = (mode: string): string => EYE(`${AT("4.2 m")}, aim Ines`, "60 deg", mode).replace("standing", "standing, signs");

export const CAMERA_PAIRS: readonly Pair[] = [
  { code: "out-of-frame", about: "a camera that looks at the wall", severity: "error", subjects: ["Ines"], raises: EYE(`${AT("4.2 m")}, aim (4 m, 6 m, 1.5 m)`), doesNot: GOOD, fix: "Aim eye at Ines" },
  { code: "out-of-frame", about: "so near that shoulders and hair are cut off", severity: "warning", subjects: ["Ines"], raises: EYE(`${AT("1.75 m", "3.2 m", "1.55 m")}, aim Ines`, "30 deg"), doesNot: GOOD },
  { code: "out-of-frame", about: "somebody who walks out of the picture", severity: "warning", subjects: ["Ines"], raises: WALKS(", walks 1 m by 5 m"), doesNot: WALKS(", walks 1 m by 1 m") },
  { code: "out-of-frame", about: "an audience that is asked for, and no camera has it", severity: "error", subjects: ["audience"], raises: `${GOOD}call { shall show audience }\n`, doesNot: GOOD },
  { code: "face-tiny", about: "a wide camera at the far wall, and one that is near", severity: "warning", subjects: ["Ines"], raises: EYE(`${AT("9 m", "3.2 m", "2.4 m")}, aim Ines`, "100 deg", "720p30"), doesNot: GOOD, fix: "Move eye nearer to Ines, to 3.6 m" },
  { code: "face-tiny", about: "a wide camera at the far wall that can be zoomed in", severity: "warning", subjects: ["Ines"], raises: EYE(`${AT("9 m", "3.2 m", "2.4 m")}, aim Ines`, "100 deg", "720p30", ", zoom 10 times"), doesNot: EYE(`${AT("9 m", "3.2 m", "2.4 m")}, aim Ines`, "100 deg", "720p30", ", zoom 10 times, zoomed 4 times"), fix: "Zoom eye in 3.5 times" },
  { code: "out-of-frame", about: "zoomed in on the face alone, and not at all", severity: "warning", subjects: ["Ines"], raises: EYE(`${AT("4.2 m")}, aim Ines`, "60 deg", "1080p30", ", zoom 12 times, zoomed 12 times"), doesNot: GOOD, fix: "Zoom eye out" },
  { code: "board-unreadable", about: "letters of two centimetres that a lens brings near", severity: "warning", subjects: ["wall"], raises: BOARD("2 cm").replace("view 60 deg", "view 60 deg, zoom 5 times"), doesNot: BOARD("2 cm").replace("view 60 deg", "view 60 deg, zoom 5 times, zoomed 2 times"), fix: "Zoom eye in 2 times" },
  { code: "behind-talker", about: "a camera on the front wall, and one before her", severity: "warning", subjects: ["Ines"], raises: EYE(`${AT("0.1 m", "1.5 m")}, aim Ines`), doesNot: GOOD },
  { code: "blocked-view", about: "a camera at the height of heads behind four rows, and one above them", severity: "warning", subjects: ["eye", "Ines"], raises: EYE(`at (7 m, 2.925 m), height 1.1 m, aim Ines`, "30 deg").replace("standing", "seated"), doesNot: EYE(`at (7 m, 2.925 m), height 2.4 m, aim Ines`, "30 deg").replace("standing", "seated"), fix: "Raise eye to 2.2 m" },
  { code: "blocked-view", about: "a column between camera and talker, and one aside", severity: "warning", subjects: ["eye", "Ines", "pillar"], raises: PILLAR("(2.6 m, 3.2 m)"), doesNot: PILLAR("(2.6 m, 5 m)"), fix: "Move eye 1.2 m to the right" },
  { code: "camera-stops", about: "29 minutes in a meeting of two hours", severity: "error", subjects: ["eye"], raises: STILL("29 min"), doesNot: STILL("3 h") },
  { code: "picture-loop", about: "the display of the call in the frame, and beside it", severity: "hint", subjects: ["eye", "tv"], raises: LOOP("(0.2 m, 4.6 m, 1.5 m)"), doesNot: LOOP("(0.2 m, 1 m, 1.5 m)") },
  { code: "backlit", about: "before the picture, and beside it", severity: "hint", subjects: ["Ines", "beamer"], raises: BRIGHT("(1.0 m, 3.2 m)"), doesNot: BRIGHT("(1.0 m, 0.8 m)") },
  {
    code: "backlit", about: "a window behind her by day, and after dark", severity: "warning", subjects: ["Ines", "garden"],
    raises: GARDEN("date 2026-06-13, start 14:00, end 15:00"), doesNot: GARDEN("date 2026-11-25, start 19:00, end 20:00"), fix: "Draw a heavy curtain over garden; if it has none, ask the venue for a cloth",
  },
  { code: "dark-face", about: "light that was measured on faces", severity: "warning", subjects: ["hall"], raises: DARK("90 lx"), doesNot: DARK("200 lx") },
  { code: "board-unreadable", about: "letters of a centimetre, and of ten", severity: "warning", subjects: ["wall"], raises: BOARD("1 cm"), doesNot: BOARD("10 cm") },
  { code: "choppy", about: "signing at 15 frames a second, and at 30", severity: "hint", subjects: ["Ines", "eye"], raises: SIGNED("1080p15"), doesNot: SIGNED("1080p30"), fix: "Send the picture of eye at 30 frames a second" },
  { code: "flicker", about: "a thousandth of a second with lamps on the mains, and a twentieth", severity: "hint", subjects: ["eye"], raises: EYE(`${AT("4.2 m")}, aim Ines`, "60 deg", "1080p30", ", exposure 1 ms"), doesNot: EYE(`${AT("4.2 m")}, aim Ines`, "60 deg", "1080p30", ", exposure 50 ms") },
  { code: "overlay-shows", about: "a camera whose menus are on its output", severity: "warning", subjects: ["eye"], raises: EYE(`${AT("4.2 m")}, aim Ines`, "60 deg", "1080p30", ", output overlaid"), doesNot: EYE(`${AT("4.2 m")}, aim Ines`, "60 deg", "1080p30", ", output clean") },
];
