/** The rules of honest alarms, each by the smallest setup that would break it. */
import { describe, expect, test } from "vitest";
import { fixesOf } from "../../server/fixes/prove";
import type { Study } from "../../server/study";
import { judged, one, raised } from "../catalogue/harness";
import { BEAMER, BOX, hall, IN_ORDER, JOIN, LAPEL } from "./setups";

const shown = (study: Study): string => study.findings.map((f) => `${f.severity} ${f.code}: ${f.message}`).join("\n");
const uplink = (up: string): Study => {
  const study = judged(hall(IN_ORDER, `internet venue { up ${up} measured 2026-10-07 18:40, wired }`));
  expect(study.problems).toEqual([]);
  return study;
};

describe("what is assumed decides how loud an alarm is", () => {
  test("what holds whatever is assumed keeps its level, says what it assumes and asks nothing", () => {
    const study = judged(hall(`${IN_ORDER}place phone is phone, at (3 m, 3 m)\njoin phone { sends no picture }\n`));
    const [echo] = raised(study, "echo-path");
    expect(echo?.severity).toBe("error");
    expect(echo?.assumed.map((a) => a.text).join("; ")).toContain("the one-way delay of the call");
    expect(echo?.assumed.every((a) => (a.source ?? "") !== "")).toBe(true);
    expect(echo?.question).toBeUndefined();
  });

  test("a warning that one end of a range removes is a hint, with a question that names the fact and both answers", () => {
    expect(raised(uplink("2 Mb/s"), "uplink-short").map((f) => f.severity)).toEqual(["warning"]);
    const study = uplink("2 Mb/s within 1 to 20 Mb/s");
    const [finding] = raised(study, "uplink-short");
    expect(finding?.severity).toBe("hint");
    expect(finding?.question?.ask).toBe("What is the uplink of venue?");
    expect(finding?.question?.answers.map((a) => a.when)).toEqual(["down to 1.0 Mb/s", "up to 20 Mb/s"]);
    expect(finding?.question?.answers.map((a) => a.then)).toEqual(["warning: the uplink is too small for what is sent", "in order"]);
    expect(study.questions.map((q) => q.id)).toContain("internet.venue.up");
  });

  test("an error that one end of a range removes is a warning, with a question", () => {
    expect(raised(uplink("30 kb/s"), "uplink-short").map((f) => f.severity)).toEqual(["error"]);
    const [finding] = raised(uplink("30 kb/s within 20 kb/s to 20 Mb/s"), "uplink-short");
    expect(finding?.severity).toBe("warning");
    expect(finding?.question?.answers.map((a) => a.then)).toEqual(["error: the uplink is too small for what is sent", "in order"]);
  });

  test("an error that is a warning at one end of a range is a warning, and asks nothing: something is wrong either way", () => {
    const [finding] = raised(uplink("30 kb/s within 20 kb/s to 1 Mb/s"), "uplink-short");
    expect(finding?.severity).toBe("warning");
    expect(finding?.question).toBeUndefined();
  });

  test("in order at the best guess, too small at the low end: no finding, and a question", () => {
    const study = uplink("10 Mb/s within 1 to 20 Mb/s");
    expect(raised(study, "uplink-short")).toEqual([]);
    expect(study.questions.map((q) => q.id)).toContain("internet.venue.up");
  });

  test.each([1, 2, 3, 5, 8, 12, 16])("a battery known by its kind alone is never an error: %i h", (hours) => {
    const end = `${String(6 + hours).padStart(2, "0")}:00`;
    const study = judged(hall(IN_ORDER, "").replace("mains from left-wall to laptop\n", "") + `meeting { start 06:00, end ${end} }\n`);
    expect(study.problems).toEqual([]);
    expect(raised(study, "battery-short").filter((f) => f.severity === "error"), shown(study)).toEqual([]);
    if (hours === 16) expect(raised(study, "battery-short").map((f) => f.severity)).toContain("warning");
  });

  test("a battery whose draw and energy are stated is an error where it is empty before the end", () => {
    const text = hall(IN_ORDER).replace("mains from left-wall to laptop\n", "").replace("aim Ines\n", "aim Ines { battery 20 Wh, draws 20 W }\n");
    const severities = (end: string): string[] => raised(judged(`${text}meeting { start 18:00, end ${end} }\n`), "battery-short").filter((f) => f.subjects.includes("laptop")).map((f) => f.severity);
    // 20 Wh × 0.8 / 20 W = 48 min.
    expect(severities("20:00")).toEqual(["error"]);
    // Over the meeting, not over the reserve of half an hour; and a battery as good as new lasts an hour.
    expect(severities("18:45")).toEqual(["warning"]);
    expect(severities("18:10")).toEqual([]);
  });

  test.each([1, 2, 6])("an uplink that nobody measured is never a finding, with %i joined", (joins) => {
    const more = Array.from({ length: joins - 1 }, (_, i) => `place cam${i} is phone, at (${i + 2} m, 2 m)\njoin cam${i} { sends no sound, plays no sound, sends picture from cam${i}.camera at 1080p30 }\n`).join("");
    for (const internet of ["", "internet venue { wired }", "internet venue { up unknown, wired }"]) {
      const study = judged(hall(IN_ORDER + more, internet));
      expect(raised(study, "uplink-short"), internet).toEqual([]);
      expect(study.ways.filter((w) => w.way === "internet").map((w) => w.verdict)).toEqual(["cannot-tell"]);
      expect(study.questions.filter((q) => q.ways.includes("internet")).map((q) => q.ask).join(" ")).toContain("What uplink does");
    }
  });
});

describe("one finding for each root cause", () => {
  test("a missing cable that two talkers need is one finding that names both, over all items", () => {
    const study = judged(hall(`talker Teo at (1.0 m, 2.0 m), standing\n${BOX}${BEAMER}place lapel is lapel-microphone, on Ines\n${JOIN}item talk, talkers Ines\nitem answers, talkers Teo\n`));
    const found = raised(study, "uncovered-direction");
    expect(found.map((f) => f.message)).toEqual(["Nothing connects laptop and lapel: the people online do not hear Ines and Teo."]);
    expect(found[0]?.items).toEqual([]);
  });

  test("what follows from a dark projector is folded under its missing power", () => {
    const study = judged(hall(IN_ORDER.replace("mains from back-wall to beamer\n", "")));
    expect(study.findings.map((f) => f.code)).toEqual(["no-power", "one-device-carries-all"]);
    expect(study.findings[0]?.folded.map((f) => f.code)).toEqual(["uncovered-direction"]);
    expect(study.findings[0]?.ways).toContain("room-sees-online");
    expect(study.findings[0]?.message).toContain("the people online are not seen by the audience");
  });

  test("a lead in no outlet is one finding, with the projector and the battery that hang on it", () => {
    const study = judged(hall(IN_ORDER).replace("mains from left-wall to laptop\n", "").replace("mains from back-wall to beamer\n", "")
      + "place lead is extension-lead, at right\nmains from lead to laptop\nmains from lead to beamer\nmeeting { access 10:00, start 11:00, end 22:00 }\n");
    expect(study.problems).toEqual([]);
    const top = study.findings.filter((f) => f.severity === "error");
    expect(top.map((f) => [f.code, f.subjects])).toEqual([["no-power", ["lead"]]]);
    expect(top[0]?.folded.map((f) => `${f.code} ${f.subjects.join(" ")}`).sort()).toEqual(["battery-short laptop", "no-power beamer", "uncovered-direction beamer"]);
  });

  test("a USB camera without its one cable is one finding, not one for the picture and one for the power", () => {
    const study = judged(hall(`${BOX}${LAPEL}${BEAMER}place eye is webcam, at (4 m, 3.2 m), aim Ines\n${JOIN.replace(" }\n", ", sends picture from eye }\n")}`));
    expect(study.findings.filter((f) => f.severity === "error").map((f) => f.code)).toEqual(["uncovered-direction"]);
    expect(raised(study, "no-power").map((f) => f.subjects)).toEqual([["eye"]]);
  });

  test("a second device that plays is one finding, whichever of echo and return is the worse", () => {
    const join = (said: string): Study => judged(hall(`${IN_ORDER}place phone is phone, at (0.5 m, 1.0 m), calls off, aim audience\njoin phone { sends no picture${said} }\n`));
    const top = (study: Study): unknown => study.findings.filter((f) => f.code !== "one-device-carries-all").map((f) => [f.severity, f.code, f.folded.map((g) => [g.severity, g.code])]);
    expect(top(join(""))).toEqual([["error", "echo-path", [["error", "hears-itself"], ["warning", "howl-loop"], ["hint", "late-arrival"], ["hint", "speech-unclear"]]]]);
    // The lapel microphone hardly hears the phone; the room hears it well.
    expect(top(join(", sends no sound"))).toEqual([["error", "hears-itself", [["warning", "echo-path"], ["hint", "late-arrival"], ["hint", "speech-unclear"]]]]);
  });

  test("half a mend is not offered: with the second device's microphone off, the room would still hear itself", () => {
    const text = hall(`${IN_ORDER}place phone is phone, at (0.5 m, 1.0 m), aim audience\njoin phone { sends no picture }\n`);
    const study = judged(text);
    const echo = study.findings.find((f) => f.code === "echo-path") ?? expect.fail("no echo");
    expect(study.remedies(echo).map((r) => r.title)).toContain("Let phone send no sound");
    expect(fixesOf(one(text), study, echo).map((f) => f.title)).toEqual(["Turn off the sound of phone"]);
  });

  test("of many seats the worst is named and the rest are counted", () => {
    const study = judged(hall(`${BOX}${LAPEL}join laptop { sends sound from lapel, plays sound on box }\n`));
    const [finding] = raised(study, "face-small");
    expect(finding?.message).toMatch(/ from row 4: \d+ of 24 in the audience from row 2 on, worst audience\.row-4\.seat-6, cannot make out who speaks\.$/);
    expect(finding?.subjects).toEqual(["laptop.screen"]);
  });

  test("identity stays when the worst seat is another, and when a figure changes", () => {
    const at = (place: string): { identity: string; message: string } => {
      const [finding] = raised(judged(hall(`${BOX}${LAPEL}join laptop { sends sound from lapel, plays sound on box }\n`).replace("at (1.2 m, 2.4 m)", place)), "face-small");
      return { identity: finding?.identity ?? "none", message: finding?.message ?? "none" };
    };
    const left = at("at (1.2 m, 2.4 m)");
    const right = at("at (1.2 m, 4.0 m)");
    expect(left.message).toContain("seat-6");
    expect(right.message).toContain("seat-1");
    expect(right.identity).toBe(left.identity);
    expect(left.identity).not.toMatch(/seat-|\d/);
  });
});

describe("verdicts by item", () => {
  const study = judged(hall(`${BOX}${LAPEL}${BEAMER}join laptop { sends sound from lapel, plays sound on box, shows call on beamer, sends no sound during silence }\nitem talk, talkers Ines\nitem silence, talkers Ines\n`));

  test("a way that differs from item to item is told item by item, the others once", () => {
    expect(study.ways.filter((w) => w.way === "online-hears-room").map((w) => [w.item, w.verdict])).toEqual([["talk", "works"], ["silence", "fails"]]);
    expect(study.ways.filter((w) => w.way === "room-hears-online").map((w) => [w.item, w.verdict])).toEqual([[undefined, "works"]]);
  });

  test("a finding says in which items it holds", () => {
    const [finding] = raised(study, "uncovered-direction");
    expect(finding?.items).toEqual(["silence"]);
    expect(finding?.message).toBe("No joined device sends sound: the people online do not hear Ines (during silence).");
    expect(finding?.identity).toContain("silence");
  });
});
