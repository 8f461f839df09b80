/** Howl cases worked out by hand from the formulas, then put as a setup's text and studied: a hall's loudspeaker, and a second device through the call. */
import { describe, expect, test } from "vitest";
import type { Study } from "../../server/study";
import { judged, raised } from "./harness";

/** Room 9.2 × 6.4 × 3.1 m, 0.8 s in all bands; the noise makes the loudspeakers play at their loudest: the level of the hand calculation. */
const room = (rest: string): string => `setup "Worked by hand"
room hall 9.2 m by 6.4 m by 3.1 m {
  noise 54 dBA
  reverberation 0.8 s
  chairs 24 in 4 rows { first 5 m, pitch 0.9 m, spacing 0.55 m }
  outlet wall at left
}
talker Ines at (1.0 m, 3.2 m, 1.6 m), speech-level 66 dBA
online 4 people
internet venue { up 20 Mb/s measured 2026-10-07 18:40, round-trip 80 ms }
place laptop is laptop, at (8 m, 6 m)
mains from wall to laptop
${rest}`;

const REINFORCED = (at: string, mouth: string): string => room(`place desk is mixer, at operator
mains from wall to desk
place pa is mains-loudspeaker, at (1.6 m, 0.6 m, 1.8 m), aim (6 m, 3.2 m, 1.2 m) { speech-level 75 dBA }
mains from wall to pa
place stand is gooseneck-microphone, at (${at}), aim (1.0 m, 3.2 m, 1.6 m) { mouth ${mouth} }
cable from stand.plug to desk.in-1
cable from desk.main-left to pa.line
cable from desk.usb to laptop.usb-1
mixer desk {
  channel speech from desk.in-1
  bus hall to desk.main-left { holds speech }
  bus far-end to desk.usb { holds speech }
}
join laptop { sends sound from desk, plays no sound, sends no picture }
`);

const value = (study: Study, name: string): { readonly value: number; readonly band: number | undefined } => {
  const found = study.figures().filter((f) => f.name === name);
  expect(found.length, name).toBe(1);
  return { value: found[0]?.value ?? NaN, band: found[0]?.band };
};

describe("a loudspeaker of the hall and a microphone on the stand (computed)", () => {
  const far = judged(REINFORCED("1.3 m, 3.2 m, 1.5 m", "0.3 m"));
  const near = judged(REINFORCED("1.095 m, 3.2 m, 1.568 m", "0.1 m"));

  test("H_N 10.54 dB at 0.30 m; level 75 dBA (computed)", () => {
    expect(far.problems).toEqual([]);
    expect(Math.abs(value(far, "transfer from mouth to microphone").value - 10.54)).toBeLessThan(0.05);
  });

  test("G −8.36 dB at 250 Hz, P 6.45 dB, G + P −1.91 dB: rings at the best guess (computed)", () => {
    expect(value(far, "mean gain of all loops in the room").band).toBe(250);
    expect(Math.abs(value(far, "mean gain of all loops in the room").value + 8.36)).toBeLessThan(0.05);
    expect(Math.abs(value(far, "peak allowance of the worst loop in the room").value - 6.45)).toBeLessThan(0.05);
    expect(Math.abs(value(far, "gain of the worst loop in the room, peaks with it").value + 1.91)).toBeLessThan(0.06);
    // How far it is turned up is assumed, and its quiet end takes the warning away: a level down, and asked for.
    const [finding] = raised(far, "howl-loop");
    expect([finding?.severity, finding?.question?.ask]).toEqual(["hint", "Find out how loud pa is turned up."]);
  });

  test("with the mouth at 0.10 m −11.5 dB: clear (computed)", () => {
    expect(Math.abs(value(near, "gain of the worst loop in the room, peaks with it").value + 11.5)).toBeLessThan(0.1);
    expect(raised(near, "howl-loop")).toEqual([]);
  });
});

describe("a phone as a second device, in a loop through the call (computed)", () => {
  const study = judged(room(`place box is battery-loudspeaker, at (0.6 m, 4.8 m, 1.4 m), aim (9.0 m, 4.8 m, 1.4 m) { speech-level 70 dBA }
place phone is phone, at (0.5 m, 1.0 m, 1.3 m)
radio from laptop.bluetooth to box.bluetooth
join laptop { sends no sound, sends no picture, plays sound on box }
join phone { sends sound, plays no sound, sends no picture }
`));

  test("G + P +11.5 dB at 250 Hz: an error, under the echo of the same cause (computed)", () => {
    expect(study.problems).toEqual([]);
    expect(value(study, "gain of the worst loop through the call, peaks with it").band).toBe(250);
    expect(Math.abs(value(study, "gain of the worst loop through the call, peaks with it").value - 11.5)).toBeLessThan(0.1);
    expect(study.findings.flatMap((f) => f.folded).find((f) => f.code === "howl-loop")?.severity).toBe("error");
  });
});

describe("what adds to a loop and what does not (computed)", () => {
  const gain = (study: Study): number => value(study, "mean gain of all loops in the room").value;
  const many = (count: number, automatic: string): Study => judged(room(`place desk is mixer, at operator
mains from wall to desk
place pa is mains-loudspeaker, at (1.6 m, 0.6 m, 1.8 m), aim (6 m, 3.2 m, 1.2 m) { speech-level 75 dBA }
mains from wall to pa
${Array.from({ length: count }, (_, i) => `place m${i} is gooseneck-microphone, at (1.3 m, 3.2 m, 1.5 m), aim (1.0 m, 3.2 m, 1.6 m) { mouth 0.3 m }\ncable from m${i}.plug to desk.in-${i + 1}\n`).join("")}cable from desk.main-left to pa.line
mixer desk {
${automatic}${Array.from({ length: count }, (_, i) => `  channel c${i} from desk.in-${i + 1}\n`).join("")}  bus hall to desk.main-left { holds all }
}
`));

  test("eight equal microphones are 10·lg 8 dB more than one; opened one at a time they are one", () => {
    const one = gain(many(1, ""));
    expect(gain(many(8, "")) - one).toBeCloseTo(10 * Math.log10(8), 4);
    expect(gain(many(8, "  automatic\n")) - one).toBeCloseTo(0, 6);
  });

  test("a bus at −6 dB takes 6 dB out, a trim of +4 dB adds 4, a pad in the cable takes its own", () => {
    const text = REINFORCED("1.3 m, 3.2 m, 1.5 m", "0.3 m");
    const plain = gain(judged(text));
    const changed = (from: string, to: string): number => gain(judged(text.replace(from, to))) - plain;
    expect(changed("main-left { holds speech }", "main-left { holds speech at -6 dB }")).toBeCloseTo(-6, 4);
    expect(changed("channel speech from desk.in-1", "channel speech from desk.in-1, trim 4 dB")).toBeCloseTo(4, 4);
    expect(changed("cable from desk.main-left to pa.line", "cable from desk.main-left to pa.line, pad 20 dB")).toBeCloseTo(-20, 4);
  });
});

describe("another room that joins", () => {
  const annex = (said: string): Study => judged(room(`join laptop { sends sound, plays sound, sends no picture }\nremote-room annex 12 people${said}\n`));

  test("that cancels nothing is an error; that cancels is in order; of which nothing is said is asked", () => {
    expect(raised(annex(" { cancels no echo }"), "echo-path").map((f) => [f.severity, f.subjects])).toEqual([["error", ["annex"]]]);
    expect(raised(annex(" { cancels echo }"), "echo-path")).toEqual([]);
    const open = annex("");
    expect(raised(open, "echo-path")).toEqual([]);
    expect(open.questions.map((q) => q.ask)).toContain("Does annex cancel the echo of what it plays?");
    expect(open.ways.find((w) => w.way === "call")?.verdict).toBe("doubtful");
  });
});
