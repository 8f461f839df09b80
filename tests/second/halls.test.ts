/**
 * The sample halls worked out a second time. The places of things are those that the setups give; everything that is computed from them is
 * computed anew, by `plain.ts` and a general-purpose matrix library. Computed, not published.
 */
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import type { Figure } from "../../server/finding";
import { Trial } from "../../server/model/trial";
import { aimOf, audienceCentre, standOf, triple } from "../../server/signal/stands";
import { study, type Study } from "../../server/study";
import { bothwaysFiles, inMemory } from "../language/folder";
import { all, COLUMN, constant, dB, field, LAPTOP, length, minus, near, peaks, power, weighted, type Point } from "./plain";

const files = inMemory(bothwaysFiles("samples"));
const trial = new Trial();

class Hall {
  readonly study: Study;
  readonly figures: readonly Figure[];
  constructor(path: string) {
    this.study = study(files, `samples/${path}.bothways`);
    this.figures = this.study.figures();
  }
  value(name: string, of: readonly string[], more: { band?: number; item?: string } = {}): number {
    const found = this.figures.filter((f) => f.name === name && of.every((one) => f.of.includes(one)) && (more.band === undefined || f.band === more.band) && (more.item === undefined || f.item === more.item));
    if (found.length !== 1) throw new Error(`${found.length} figures ${name} of ${of.join(" and ")}`);
    return found[0]?.value ?? NaN;
  }
  times(of: string): number[] {
    return this.figures.filter((f) => f.name === "reverberation time" && f.of.includes(of)).map((f) => f.value);
  }
  device(name: string) {
    const device = this.study.setup.devices.get(name);
    if (device === undefined) throw new Error(`no ${name}`);
    return device;
  }
  at(name: string): Point {
    return triple(standOf(this.study.setup, this.device(name), trial));
  }
  aim(name: string): Point {
    return triple(aimOf(this.study.setup, this.device(name), trial, (t) => audienceCentre(this.study.setup, t)));
  }
  mouth(name: string): Point {
    const voice = this.study.setup.voices.get(name);
    if (voice === undefined) throw new Error(`nobody called ${name}`);
    return triple(voice.position.at(trial));
  }
}

describe("the chapel, 2.15 s: a pulpit microphone and two columns", () => {
  const hall = new Hall("low-moor-chapel/harvest");
  const room = constant(18, 9.5, 7, Array<number>(7).fill(2.15));
  const voice = near(0.3, 0.5, room);

  test("computed: the preacher at a cardioid 0.3 m away, over the echo of the chapel and over its noise", () => {
    expect(Math.abs(hall.value("transfer from mouth to microphone", ["Berit", "pulpit-mic"], { item: "readings" }) - weighted(all(voice)))).toBeLessThan(0.02);
  });

  test("computed: the columns come back to the pulpit 15 dB below howling", () => {
    const mic = { at: hall.at("pulpit-mic"), toward: hall.mouth("berit"), p: 0.5 };
    const level = hall.value("level at 1 m when playing speech", ["column-1"]);
    // The pulpit is on the hall's bus at −12 dB, through both columns.
    const gains = ["column-1", "column-2"].map((name) => {
      const heard = field({ at: hall.at(name), toward: hall.aim(name), q: COLUMN }, mic, room);
      return { heard, gain: all(heard).map((x) => level - 66 + dB(x) - weighted(all(voice)) - 12) };
    });
    const k = 1;
    const mean = dB(gains.reduce((sum, { gain }) => sum + power(gain[k] ?? NaN), 0));
    const [loud] = gains.toSorted((p, q) => (q.gain[k] ?? 0) - (p.gain[k] ?? 0));
    const extra = peaks(loud?.heard.direct[k] ?? NaN, loud?.heard.reverberant[k] ?? NaN, 250, 2.15);
    expect(Math.abs(hall.value("mean gain of all loops in the room", [], { item: "readings" }) - mean)).toBeLessThan(0.05);
    expect(Math.abs(hall.value("peak allowance of the worst loop in the room", [], { item: "readings" }) - extra)).toBeLessThan(0.05);
  });
});

describe("the council chamber, twelve microphones open on one column", () => {
  const hall = new Hall("parish-council/chamber-all-open");
  const times = hall.times("chamber");
  const room = constant(9.7536, 7.3152, 3.3528, times);
  const level = 98;

  test("computed: a talker at the own microphone", () => {
    expect(Math.abs(hall.value("transfer from mouth to microphone", ["talker-1", "mic-1"]) - weighted(all(near(0.3, 0.5, room))))).toBeLessThan(0.02);
  });

  test("computed: all loops together, as the eigenvalue of their matrix, and the peaks of the room", () => {
    const column = { at: hall.at("column"), toward: hall.aim("column"), q: COLUMN };
    const own = weighted(all(near(0.3, 0.5, room)));
    const mics = Array.from({ length: 12 }, (_, i) => field(column, { at: hall.at(`mic-${i + 1}`), toward: hall.mouth(`talker-${i + 1}`), p: 0.5 }, room));
    // Turned up until the middle seat has 65 dBA.
    const seats = Array.from({ length: 12 }, (_, i) => weighted(all(field(column, { at: hall.mouth(`talker-${i + 1}`).map((x, j) => (j === 2 ? 1.2 : x)) as unknown as Point, toward: column.at, p: 1 }, room)))).sort((p, q) => p - q);
    const plays = Math.min(level, 65 - ((seats[5] ?? NaN) + (seats[6] ?? NaN)) / 2);
    const k = 1;
    const gains = mics.map((mic) => power(plays - 60 + dB(all(mic)[k] ?? NaN) - own));
    const matrix = new Matrix(gains.map((gain) => Array<number>(12).fill(gain)));
    const radius = Math.max(...new EigenvalueDecomposition(matrix).realEigenvalues);
    expect(Math.abs(hall.value("mean gain of all loops in the room", []) - dB(radius))).toBeLessThan(0.1);
    const loudest = mics[gains.indexOf(Math.max(...gains))];
    const extra = peaks(loudest?.direct[k] ?? NaN, loudest?.reverberant[k] ?? NaN, 250, times[k] ?? NaN);
    expect(Math.abs(hall.value("peak allowance of the worst loop in the room", []) - extra)).toBeLessThan(0.05);
  });
});

describe("two laptops at one table, 0.7 s", () => {
  const hall = new Hall("rowing-club/two-laptops");
  const room = constant(11, 5, 2.8, Array<number>(7).fill(0.7));

  test("computed: what one laptop plays and the other sends: echo loss, rating and delay", () => {
    const [stern, bow] = [hall.at("stern-laptop"), hall.at("bow-laptop")];
    const heard = field({ at: stern, toward: hall.aim("stern-laptop"), q: LAPTOP }, { at: bow, toward: stern, p: 1 }, room);
    const level = hall.value("level at 1 m when playing speech", ["stern-laptop.loudspeaker"]);
    // Whoever sits nearest to that microphone is whom it is turned up for; all speak at 60 dBA at 1 m.
    const found = hall.figures.filter((f) => f.name === "coupling beside the near talker" && f.of.includes("stern-laptop.loudspeaker") && f.of.includes("bow-laptop.microphone"));
    expect(found).toHaveLength(7);
    const beside = found.map((f, k) => f.value - (level - 60 + dB(all(heard)[k] ?? NaN)));
    // One talker's transfer for all bands: what is left over is a single number.
    for (const one of beside) expect(Math.abs(one - (beside[0] ?? NaN))).toBeLessThan(0.02);
    const weights = [0, 0.068, 0.285, 0.285, 0.285, 0.076, 0];
    const loss = -dB(found.reduce((sum, f, k) => sum + (weights[k] ?? 0) * power(f.value), 0));
    const [told] = hall.figures.filter((f) => f.name === "echo loss" && f.of[0] === "stern-laptop" && f.of[1] === "bow-laptop");
    expect(Math.abs((told?.value ?? NaN) - loss)).toBeLessThan(0.02);
    const [rating] = hall.figures.filter((f) => f.name === "talker echo loudness rating" && f.of[0] === "stern-laptop" && f.of[1] === "bow-laptop");
    expect(Math.abs((rating?.value ?? NaN) - (8 + 2 + loss))).toBeLessThan(0.02);
    // Twice 160 ms and the air, halved.
    const [delay] = hall.figures.filter((f) => f.name === "delay of the echo, half the round trip" && f.of[0] === "stern-laptop" && f.of[1] === "bow-laptop");
    expect(Math.abs((delay?.value ?? NaN) - 500 * (0.32 + length(minus(stern, bow)) / 343))).toBeLessThan(10);
  });
});

describe("the reading room", () => {
  const hall = new Hall("reading-room/poetry");
  const room = constant(8, 6, 3, hall.times("reading-room"));
  test("computed: the reader at the lectern's microphone", () => {
    const voice = near(0.3, 0.5, room);
    expect(Math.abs(hall.value("transfer from mouth to microphone", ["Agnete", "lectern-mic"]) - weighted(all(voice)))).toBeLessThan(0.02);
  });
});
