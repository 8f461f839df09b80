/**
 * What is measured at the seats. The worked case is done anew: formulas and numbers stand here, nothing is taken from the engine's
 * physics. Computed, not published. What must hold for any hall stands below it.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Trial } from "../../server/model/trial";
import { acoustics } from "../../server/signal/acoustics";
import { listeners } from "../../server/signal/air";
import { makeGraph, type Graph } from "../../server/signal/graph";
import { causesAt, hallOf, inDanger } from "../../server/signal/seats/clarity";
import { curtainsFor } from "../../server/signal/seats/curtains";
import { clarityOf, leastClear, levelsOf, medianOf, ONLINE_SPEAKS, sourcesOf, type Speaking } from "../../server/signal/seats/heard";
import { lateAt } from "../../server/signal/seats/late";
import { strongestAt } from "../../server/signal/seats/levels";
import { judged } from "../catalogue/harness";

const graphOf = (text: string): Graph => {
  const study = judged(text);
  expect(study.problems.map((p) => p.message)).toEqual([]);
  return makeGraph(study.setup, undefined);
};
/** Each hall has a trial of its own: what is kept in one is of one setup. */
const TRIALS = new WeakMap<Graph, Trial>();
function best(graph: Graph): Trial {
  const trial = TRIALS.get(graph) ?? new Trial();
  TRIALS.set(graph, trial);
  return trial;
}
const dB = (power: number): number => 10 * Math.log10(power);
const near = (value: number | undefined, wanted: number, by = 1e-6): void => expect(Math.abs((value ?? NaN) - wanted), `${value ?? NaN} for ${wanted}`).toBeLessThan(by);

/** One loudspeaker of Q 2 in all bands on a cable; a room of 10 × 8 × 4 m. */
const room = (said: string, rest: string, chairs = "chairs 12 in 3 rows { first 3 m, pitch 1 m, spacing 0.6 m }"): string => `setup "Seats"
room hall 10 m by 8 m by 4 m {
  ${said}
  ${chairs}
}
online 2 people
place laptop is laptop, at (0.5 m, 7.5 m)
${rest}`;
const BOX = `place box is battery-loudspeaker, at (1 m, 4 m, 1.2 m), aim (9 m, 4 m, 1.2 m) { directivity 2 2 2 2 2 2 2, speech-level 80 dBA }
cable from laptop.headset to box.line
join laptop { plays sound on box }
`;
const QUIET = "noise 38 dBA\n  reverberation 1 s";

describe("a worked case (computed)", () => {
  const graph = graphOf(room(QUIET, BOX));
  const { setup } = graph;
  // R of 320 m³, 304 m² at 1 s.
  const a = ((24 * Math.LN10) / 343) * 320;
  const r = a / (1 - a / 304);
  const v = (16 * Math.PI) / (2 * r);
  /** Q 2: γ = a + (1 − a)·cos θ, a = (1 + √3)/4. */
  const share = (1 + Math.sqrt(3)) / 4;
  const seats = [3, 4, 5].flatMap((x) => [-0.9, -0.3, 0.3, 0.9].map((dy) => [x - 1, dy] as const));
  const transfers = seats.map(([dx, dy]) => {
    const far = Math.hypot(dx, dy);
    const d = (share + (1 - share) * (dx / far)) ** 2 / far ** 2;
    return { d, all: dB(d + v) };
  });
  const sorted = transfers.map(({ all }) => all).sort((x, y) => x - y);
  const median = ((sorted[5] ?? NaN) + (sorted[6] ?? NaN)) / 2;

  test("at most: 80 dBA and H; as it is turned up: the middle seat has 65 dBA", () => {
    const most = levelsOf(graph, ONLINE_SPEAKS, "most", best(graph));
    const level = levelsOf(graph, ONLINE_SPEAKS, "level", best(graph));
    expect(most.length).toBe(12);
    // The weights of the bands, as printed, sum to 1.
    transfers.forEach(({ all }, i) => {
      near(most[i], 80 + all, 0.005);
      near(level[i], 65 - median + all, 0.005);
    });
    near(medianOf(graph, ONLINE_SPEAKS, best(graph)), 65, 1e-9);
  });

  test("the index from its formula: modulation of direct and reverberant sound, noise, masking, threshold", () => {
    const i = 9;
    const { d = NaN } = transfers[i] ?? {};
    const level = 65 - median;
    const F = [0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10, 12.5];
    // Of one Q, one T and one spectrum, band by band: only speech and noise differ.
    const hall = hallOf(acoustics(setup, best(graph)));
    const [source] = sourcesOf(graph, ONLINE_SPEAKS, best(graph));
    const speech = MALE.map((l) => level + l);
    const sti = (noise: readonly number[]): number => {
      const mti = MALE.map((_, k) => {
        const signal = (d + v) * 10 ** ((speech[k] ?? 0) / 10);
        const below = k === 0 ? 0 : maskedBy(dB((d + v) * 10 ** ((speech[k - 1] ?? 0) / 10) + 10 ** ((noise[k - 1] ?? 0) / 10)));
        const against = 10 ** ((noise[k] ?? 0) / 10) + below + 10 ** ((THRESHOLD[k] ?? 0) / 10);
        const sum = F.reduce((so, f) => {
          const x = (2 * Math.PI * f * 1) / ((6 * Math.LN10));
          const [re, im] = [(d + v / (1 + x * x)) / (d + v), (v * x) / (1 + x * x) / (d + v)];
          const m = (Math.hypot(re, im) * signal) / (signal + against);
          return so + (Math.min(15, Math.max(-15, dB(m / (1 - m)))) + 15) / 30;
        }, 0);
        return sum / F.length;
      });
      return mti.reduce((so, m, k) => so + (ALPHA[k] ?? 0) * m - (k < 6 ? (BETA[k] ?? 0) * Math.sqrt(m * (mti[k + 1] ?? 0)) : 0), 0);
    };
    expect(source?.level).toBeCloseTo(level, 2);
    near(clarityOf(graph, ONLINE_SPEAKS, best(graph))[i], sti([...hall.noise]), 0.002);
  });
});

/** Levels of male speech by band beside its A-weighted level, dB; weights, redundancies and thresholds: IEC 60268-16 Ed. 5 (as transcribed). */
const MALE = [2.9, 2.9, -0.8, -6.8, -12.8, -18.8, -24.8];
const ALPHA = [0.085, 0.127, 0.23, 0.233, 0.309, 0.224, 0.173];
const BETA = [0.085, 0.078, 0.065, 0.011, 0.047, 0.095];
const THRESHOLD = [46, 27, 12, 6.5, 7.5, 8, 12];
/** What a band of a level adds to the next, as power. */
function maskedBy(level: number): number {
  const slope = level < 63 ? 0.5 * level - 65 : level < 67 ? 1.8 * level - 146.9 : level < 100 ? 0.5 * level - 59.8 : -10;
  return 10 ** ((level + slope) / 10);
}

const double = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true }).map((x) => Number(x.toFixed(3)));
const runs = { numRuns: 40, seed: 20261125 };
const at = (x: number, y: number, name = "box", more = ""): string => `place ${name} is battery-loudspeaker, at (${x} m, ${y} m, 1.2 m), aim (9 m, 4 m, 1.2 m) { directivity 1 1 1 1 1 1 1, speech-level 80 dBA${more} }\ncable from laptop.headset to ${name}.line\n`;
const playing = (...names: string[]): string => `join laptop { plays sound on ${names.join(" and ")} }\n`;

describe("any hall", () => {
  test("a seat farther from one loudspeaker that aims nowhere is never louder", () => {
    fc.assert(fc.property(double(0.5, 9), double(0.5, 7), double(0.3, 3), (x, y, t) => {
      const graph = graphOf(room(`noise 38 dBA\n  reverberation ${t} s`, at(x, y) + playing("box")));
      const levels = levelsOf(graph, ONLINE_SPEAKS, "level", best(graph));
      const [source] = sourcesOf(graph, ONLINE_SPEAKS, best(graph));
      const order = [...levels.keys()].sort((i, j) => (source?.field.distance[i] ?? 0) - (source?.field.distance[j] ?? 0));
      order.slice(1).forEach((i, n) => expect(levels[i]).toBeLessThanOrEqual((levels[order[n] ?? 0] ?? NaN) + 1e-9));
    }), runs);
  });

  test("more absorption never lowers the index in a quiet room, nor does less noise in any", () => {
    fc.assert(fc.property(double(0.5, 9), double(0.5, 7), double(0.3, 3), double(1.1, 2), double(20, 70), (x, y, t, more, noise) => {
      const index = (said: string): Float64Array => clarityOf(graphOf(room(said, at(x, y) + playing("box"))), ONLINE_SPEAKS, new Trial());
      const [live, dead] = [index(`noise 10 dBA\n  reverberation ${t * more} s`), index(`noise 10 dBA\n  reverberation ${t} s`)];
      live.forEach((sti, i) => expect(dead[i]).toBeGreaterThanOrEqual(sti - 0.001));
      const loud = index(`noise ${noise} dBA\n  reverberation ${t} s`);
      // Whoever sets the volume turns it up with the noise, as far as it goes: loud speech masks itself a little.
      loud.forEach((sti, i) => expect(dead[i]).toBeGreaterThanOrEqual(sti - 0.01));
    }), { ...runs, numRuns: 15 });
  });

  test("left and right of a loudspeaker in the middle it is the same", () => {
    const graph = graphOf(room(QUIET, at(1, 4) + playing("box")));
    for (const of of [levelsOf(graph, ONLINE_SPEAKS, "level", best(graph)), clarityOf(graph, ONLINE_SPEAKS, best(graph))]) for (let row = 0; row < 3; row += 1) for (let i = 0; i < 2; i += 1) near(of[row * 4 + i], of[row * 4 + 3 - i] ?? NaN, 1e-9);
  });

  test("two loudspeakers at one place are one, turned up each 3 dB less; at most they give 3 dB more", () => {
    const [one, two] = [graphOf(room(QUIET, at(1, 4) + playing("box"))), graphOf(room(QUIET, at(1, 4) + at(1, 4, "bin") + playing("box", "bin")))];
    const levels = (graph: Graph, how: "level" | "most"): Float64Array => levelsOf(graph, ONLINE_SPEAKS, how, best(graph));
    levels(one, "level").forEach((level, i) => near(levels(two, "level")[i], level, 1e-6));
    levels(one, "most").forEach((level, i) => near(levels(two, "most")[i], level + dB(2), 1e-6));
    near((sourcesOf(one, ONLINE_SPEAKS, best(one))[0]?.level ?? 0) - (sourcesOf(two, ONLINE_SPEAKS, best(two))[0]?.level ?? 0), dB(2), 1e-6);
    clarityOf(one, ONLINE_SPEAKS, best(one)).forEach((sti, i) => near(clarityOf(two, ONLINE_SPEAKS, best(two))[i], sti, 1e-6));
  });

  test("a loudspeaker never plays louder than it can, whatever the noise", () => {
    fc.assert(fc.property(double(30, 90), double(55, 100), (noise, most) => {
      const graph = graphOf(room(`noise ${noise} dBA\n  reverberation 0.8 s`, at(1, 4).replace("80 dBA", `${most} dBA`) + playing("box")));
      for (const end of ["low", "high"] as const) {
        const trial = new Trial(new Map([["box.volume", end]]));
        for (const source of sourcesOf(graph, ONLINE_SPEAKS, trial)) expect(source.level).toBeLessThanOrEqual(source.most + 1e-9);
      }
    }), runs);
  });

  test("each seat names the loudspeaker that is strongest there: of two alike the nearer one", () => {
    const graph = graphOf(room(QUIET, at(1, 1) + at(1, 7, "bin") + playing("box", "bin")));
    const sources = sourcesOf(graph, ONLINE_SPEAKS, best(graph));
    listeners(graph.setup, best(graph)).forEach((ear, i) => expect(strongestAt(sources, i)?.name).toBe(ear.at.y < 4 ? "box" : "bin"));
  });
});

describe("two that come apart", () => {
  const two = (delay: string): Graph => graphOf(room(QUIET, at(1, 3) + at(1, 5, "bin", delay) + playing("box", "bin")));

  test("alike and together they melt into one; one 120 ms late is heard apart, by what it is late and what the way adds", () => {
    const sources = sourcesOf(two(""), ONLINE_SPEAKS, new Trial());
    expect(lateAt(sources, 5)).toBeUndefined();
    const apart = sourcesOf(two(", delay 120 ms"), ONLINE_SPEAKS, new Trial());
    const late = lateAt(apart, 5);
    expect([late?.first.name, late?.later.name]).toEqual(["box", "bin"]);
    const field = (name: string): number => apart.find((source) => source.name === name)?.field.distance[5] ?? NaN;
    near(late?.gap, 0.12 + (field("bin") - field("box")) / 343, 1e-9);
  });

  test("what comes late makes speech less clear, and its cause is told", () => {
    const [together, apart] = [two(""), two(", delay 150 ms")];
    const [before, after] = [together, apart].map((graph) => leastClear(graph, ONLINE_SPEAKS, "audience", best(graph)));
    expect(after?.sti).toBeLessThan((before?.sti ?? NaN) - 0.05);
    const causes = causesAt(sourcesOf(apart, ONLINE_SPEAKS, best(apart)), hallOf(acoustics(apart.setup, best(apart))), after?.seat ?? 0);
    near(causes.sti, after?.sti ?? NaN, 1e-9);
    expect(causes.withoutLaterArrivals).toBeGreaterThan(causes.sti + 0.05);
    expect(causes.withoutLaterArrivals).toBeGreaterThan(causes.withoutNoise);
  });
});

describe("a talker in the room", () => {
  const TALK = "talker Ines at (1 m, 4 m), standing, speech-level 66 dBA\n";
  const voice = (graph: Graph): Speaking => ({ who: "voice", voice: graph.setup.voices.get("ines") ?? expect.fail("nobody"), mouth: 0 });
  const DESK = `place desk is mixer, at (9 m, 1 m)
mains from wall to desk
mains from wall to box
place stand is gooseneck-microphone, at (1.3 m, 4 m, 1.5 m), aim Ines
place box is mains-loudspeaker, at (1 m, 1 m, 1.8 m), aim audience
cable from stand.plug to desk.in-1
cable from desk.main-left to box.line
mixer desk {
  channel speech from desk.in-1
  bus room to desk.main-left { holds speech }
}
`;

  test("by the voice alone is 66 dBA and H of the voice", () => {
    const graph = graphOf(room(QUIET, `${TALK}join laptop\n`));
    const sources = sourcesOf(graph, voice(graph), best(graph));
    expect(sources.map((source) => [source.name, source.level])).toEqual([["Ines", 66]]);
    levelsOf(graph, voice(graph), "level", best(graph)).forEach((level, i) => near(level, 66 + (sources[0]?.field.transfer[i] ?? NaN), 1e-9));
  });

  test("with a loudspeaker is louder at every seat, and never less for that", () => {
    const [alone, helped] = [graphOf(room(QUIET, `${TALK}join laptop\n`)), graphOf(room(`${QUIET}\n  outlet wall at left`, `${TALK}${DESK}join laptop\n`))];
    expect(sourcesOf(helped, voice(helped), best(helped)).map((source) => source.name)).toEqual(["Ines", "box"]);
    const [before, after] = [alone, helped].map((graph) => levelsOf(graph, voice(graph), "level", best(graph)));
    before?.forEach((level, i) => expect(after?.[i]).toBeGreaterThan(level));
  });
});

describe("curtains", () => {
  const RINGS = "noise 34 dBA\n  reverberation 2.5 s\n  walls plaster";
  test("bring the index to what is wanted, and a step less does not; what is clear needs none that helps", () => {
    const graph = graphOf(room(RINGS, BOX));
    const { setup } = graph;
    const sources = sourcesOf(graph, ONLINE_SPEAKS, best(graph));
    const least = leastClear(graph, ONLINE_SPEAKS, "audience", best(graph)) ?? expect.fail("nothing plays");
    expect(least.sti).toBeLessThan(0.6);
    const found = curtainsFor(setup, acoustics(setup, best(graph)), sources, least.seat, 0.6) ?? expect.fail("no curtains help");
    expect(found.sti).toBeGreaterThanOrEqual(0.6);
    expect(found.area).toBeGreaterThan(0);
    // The walls are 144 m²: steps of 5 m².
    const before = curtainsFor(setup, acoustics(setup, best(graph)), sources, least.seat, least.sti + 1e-6);
    expect(before?.area).toBeLessThanOrEqual(found.area);
    expect(curtainsFor(setup, acoustics(setup, best(graph)), sources, least.seat, 0.99)).toBeUndefined();
  });
});

test("of very many seats the least clear is the least of all, worked out for those in danger alone", () => {
  for (const x of [1, 4.5]) {
    const graph = graphOf(room(QUIET, at(x, 2) + at(9, 7, "bin") + playing("box", "bin"), "chairs 300 in 15 rows { first 1 m, pitch 0.55 m, spacing 0.35 m }"));
    const all = clarityOf(graph, ONLINE_SPEAKS, best(graph));
    expect(all.length).toBe(300);
    expect(inDanger(sourcesOf(graph, ONLINE_SPEAKS, best(graph)), hallOf(acoustics(graph.setup, best(graph))), [...all.keys()]).length).toBeLessThan(60);
    near(leastClear(graph, ONLINE_SPEAKS, "audience", best(graph))?.sti, Math.min(...all), 0.01);
  }
});
