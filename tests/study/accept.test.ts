/** `accept` and `limit`: what the author has decided stands in the text, and is held to it. */
import { describe, expect, test } from "vitest";
import type { Study } from "../../server/study";
import { judged, raised } from "../catalogue/harness";
import { BOX, hall, IN_ORDER, LAPEL } from "./setups";

const said = (study: Study): string[] => study.problems.map((p) => `${p.code}: ${p.message}`);
const codes = (study: Study): string[] => study.findings.map((f) => f.code);
const PHONE = `${IN_ORDER}place phone is phone, at (3 m, 3 m)\njoin phone { sends no picture }\n`;
const SMALL = `${BOX}${LAPEL}join laptop { sends sound from lapel, plays sound on box }\n`;

describe("accept", () => {
  test("keeps a finding quiet, whole, and lists it as accepted", () => {
    const study = judged(hall(`${IN_ORDER}accept one-device-carries-all of laptop because "there is a second one"\n`));
    expect(said(study)).toEqual([]);
    expect(study.findings).toEqual([]);
    expect(study.accepted.map((f) => [f.code, f.severity])).toEqual([["one-device-carries-all", "hint"]]);
  });

  test("without a subject every finding of the code is meant; of another subject none", () => {
    expect(codes(judged(hall(`${IN_ORDER}accept one-device-carries-all because "so be it"\n`)))).toEqual([]);
    const other = judged(hall(`${IN_ORDER}accept one-device-carries-all of box because "so be it"\n`));
    expect(codes(other)).toEqual(["one-device-carries-all"]);
    expect(said(other)).toEqual(["accept-unused: Nothing raises one-device-carries-all of box any more: this “accept” can go."]);
  });

  test("what is folded under an accepted cause is accepted with it", () => {
    const study = judged(hall(`${PHONE}accept echo-path of phone because "it is a rehearsal"\n`));
    expect(raised(study, "echo-path")).toEqual([]);
    expect(raised(study, "hears-itself")).toEqual([]);
    expect(study.accepted.flatMap((f) => f.folded).map((f) => f.code)).toEqual(["hears-itself", "howl-loop", "late-arrival"]);
  });

  test("a way that an accepted risk would fail is doubtful, and the risk is named; others stay as they were", () => {
    const way = (text: string, name: string): unknown[] => judged(hall(text)).ways.filter((w) => w.way === name).map((w) => [w.verdict, w.weakest, w.hangsOn]);
    const [[verdict, weakest] = []] = way(PHONE, "call") as [string, string][];
    expect(verdict).toBe("fails");
    const taken = `${PHONE}accept echo-path of phone because "it is a rehearsal"\n`;
    expect(way(taken, "call")).toEqual([["doubtful", `accepted: ${weakest ?? ""}`, []]]);
    // That the phone’s sound comes apart from that of the box is taken with it.
    expect(way(taken, "room-hears-online").map((w) => (w as string[])[0])).toEqual(way(PHONE, "room-hears-online").map((w) => (w as string[])[0]));
    for (const other of ["online-hears-room", "room-sees-online", "online-sees-room", "internet"]) expect(way(taken, other)).toEqual(way(PHONE, other));
  });

  test("beside an accepted risk, what is not accepted still fails the way", () => {
    const two = `${IN_ORDER.replace("cable from lapel.plug to laptop.headset\n", "").replace("sound from lapel", "sound from lapel and hand")}talker Bo at (1 m, 4 m), standing\nplace hand is handheld-microphone, with Bo\n`;
    const hears = (accepts: string): unknown[] => judged(hall(`${two}${accepts}`)).ways.filter((w) => w.way === "online-hears-room").map((w) => [w.verdict, w.weakest]);
    const lapel = 'accept uncovered-direction of lapel because "Ines speaks up"\n';
    expect(hears("")).toEqual([["fails", "nothing connects laptop and lapel"]]);
    expect(hears(lapel)).toEqual([["fails", "nothing connects laptop and hand"]]);
    expect(hears(`${lapel}accept uncovered-direction of hand because "so does Bo"\n`)).toEqual([["doubtful", "accepted: nothing connects laptop and lapel"]]);
  });

  test("a way that works with its accepted hint works as before", () => {
    expect(judged(hall(`${IN_ORDER}accept one-device-carries-all because "so be it"\n`)).ways).toEqual(judged(hall(IN_ORDER)).ways);
  });

  test("nothing is asked of what is accepted", () => {
    const asked = (accepts: string): string[] => judged(hall(`${IN_ORDER}${accepts}`, "internet venue { up 2.6 Mb/s guessed, wired }")).questions.map((q) => q.id);
    expect(asked("")).toEqual(["internet.venue.up"]);
    expect(asked('accept uplink-short because "a small picture will do"\n')).toEqual([]);
  });

  test("at a value: quiet while it is no worse, raised again once it is", () => {
    const text = (at: string): Study => judged(hall(`${SMALL}accept face-small of laptop.screen at ${at} because "faces do not matter tonight"\n`));
    const measured = raised(judged(hall(SMALL)), "face-small")[0]?.measured?.value ?? NaN;
    expect(measured).toBeGreaterThan(0.25);
    expect(measured).toBeLessThan(0.4);
    const quiet = text("0.25 deg");
    expect(raised(quiet, "face-small")).toEqual([]);
    expect(said(quiet)).toEqual([]);
    const worse = text("0.4 deg");
    expect(raised(worse, "face-small").map((f) => f.severity)).toEqual(["hint"]);
    // It is raised, and worse than that: nobody may be told that nothing raises it.
    expect(said(worse)).toEqual([]);
  });

  test("a value is compared in its own unit: hours with hours, Mb/s with Mb/s", () => {
    const battery = (at: string): string[] => codes(judged(`${hall(IN_ORDER).replace("mains from left-wall to laptop\n", "").replace("aim Ines\n", "aim Ines { battery 20 Wh, draws 20 W }\n")}meeting { start 18:00, end 20:00 }\naccept battery-short of laptop at ${at} because "it can be charged at the break"\n`))
      .filter((code) => code === "battery-short");
    // 20 Wh × 0.8 / 20 W = 48 min.
    expect(battery("45 min")).toEqual([]);
    expect(battery("1 h")).toEqual(["battery-short"]);
    const uplink = (at: string): string[] => codes(judged(`${hall(IN_ORDER, "internet venue { up 2 Mb/s, wired }")}accept uplink-short of venue at ${at} because "so be it"\n`)).filter((code) => code === "uplink-short");
    expect(uplink("2.8 Mb/s")).toEqual([]);
    expect(uplink("2.2 Mb/s")).toEqual(["uplink-short"]);
  });

  test("an acceptance that nothing raises is reported, a code that is unknown too", () => {
    const study = judged(hall(`${IN_ORDER}accept one-device-carries-all because "so be it"\naccept echo-path because "once upon a time"\n`));
    expect(said(study)).toEqual(["accept-unused: Nothing raises echo-path any more: this “accept” can go."]);
  });

  test("while something is broken, nothing is called idle: the mend may raise it again", () => {
    const study = judged(hall(`${IN_ORDER.replace("mains from back-wall to beamer\n", "")}accept echo-path because "once upon a time"\n`));
    expect(study.findings.some((f) => f.severity === "error")).toBe(true);
    expect(said(study)).toEqual([]);
  });
});

describe("limit", () => {
  test("of an uplink: the part of what can be counted on that may be used", () => {
    const text = (limit: string): string[] => raised(judged(hall(IN_ORDER, `internet venue { up 4 Mb/s, wired }`) + limit), "uplink-short").map((f) => f.severity);
    expect(text("")).toEqual([]);
    expect(text('limit uplink-short 60 % because "the youth club streams next door"\n')).toEqual(["warning"]);
  });

  test("of a battery: another reserve", () => {
    const text = (limit: string): string[] => raised(judged(`${hall(IN_ORDER).replace("mains from left-wall to laptop\n", "").replace("aim Ines\n", "aim Ines { battery 20 Wh, draws 5 W }\n")}meeting { start 18:00, end 19:30 }\n${limit}`), "battery-short").map((f) => f.severity);
    // 20 Wh × 0.7 / 5 W = 2.8 h at worst, 2 h needed.
    expect(text("")).toEqual([]);
    expect(text('limit battery-short 3 h because "the caretaker is often late"\n')).toEqual(["warning"]);
  });

  test("of an echo: the rating that is needed", () => {
    const text = (limit: string): string[] => raised(judged(hall(PHONE) + limit), "echo-path").map((f) => f.severity);
    expect(text("")).toEqual(["error"]);
    expect(text('limit echo-path 15 dB because "they all wear headsets"\n')).not.toContain("error");
    expect(text('limit echo-path -30 dB because "nobody online speaks"\n')).toEqual([]);
  });

  test("that sets nothing is reported", () => {
    const study = judged(hall(`${IN_ORDER}limit no-power 1 because "so be it"\n`));
    expect(said(study).map((p) => p.split(":")[0])).toEqual(["limit-idle"]);
  });
});
