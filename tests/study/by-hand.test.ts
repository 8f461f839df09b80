/** The association's evening worked out anew, with formulas written out here and nothing of the engine's physics. Computed, not published. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { study } from "../../server/study";

const folder = path.join(import.meta.dirname, "../../samples/association");
const evening = study({ read: (file) => ({ text: readFileSync(path.join(folder, file), "utf8") }) }, "autumn.bothways");
const figures = evening.figures();
const figure = (name: string, of: string, more: { at?: string; item?: string; band?: number } = {}): number => {
  const found = figures.find((f) => f.name === name && f.of.includes(of) && (more.at === undefined || f.at === more.at) && (more.item === undefined || f.item === undefined || f.item === more.item) && (more.band === undefined || f.band === more.band));
  if (found === undefined) throw new Error(`no figure ${name} of ${of}`);
  return found.value;
};

const V = 9.2 * 6.4 * 3.1;
const S = 2 * (9.2 * 6.4 + 9.2 * 3.1 + 6.4 * 3.1);
const A = ((24 * Math.log(10)) / 343) * (V / 0.8);
const R = A / (1 - A / S);
const WEIGHTS = [0.014, 0.154, 0.476, 0.25, 0.083, 0.02, 0.003];
const TALKER_Q = [1.2, 1.4, 1.8, 2, 2.5, 3.2, 4];

test("computed: volume, surface and room constant", () => {
  expect(figure("volume", "old-schoolroom")).toBeCloseTo(V, 2);
  expect(figure("surface", "old-schoolroom")).toBeCloseTo(S, 2);
  expect(figure("room constant", "old-schoolroom", { band: 1000 })).toBeCloseTo(R, 2);
});

test("computed: the lapel microphone 0.2 m from the mouth", () => {
  const direct = 1 / 0.2 ** 2;
  const h = 10 * Math.log10(WEIGHTS.reduce((sum, a, k) => sum + a * (direct + (16 * Math.PI) / ((TALKER_Q[k] ?? 1) * R)), 0));
  expect(Math.abs(figure("transfer from mouth to microphone", "lapel") - h)).toBeLessThan(0.001);
});

test("computed: what is sent while questions are asked, headers of every packet included", () => {
  const sound = 32_000 + 50 * 8 * (12 + 8 + 20 + 10);
  const picture = 2_500_000 * (1 + 50 / 1178);
  expect(figure("sent in all", "venue", { item: "questions" })).toBeCloseTo((sound + 2 * picture) / 1e6, 3);
  expect(figure("uplink that can be counted on", "venue")).toBeCloseTo(4.0 * 0.75, 6);
});

test("computed: the loudspeaker's battery, 60 Wh at 8 W with four fifths left", () => {
  expect(figure("battery life", "box")).toBeCloseTo((60 * 0.8) / 8, 3);
  expect(figure("battery life needed", "box")).toBeCloseTo(3.5, 6);
});

test("computed: a face on the screen from the last row's end", () => {
  const face = 2.0 / (16 / 9) / 3 / 3;
  // What stands at the front stands 0.2 m off the wall, its middle 1.6 m above the floor; eyes and ears are at 1.2 m.
  const far = Math.hypot(3.2 + 3 * 0.9 - 0.2, 2.5 * 0.55, 1.6 - 1.2);
  expect(Math.abs(figure("angle of a face", "projector") - (2 * Math.atan(face / 2 / far) * 180) / Math.PI)).toBeLessThan(0.0001);
});

test("computed: the rating needed at the delay of the echo", () => {
  const T = figure("delay of the echo, half the round trip", "laptop");
  // Half of: 154 ms there, 200 ms of radio, a few metres of air, 154 ms back.
  expect(T).toBeGreaterThan((154 + 200 + 154) / 2);
  expect(T).toBeLessThan((154 + 200 + 154) / 2 + 10);
  expect(figure("rating needed at this delay", "laptop")).toBeCloseTo(14 + 40 * Math.log10((1 + T / 10) / (1 + T / 150)), 2);
  expect(figure("talker echo loudness rating", "laptop")).toBeCloseTo(8 + 2 + 46, 2);
});
