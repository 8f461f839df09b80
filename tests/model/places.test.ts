import { describe, expect, it } from "vitest";
import type { Vec3 } from "../../server/model/geometry";
import { HEIGHTS, type Position } from "../../server/model/position";
import type { Setup } from "../../server/model/setup";
import { Trial, type End } from "../../server/model/trial";
import { bothwaysFiles, inMemory, readText, said } from "../language/folder";
import { readSetup } from "../../server/model/setup";

const HALL = "room hall 10 m by 6 m by 3 m\nchairs 24 in 4 rows { first 3 m, pitch 1 m, spacing 0.6 m }\n";
function hall(lines: string): Setup {
  const setup = readText(`${HALL}${lines}`);
  expect(said(setup)).toEqual([]);
  return setup;
}
function position(setup: Setup, name: string): Position {
  const device = setup.devices.get(name);
  return setup.floor.position(name, device?.place, "operator", HEIGHTS.lens, device?.ring);
}
/** Where a webcam stands that is placed in those words. */
const webcam = (place: string, more = ""): Position => position(hall(`${more}\nplace eye is webcam, ${place}`), "eye");
const at = (place: string, more = ""): Vec3 => webcam(place, more).at(new Trial());

/** The corners of what is possible for a place: every open value that it reads at each of its ends, alone. */
function tries(of: Position): Vec3[] {
  const { result, read } = ((trial: Trial) => trial.trace(() => of.at(trial)))(new Trial());
  return [result, ...[...read.keys()].flatMap((id) => (["low", "high"] as End[]).map((end) => of.at(new Trial(new Map([[id, end]])))))];
}

describe("relations, in a hall of 10 m by 6 m with rows at 3, 4, 5 and 6 m", () => {
  it("behind is farther from the front, before is nearer, by the length that is said", () => {
    expect(at("behind row 3").x).toBeGreaterThan(5);
    expect(at("before row 3").x).toBeLessThan(5);
    expect(at("1.5 m behind row 3")).toMatchObject({ x: 6.5, y: 3 });
    expect(at("1.5 m before row 3")).toMatchObject({ x: 3.5, y: 3 });
    for (const point of tries(webcam("behind row 3"))) expect(point.x).toBeGreaterThan(5);
    for (const point of tries(webcam("before row 3"))) expect(point.x).toBeLessThan(5);
  });

  it("rows come one behind the other", () => {
    const rows = [1, 2, 3, 4].map((row) => at(`behind row ${row}`).x);
    expect(rows).toEqual([...rows].sort((a, b) => a - b));
    expect(new Set(rows).size).toBe(4);
  });

  it("sides and corners lie where they are called; left and right mirror each other, and so do front and back", () => {
    for (const [one, other, axis, size] of [
      ["left", "right", "y", 6], ["front", "back", "x", 10], ["left front corner", "right front corner", "y", 6], ["left back corner", "left front corner", "x", 10],
    ] as const) {
      const [a, b] = [at(`at ${one}`), at(`at ${other}`)];
      expect(a[axis] + b[axis]).toBeCloseTo(size, 9);
      expect(a[axis === "x" ? "y" : "x"]).toBeCloseTo(b[axis === "x" ? "y" : "x"], 9);
    }
    expect(at("at left").y).toBeLessThan(1);
    expect(at("at front").x).toBeLessThan(1);
    expect(at("at front")).toMatchObject({ y: 3 });
    expect(at("at middle")).toMatchObject({ x: 5, y: 3 });
    expect(at("at front wall")).toEqual(at("at front"));
  });

  it("a lectern stands in front of the audience, an operator behind it", () => {
    expect(at("at lectern").x).toBeLessThan(3);
    expect(at("at operator").x).toBeGreaterThan(6);
    expect(at("at audience")).toMatchObject({ x: 4.5, y: 3 });
  });

  it("beside stays inside, on the side where there is room", () => {
    expect(at("beside front-screen").y).not.toBe(3);
    const wall = "spot here at (2 m, 5.9 m)\n";
    for (const point of tries(webcam("beside here", wall))) {
      expect(point.y).toBeLessThan(5.9);
      expect(point.y).toBeGreaterThan(0);
    }
    expect(at("0.7 m beside here", "spot here at (2 m, 1 m)\n").y).toBeCloseTo(1.7, 9);
  });

  it("near leads toward the middle, between lies halfway", () => {
    expect(at("near left front corner").y).toBeGreaterThan(at("at left front corner").y);
    const [front, back] = [at("at front"), at("at back")];
    expect(at("between front and back").x).toBeCloseTo((front.x + back.x) / 2, 9);
    expect(at("between lectern and front").x).toBeGreaterThan(0);
  });

  it("several relations: the last that says where counts, “on” says on what", () => {
    expect(at("on table at middle")).toMatchObject({ x: 5, y: 3, z: HEIGHTS.table + 0.15 });
    expect(at("on desk", "table desk at (2 m, 1 m)\n")).toMatchObject({ x: 2, y: 1, z: HEIGHTS.table + 0.15 });
    // Where no table is called so, any table.
    expect(at("on table", "table desk at (2 m, 1 m)\n")).toMatchObject({ x: 2, y: 1 });
  });

  it("a point is exact, and of three figures the third is the height", () => {
    expect(at("at (3.2 m, 1 m, 1.4 m)")).toEqual({ x: 3.2, y: 1, z: 1.4 });
    expect(tries(webcam("at (3.2 m, 1 m, 1.4 m)"))).toHaveLength(1);
    expect(at("at (3.2 m, 1 m)")).toEqual({ x: 3.2, y: 1, z: HEIGHTS.lens });
    expect(at("at (10 ft, 3 ft)").x).toBeCloseTo(3.048, 9);
    expect(new Set(tries(webcam("at (about 3 m, 1 m)")).map((p) => Number(p.x.toFixed(2))))).toEqual(new Set([3, 2.55, 3.45]));
  });

  it("a relation has a range, a length that is said has none but its own", () => {
    expect(new Set(tries(webcam("behind row 3")).map((p) => p.x)).size).toBe(3);
    expect(tries(webcam("1.5 m behind row 3"))).toHaveLength(1);
    expect(new Set(tries(webcam("about 2 m behind row 3")).map((p) => Number(p.x.toFixed(2))))).toEqual(new Set([7, 6.7, 7.3]));
  });

  it("one standing on a stage is higher than one on the floor; what is beside a thing is not as high as the thing", () => {
    expect(at("at stage", "spot stage at (2 m, 3 m, 0.9 m)\n").z).toBeCloseTo(HEIGHTS.lens + 0.9, 9);
    expect(at("beside tall", "place tall is column-loudspeaker, at (2 m, 1 m, 2.2 m)\n").z).toBe(HEIGHTS.lens);
  });

  it("a thing placed by another follows it, in every try", () => {
    const setup = hall("place box is battery-loudspeaker, near front\nplace eye is webcam, 1 m behind BOX\n");
    const [box, eye] = [position(setup, "box"), position(setup, "eye")];
    const { read } = ((trial: Trial) => trial.trace(() => eye.at(trial)))(new Trial());
    expect([...read.keys()]).toEqual(["box.place-0.offset"]);
    for (const end of ["low", "high"] as const) {
      const trial = new Trial(new Map([["box.place-0.offset", end]]));
      expect(eye.at(trial).x - box.at(trial).x).toBeCloseTo(1, 9);
    }
  });

  it("what nothing is said of is somewhere near where such things are", () => {
    const somewhere = hall("device eye is webcam").floor.position("eye", undefined, "operator", HEIGHTS.lens);
    expect(somewhere.words).toBe("at operator, nothing being said");
    expect(new Set(tries(somewhere).map((p) => p.x)).size).toBeGreaterThan(2);
  });

  it("worn and handed things are with who speaks", () => {
    const setup = hall("talker Ines at lectern\nplace lapel is lapel-microphone, on Ines\nplace hand is handheld-microphone, with audience\nplace eye is webcam, at lectern");
    expect(position(setup, "lapel").held).toEqual({ by: "Ines", how: "worn" });
    expect(position(setup, "hand").held).toEqual({ by: "audience", how: "handed" });
    expect(position(setup, "eye").held).toBeUndefined();
  });
});

describe("nothing ever leaves the room", () => {
  it.each([
    "50 m behind row 4", "50 m before lectern", "30 m beside lectern", "at (400 m, -3 m, 90 m)", "-90 m behind row 1", "9000000000 km near front", "above row 4, height 40 m",
  ])("%s", (place) => {
    const setup = readText(`${HALL}place eye is webcam, ${place}`);
    const device = setup.devices.get("eye");
    for (const point of tries(setup.floor.position("eye", device?.place, "operator", device?.height ?? HEIGHTS.lens))) {
      expect(point.x).toBeGreaterThan(0);
      expect(point.x).toBeLessThan(10);
      expect(point.y).toBeGreaterThan(0);
      expect(point.y).toBeLessThan(6);
      expect(point.z).toBeGreaterThan(0);
      expect(point.z).toBeLessThan(3);
    }
  });
});

describe("what is stated outside the room", () => {
  const outside = (lines: string, room = HALL): string[] => readText(`${room}${lines}`).problems.map((p) => `${p.severity} ${p.code}: ${p.message}`);

  it.each([
    ["place eye is webcam, at (12 m, 3 m)", "eye would stand 12 m from the front wall, outside hall, which is 10 m long: correct the place, or the size of the room."],
    ["place eye is webcam, at (3 m, -1 m)", "eye would stand 1 m to the left of the left wall, outside hall, which is 6 m wide: correct the place, or the size of the room."],
    ["place eye is webcam, at (3 m, 1 m, 3.2 m)", "eye would stand 3.2 m above the floor, outside hall, which is 3 m high: correct the place, or the size of the room."],
    ["place eye is webcam, 5 m behind row 4", "eye would stand 11 m from the front wall, outside hall, which is 10 m long: correct the place, or the size of the room."],
    ["talker Ines at (about 14 m, 3 m)", "Ines would stand 14 m from the front wall, outside hall, which is 10 m long: correct the place, or the size of the room."],
    ["spot pit at (-2 m, 3 m)", "pit would stand 2 m before the front wall, outside hall, which is 10 m long: correct the place, or the size of the room."],
  ])("%s", (lines, message) => {
    expect(outside(lines)).toEqual([`warning outside-room: ${message}`]);
  });

  it("rows deeper than the room", () => {
    expect(outside("", "room hall 10 m by 6 m\nchairs 60 in 10 rows { first 3 m, pitch 1 m }\n")).toEqual([
      "warning outside-room: Row 10 of audience would stand 12 m from the front wall, and hall is 10 m long: state fewer rows, or less between them.",
    ]);
    expect(outside("", "room hall 6 m by 6 m\nchairs 60 in 10 rows { pitch 0.9 m }\n")).toEqual([
      "warning outside-room: Row 10 of audience would stand 8.1 m behind the first, and hall is 6 m long: state fewer rows, or less between them.",
    ]);
  });

  it("the room that no text states is said to be taken so", () => {
    expect(outside("place eye is webcam, at (90 m, 3 m)", 'setup "Somewhere"\n')[0]).toMatch(/^warning outside-room: eye would stand 90 m from the front wall, outside room, which is taken to be \d+(\.\d)? m long/);
  });

  it.each([
    "place eye is webcam, at (10 m, 6 m, 3 m)", "place eye is webcam, at (0 m, 0 m)", "place eye is webcam, at (about 10.5 m, 3 m)", "place eye is webcam, behind row 4", "place eye is webcam, at back, aim (40 m, 3 m)",
  ])("nothing is said of %s", (lines) => {
    expect(outside(lines)).toEqual([]);
  });

  it("nor of rows that go in as near together as they may be", () => {
    expect(outside("", "room hall 10 m by 6 m\nchairs 60 in 10 rows { first about 2 m, pitch about 0.9 m }\n")).toEqual([]);
  });
});

describe("things that lean on each other in a circle", () => {
  it.each([
    ["place a1 is webcam, near a1", ["place-circle at “place a1 is webcam”: “a1” is placed by itself: say where it stands by something else."]],
    ["place a1 is webcam, near a2\nplace a2 is webcam, behind a1", ["place-circle at “place a1 is webcam”: “a1” and “a2” are placed by each other in a circle: say of one of them where it stands by something else."]],
    ["chairs ring 8 around desk\ntable desk beside ring", ["place-circle"]],
    ["talker Ines beside Ruan\ntalker Ruan beside Ines\nplace lapel is lapel-microphone, on Ines", ["place-circle"]],
  ])("%s: one message, and a place all the same", (lines, messages) => {
    const setup = readText(`room hall 9 m by 6 m\n${lines}`);
    const found = said(setup);
    expect(found).toHaveLength(messages.length);
    for (const [i, message] of messages.entries()) expect(found[i]?.startsWith(message)).toBe(true);
    const trial = new Trial();
    const points = [...setup.devices.values()].map((device) => setup.floor.position(device.name, device.place, "operator", 1, device.ring).at(trial));
    const seats = setup.room.seats.flatMap((group) => setup.floor.seats(group, trial).map((seat) => seat.at));
    const voices = [...setup.voices.values()].map((voice) => voice.position.at(trial));
    expect([...points, ...seats, ...voices].length).toBeGreaterThan(0);
    for (const point of [...points, ...seats, ...voices]) for (const figure of Object.values(point)) expect(figure).toSatisfy(Number.isFinite);
  });

  it("a long chain is no circle", () => {
    const chain = ["place t-0 is webcam, at front", ...Array.from({ length: 500 }, (_, i) => `place t-${i + 1} is webcam, 1 cm behind t-${i}`)].join("\n");
    const setup = readText(`room hall 9 m by 6 m\n${chain}`);
    expect(said(setup)).toEqual([]);
    const last = setup.floor.position("t-500", setup.devices.get("t-500")?.place, "operator", 1).at(new Trial());
    expect(last.x).toBeCloseTo(setup.floor.position("t-0", setup.devices.get("t-0")?.place, "operator", 1).at(new Trial()).x + 5, 6);
  });
});

describe("seats", () => {
  const seats = (chairs: string, room = "room hall 12 m by 8 m"): ReturnType<Setup["floor"]["seats"]> => {
    const setup = readText(`${room}\ntable ring at middle, size 3 m by 1.5 m\n${chairs}`);
    expect(said(setup)).toEqual([]);
    return setup.floor.seats(setup.room.seats[0] ?? (() => { throw new Error("no seats"); })(), new Trial());
  };

  it.each([[24, 4], [9, 4], [5, 4], [1, 1], [30, 7], [240, 12]])("%i in %i rows: as many, in as many rows, as even as can be, the longer in front", (count, rows) => {
    const all = seats(`chairs ${count} in ${rows} rows`, count > 200 ? "room hall 12 m by 12 m" : "room hall 12 m by 8 m");
    expect(all).toHaveLength(count);
    const lengths = Array.from({ length: rows }, (_, i) => all.filter((seat) => seat.row === i + 1).length);
    expect(Math.max(...lengths) - Math.min(...lengths)).toBeLessThanOrEqual(1);
    expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
    expect(new Set(all.map((seat) => seat.name)).size).toBe(count);
    for (const { at: { x, y, z } } of all) {
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(12);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(count > 200 ? 12 : 8);
      expect(z).toBe(HEIGHTS.seatedEye);
    }
  });

  it("stand where it is said, in the middle of the room's width", () => {
    const all = seats("chairs 6 in 2 rows { first 4 m, pitch 1.2 m, spacing 0.7 m }");
    expect(all.map((seat) => [seat.name, Number(seat.at.x.toFixed(6)), Number(seat.at.y.toFixed(6))])).toEqual([
      ["audience.row-1.seat-1", 4, 3.3], ["audience.row-1.seat-2", 4, 4], ["audience.row-1.seat-3", 4, 4.7],
      ["audience.row-2.seat-1", 5.2, 3.3], ["audience.row-2.seat-2", 5.2, 4], ["audience.row-2.seat-3", 5.2, 4.7],
    ]);
  });

  it("are places themselves, by row and number", () => {
    expect(at("at audience.row-2")).toMatchObject({ x: 4, y: 3 });
    expect(at("at Audience.row-2.seat-1")).toMatchObject({ x: 4, y: 3 - 2.5 * 0.6 });
    expect(at("behind audience.row-4.seat-6").x).toBeGreaterThan(6);
    for (const none of ["audience.row-5", "audience.row-2.seat-7", "audience.row-0", "stalls.row-1", "audience.seat-7"]) {
      expect(readText(`${HALL}place eye is webcam, at ${none}`).problems.map((p) => p.code), none).toEqual(["unknown-name"]);
    }
    const round = readText("room hall 8 m by 6 m\ntable ring at middle\nchairs 6 around ring\nplace eye is webcam, at audience.seat-4");
    expect(said(round)).toEqual([]);
    expect(position(round, "eye").at(new Trial()).x).toBeCloseTo(4 - 0.8 - 0.3, 9);
  });

  it("around a table: evenly, a chair's depth from its edge; across is across", () => {
    const all = seats("chairs 8 around ring");
    expect(all).toHaveLength(8);
    for (let i = 0; i < 4; i += 1) {
      const [one, other] = [all[i]?.at, all[i + 4]?.at];
      expect((one?.x ?? 0) + (other?.x ?? 0)).toBeCloseTo(12, 9);
      expect((one?.y ?? 0) + (other?.y ?? 0)).toBeCloseTo(8, 9);
    }
    expect(all[0]?.at.x).toBeCloseTo(6 + 1.5 + 0.3, 9);
  });

  it("around a point and around a side of the room, too", () => {
    const round = seats("chairs 4 around (3 m, 2 m)");
    expect(round.reduce((sum, seat) => sum + seat.at.x, 0) / 4).toBeCloseTo(3, 9);
    expect(seats("chairs 4 around middle").reduce((sum, seat) => sum + seat.at.y, 0) / 4).toBeCloseTo(4, 9);
  });

  it("at the back are behind those that nothing is said of", () => {
    const front = seats("chairs 30 in 3 rows");
    const back = seats("chairs gallery 30 in 3 rows at back");
    expect(Math.min(...back.map((seat) => seat.at.x))).toBeGreaterThan(Math.min(...front.map((seat) => seat.at.x)));
  });
});

describe("in every sample and every setup of the tests, in every try, every place is a place in the room", () => {
  const files = new Map([...bothwaysFiles("samples"), ...bothwaysFiles("tests/language")]);
  it.each([...files.keys()])("%s", (file) => {
    const setup = readSetup(inMemory(files), file);
    const places: Position[] = [
      ...[...setup.devices.values()].map((device) => setup.floor.position(device.name, device.place, "operator", device.height ?? HEIGHTS.lens, device.ring)),
      ...[...setup.voices.values()].map((voice) => voice.position),
      ...setup.room.seats.flatMap((group) => Array.from({ length: group.count }, (_, i): Position => ({
        words: "", held: undefined, at: (trial) => setup.floor.seats(group, trial)[i]?.at ?? { x: NaN, y: NaN, z: NaN },
      })).slice(0, 12)),
    ];
    const largest = { x: setup.room.length.high, y: setup.room.width.high, z: setup.room.height.high };
    for (const place of places) {
      for (const point of tries(place)) {
        for (const axis of ["x", "y", "z"] as const) {
          expect(point[axis]).toBeGreaterThan(0);
          expect(point[axis]).toBeLessThan(largest[axis]);
        }
      }
    }
  });
});
