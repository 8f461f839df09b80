/**
 * Level, coupling and echo of the association's evening worked out anew: formulas and numbers stand here, nothing is taken from the
 * engine's physics. The places are worked out from the relations in the text by hand. Computed, not published.
 */
import { expect, test } from "vitest";
import { study } from "../../server/study";
import { bothwaysFiles, inMemory } from "../language/folder";

const evening = study(inMemory(bothwaysFiles("samples")), "samples/association/autumn.bothways");
const figures = evening.figures();
const figure = (name: string, of: string, more: { at?: string; item?: string; band?: number } = {}): number => {
  const found = figures.filter((f) => f.name === name && f.of.includes(of) && (more.at === undefined || f.at === more.at) && (more.item === undefined || f.item === undefined || f.item === more.item) && (more.band === undefined || f.band === more.band));
  if (found.length !== 1) throw new Error(`${found.length} figures ${name} of ${of}`);
  return found[0]?.value ?? NaN;
};

type Point = readonly [number, number, number];
const BANDS = [125, 250, 500, 1000, 2000, 4000, 8000];
const WEIGHTS = [0.014, 0.154, 0.476, 0.25, 0.083, 0.02, 0.003];
const BOX_Q = [1, 1.3, 1.8, 2.5, 4, 6, 9];
const TALKER_Q = [1.2, 1.4, 1.8, 2, 2.5, 3.2, 4];
/** Room 9.2 × 6.4 × 3.1 m, 0.8 s, 343 m/s. */
const S = 2 * (9.2 * 6.4 + 9.2 * 3.1 + 6.4 * 3.1);
const A = ((24 * Math.log(10)) / 343) * ((9.2 * 6.4 * 3.1) / 0.8);
const R = A / (1 - A / S);
/** Beside a screen 2 m wide in the middle of the front wall: half a metre from its edge and from the wall. */
const BOX: Point = [0.5, 3.2 + 1.0 + 0.5, 1.2];
/** The lapel microphone counts as being at the mouth. */
const MOUTH: Point = [1.0, 2.6, 1.55];
/** Rows from 3.2 m, 0.9 m apart, six chairs of 0.55 m each, about the middle of the room. */
const SEATS: readonly Point[] = [0, 1, 2, 3].flatMap((row) => [0, 1, 2, 3, 4, 5].map((i): Point => [3.2 + 0.9 * row, 3.2 + (i - 2.5) * 0.55, 1.2]));
const CENTRE: Point = [3.2 + 1.5 * 0.9, 3.2, 1.2];

const minus = (p: Point, q: Point): Point => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
const size = (p: Point): number => Math.sqrt(p[0] * p[0] + p[1] * p[1] + p[2] * p[2]);
const cosine = (p: Point, q: Point): number => (p[0] * q[0] + p[1] * q[1] + p[2] * q[2]) / (size(p) * size(q));
const dB = (x: number): number => 10 * Math.log10(x);

/** γ²(θ) of a source: (a + (1 − a)·cos θ)² up to Q = 3, ((1 + cos θ)/2)^(Q−1) above, not below −15 dB. */
function pattern(cos: number, q: number): number {
  const a = (1 + Math.sqrt(12 / q - 3)) / 4;
  return Math.max(10 ** -1.5, q > 3 ? ((1 + cos) / 2) ** (q - 1) : (a + (1 - a) * cos) ** 2);
}

/** d + v of the loudspeaker, aimed at the middle of the seats, at a point. */
function fromBox(at: Point): number[] {
  const way = minus(at, BOX);
  const cos = cosine(way, minus(CENTRE, BOX));
  return BOX_Q.map((q) => pattern(cos, q) / size(way) ** 2 + (16 * Math.PI) / (q * R));
}
const weighted = (bands: readonly number[]): number => dB(bands.reduce((sum, x, k) => sum + (WEIGHTS[k] ?? 0) * x, 0));

const transfers = SEATS.map((seat) => weighted(fromBox(seat))).sort((p, q) => p - q);
const median = ((transfers[11] ?? NaN) + (transfers[12] ?? NaN)) / 2;
/** 41 dBA of noise: the middle seat wants max(65, 41 + 20) = 65 dBA; the box could give 82. */
const level = Math.min(82, Math.max(65, 41 + 20) - median);
const direct = 1 / 0.2 ** 2;
const talker = weighted(TALKER_Q.map((q) => direct + (16 * Math.PI) / (q * R)));
const coupling = fromBox(MOUTH).map((x) => level - 66 + dB(x) - talker);

test("computed: the loudspeaker is turned up until the middle seat has 65 dBA, and the worst seat has what is left", () => {
  expect(Math.abs(figure("level at 1 m when playing speech", "box") - level)).toBeLessThan(0.01);
  expect(Math.abs(figure("level at the worst seat", "box") - (level + (transfers[0] ?? NaN)))).toBeLessThan(0.01);
  expect(Math.abs(figure("most speech over noise at the worst seat", "box") - (82 + (transfers[0] ?? NaN) - 41))).toBeLessThan(0.01);
});

test("computed: the voice at the lapel microphone, direct over reverberant and in all", () => {
  const reverberant = TALKER_Q.map((q) => (16 * Math.PI) / (q * R));
  expect(Math.abs(figure("transfer from mouth to microphone", "Ines") - talker)).toBeLessThan(0.01);
  expect(Math.abs(figure("direct to reverberant ratio", "Ines") - (dB(direct) - weighted(reverberant)))).toBeLessThan(0.01);
  expect(Math.abs(figure("speech over noise at the microphone", "Ines") - (66 + talker - 41))).toBeLessThan(0.01);
});

test("computed: coupling from the loudspeaker into the lapel microphone, band by band", () => {
  for (const [k, band] of BANDS.entries()) expect(Math.abs(figure("coupling beside the near talker", "lapel", { item: "talk", band }) - (coupling[k] ?? NaN)), `${band} Hz`).toBeLessThan(0.01);
});

test("computed: echo loss before the canceller, weighed flat over the logarithm of frequency from 300 to 3400 Hz", () => {
  const weights = BANDS.map((f) => Math.max(0, Math.log(Math.min(3400, f * Math.SQRT2) / Math.max(300, f / Math.SQRT2))) / Math.log(3400 / 300));
  expect(weights.reduce((sum, w) => sum + w, 0)).toBeCloseTo(1, 9);
  const loss = -dB(coupling.reduce((sum, g, k) => sum + (weights[k] ?? 0) * 10 ** (g / 10), 0));
  expect(Math.abs(figure("echo loss before cancellers", "laptop", { item: "talk" }) - loss)).toBeLessThan(0.01);
  // The laptop's canceller holds what the laptop plays: 46 dB, since the loss alone is less.
  expect(loss).toBeLessThan(46);
  expect(figure("echo loss", "laptop", { item: "talk" })).toBe(46);
});

test("computed: half the round trip of the echo", () => {
  // Half of: 140 ms and half of 28 ms each way, 200 ms of radio, and the air between.
  const half = ((0.14 + 0.014) * 2 + 0.2 + size(minus(MOUTH, BOX)) / 343) / 2;
  expect(Math.abs(figure("delay of the echo, half the round trip", "laptop", { item: "talk" }) - half * 1000)).toBeLessThan(0.1);
});

test("computed: what is sent during the talk: sound, slides, the stage camera and a small picture of the audience", () => {
  const picture = (rate: number): number => rate * (1 + 50 / 1178);
  const sum = 32_000 + 50 * 8 * 50 + picture(2_500_000) + picture(600_000) + picture(500_000 * (15 / 30) ** 0.6);
  expect(Math.abs(figure("sent in all", "venue", { item: "talk" }) - sum / 1e6)).toBeLessThan(0.0001);
});

test("computed: a face on the laptop's own screen at the seat where it is smallest", () => {
  // 14 inch across the corners of 16:9; eight people online in three columns, a face a third of its tile.
  const height = (14 * 0.0254) / Math.hypot(16 / 9, 1) / 3 / 3;
  const screen: Point = [1.3, 3.1, 0.9];
  const angles = SEATS.map((seat) => (2 * Math.atan(height / 2 / size(minus(seat, screen))) * 180) / Math.PI);
  expect(Math.abs(figure("angle of a face", "laptop.screen") - Math.min(...angles))).toBeLessThan(0.001);
});

test("computed: the audience in the frame of the phone, half of the heads at least so far inside", () => {
  const phone: Point = [0.5, 0.5, 0.9];
  const bearing = (p: Point): number => (Math.atan2(p[1] - phone[1], p[0] - phone[0]) * 180) / Math.PI;
  const margins = SEATS.map((seat) => 31 - Math.abs(bearing(seat) - bearing(CENTRE))).sort((p, q) => p - q);
  // The stage camera sees some of the heads better; the phone alone is a lower bound, and near.
  const value = figure("distance to the edge of the frame", "audience");
  expect(value).toBeGreaterThanOrEqual((margins[11] ?? NaN) - 0.01);
  expect(value - (margins[11] ?? NaN)).toBeLessThan(2);
});
