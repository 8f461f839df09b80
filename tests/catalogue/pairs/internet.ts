/** The internet: the smallest setups that raise each code of it. Names are invented. */
import type { Pair } from "../harness";

/** A room and a computer in order; the line and the join are each pair's own. */
const BASE = `setup "Line"
room hall 8 m by 6 m by 3 m {
  noise 36 dBA
  reverberation 0.5 s
  chairs 8 in 2 rows { first 2.5 m, pitch 0.9 m, spacing 0.6 m }
  outlet wall-1 at left, sockets 6
}
talker Ines at (1.0 m, 3.0 m), seated
online 8 people
place laptop is laptop, at (1.6 m, 3.0 m), aim Ines
mains from wall-1 to laptop
date 2026-11-20
start 18:30
end 20:30
`;
const line = (...facts: string[]): string => `internet venue { up 10 Mb/s measured 2026-11-13 18:40, wired${facts.map((fact) => `, ${fact}`).join("")} }\n`;
const JOIN = "join laptop {\n  sends sound\n  plays sound\n  sends picture from laptop.camera at 720p30\n  shows call, faces 4\n}\n";
const SECOND = "join second {\n  sends no sound\n  plays no sound\n  sends picture from second.camera at 720p30\n  shows call, faces 1\n}\n";
const ORDER = BASE + line() + JOIN;
const LAN = `kind office-router is a router {
  ports lan 1 to 4 is ethernet
  port wifi is wifi
  runs on mains
}
place hub is office-router, at back
mains from wall-1 to hub
`;
const PAIRED = `${LAN}place up is powerline-adapter, at left
place low is powerline-adapter, at back
cable from laptop.ethernet to up.ethernet
cable from low.ethernet to hub.lan-1
mains from wall-1 to up
`;

export const INTERNET_PAIRS: readonly Pair[] = [
  {
    code: "uplink-short", about: "of two pictures the second is given up first, and what fits is offered", severity: "warning", subjects: ["venue"],
    raises: `${BASE}place phone is phone, at left\n${line().replace("10 Mb/s", "3.2 Mb/s")}${JOIN}join phone { sends no sound, plays no sound, sends picture at 720p30 }\n`,
    doesNot: `${BASE}place phone is phone, at left\n${line()}${JOIN}join phone { sends no sound, plays no sound, sends picture at 720p30 }\n`, fix: "Send phone.camera not at all",
  },
  {
    code: "uplink-short", about: "an uplink that nobody measured is never an error, however thin", severity: "warning", subjects: ["venue"],
    raises: BASE + line().replace("10 Mb/s measured 2026-11-13 18:40", "20 kb/s") + JOIN, doesNot: BASE + line().replace("10 Mb/s measured 2026-11-13 18:40", "10 Mb/s") + JOIN,
  },
  {
    code: "downlink-short", about: "eight faces at once over a line that takes four", severity: "warning", subjects: ["venue"],
    raises: BASE + line("down 3.5 Mb/s") + JOIN.replace("faces 4", "faces 8"), doesNot: BASE + line("down 3.5 Mb/s") + JOIN, fix: "Show no more than 4 faces at once",
  },
  {
    code: "downlink-short", about: "four faces over a line that takes them smaller", severity: "warning", subjects: ["venue"],
    raises: BASE + line("down 2.2 Mb/s") + JOIN, doesNot: BASE + line("down 2.2 Mb/s") + JOIN.replace("faces 4\n", "faces 4\n  receives picture at 180p15\n"), fix: "Take in the faces at 180 lines, 15 a second",
  },
  {
    code: "downlink-short", about: "the service hands out small pictures, however large a join would take them", severity: "warning", subjects: ["venue"],
    raises: BASE + line("down 2.2 Mb/s") + JOIN.replace("faces 4\n", "faces 4\n  receives picture at 720p30\n"), doesNot: `${BASE + line("down 2.2 Mb/s") + JOIN.replace("faces 4\n", "faces 4\n  receives picture at 720p30\n")}service { receives picture at 180p15 }\n`,
  },
  {
    code: "downlink-short", about: "what somebody online presents comes in beside their face", severity: "warning", subjects: ["venue"],
    raises: BASE + line("down 2.75 Mb/s") + JOIN.replace("faces 4\n", "faces 4, text-height 4 %\n"), doesNot: BASE + line("down 2.75 Mb/s") + JOIN,
  },
  {
    code: "voice-poor", about: "a line over a satellite: 600 ms there and back, and packets are lost", severity: "error", subjects: ["laptop"],
    raises: BASE + line("round-trip 900 ms", "loss 6 %") + JOIN.replace("plays sound", "plays no sound"), doesNot: BASE + line("round-trip 30 ms", "loss 0.2 %") + JOIN.replace("plays sound", "plays no sound"),
  },
  {
    code: "voice-poor", about: "packets lost on the radio of the room: a cable past it", severity: "warning", subjects: ["laptop"],
    raises: BASE + LAN + line("enters at hub") + JOIN.replace("plays sound", "plays no sound") + "radio from laptop.wifi to hub.wifi, loss 12 %\n",
    doesNot: BASE + LAN + line("enters at hub") + JOIN.replace("plays sound", "plays no sound") + "radio from laptop.wifi to hub.wifi, loss 0.3 %\n", fix: "Run a cable from laptop.ethernet to hub.lan-1",
  },
  {
    code: "slow-link", about: "a powerline pair that carries less than passes it", severity: "warning", subjects: ["up", "low"],
    raises: `${BASE}${PAIRED}${line("enters at hub")}${JOIN}powerline from up to low, rate 5 Mb/s\n`, doesNot: `${BASE}${PAIRED}${line("enters at hub")}${JOIN}powerline from up to low, rate 18 Mb/s\n`,
    fix: "Send laptop.camera at 540p30",
  },
  {
    code: "slow-link", about: "two computers take turns on one radio channel, and the slow one takes the time of both", severity: "warning", subjects: ["laptop", "hub", "second"],
    raises: `${BASE}${LAN}place second is laptop, at right\n${line("enters at hub")}${JOIN}${SECOND}radio from laptop.wifi to hub.wifi, rate 60 Mb/s\nradio from second.wifi to hub.wifi, rate 4 Mb/s\n`,
    doesNot: `${BASE}${LAN}place second is laptop, at right\n${line("enters at hub")}${JOIN}${SECOND}radio from laptop.wifi to hub.wifi, rate 60 Mb/s\nradio from second.wifi to hub.wifi, rate 40 Mb/s\n`,
    fix: "Run a cable from second.ethernet to hub.lan-1",
  },
  {
    code: "weak-wifi", about: "a stated signal under −70 dBm", severity: "hint", subjects: ["venue"],
    raises: BASE + line("signal -76 dBm") + JOIN, doesNot: BASE + line("signal -60 dBm") + JOIN,
  },
  {
    code: "weak-wifi", about: "too little over the noise on the link of one device: a cable", severity: "hint", subjects: ["laptop"],
    raises: `${BASE}${LAN}${line("enters at hub")}${JOIN}radio from laptop.wifi to hub.wifi, margin 12 dB\n`, doesNot: `${BASE}${LAN}${line("enters at hub")}${JOIN}radio from laptop.wifi to hub.wifi, margin 30 dB\n`,
    fix: "Run a cable from laptop.ethernet to hub.lan-1",
  },
  {
    code: "shared-link", about: "guests on the same network, and another one that is free", severity: "warning", subjects: ["venue"],
    raises: `${BASE}${line("shared")}internet office { up 8 Mb/s measured 2026-11-13 18:40 }\n${JOIN}`, doesNot: `${BASE}${line()}internet office { up 8 Mb/s measured 2026-11-13 18:40 }\n${JOIN}`, fix: "Join over office",
  },
  {
    code: "login-expires", about: "a login of one hour and a meeting of two", severity: "warning", subjects: ["venue"],
    raises: `${BASE}${line("login for 1 h")}internet office { up 8 Mb/s measured 2026-11-13 18:40 }\n${JOIN}`, doesNot: `${BASE}${line("login for 3 h")}internet office { up 8 Mb/s measured 2026-11-13 18:40 }\n${JOIN}`, fix: "Join over office",
  },
  {
    code: "data-cap", about: "two hours at 5 Mb/s and an allowance of 3 GB", severity: "warning", subjects: ["venue"],
    raises: BASE + line("allowance 3 GB") + JOIN, doesNot: BASE + line("allowance 12 GB") + JOIN, fix: "Send laptop.camera at 360p30",
  },
  {
    code: "no-second-path", about: "one line, and a telephone that could step in", severity: "hint", subjects: ["venue"],
    raises: `${ORDER}place phone is phone, at back\n`, doesNot: `${ORDER}place phone is phone, at back\nfallback phone for venue\n`, fix: "Let phone step in for venue",
  },
  {
    code: "no-second-path", about: "a call into which one can dial is a second way", severity: "hint", subjects: ["venue"],
    raises: `${ORDER}service { dial-in none }\n`, doesNot: `${ORDER}service { dial-in offered }\n`,
  },
  {
    code: "unmeasured", about: "measured four months before", severity: "hint", subjects: ["venue"],
    raises: BASE + line().replace("2026-11-13 18:40", "2026-07-13 18:40") + JOIN, doesNot: ORDER,
  },
  {
    code: "unmeasured", about: "measured at another time of day", severity: "hint", subjects: ["venue"],
    raises: BASE + line().replace("2026-11-13 18:40", "2026-11-13 11:05") + JOIN, doesNot: ORDER,
  },
  {
    code: "unmeasured", about: "stated as the contract has it", severity: "hint", subjects: ["venue"],
    raises: BASE + line().replace(" measured 2026-11-13 18:40", "") + JOIN, doesNot: ORDER,
  },
];
