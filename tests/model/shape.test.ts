import { describe, expect, it } from "vitest";
import { areaOf } from "../../server/physics/polygon";
import { bearingOf, roomShape, sizeOf, type RoomShape } from "../../server/model/room-shape";
import type { Setup } from "../../server/model/setup";
import { Trial } from "../../server/model/trial";
import { acoustics } from "../../server/signal/acoustics";
import { readText, said } from "../language/folder";

const read = (lines: string, size = "12 m by 8 m by 4 m"): Setup => readText(`room hall ${size} {\n${lines}\n}\n`);
const shape = (lines: string, size?: string): RoomShape => {
  const setup = read(lines, size);
  expect(said(setup)).toEqual([]);
  return roomShape(setup.floor, new Trial());
};
const CUT = "corners (0 m, 0 m) (12 m, 0 m) (12 m, 5 m) (8 m, 5 m) (8 m, 8 m) (0 m, 8 m)";

describe("a room with corners", () => {
  it("has the floor, walls and volume of its outline; a box has those of a box", () => {
    const sized = (setup: Setup): ReturnType<typeof sizeOf> => sizeOf(setup.room, new Trial());
    expect(sized(read(CUT))).toEqual({ floor: 84, round: 40, walls: 160, volume: 336, surface: 328 });
    expect(sized(read(""))).toEqual({ floor: 96, round: 40, walls: 160, volume: 384, surface: 352 });
    const { volume, surface } = acoustics(read(`${CUT}\nreverberation 1 s`), new Trial());
    expect([volume, surface]).toEqual([336, 328]);
  });

  it("is as long and as wide as its corners reach, which need not be said twice; unsharp corners stretch it", () => {
    const setup = readText(`room hall {\n${CUT}\n}\n`);
    expect(said(setup)).toEqual([]);
    expect([setup.room.length.best, setup.room.width.best, setup.room.length.low === setup.room.length.high]).toEqual([12, 8, true]);
    const rough = readText("room hall {\ncorners (0 m, 0 m) (about 12 m, 0 m) (about 12 m, 8 m) (0 m, 8 m)\n}\n");
    expect(rough.room.length.low).toBeCloseTo(10.2, 9);
    expect(areaOf(roomShape(rough.floor, new Trial(new Map([["room.length", "low"]]))).outline)).toBeCloseTo(10.2 * 8, 9);
  });

  it("what no figure places stands inside its walls", () => {
    for (const side of ["front", "back", "left", "right", "middle", "right back corner", "left front corner", "operator", "audience"]) {
      const eye = readText(`room hall 12 m by 8 m by 4 m {\n${CUT}\n}\nplace eye is webcam, at ${side}`);
      const at = eye.floor.position("eye", eye.devices.get("eye")?.place, "operator", 1).at(new Trial());
      expect(at.x > 0 && at.y > 0 && (at.y < 5 || at.x < 8) && at.x < 12 && at.y < 8, `${side}: ${at.x}, ${at.y}`).toBe(true);
    }
  });

  it("says what cannot be", () => {
    const one = (lines: string): string[] => read(lines).problems.map((p) => `${p.code}: ${p.message}`);
    expect(one("corners (0 m, 0 m) (12 m, 0 m) (0 m, 8 m) (12 m, 8 m)")).toEqual([expect.stringMatching(/^impossible: That cannot be: the line from corner 2 to corner 3 meets the line from corner 4 to corner 1\. .*, as in corners \(0 m, 0 m\)/)]);
    expect(one("corners (0 m, 0 m) (12 m, 8 m)")).toEqual([expect.stringContaining("at least three points; here are 2")]);
    expect(one("corners (0 m, 0 m) (-3 m, 8 m) (12 m, 8 m)")).toEqual([expect.stringContaining("no figure is below 0 m")]);
    expect(one("corners (0 m, 0 m) (9 m, 0 m) (9 m, 8 m) (0 m, 8 m)")).toEqual([expect.stringContaining("The corners reach 9 m, and the length of the room is stated as 12 m")]);
    expect(one("corners (2 m, 0 m) (12 m, 0 m) (12 m, 8 m) (2 m, 8 m)")).toEqual([expect.stringContaining("No corner stands at the front wall")]);
    expect(one(`${CUT}\nspot nook at (10 m, 7 m)`)).toEqual([expect.stringContaining("nook would stand 2 m outside the walls of hall")]);
    expect(one(`${CUT}\nseat late at (10 m, 7 m)`)).toEqual([expect.stringContaining("late would stand outside hall, by up to 2 m")]);
    expect(one("corners (0 m, 0 m) 12 m")).toHaveLength(1);
    expect(one("corners")).toEqual([expect.stringContaining("“corners” wants")]);
  });
});

describe("floors", () => {
  it("slope up evenly, and hold less air", () => {
    const setup = read("slope 1 m from 4 m to 12 m");
    expect(said(setup)).toEqual([]);
    const room = roomShape(setup.floor, new Trial());
    expect([2, 4, 8, 12].map((x) => room.floorAt({ x, y: 4 }))).toEqual([0, 0, 0.5, 1]);
    expect(sizeOf(setup.room, new Trial()).volume).toBeCloseTo(384 - (8 * 8 * 1) / 2, 9);
    expect(read("slope 1 m from 9 m to 4 m").problems.map((p) => p.code)).toEqual(["impossible"]);
  });

  it("a stage lifts whoever and whatever stands on it, and nobody else", () => {
    const setup = readText("room hall 12 m by 8 m by 4 m {\nstage at front, size 2 m by 5 m, height 0.6 m\n}\ntalker Ines at lectern, standing\ntalker Teo at stage, standing\ntalker Una at (5 m, 4 m), standing\nplace box is battery-loudspeaker, at (1 m, 4 m), height 1.2 m\nplace eye is webcam, at (1 m, 4 m, 1.5 m)\n");
    expect(said(setup)).toEqual([]);
    const heights = ["ines", "teo", "una"].map((name) => setup.voices.get(name)?.position.at(new Trial()).z);
    expect(heights).toEqual([2.15, 2.15, 1.55]);
    const box = setup.devices.get("box");
    expect(setup.floor.position("box", box?.place, "operator", box?.height ?? 0).at(new Trial()).z).toBeCloseTo(1.8, 9);
    expect(setup.floor.position("eye", setup.devices.get("eye")?.place, "operator", 1).at(new Trial()).z).toBe(1.5);
  });

  it("a stage lies along the wall at which it is said to be; corners give any other", () => {
    expect(shape("stage at front, size 2 m by 5 m").stages[0]?.outlines).toEqual([[{ x: 0, y: 1.5 }, { x: 2, y: 1.5 }, { x: 2, y: 6.5 }, { x: 0, y: 6.5 }]]);
    const corner = shape("stage dais at right back corner, size 2 m by 3 m").stages[0]?.outlines[0] ?? [];
    expect(Math.max(...corner.map((p) => p.x))).toBeCloseTo(12, 9);
    expect(Math.max(...corner.map((p) => p.y))).toBeCloseTo(8, 9);
    expect(shape("stage thrust { corners (0 m, 2 m) (3 m, 4 m) (0 m, 6 m), height 0.8 m }").stages[0]).toMatchObject({ name: "thrust", height: 0.8 });
  });

  it("says which stage is outside, and which is as high as the room", () => {
    expect(read("stage at (0.5 m, 4 m), size 2 m by 5 m").problems.map((p) => p.message)).toEqual([expect.stringMatching(/^stage would reach 0\.5 m outside hall, which is 12 m by 8 m: .*like: stage at front/)]);
    expect(read("stage at front, height 3.5 m").problems.map((p) => p.code)).toEqual(["impossible"]);
  });
});

describe("walls", () => {
  it("doors and windows are in the nearest wall, as wide as said, and look out of it", () => {
    const { doors: [door], windows: [window] } = shape("north left\ndoor main at back, width 1.6 m\nwindow at (4 m, 0.3 m), width 2 m, height 1.5 m, sill 1 m");
    expect(door).toMatchObject({ name: "main", from: { x: 12, y: 3.2 }, to: { x: 12, y: 4.8 }, bottom: 0, top: 2 });
    expect(door?.inward.x).toBeCloseTo(-1, 9);
    expect(window).toMatchObject({ name: "window", at: { x: 4, y: 0 }, bottom: 1, top: 2.5, bearing: 0 });
    // North on the left, so the back wall looks west.
    expect(door?.bearing).toBe(270);
  });

  it("bearings go with the clock, seen from above: facing the front with north there, the right is east", () => {
    const { floor } = read("north front");
    const of = (x: number, y: number): number | undefined => bearingOf(floor, { x, y }, new Trial());
    expect([of(-1, 0), of(0, 1), of(1, 0), of(0, -1)]).toEqual([0, 90, 180, 270]);
    expect(bearingOf(read("").floor, { x: 1, y: 0 }, new Trial())).toBeUndefined();
  });

  it("says which is wider than its wall, higher than the room, or looks elsewhere", () => {
    const one = (lines: string): string[] => read(lines).problems.map((p) => p.message);
    expect(one("window at left, width 13 m")).toEqual([expect.stringContaining("window is 13 m wide, and the wall in which it is is 12 m long")]);
    expect(one(`${CUT}\ndoor at (8 m, 6.5 m), width 3.5 m`)).toEqual([expect.stringContaining("the wall in which it is is 3 m long")]);
    expect(one("window at left, height 4.5 m, sill 1 m")).toEqual([expect.stringContaining("5.5 m above the floor, and the room is 4 m high")]);
    expect(one("north front\nwindow at left, looks east")).toEqual([expect.stringContaining("window looks west by its wall")]);
    expect(one("north")).toEqual([expect.stringContaining("north left, or north 30 deg")]);
  });

  it("columns and walkways are where they are said", () => {
    const { columns, walkways } = shape("column at (4 m, 2 m), width 0.5 m\ncolumn at (8 m, 2 m)\ndoor main at back\nwalkway from main to (9 m, 4 m) and (9 m, 1 m), width 1.4 m\nwalkway foyer at (11 m, 6 m), size 2 m by 3 m");
    expect(columns.map(({ name, at, width }) => [name, at.x, at.y, width])).toEqual([["column-1", 4, 2, 0.5], ["column-2", 8, 2, 0.4]]);
    expect(walkways[0]?.outlines.map((outline) => Number(areaOf(outline).toFixed(6)))).toEqual([4.2, 4.2]);
    expect(areaOf(walkways[1]?.outlines[0] ?? [])).toBe(6);
    expect(read("walkway from (1 m, 1 m), width 1 m").problems.map((p) => p.code)).toEqual(["incomplete"]);
    expect(read("column at (14 m, 2 m)").problems.map((p) => p.code)).toEqual(["outside-room"]);
  });
});
