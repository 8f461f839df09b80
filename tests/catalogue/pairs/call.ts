/** The service, accounts, and who sees to the call. Names are invented. */
import { hall as whole, IN_ORDER, SEEN_TO } from "../../study/setups";
import type { Pair } from "../harness";

/** Nobody sees to the call yet. */
const hall = (rest: string, internet?: string): string => whole(rest, internet).replace(SEEN_TO, "");

const TIMES = "meeting { start 18:30, end 20:00 }\nprogramme {\n  item talk from 18:30, talkers Ines\n  item questions from 19:10, talkers Ines\n}\n";
const evening = (service: string): string => hall(`${TIMES}${IN_ORDER}service { ${service} }\n`);
const second = (first: string, other: string): string => hall(IN_ORDER.replace("join laptop {", `join laptop { ${first}`)
  + `place phone is phone, at (3 m, 6 m), aim audience, calls off\njoin phone { ${other}sends no sound, plays no sound, sends picture }\nservice { devices-per-account 1 }\n`);
const phone = (place: string): string => hall(`${IN_ORDER}place phone is phone, at (3 m, 6 m), aim audience${place}\njoin phone { sends no sound, plays no sound, sends picture }\n`);
/** A tablet that shows something on a display by radio. */
const CAST = `kind wall-panel is a display {
  diagonal 55 inch
  port air is wifi, takes picture
  port hdmi is hdmi, takes picture
  runs on mains
}
kind slate is a computer {
  port air is wifi, gives picture
  port hdmi is hdmi, gives picture
  runs on battery
}
place panel is wall-panel, at front
place slate is slate, at operator
mains from left-wall to panel
`;
const INN = "internet venue { up 20 Mb/s measured 2026-10-07 18:40, wired, isolates guests }";
const jobs = (...lines: readonly string[]): string => hall(`${IN_ORDER}${lines.map((line) => `${line}\n`).join("")}`);

export const CALL_PAIRS: readonly Pair[] = [
  {
    code: "call-ends", about: "40 minutes, and a meeting of 90", severity: "error", subjects: [],
    raises: evening("ends after 40 min"), doesNot: evening("ends after 90 min"),
  },
  {
    code: "call-ends", about: "an hour, opened anew where an item begins", severity: "error", subjects: [],
    raises: evening("ends after 1 h"), doesNot: evening("ends after 1 h, reopens at 19:10"), fix: "Open the call anew at 19:10, where an item begins",
  },
  {
    code: "call-full", about: "four online and one device, and room for four", severity: "error", subjects: [],
    raises: evening("capacity 4 people"), doesNot: evening("capacity 5 people"),
  },
  {
    code: "call-full", about: "more than most services hold, as far as one knows", severity: "warning", subjects: [],
    raises: hall(IN_ORDER).replace("online 4 people", "online 200 people"), doesNot: hall(IN_ORDER).replace("online 4 people", "online 40 people"),
  },
  {
    code: "second-join", about: "both under the account of the choir", severity: "warning", subjects: ["laptop", "phone"],
    raises: second("account choir, ", "account choir, "), doesNot: second("account choir, ", "account phone, "), fix: "Let phone join under a name of its own",
  },
  {
    code: "second-join", about: "nothing is said on names: a question", severity: "hint", subjects: ["laptop", "phone"],
    raises: second("", ""), doesNot: second("account choir, ", "account phone, "), fix: "Let phone join under a name of its own",
  },
  {
    code: "phone-interrupted", about: "calls come through to a telephone that is a camera", severity: "warning", subjects: ["phone"],
    raises: phone(", calls on"), doesNot: phone(", calls off"), fix: "Let no telephone call through to phone",
  },
  {
    code: "phone-interrupted", about: "nothing is said on calls: a question", severity: "hint", subjects: ["phone"],
    raises: phone(""), doesNot: phone("").replace("sends picture", "sends no picture"), fix: "Let no telephone call through to phone",
  },
  {
    code: "casting-blocked", about: "the inn keeps its guests apart", severity: "warning", subjects: ["slate", "panel"],
    raises: hall(`${IN_ORDER}${CAST}radio from slate.air to panel.air\n`, INN), doesNot: hall(`${IN_ORDER}${CAST}radio from slate.air to panel.air\n`), fix: "Run a cable from slate.hdmi to panel.hdmi instead",
  },
  {
    code: "one-runs-call", about: "only one has the job", severity: "plan", subjects: ["Teo"],
    raises: jobs("job run-call by Teo"), doesNot: jobs("job run-call by Teo and Marit"), fix: "Let Marit see to running the call",
  },
  {
    code: "one-runs-call", about: "only the device that opened it can", severity: "plan", subjects: ["Teo"],
    raises: jobs("job run-call by Teo and Marit", "service { run-by opener }"), doesNot: jobs("job run-call by Teo and Marit", "service { run-by named }"),
  },
  {
    code: "nobody-admits", about: "people have to be let in", severity: "plan", subjects: [],
    raises: jobs("service { admission gated }"), doesNot: jobs("service { admission gated }", "job admit by Teo"), fix: "Let Marit see to letting people into the call",
  },
  {
    code: "chat-unwatched", about: "nobody reads along", severity: "plan", subjects: [],
    raises: hall(IN_ORDER), doesNot: jobs("job chat by Teo"), fix: "Let Marit see to reading what the people online write",
  },
  {
    code: "presenter-operates", about: "Ines speaks and runs the call", severity: "plan", subjects: ["Ines"],
    raises: jobs("job run-call by Ines"), doesNot: jobs("job run-call by Teo"), fix: "Let Marit see to running the call",
  },
  {
    code: "presenter-operates", about: "in one item, and in the other somebody else speaks", severity: "plan", subjects: ["Ines"],
    raises: jobs("talker Ove at (1 m, 2.6 m)", "item talk, talkers Ines", "item thanks, talkers Ove", "job run-call by Ines"),
    doesNot: jobs("talker Ove at (1 m, 2.6 m)", "item talk, talkers Ines", "item thanks, talkers Ove", "job run-call by Ines and Teo"),
  },
  {
    code: "zone-missing", about: "people from two zones, and none for the room", severity: "plan", subjects: [],
    raises: jobs("zones Europe/Lisbon and Asia/Kolkata"), doesNot: jobs("zone Europe/Tallinn", "zones Europe/Lisbon and Asia/Kolkata"),
  },
];
