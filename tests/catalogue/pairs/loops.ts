/** What goes round and comes back: echo, howl, cancellers, returns left on a mix, streams and visitors. Names are invented. */
import { BEAMER, BOX, hall, IN_ORDER, LAPEL } from "../../study/setups";
import type { Pair } from "../harness";

/** A hall with a mixer, a microphone on a stand and a loudspeaker; `set` is how the mixer is set, `said` what the join says. */
const reinforced = (set: string, said = "sends sound from desk, plays no sound", stand = "(1.3 m, 3.2 m, 1.5 m), aim (1.0 m, 3.2 m, 1.5 m) { mouth 0.3 m }"): string => hall(`place desk is mixer, at operator
place pa is mains-loudspeaker, at (1.6 m, 1.6 m, 1.6 m), aim (6 m, 3.2 m, 1.2 m) { speech-level 84 dBA }
mains from back-wall to desk
mains from left-wall to pa
place stand is gooseneck-microphone, at ${stand}
cable from stand.plug to desk.in-1
cable from desk.main-left to pa.line
cable from desk.usb to laptop.usb-1
mixer desk {
  channel speech from desk.in-1
${set}
  bus far-end to desk.usb { holds speech }
}
join laptop { ${said} }
`).replace("noise 38 dBA", "noise 60 dBA");
const bus = (gain: string): string => `  bus room to desk.main-left { holds speech${gain} }`;

/** Eight microphones in a row on one mixer. */
const row = (automatic: string): string => hall(`place desk is mixer, at operator
place pa is mains-loudspeaker, at (8.6 m, 0.6 m, 2.4 m), aim (5 m, 3.2 m, 1.2 m) { speech-level 80 dBA }
mains from back-wall to desk
mains from left-wall to pa
${Array.from({ length: 8 }, (_, i) => `place m${i} is gooseneck-microphone, at (1.3 m, ${(2.6 + 0.15 * i).toFixed(2)} m, 1.5 m), aim (1.0 m, 3.2 m, 1.5 m) { mouth 0.3 m }\ncable from m${i}.plug to desk.in-${i + 1}\n`).join("")}cable from desk.main-left to pa.line
cable from desk.usb to laptop.usb-1
mixer desk {
${automatic}${Array.from({ length: 8 }, (_, i) => `  channel c${i} from desk.in-${i + 1}\n`).join("")}  bus room to desk.main-left { holds all at -10 dB }
  bus far-end to desk.usb { holds all }
}
join laptop { sends sound from desk, plays no sound }
`).replace("noise 38 dBA", "noise 60 dBA").replace("standing", "standing, speech-level 66 dBA");

/** What the laptop plays goes through an interface into the desk, and from the desk back into the laptop. */
const circle = (set: string, said = ""): string => hall(`place desk is mixer, at operator
mains from back-wall to desk
place stand is gooseneck-microphone, at Ines
cable from stand.plug to desk.in-1
cable from desk.usb to laptop.usb-1
place turn is sound-interface, at operator
cable from turn.usb to laptop.usb-2
cable from turn.out-1 to desk.in-7
${set}join laptop { sends sound from desk, plays sound on turn${said} }
`);
const set = (holds: string): string => `mixer desk {
  channel speech from desk.in-1
  channel online from desk.in-7
  bus far-end to desk.usb {
    holds all
${holds}  }
}
`;
/** Two computers on one mixer: one plays into it, the other sends from it. */
const two = (holds: string): string => hall(`place second is laptop, at operator
place desk is mixer, at operator
mains from back-wall to second
mains from back-wall to desk
cable from second.headset to desk.in-7
cable from desk.usb to laptop.usb-1
mixer desk {
  channel online from desk.in-7
  bus far-end to desk.usb { ${holds} }
}
join laptop { sends sound from desk, plays no sound }
join second { sends no sound, plays sound on desk }
`);

const all = hall(IN_ORDER);
const untold = all.replace("visitors none\n", "");
const pod = (said: string): string => hall(`${BEAMER}place pod is conference-speakerphone, at (2.0 m, 3.2 m)\ncable from pod.usb to laptop.usb-1\njoin laptop { sends sound from pod, plays sound on pod, shows call on beamer${said} }\n`);
const strained = (from: string): string => hall(`${LAPEL}place pa is mains-loudspeaker, at (7.6 m, 5.8 m), aim (7.8 m, 5.6 m)
mains from back-wall to pa
cable from laptop.usb-1 to turn.usb
place turn is sound-interface, at operator
cable from turn.out-1 to pa.line
place far is gooseneck-microphone, at (7.8 m, 5.6 m)
cable from far.plug to turn.in-1
join laptop { sends sound from ${from}, plays sound on pa }
`).replace("noise 38 dBA", "noise 60 dBA").replace("standing", "standing, speech-level 66 dBA");
const monitored = (said: string): string => hall(`${BOX}place ears is wired-headset, at operator\ncable from ears.plug to laptop.headset\njoin laptop { sends sound from laptop.microphone, plays sound on box${said} }\n`);
const watched = (said: string): string => `${all}place tablet is tablet, at (5 m, 3 m)\nwatch tablet${said}\n`;

const beside = (said: string): string => `${all.replace("sends sound from lapel", "sends sound from laptop.microphone")}place phone is phone, at (1.3 m, 2.5 m)\njoin phone { sends no picture${said} }\n`.replace("standing", "standing, speech-level 60 dBA");

const HOWL: readonly Pair[] = [
  {
    code: "howl-loop", about: "the loudspeaker of the hall beside its microphone, through the mixer; turned down on the bus it is quiet", severity: "error", subjects: ["stand", "pa"],
    raises: reinforced(bus(" at 14 dB")), doesNot: reinforced(bus(" at -14 dB")), fix: "Turn room down by 28 dB",
  },
  {
    code: "howl-loop", about: "a pad in the channel counts", severity: "error", subjects: ["stand", "pa"],
    raises: reinforced(bus(" at 14 dB")), doesNot: reinforced(bus(" at 14 dB")).replace("channel speech from desk.in-1", "channel speech from desk.in-1, pad 28 dB"), fix: "Take speech off room",
  },
  {
    code: "howl-loop", about: "eight microphones open at once; a mixer that opens one at a time takes 9 dB out of it", severity: "warning", subjects: ["m7", "pa"],
    raises: row(""), doesNot: row("  automatic\n"), fix: "Let desk open one microphone at a time",
  },
  {
    code: "howl-loop", about: "through the call: two live devices, each plays what the other sends, goes under the echo", severity: "error", subjects: ["laptop", "phone"],
    raises: beside(""), doesNot: beside(", sends no sound, plays no sound"), fix: "Turn off the sound of phone",
  },
];

const MIX: readonly Pair[] = [
  {
    code: "mix-not-minus", about: "one computer plays into the mixer and sends what comes out of it, its canceller off", severity: "error", subjects: ["desk", "laptop"],
    raises: circle(set(""), ", cancels no echo"), doesNot: circle(set("    holds no online\n"), ", cancels no echo"), fix: "Take online off far-end of desk",
  },
  {
    code: "mix-not-minus", about: "the same with its canceller on: a warning", severity: "warning", subjects: ["desk", "laptop"],
    raises: circle(set("")), doesNot: circle(set("    holds no online\n")), fix: "Take online off far-end of desk",
  },
  {
    code: "mix-not-minus", about: "one computer plays into the mixer, another sends: no canceller holds it", severity: "error", subjects: ["desk", "second"],
    raises: two("holds online"), doesNot: two("holds no online"), fix: "Take online off far-end of desk",
  },
  {
    code: "mix-not-minus", about: "a mixer of which nothing is said is asked about, and its setting written down", severity: "hint", subjects: ["desk", "laptop"],
    raises: circle(""), doesNot: circle(set("    holds no online\n")), fix: "Take desk.in-7 off what desk gives at desk.usb",
  },
];

const CANCELLERS: readonly Pair[] = [
  {
    code: "canceller-twice", about: "a speakerphone with a canceller of its own, and the computer's is switched on for it", severity: "hint", subjects: ["pod", "laptop"],
    raises: pod(", cancels echo"), doesNot: pod(", cancels no echo"), fix: "Switch the canceller of laptop off",
  },
  {
    code: "canceller-moving", about: "a microphone that turns itself up", severity: "hint", subjects: ["lapel", "laptop"],
    raises: all.replace("lapel-microphone, on Ines", "lapel-microphone, on Ines { gain automatic }"), doesNot: all.replace("lapel-microphone, on Ines", "lapel-microphone, on Ines { gain fixed }"), fix: "Fix the gain of lapel",
  },
  {
    code: "canceller-moving", about: "a channel of a mixer that turns itself up", severity: "hint", subjects: ["speech", "laptop"],
    raises: reinforced(bus(" at -30 dB"), "sends sound from desk, plays sound").replace("channel speech from desk.in-1", "channel speech from desk.in-1, gain automatic"),
    doesNot: reinforced(bus(" at -30 dB"), "sends sound from desk, plays sound"), fix: "Fix the gain of speech",
  },
  {
    code: "canceller-strained", about: "a microphone before the loudspeaker, far from whoever speaks", severity: "hint", subjects: ["laptop", "pa"],
    raises: strained("far"), doesNot: strained("lapel"), fix: "Send the sound of lapel",
  },
];

const OTHERS: readonly Pair[] = [
  {
    code: "monitor-loop", about: "the microphone monitored on the loudspeaker of the hall; on earphones it is in order", severity: "warning", subjects: ["laptop", "box"],
    raises: monitored(", monitors on box"), doesNot: monitored(", monitors on ears"), fix: "Switch the monitoring of laptop off",
  },
  {
    code: "stream-audible", about: "a tablet in the audience plays the public stream", severity: "error", subjects: ["tablet"],
    raises: watched(" { plays sound }"), doesNot: watched(" { plays no sound }"), fix: "Watch the stream on tablet without sound",
  },
  {
    code: "stream-audible", about: "nothing said on its sound: a warning, and asked for", severity: "warning", subjects: ["tablet"],
    raises: watched(""), doesNot: watched(" { plays no sound }"), fix: "Watch the stream on tablet without sound",
  },
  {
    code: "visitor-joins", about: "24 people in the room, and nothing said on their telephones", severity: "plan", subjects: ["audience"],
    raises: untold, doesNot: `${untold}visitors none\n`, fix: "Ask whoever joins from the room to come in with sound off",
  },
  {
    code: "visitor-joins", about: "visitors may join, and nothing said on their sound", severity: "plan", subjects: ["audience"],
    raises: `${untold}call { visitors may-join }\n`, doesNot: `${untold}call { visitors muted }\n`, fix: "Ask whoever joins from the room to come in with sound off",
  },
  {
    code: "echo-path", about: "another room that cancels nothing sends back what it plays", severity: "error", subjects: ["annex"],
    raises: `${all}remote-room annex 12 people { cancels no echo }\n`, doesNot: `${all}remote-room annex 12 people { cancels echo }\n`,
  },
];

export const LOOP_PAIRS: readonly Pair[] = [...HOWL, ...MIX, ...CANCELLERS, ...OTHERS];
