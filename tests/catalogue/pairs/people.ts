/** What has to be there, and who sees to it. Names are invented. */
import { hall as whole, IN_ORDER, SEEN_TO } from "../../study/setups";
import type { Pair } from "../harness";

/** Nobody sees to the call yet. */
const hall = (rest: string): string => whole(rest).replace(SEEN_TO, "");

const evening = (...lines: readonly string[]): string => hall(`${IN_ORDER}${lines.map((line) => `${line}\n`).join("")}`);
const box = (said: string): string => hall(IN_ORDER.replace("aim audience {", `aim audience, ${said} {`));
const KIT = { "kit/ours.bothways": 'device mast is webcam, owned by "the club"\n' };
const other = (title: string, date: string): string => `setup "${title}"\nuse "kit/ours.bothways"\ndate ${date}\nroom barn 12 m by 8 m\nplace mast at front\n`;

export const PEOPLE_PAIRS: readonly Pair[] = [
  {
    code: "role-open", about: "a job without a name", severity: "plan", subjects: [],
    raises: evening("job camera"), doesNot: evening("job camera by Teo"), fix: "Let Marit see to the camera",
  },
  {
    code: "one-expert", about: "one knows the setup", severity: "plan", subjects: ["Teo"],
    raises: evening("job set-up by Teo"), doesNot: evening("job set-up by Teo and Marit"), fix: "Let Marit see to setting everything up",
  },
  {
    code: "one-expert", about: "one has every job", severity: "plan", subjects: ["Marit"],
    raises: evening("job chat by Marit", "job keys by Marit"), doesNot: evening("job chat by Marit", "job keys by Teo"),
  },
  {
    code: "not-rehearsed", about: "a day, and no rehearsal before it", severity: "plan", subjects: [],
    raises: evening("date 2026-10-14"), doesNot: evening("date 2026-10-14", "rehearsal 2026-10-12 19:00"),
  },
  {
    code: "not-rehearsed", about: "a rehearsal on the day itself is none", severity: "plan", subjects: [],
    raises: evening("date 2026-10-14", "rehearsal 2026-10-14"), doesNot: evening("date 2026-10-14", "rehearsal 2026-10-13"),
  },
  {
    code: "setup-rushed", about: "three quarters of an hour", severity: "plan", subjects: [],
    raises: evening("meeting { access 17:45, start 18:30 }"), doesNot: evening("meeting { access 17:30, start 18:30 }"),
  },
  {
    code: "door-and-keys", about: "a day, and nobody with the keys", severity: "plan", subjects: [],
    raises: evening("date 2026-10-14"), doesNot: evening("date 2026-10-14", "job keys by Teo"), fix: "Let Marit see to the keys",
  },
  {
    code: "kit-missing", about: "nobody has a loudspeaker", severity: "error", subjects: ["box"],
    raises: box("missing"), doesNot: hall(IN_ORDER),
  },
  {
    code: "kit-missing", about: "whose the other things are is not said, that of one is: a gap in the plan", severity: "plan", subjects: ["laptop", "lapel", "beamer"],
    raises: box('borrowed from "the school"'), doesNot: hall(IN_ORDER),
  },
  {
    code: "over-budget", about: "a loudspeaker for 180, and 150 to spend", severity: "warning", subjects: ["box"],
    raises: `${box("to-buy for 180")}budget 150\n`, doesNot: `${box("to-buy for 140")}budget 150\n`,
  },
  {
    code: "kit-double", about: "two evenings of one day with the same camera", severity: "warning", subjects: ["mast"],
    raises: `use "kit/ours.bothways"\n${evening("date 2026-10-14", "place mast at front, aim audience")}`,
    doesNot: `use "kit/ours.bothways"\n${evening("date 2026-10-15", "place mast at front, aim audience")}`,
    beside: { ...KIT, "other.bothways": other("Somebody else's evening", "2026-10-14"), "mine.bothways": other("One thing at a time", "2026-10-14") },
  },
];
