/** Who else shall be able to follow, and what people have agreed to. Names are invented. */
import { BEAMER, BOX, hall as whole, IN_ORDER, LAPEL, SEEN_TO } from "../../study/setups";
import type { Pair } from "../harness";

const call = (said: string, more = ""): string => whole(`${IN_ORDER}${more}${said === "" ? "" : `call { ${said} }\n`}`);
const unseen = (said: string, more = ""): string => call(said, more).replace(SEEN_TO, "");
const TAPE = (wired: boolean): string => `place desk is mixer, at operator
mains from back-wall to desk
place tape is sound-recorder, at operator
${wired ? "cable from desk.main-left to tape.in\n" : ""}`;
/** What is sent comes from a microphone through a mixer, and the call comes back into it. */
const DESK = (wired: boolean): string => whole(`${TAPE(wired)}place stand is gooseneck-microphone, at Ines
cable from stand.plug to desk.in-1
cable from laptop.headset to desk.in-7
cable from desk.usb to laptop.usb-1
mixer desk {
  channel speech from desk.in-1
  channel online from desk.in-7
  bus far-end to desk.usb { holds speech }
  bus all to desk.main-left { holds all }
}
join laptop { sends sound from desk, plays sound on desk }
call { records on tape, consent given }
job record by Teo
`);
const FAR = (said: string): string => whole(`${BOX}${BEAMER}join laptop { sends sound from laptop.microphone, plays sound on box, shows call on beamer }\n${said}`)
  .replace("standing\n", "standing, speech-level 66 dBA\n").replace("at (1.2 m, 2.4 m), aim Ines", "at (5 m, 3.2 m), aim Ines").replace("reverberation 0.8 s", "reverberation 5 s");

/** A camera in the middle of the room, and somebody in the last row who wants to be in no picture. */
const SHY = (aim: string, off = "off-camera in row 4"): string => whole(`${BOX}${LAPEL}place eye is webcam, at (2.6 m, 3.2 m, 1.7 m), aim ${aim} { view 60 deg }
cable from eye.usb to laptop.usb-1
join laptop { sends sound from lapel, sends picture from eye at 1080p30, plays sound on box }
`).replace("spacing 0.55 m }", `spacing 0.55 m, ${off} }`);

export const ACCESS_PAIRS: readonly Pair[] = [
  {
    code: "in-frame-against-will", about: "a camera that is aimed at the audience, one row of which wants to be in no picture", severity: "error", subjects: ["eye", "audience"],
    raises: SHY("audience"), doesNot: SHY("Ines"), fix: "Aim eye at Ines",
  },
  {
    code: "in-frame-against-will", about: "nobody minds", severity: "error", subjects: ["eye", "audience"],
    raises: SHY("audience"), doesNot: SHY("audience", "wheelchair in row 1 from seat 1 to 1"),
  },
  {
    code: "no-captions", about: "the service makes none and nobody writes them", severity: "warning", subjects: [],
    raises: call("captions", "service { captions none }\n"), doesNot: call('captions by "Vera"', "service { captions none }\n"),
  },
  {
    code: "no-captions", about: "nothing is said on who makes them: a question", severity: "hint", subjects: [],
    raises: call("captions"), doesNot: call("captions", "service { captions made }\n"),
  },
  {
    code: "no-captions", about: "words that are lost on the way are written down wrongly: a consequence of that", severity: "warning", subjects: ["Ines"],
    raises: FAR('call { captions by "Vera" }\n'), doesNot: FAR(""),
  },
  {
    code: "no-captions", about: "a microphone that is worn is clear enough", severity: "warning", subjects: ["Ines"],
    raises: FAR('call { captions by "Vera" }\n'), doesNot: FAR(`${LAPEL}call { captions by "Vera" }\n`).replace("sends sound from laptop.microphone", "sends sound from lapel"),
  },
  {
    code: "no-recording", about: "the service keeps none", severity: "warning", subjects: [],
    raises: call("records, consent given", "service { recording none }\n"), doesNot: call("records, consent given", "service { recording service }\n"),
  },
  {
    code: "no-recording", about: "a device has to keep it, and none is named", severity: "warning", subjects: [],
    raises: call("records, consent given", "service { recording device }\n"), doesNot: call("records on laptop, consent given", "service { recording device }\n"), fix: "Record on laptop",
  },
  {
    code: "no-recording", about: "on something that is not in the call", severity: "warning", subjects: ["beamer"],
    raises: call("records on beamer, consent given", "service { recording service }\n"), doesNot: call("records, consent given", "service { recording service }\n"), fix: "Let the service record",
  },
  {
    code: "no-recording", about: "nothing is said on who keeps it: a question", severity: "hint", subjects: [],
    raises: call("records, consent given"), doesNot: call("records, consent given", "service { recording service }\n"),
  },
  {
    code: "no-recording", about: "nobody is named who starts it: a gap in the plan", severity: "plan", subjects: [],
    raises: unseen("records, consent given", "service { recording service }\n"), doesNot: unseen("records, consent given", "service { recording service }\njob record by Teo\n"), fix: "Let Marit see to the recording",
  },
  {
    code: "no-recording", about: "who is to start it may not", severity: "plan", subjects: ["Nele"],
    raises: unseen("records, consent given", "service { recording service, run-by named }\njob record by Nele\njob run-call by Teo and Ute\n"),
    doesNot: unseen("records, consent given", "service { recording service, run-by named }\njob record by Ute\njob run-call by Teo and Ute\n"),
  },
  {
    code: "loop-misses", about: "a recorder that the mixer does not lead to", severity: "error", subjects: ["tape"],
    raises: DESK(false), doesNot: DESK(true),
  },
  {
    code: "consent-missing", about: "a recording, and nothing on who agreed", severity: "warning", subjects: [],
    raises: call("records", "service { recording service }\n"), doesNot: call("records, consent announced", "service { recording service }\n"),
  },
  {
    code: "consent-missing", about: "an evening without a recording needs none", severity: "warning", subjects: [],
    raises: call("records", "service { recording service }\n"), doesNot: call("consent announced"),
  },
];
