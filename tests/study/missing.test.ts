/** What is lost if one thing is missing. */
import { describe, expect, test } from "vitest";
import { readSetup } from "../../server/model/setup";
import { whatIfMissing, type Missing } from "../../server/missing";
import { insteadWords, leftWords, lossWords } from "../../server/views/missing-words";
import { one } from "../catalogue/harness";
import { BOX, hall, IN_ORDER } from "./setups";

const rows = (text: string): readonly Missing[] => whatIfMissing(readSetup(one(text), "it.bothways")).rows;
const row = (text: string, name: string): Missing => rows(text).find((r) => r.name === name) ?? expect.fail(`no ${name} in ${rows(text).map((r) => r.name).join()}`);
const ways = (lost: Missing["lost"]): string[] => [...new Set(lost.map((l) => l.way))].sort();

describe("if this one is missing", () => {
  test("the only computer takes everything with it, and nothing at hand helps", () => {
    const laptop = row(hall(IN_ORDER), "laptop");
    expect(ways(laptop.lost)).toEqual(["call", "online-hears-room", "online-sees-room", "room-hears-online", "room-sees-online"]);
    expect(lossWords(laptop.lost)).toBe("nothing gets across any more");
    expect(laptop.instead).toBeUndefined();
    expect(laptop.left).toEqual(laptop.lost);
  });

  test("a spare that the text names takes its place, plugged in alike", () => {
    const laptop = row(hall(`${IN_ORDER}place spare is laptop, at operator\nfallback spare for laptop\n`), "laptop");
    expect([laptop.instead, laptop.left]).toEqual([{ by: "planned", names: ["spare"] }, []]);
  });

  test("an idle thing of the same type does, too, and one that is not there does not", () => {
    const box = row(hall(`${IN_ORDER}device other-box is battery-loudspeaker\n`), "box");
    expect([box.instead, box.left]).toEqual([{ by: "spare", names: ["other-box"] }, []]);
    expect(row(hall(`${IN_ORDER}device other-box is battery-loudspeaker, missing\n`), "box").instead?.by).toBe("own");
  });

  test("the lapel microphone, or its lead: the computer hears by its own, as far as it reaches", () => {
    for (const name of ["lapel", "lapel.plug – laptop.headset"]) {
      const found = row(hall(IN_ORDER), name);
      expect(ways(found.lost)).toEqual(["online-hears-room"]);
      expect([found.instead, found.left]).toEqual([{ by: "own", names: ["laptop"] }, []]);
      expect(insteadWords(found)).toBe("the microphone of laptop itself");
    }
    // Too far away for its own microphone, nothing helps: the loss stays.
    const far = hall(IN_ORDER).replace("talker Ines at (1.0 m, 3.2 m)", "talker Ines at (8.9 m, 6.2 m)");
    expect(ways(row(far, "lapel").left)).toEqual(["online-hears-room"]);
  });

  test("another device that is in the call, silent, carries it alone; while one is live none does", () => {
    const silent = "place phone is phone, at (3 m, 6 m), aim Ines\njoin phone { sends no sound, plays no sound, sends no picture }\n";
    expect(row(hall(IN_ORDER + silent), "laptop").instead).toEqual({ by: "alone", names: ["phone"] });
    expect(rows(hall(IN_ORDER + silent)).find((r) => r.name === "phone")).toBeUndefined();
  });

  test("a person is missed for the jobs that nobody else has, and for what they bring", () => {
    const text = hall(`${IN_ORDER}job keys by Teo\n`).replace("aim audience {", "aim audience, owned by Teo {");
    const teo = row(text, "Teo");
    expect([teo.jobs, teo.ends, ways(teo.lost)]).toEqual([["keys"], ["box"], ["room-hears-online"]]);
    expect(leftWords(teo, readSetup(one(text), "it.bothways"))).toBe("nobody has the keys; ask Marit or Ute");
    expect(row(hall(`${IN_ORDER}job keys by Teo and Ute\n`), "Ute").jobs).toEqual(["chat"]);
  });

  const NET = `kind house-router is a router {
  ports lan 1 to 4 is ethernet
  port wifi is wifi
  runs on mains
}
place router is house-router, at back
mains from back-wall to router
cable from laptop.ethernet to router.lan-1
`;
  const LINES = "internet venue { up 20 Mb/s measured 2026-10-07 18:40, wired, enters at router }\ninternet spare { up 8 Mb/s measured 2026-10-07 18:40 }\n";

  test("without the router nothing reaches the internet: the line that the text names steps in, else a telephone dials in", () => {
    const router = row(hall(IN_ORDER + NET, `${LINES}fallback spare for venue`), "router");
    expect(ways(router.lost)).toEqual(["call", "internet", "online-hears-room", "online-sees-room", "room-hears-online", "room-sees-online"]);
    expect([router.instead, router.left]).toEqual([{ by: "planned", names: ["spare"] }, []]);
    const alone = row(hall(`${IN_ORDER + NET}service { dial-in offered }\n`, LINES.split("\n")[0]), "router");
    expect([alone.instead?.by, ways(alone.left)]).toEqual(["dial-in", ["internet", "online-sees-room", "room-sees-online"]]);
    expect(row(hall(IN_ORDER + NET, LINES.split("\n")[0]), "router").instead).toBeUndefined();
  });

  test("without its network cable a computer with radio of its own goes that way, and one that goes by radio already does not", () => {
    const cable = row(hall(IN_ORDER + NET, LINES.split("\n")[0]), "laptop.ethernet – router.lan-1");
    expect([cable.instead, cable.left]).toEqual([{ by: "radio", names: ["laptop"] }, []]);
    const radio = hall(IN_ORDER + NET.replace("cable from laptop.ethernet to router.lan-1", "radio from laptop.wifi to router.wifi"), LINES.split("\n")[0]);
    expect(row(radio, "laptop.wifi – router.wifi").instead).toBeUndefined();
  });

  test("a line that steps in and does not carry the call is a loss of its own", () => {
    const thin = row(hall(IN_ORDER + NET, `${LINES.replace("up 8 Mb/s", "up 20 kb/s")}fallback spare for venue`), "router");
    expect([thin.instead?.by, ways(thin.left)]).toEqual(["planned", ["internet"]]);
  });

  test("what steps in and sends back what is played fails the call: then a computer's own microphone and loudspeaker are the better pair", () => {
    const pod = `place pod is conference-speakerphone, at (1.6 m, 3.2 m)\ncable from pod.usb to laptop.usb-1\n`;
    const text = hall(`${BOX}${pod}join laptop { sends sound from pod, plays sound on pod, shows call on laptop.screen, cancels no echo }\n`);
    const gone = row(text, "pod");
    expect(ways(gone.lost)).toEqual(["online-hears-room", "room-hears-online"]);
    // With the program's canceller off nothing holds the echo of the computer's own pair.
    expect(ways(gone.left)).toEqual(["call"]);
    expect(row(text.replace(", cancels no echo", ""), "pod").left).toEqual([]);
  });

  test("of what is lost only that is replaced: the microphone stays where the loudspeaker is gone", () => {
    const desk = `place desk is mixer, at operator\nmains from back-wall to desk\nplace stand is gooseneck-microphone, at Ines\ncable from stand.plug to desk.in-1\ncable from laptop.headset to desk.in-7\ncable from desk.usb to laptop.usb-1\nplace hall-box is mains-loudspeaker, at (0.6 m, 4.8 m), aim audience\ncable from desk.main-left to hall-box.line\nmains from back-wall to hall-box\nmixer desk {\n  channel speech from desk.in-1\n  channel online from desk.in-7\n  bus far-end to desk.usb { holds speech }\n  bus room to desk.main-left { holds online }\n}\njoin laptop { sends sound from desk, plays sound on desk }\n`;
    const text = hall(desk);
    const lead = row(text, "laptop.headset – desk.in-7");
    expect([ways(lead.lost), lead.left]).toEqual([["room-hears-online"], []]);
    expect(insteadWords(lead)).toBe("the loudspeaker of laptop itself");
  });

  test("what costs nothing is not listed, and nothing joins, nothing is", () => {
    expect(rows(hall(`${IN_ORDER}place idle is webcam, at front\n`)).map((r) => r.name)).not.toContain("idle");
    expect(rows(hall(""))).toEqual([]);
  });

  test("a large setup is bounded, and says what was not tried", () => {
    const many = Array.from({ length: 60 }, (_, i) => `place c${i} is webcam, at (${1 + (i % 8)} m, ${1 + Math.floor(i / 10)} m)\n`).join("");
    const it = whatIfMissing(readSetup(one(hall(IN_ORDER + many)), "it.bothways"));
    expect(it.untried).toBeGreaterThan(20);
  });
});
