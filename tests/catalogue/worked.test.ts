/**
 * Two echo cases worked out by hand from the formulas, then put as a setup's text and studied. The loudspeaker's level is
 * solved, not stated: noise and the loudest clean speech are chosen so that it comes out at the 70 dBA of the hand calculation.
 */
import { describe, expect, test } from "vitest";
import type { Figure } from "../../server/finding";
import type { Study } from "../../server/study";
import { judged, raised } from "./harness";

/** Room 9.2 × 6.4 × 3.1 m, 0.8 s in all bands; one-way delay of the call 140 ms + half of 80 ms. */
const room = (rest: string): string => `setup "Worked by hand"
room hall 9.2 m by 6.4 m by 3.1 m {
  noise 48 dBA
  reverberation 0.8 s
  chairs 24 in 4 rows { first 5 m, pitch 0.9 m, spacing 0.55 m }
  outlet wall at left
}
talker Ines at (1.0 m, 3.2 m, 1.6 m), speech-level 66 dBA
online 4 people
internet venue { up 20 Mb/s measured 2026-10-07 18:40, round-trip 80 ms }
place box is battery-loudspeaker, at (0.6 m, 4.8 m, 1.4 m), aim (9.0 m, 4.8 m, 1.4 m) { speech-level 70 dBA }
place laptop is laptop, at (8 m, 6 m)
mains from wall to laptop
radio from laptop.bluetooth to box.bluetooth
${rest}`;

const SECOND_DEVICE = room(`place phone is phone, at (0.5 m, 1.0 m, 1.3 m)
join laptop { sends no sound, sends no picture, plays sound on box }
join phone { sends sound, plays no sound, sends no picture }
`);
const LAPEL = (more: string): string => room(`place lapel is lapel-microphone, on Ines
cable from lapel.plug to laptop.headset
join laptop { sends sound from lapel, plays sound on box, sends no picture${more} }
`).replace("radio from laptop.bluetooth to box.bluetooth", "cable from laptop.headset to box.line");

function value(study: Study, name: string, of: readonly string[], band?: number): number {
  const found = study.figures().filter((f: Figure) => f.name === name && f.of.join(" ") === of.join(" ") && f.band === band);
  expect(found.length, `${name} of ${of.join(" ")}`).toBe(1);
  return found[0]?.value ?? NaN;
}

describe("a phone as a second device (computed)", () => {
  const study = judged(SECOND_DEVICE);
  const at = (name: string, of: readonly string[], band?: number): number => value(study, name, of, band);

  test("room and levels as in the hand calculation (computed)", () => {
    expect(study.problems).toEqual([]);
    expect(at("volume", ["hall"])).toBeCloseTo(182.5, 0);
    expect(at("surface", ["hall"])).toBeCloseTo(214.5, 1);
    // 24·ln 10/343 m/s is 0.1611, not quite 0.161.
    expect(Math.abs(at("room constant", ["hall"], 1000) - 44.33)).toBeLessThan(0.05);
    expect(at("level at 1 m when playing speech", ["box"])).toBe(70);
  });

  test("H_N −1.49 dB, the talker facing the seats, which lie a little lower (computed)", () => {
    expect(Math.abs(at("transfer from mouth to microphone", ["Ines", "phone.microphone"]) + 1.49)).toBeLessThan(0.05);
  });

  test("coupling 5.15 3.72 2.27 0.13 −1.70 dB from 250 Hz to 4 kHz (computed)", () => {
    for (const [band, wanted] of [[250, 5.15], [500, 3.72], [1000, 2.27], [2000, 0.13], [4000, -1.7]] as const) {
      expect(Math.abs(at("coupling beside the near talker", ["box", "phone.microphone"], band) - wanted), `${band} Hz`).toBeLessThan(0.05);
    }
  });

  test("TELR 7.6 dB where 54.3 dB are needed at 285.5 ms: an error, short by 46.7 dB (computed)", () => {
    expect(Math.abs(at("talker echo loudness rating", ["laptop", "phone"]) - 7.6)).toBeLessThan(0.1);
    expect(Math.abs(at("delay of the echo, half the round trip", ["laptop", "phone"]) - 285.5)).toBeLessThan(0.1);
    expect(Math.abs(at("rating needed at this delay", ["laptop", "phone"]) - 54.3)).toBeLessThan(0.05);
    const [finding] = raised(study, "echo-path");
    expect(finding?.severity).toBe("error");
    expect(Math.abs((finding?.limit?.value ?? NaN) - (finding?.measured?.value ?? NaN) - 46.7)).toBeLessThan(0.1);
  });
});

describe("a lapel microphone at the computer that plays (computed)", () => {
  const open = judged(LAPEL(", cancels no echo"));
  const held = judged(LAPEL(""));

  test("H_N 14.09 dB at 0.2 m, worn (computed)", () => {
    expect(open.problems).toEqual([]);
    expect(Math.abs(value(open, "transfer from mouth to microphone", ["Ines", "lapel"]) - 14.09)).toBeLessThan(0.01);
  });

  test("coupling −9.39 −10.73 −12.12 −14.39 −16.60 dB from 250 Hz to 4 kHz, the microphone taken to be at the mouth (computed)", () => {
    for (const [band, wanted] of [[250, -9.39], [500, -10.73], [1000, -12.12], [2000, -14.39], [4000, -16.6]] as const) {
      expect(Math.abs(value(open, "coupling beside the near talker", ["box", "lapel"], band) - wanted), `${band} Hz`).toBeLessThan(0.15);
    }
  });

  test("TELR 22.1 dB where 51.5 dB are needed at 182.4 ms: an error without a canceller (computed)", () => {
    expect(Math.abs(value(open, "talker echo loudness rating", ["laptop", "laptop"]) - 22.1)).toBeLessThan(0.15);
    expect(Math.abs(value(open, "delay of the echo, half the round trip", ["laptop", "laptop"]) - 182.4)).toBeLessThan(0.1);
    expect(Math.abs(value(open, "rating needed at this delay", ["laptop", "laptop"]) - 51.5)).toBeLessThan(0.1);
    expect(raised(open, "echo-path").map((f) => f.severity)).toEqual(["error"]);
  });

  test("TELR 56 dB with the computer's canceller: passes (computed)", () => {
    expect(value(held, "talker echo loudness rating", ["laptop", "laptop"])).toBe(56);
    expect(raised(held, "echo-path")).toEqual([]);
    expect(held.ways.find((w) => w.way === "call")?.verdict).toBe("works");
  });
});
