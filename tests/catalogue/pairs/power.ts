/** What hangs on the mains. Names are invented. */
import { BEAMER, BOX, hall, LAPEL } from "../../study/setups";
import type { Pair } from "../harness";

const SHOW = "join laptop {\n  sends sound from lapel\n  plays sound on box\n  shows call on beamer, faces 4\n}\n";
/** Two outlets, both on one circuit, and a third on another; an urn in the first. */
const CIRCUITS = (besides: string, other = "stage"): string => hall(`${BOX + LAPEL + BEAMER}${SHOW}`)
  .replace("  outlet left-wall at left, sockets 4\n  outlet back-wall at back, sockets 4\n", `  voltage 230 V
  circuit stage, rated 10 A, draws ${besides}
  circuit kitchen, rated 10 A
  outlet left-wall at left, sockets 4, fed-by stage
  outlet back-wall at back, sockets 4, fed-by ${other}
  outlet hatch at right, sockets 4, fed-by kitchen
`).replace("place beamer is projector", "place beamer is projector, draws 300 W").replace("place laptop is laptop", "place laptop is laptop, draws 60 W");
const LEADS = (line: string, facts = ""): string => hall(`${BOX + LAPEL + BEAMER.replace("mains from back-wall to beamer", line)}${SHOW}device long is extension-lead, sockets 4${facts}\ndevice short is extension-lead, sockets 4\n`);
const FULL = (sockets: number): string => hall(`${BOX + LAPEL + BEAMER}${SHOW}place lamp is desk-lamp, at back\nkind desk-lamp is a display {\n  diagonal 10 inch\n  runs on mains\n  draws 8 W\n}\nmains from back-wall to lamp\n`).replace("outlet back-wall at back, sockets 4", `outlet back-wall at back, sockets ${sockets}`);

export const POWER_PAIRS: readonly Pair[] = [
  {
    code: "circuit-overload", about: "two outlets behind one breaker with an urn on it, and one of them behind another", severity: "error", subjects: ["stage"],
    raises: CIRCUITS("2000 W"), doesNot: CIRCUITS("2000 W", "kitchen"), fix: "Plug beamer into hatch",
  },
  { code: "circuit-overload", about: "an urn that leaves enough", severity: "error", subjects: ["stage"], raises: CIRCUITS("2000 W"), doesNot: CIRCUITS("1500 W") },
  {
    code: "circuit-overload", about: "80 per cent, where the text says that no more is allowed", severity: "error", subjects: ["stage"],
    raises: `${CIRCUITS("1600 W")}limit circuit-overload 80 % because "the venue’s rule for more than three hours"\n`, doesNot: CIRCUITS("1600 W"),
  },
  {
    code: "circuit-overload", about: "an outlet that says what it may carry", severity: "error", subjects: ["back-wall"],
    raises: FULL(4).replace("outlet back-wall at back, sockets 4", "outlet back-wall at back, sockets 4, rated 1 A").replace("place beamer is projector", "place beamer is projector, draws 300 W"),
    doesNot: FULL(4).replace("outlet back-wall at back, sockets 4", "outlet back-wall at back, sockets 4, rated 10 A").replace("place beamer is projector", "place beamer is projector, draws 300 W"), fix: "Plug beamer into left-wall",
  },
  { code: "outlets-short", about: "two plugs, one socket", severity: "error", subjects: ["back-wall"], raises: FULL(1), doesNot: FULL(2), fix: "Plug lamp into left-wall" },
  {
    code: "lead-chained", about: "a lead in a lead, and one in an outlet", severity: "error", subjects: ["short", "long"],
    raises: LEADS("mains from back-wall to long\nmains from long to short\nmains from short to beamer"), doesNot: LEADS("mains from back-wall to long\nmains from left-wall to short\nmains from short to beamer"), fix: "Plug short into back-wall",
  },
  {
    code: "lead-chained", about: "a drum that stays wound up, and one unwound", severity: "error", subjects: ["long"],
    raises: LEADS("mains from back-wall to long\nmains from long to beamer", ", wound"), doesNot: LEADS("mains from back-wall to long\nmains from long to beamer"), fix: "Unwind all of long",
  },
];
