/** How the room sees the people online and what they show. Names are invented. */
import { BEAMER, BOX, hall, LAPEL } from "../../study/setups";
import type { Pair } from "../harness";

const TV = (at: string, more = ""): string => `place tv is flat-display, ${at} { diagonal 55 inch${more} }
cable from laptop.hdmi to tv.hdmi
mains from left-wall to tv
`;
const show = (...lines: string[]): string => `join laptop {\n  sends sound from lapel\n  plays sound on box\n${lines.map((line) => `  ${line}\n`).join("")}}\n`;
/** A hall whose picture is thrown from high up, well above the heads, on a surface whose height was measured. */
const screened = (edge: string, width = "2.4 m"): string => hall(`${BOX + LAPEL + BEAMER}`).replace("screen wall at front, width 2.4 m, lower-edge 1.7 m", `screen wall at front, width ${width}, lower-edge ${edge}`).replace("in 4 rows { first 3.2 m", "in 4 rows { first 4.8 m").replace("room hall 9.2 m", "room hall 12 m");
const SLIDES = (share: string): string => screened("1.8 m", "2 m") + show(`shows slides on beamer, text-height ${share}`, `shows call on laptop.screen, faces 1`);
const COARSE = (said: string): string => screened("1.8 m", "2 m") + show("shows call on beamer, faces 1, text-height 4 %", said);
const FACES = (faces: number): string => screened("1.8 m") + show(`shows call on beamer, faces ${faces}`);
const LONG = hall(`${BOX + LAPEL + TV("at front", ", height 2.2 m")}`).replace("room hall 9.2 m", "room hall 16 m").replace("first 3.2 m", "first 8.5 m");
const SLIDES_ON_TV = show("shows slides on tv", "shows call on laptop.screen");
const SIDE = (aim: string): string => hall(`${BOX + LAPEL + TV("at (0.3 m, 0.4 m, 2.2 m)").replace("2.2 m) {", `2.2 m), aim ${aim} {`)}`) + show("shows call on tv, faces 1");
const STEEP = (height: string): string => hall(`${BOX + LAPEL + TV(`at front, height ${height}`, ", viewing-angle 160 deg by 20 deg")}`).replace("chairs 24 in 4 rows { first 3.2 m", "chairs 4 in 1 rows { first 3.2 m") + show("shows call on tv, faces 1");
const LOW = (height: string): string => hall(`${BOX + LAPEL + TV(`at front, height ${height}`)}`) + show("shows call on tv, faces 1");
const BEAM = (more: string): string => hall(`${BOX + LAPEL}place beamer is projector, at (5.5 m, 3.2 m), fills wall, height ${more}\ncable from laptop.hdmi to beamer.hdmi\nmains from back-wall to beamer\n`).replace("lower-edge 1.7 m", "lower-edge 1.2 m").replace("Ines at (1.0 m, 3.2 m)", "Ines at (1.0 m, 0.6 m)") + show("shows call on beamer, faces 4");
const ONE_ROW = screened("1.8 m").replace("chairs 24 in 4 rows { first 4.8 m", "chairs 6 in 1 rows { first 4.4 m");
const BRIGHT = (lumens: number): string => screened("0.6 m", "4 m").replace("beamer is projector", "beamer is small-one").concat(`kind small-one is a projector {\n  light ${lumens} lm\n  port hdmi is hdmi, takes picture and sound\n  runs on mains\n}\n`, show("shows slides on beamer, text-height 6 %", "shows call on laptop.screen"));
const TALK = (...more: string[]): string => screened("1.8 m") + show("shows call on beamer, faces 4", ...more);

const THROW = (place: string): string => hall(`${BOX + LAPEL}place beamer is projector, ${place}, height 2.9 m, fills wall { throw 1.2 to 1.6 }\ncable from laptop.hdmi to beamer.hdmi\nmains from back-wall to beamer\n`) + show("shows call on beamer, faces 4");
/** A projector that stands 3.4 m before the wall, at whatever height, with so much of a keystone setting. */
const SQUARE = (place: string, more = ""): string => THROW(place).replace("throw 1.2 to 1.6", `throw 1.2 to 1.6, keystone 12 deg by 10 deg${more}`);
const PLANS = (purpose: string): string => screened("1.8 m", "2 m").replace("beamer is projector", "beamer is fine-one").concat(`kind fine-one is a projector {\n  light 90000 lm\n  pixels 1920x1080\n  port hdmi is hdmi, takes picture and sound\n  runs on mains\n}\n`, show(`shows slides on beamer, text-height 6 %, purpose ${purpose}`, "shows call on laptop.screen, faces 1"));
const ALONE = FACES(4).replace("chairs 24 in 4 rows { first 4.8 m", "chairs 6 in 1 rows { first 4.8 m");
const COLUMN = (at: string): string => ALONE.replace("  screen wall", `  column pillar at ${at}, width 0.5 m\n  screen wall`);
const BEFORE = (at: string): string => ALONE.replace("join laptop {", `place tv is flat-display, at ${at}, aim audience { diagonal 65 inch }\nmains from left-wall to tv\njoin laptop {`);
/** A window beside the screen, curtains as said, on a day and at an hour; lamps dimmed, so that they wash nothing out. */
const DAY = (when: string, curtains = ""): string => (screened("1.8 m").replace("beamer is projector", "beamer is small-one")
  + "kind small-one is a projector {\n  light 2000 lm\n  port hdmi is hdmi, takes picture and sound\n  runs on mains\n}\n" + show("shows call on beamer, faces 4"))
  .replace("  light 30 lx on screen\n", `  lamps all dimmed\n  latitude 52 deg\n  window street at (1.5 m, 0 m), width 3 m, height 2 m, sill 0.8 m, looks south-west\n${curtains}`).concat(`meeting { ${when}, zone Europe/London }\n`);
const LIT = (light: string, more = ""): string => (screened("1.8 m") + show(`shows call on beamer, faces 4${more}`)).replace("light 30 lx on screen", `light ${light} on screen`);
const MIRROR = (said: string): string => FACES(4).replace("(1.2 m, 2.4 m), aim Ines", `(1.2 m, 2.4 m), aim Ines${said}`);

export const DISPLAY_PAIRS: readonly Pair[] = [
  { code: "text-small", about: "1.8 % of a picture 1.1 m high, and 4 %", severity: "error", subjects: ["beamer"], raises: SLIDES("1.8 %"), doesNot: SLIDES("4 %"), fix: "Make the smallest text 4 % of the picture's height" },
  { code: "text-small", about: "a little too small is a warning", severity: "warning", subjects: ["beamer"], raises: SLIDES("2.9 %"), doesNot: SLIDES("4 %") },
  {
    code: "text-small", about: "what the people online present counts, too", severity: "error", subjects: ["beamer"],
    raises: screened("1.8 m", "2 m") + show("shows call on beamer, faces 1, text-height 1.8 %"), doesNot: screened("1.8 m", "2 m") + show("shows call on beamer, faces 1, text-height 4 %"),
  },
  {
    code: "text-small", about: "what is presented online is taken in coarser than it is written", severity: "warning", subjects: ["laptop"],
    raises: COARSE("receives content at 180p5"), doesNot: COARSE("receives content at 720p5"), fix: "Take in what is presented online at 720 lines on laptop",
  },
  {
    code: "text-small", about: "so the service hands it out: larger text", severity: "warning", subjects: ["laptop"],
    raises: `${COARSE("receives content at 1080p5")}service { receives content at 180p5 }\n`, doesNot: `${COARSE("receives content at 1080p5")}service { receives content at 720p5 }\n`, fix: "Let whoever presents online make the smallest text 6 % of the picture's height",
  },
  { code: "image-small", about: "nobody said how large the text is, and no text would do", severity: "warning", subjects: ["tv"], raises: LONG + SLIDES_ON_TV, doesNot: LONG.replace("first 8.5 m", "first 1.2 m, pitch 0.4 m").replace(", pitch 0.9 m", "") + SLIDES_ON_TV, fix: "Make the smallest text 8 % of the picture's height" },
  { code: "face-small", about: "forty-nine faces at once, and four", severity: "hint", subjects: ["beamer"], raises: FACES(49), doesNot: FACES(4), fix: "Show 9 faces at once on beamer" },
  {
    code: "too-near", about: "a front row under a high picture, and one that stands back", severity: "hint", subjects: ["beamer"],
    raises: screened("1.8 m").replace("first 4.8 m", "first 1.6 m") + show("shows call on beamer, faces 4"), doesNot: FACES(4), fix: "Move the first row of audience back to 3.5 m",
  },
  { code: "off-axis", about: "a display in a corner that looks along the wall", severity: "warning", subjects: ["tv"], raises: SIDE("(0.3 m, 6 m)"), doesNot: SIDE("(6 m, 4 m)"), fix: "Turn tv to the audience" },
  {
    code: "off-axis", about: "a display high up whose viewing angle from top to bottom is narrow, and one lower down", severity: "warning", subjects: ["tv"],
    raises: STEEP("2.4 m"), doesNot: STEEP("1.4 m"),
  },
  { code: "heads-block", about: "a display at the height of heads, and one above them", severity: "warning", subjects: ["tv"], raises: LOW("1.0 m"), doesNot: LOW("2.5 m"), fix: "Raise the middle of tv to 2.5 m" },
  {
    code: "heads-block", about: "a column before the seats, and one by the wall", severity: "warning", subjects: ["beamer", "pillar"],
    raises: COLUMN("(3 m, 3.2 m)"), doesNot: COLUMN("(3 m, 0.3 m)"),
  },
  { code: "heads-block", about: "a display on its stand before the screen, and one beside it", severity: "warning", subjects: ["beamer", "tv"], raises: BEFORE("(2.5 m, 3.2 m, 1.9 m)"), doesNot: BEFORE("(0.3 m, 0.5 m, 1.0 m)") },
  { code: "beam-blocked", about: "a column in the beam, and one beside it", severity: "warning", subjects: ["beamer"], raises: COLUMN("(6 m, 3.2 m)"), doesNot: COLUMN("(6 m, 0.3 m)") },
  { code: "beam-blocked", about: "a projector on a low table behind two rows, and one overhead", severity: "warning", subjects: ["beamer"], raises: BEAM("0.8 m"), doesNot: BEAM("2.9 m"), fix: "Put beamer 1.8 m high, on a stand that cannot be knocked over" },
  { code: "washed-out", about: "100 lm over four metres of width in any lit room, and 40 000", severity: "error", subjects: ["beamer"], raises: BRIGHT(100), doesNot: BRIGHT(40_000) },
  { code: "talker-cannot-see", about: "the only picture of those online hangs behind her", severity: "hint", subjects: ["Ines"], raises: TALK(), doesNot: TALK("shows call on laptop.screen, faces 1"), fix: "Show the call on laptop.screen too, for Ines" },
  {
    code: "one-display-two-jobs", about: "slides and faces on one beamer, and on two displays", severity: "hint", subjects: ["beamer"],
    raises: ONE_ROW + show("shows slides on beamer, text-height 6 %", "shows call on beamer, faces 1"), doesNot: ONE_ROW + show("shows slides on beamer, text-height 6 %", "shows call on laptop.screen, faces 1"),
    fix: "Show the call on laptop.screen instead",
  },
  {
    code: "throw-misfit", about: "a lens for 1.2 to 1.6, from a metre and from 3.4", severity: "error", subjects: ["beamer"],
    raises: THROW("at (1.2 m, 3.2 m)"), doesNot: THROW("at (3.4 m, 3.2 m)"), fix: "Put beamer 3.4 m before the surface",
  },
  {
    code: "throw-misfit", about: "a projector on the floor, and one as high as the lower edge of its picture", severity: "warning", subjects: ["beamer"],
    raises: SQUARE("at (3.4 m, 3.2 m)").replace("height 2.9 m", "height 0.3 m"), doesNot: SQUARE("at (3.4 m, 3.2 m)").replace("height 2.9 m", "height 1.6 m"), fix: "Put beamer 1.7 m high, on a stand that cannot be knocked over",
  },
  {
    code: "throw-misfit", about: "a projector far aside, and one straight before the middle", severity: "warning", subjects: ["beamer"],
    raises: SQUARE("at (3.4 m, 1.4 m)"), doesNot: SQUARE("at (3.4 m, 3.2 m)"), fix: "Put beamer straight before the middle of its picture",
  },
  { code: "image-small", about: "plans of which every line counts, and slides that are read", severity: "warning", subjects: ["beamer"], raises: PLANS("inspection"), doesNot: PLANS("reading") },
  { code: "washed-out", about: "faces that are to be as clear as text, and faces at a glance", severity: "warning", subjects: ["beamer"], raises: LIT("75 lx", ", purpose reading").replace("projector, at", "projector, light 3000 lm, at"), doesNot: LIT("75 lx", ", purpose glance").replace("projector, at", "projector, light 3000 lm, at") },
  {
    code: "washed-out", about: "a window beside the screen on an afternoon in June, and after dark", severity: "warning", subjects: ["beamer"],
    raises: DAY("date 2026-06-13, start 14:00, end 15:00"), doesNot: DAY("date 2026-11-25, start 19:00, end 20:00"), fix: "Draw a heavy curtain over street; if it has none, ask the venue for a cloth",
  },
  { code: "washed-out", about: "that window bare, and with a heavy curtain", severity: "warning", subjects: ["beamer"], raises: DAY("date 2026-06-13, start 14:00, end 15:00"), doesNot: DAY("date 2026-06-13, start 14:00, end 15:00", "  curtains heavy over street\n") },
  { code: "washed-out", about: "light that was measured on the screen", severity: "warning", subjects: ["beamer"], raises: LIT("200 lx"), doesNot: LIT("40 lx") },
  { code: "screen-mirrored", about: "a laptop that mirrors its screen, and one that extends it", severity: "warning", subjects: ["laptop"], raises: MIRROR(", mirrored"), doesNot: MIRROR(""), fix: "Extend the screen of laptop" },
];
