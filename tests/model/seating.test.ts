import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { farOutside } from "../../server/physics/polygon";
import { spotsOf } from "../../server/model/placing/seats";
import { roomShape } from "../../server/model/room-shape";
import type { Seat } from "../../server/model/position";
import type { Setup } from "../../server/model/setup";
import { Trial } from "../../server/model/trial";
import { readText, said } from "../language/folder";

const read = (lines: string, size = "14 m by 10 m by 5 m"): Setup => readText(`room hall ${size} {\n${lines}\n}\n`);
const seats = (lines: string): readonly Seat[] => {
  const setup = read(lines);
  expect(said(setup)).toEqual([]);
  return roomShape(setup.floor, new Trial()).seats.flatMap((group) => group.seats);
};
const at = (seat: Seat | undefined): number[] => (seat === undefined ? [] : [seat.at.x, seat.at.y, seat.at.z].map((n) => Number(n.toFixed(6))));

describe("rows", () => {
  it("on steps: each is higher than the one before it, and so is what stands behind the last", () => {
    const setup = read("chairs 12 in 4 rows { first 4 m, pitch 1 m, riser 0.2 m }");
    const all = roomShape(setup.floor, new Trial()).seats[0]?.seats ?? [];
    expect([1, 2, 3, 4].map((row) => Number(all.find((seat) => seat.row === row)?.at.z.toFixed(6)))).toEqual([1.2, 1.4, 1.6, 1.8]);
    expect(all[0]?.floor).toBe(0);
    const { floorAt } = roomShape(setup.floor, new Trial());
    expect([3, 4, 5, 7, 9].map((x) => Number(floorAt({ x, y: 5 }).toFixed(6)))).toEqual([0, 0, 0.2, 0.6, 0.6]);
    expect(floorAt({ x: 6, y: 0.5 })).toBe(0);
  });

  it("staggered: every chair looks between two of the row before it", () => {
    const all = seats("chairs 8 in 2 rows { spacing 0.6 m, staggered }");
    const ys = (row: number): number[] => all.filter((seat) => seat.row === row).map((seat) => seat.at.y);
    expect(ys(2).map((y, i) => Number((y - (ys(1)[i] ?? 0)).toFixed(6)))).toEqual([0.3, 0.3, 0.3, 0.3]);
  });

  it("an aisle parts them, in the middle or where it is said, and is a gangway itself", () => {
    const setup = read("chairs 12 in 2 rows { first 4 m, pitch 1 m, spacing 0.6 m, aisle 1.4 m }");
    const row = roomShape(setup.floor, new Trial()).seats[0]?.seats.slice(0, 6).map((seat) => Number(seat.at.y.toFixed(6)));
    expect(row).toEqual([2.8, 3.4, 4, 6, 6.6, 7.2]);
    const [aisle] = roomShape(setup.floor, new Trial()).aisles;
    expect([Math.min(...(aisle?.outline.map((p) => p.y) ?? [])), Math.max(...(aisle?.outline.map((p) => p.y) ?? []))].map((y) => Number(y.toFixed(6)))).toEqual([4.3, 5.7]);
    const left = seats("chairs 12 in 2 rows { first 4 m, spacing 0.6 m, aisle 1.4 m after 2 }").slice(0, 3).map((seat) => seat.at.y);
    expect(Number(((left[2] ?? 0) - (left[1] ?? 0)).toFixed(6))).toBe(2);
    expect(read("chairs 12 in 2 rows { aisle 1.2 m after 6 }").problems.map((p) => p.message)).toEqual([expect.stringContaining("an aisle after 6 chairs, in rows of 6")]);
  });

  it("bent around a spot: all of a row are as far from it, and look at it", () => {
    const all = seats("spot font at (2 m, 5 m)\nchairs 24 in 3 rows { first 5 m, pitch 1 m, spacing 0.6 m, curved around font }");
    for (const seat of all) {
      const [x, y] = [seat.at.x - 2, seat.at.y - 5];
      expect(Math.hypot(x, y)).toBeCloseTo(2 + seat.row, 9);
      expect(seat.faces.x).toBeCloseTo(-x / Math.hypot(x, y), 9);
      expect(seat.faces.y).toBeCloseTo(-y / Math.hypot(x, y), 9);
    }
    expect(at(seats("chairs 3 in 1 rows { first 5 m, curved 4 m }")[1])).toEqual([5, 5, 1.2]);
    expect(at(seats("spot font at (1 m, 5 m)\nchairs 3 in 1 rows { curved 4 m around font }")[1])).toEqual([5, 5, 1.2]);
    expect(read("chairs 9 in 3 rows { curved }").problems.map((p) => p.code)).toEqual(["incomplete"]);
  });

  it("set toward a side, or looking at something while they stand as they do", () => {
    const side = seats("chairs 6 in 2 rows { first 3 m, pitch 1 m, spacing 0.6 m, faces left }");
    // Who faces the left wall has the back at the left hand.
    expect(at(side[0])).toEqual([7.6, 3, 1.2]);
    expect(at(side[3])).toEqual([7.6, 4, 1.2]);
    expect(side[0]?.faces.y).toBe(-1);
    const back = seats("chairs 6 in 2 rows { first 3 m, spacing 0.6 m, faces back }");
    // Who faces the back has the left wall at the right hand.
    expect(at(back[0])).toEqual([11, 5.6, 1.2]);
    const look = seats("spot font at (2 m, 5 m)\nchairs 2 in 1 rows { first 5 m, spacing 4 m, faces font }");
    expect([look[0]?.faces.x, look[0]?.faces.y].map((n) => Number(n?.toFixed(6)))).toEqual([-0.83205, 0.5547]);
  });

  it("turned: to the right of those who sit there", () => {
    const all = seats("chairs 6 in 2 rows at (7 m, 5 m), pitch 1 m, spacing 0.6 m, turned 90 deg right".replace(", pitch", " { first 5 m, pitch").concat(" }"));
    expect(all[0]?.faces.x).toBeCloseTo(0, 9);
    expect(all[0]?.faces.y).toBeCloseTo(1, 9);
    expect(at(all[1])).toEqual([5, 5, 1.2]);
    expect(at(all[4])).toEqual([5, 4, 1.2]);
  });

  it("beside each other: two blocks by where their middles are", () => {
    const all = seats("chairs west 8 in 2 rows at (6 m, 2.5 m)\nchairs east 8 in 2 rows at (6 m, 7.5 m)");
    const middle = (name: string): number => all.filter((seat) => seat.name.startsWith(name)).reduce((sum, seat) => sum + seat.at.y / 8, 0);
    expect([middle("west"), middle("east")].map((n) => Number(n.toFixed(6)))).toEqual([2.5, 7.5]);
    const [left] = seats("chairs side 8 in 2 rows at left");
    expect(left?.at.y).toBeLessThan(1);
  });
});

describe("single seats and who sits there", () => {
  it("a seat has a name of its own and is a place", () => {
    const setup = readText("room hall 14 m by 10 m { chairs 12 in 2 rows\nseat chair-person at (2 m, 5 m), faces back }\ntalker Ines at chair-person\nplace eye is webcam, before row 1\n".replace("2 rows\n", "2 rows\n  "));
    expect(said(setup)).toEqual([]);
    const [, single] = roomShape(setup.floor, new Trial()).seats;
    expect(single?.seats).toHaveLength(1);
    expect(single?.seats[0]).toMatchObject({ name: "chair-person", faces: { x: 1, y: 0 }, at: { x: 2, y: 5 } });
    expect(setup.floor.group("audience")?.count).toBe(12);
  });

  it("wheelchairs and those who are not to be in any picture", () => {
    const all = seats("chairs 12 in 3 rows { wheelchair in row 1 from seat 1 to 2, off-camera in row 3, off-camera in row 2 from seat 4 }\nseat late at (12 m, 2 m), off-camera");
    expect(all.filter((seat) => seat.wheelchair).map((seat) => seat.name)).toEqual(["audience.row-1.seat-1", "audience.row-1.seat-2"]);
    expect(all.filter((seat) => seat.offCamera).map((seat) => seat.name)).toEqual(["audience.row-2.seat-4", ...[1, 2, 3, 4].map((n) => `audience.row-3.seat-${n}`), "late"]);
    expect(read("chairs 12 in 3 rows { off-camera in row 4 }").problems.map((p) => p.message)).toEqual(["There is no row 4: audience has rows 1 to 3."]);
    expect(read("chairs 12 in 3 rows { wheelchair in row 1 from seat 3 to 5 }").problems.map((p) => p.message)).toEqual([expect.stringContaining("There is no seat 5 there")]);
  });

  it("heights that are stated hold, with the floor under them", () => {
    const [seat] = seats("chairs 12 in 3 rows { eyes 1.0 m, head 1.1 m, mouth 0.95 m }\nstage at (3 m, 5 m), size 1 m by 9 m, height 0.5 m".replace("3 rows {", "3 rows { first 3 m,"));
    expect([seat?.at.z, seat?.mouth.z, seat?.top, seat?.floor].map((n) => Number(n?.toFixed(6)))).toEqual([1.5, 1.45, 1.6, 0.5]);
    const [usual] = seats("chairs 12 in 3 rows");
    expect([usual?.at.z, usual?.mouth.z, usual?.top].map((n) => Number(n?.toFixed(6)))).toEqual([1.2, 1.15, 1.32]);
  });
});

describe("for any hall", () => {
  const metre = (from: number, to: number): fc.Arbitrary<number> => fc.integer({ min: from * 10, max: to * 10 }).map((n) => n / 10);
  const hall = fc.record({
    length: metre(5, 25), width: metre(4, 20), cut: metre(0, 3), count: fc.integer({ min: 1, max: 120 }), rows: fc.integer({ min: 1, max: 12 }), first: metre(0, 12), pitch: metre(0.6, 1.6),
    spacing: metre(0.4, 1.2), x: metre(0, 20), y: metre(0, 20), turn: fc.integer({ min: 0, max: 180 }), way: fc.constantFrom("left", "right"), how: fc.constantFrom("", "curved 5 m", "staggered", "aisle 1.2 m after 2", "faces left", "faces right", "faces back"),
  });
  type Hall = typeof hall extends fc.Arbitrary<infer T> ? T : never;
  const text = (h: Hall, mirrored: boolean): string => {
    const y = (n: number): string => `${Number((mirrored ? h.width - n : n).toFixed(6))} m`;
    const swap = (word: string): string => (mirrored ? ({ left: "right", right: "left" }[word] ?? word) : word);
    const count = h.rows * Math.max(3, Math.ceil(h.count / h.rows));
    const inRow = count / h.rows;
    const how = h.how.startsWith("aisle") && mirrored ? `aisle 1.2 m after ${inRow - 2}` : h.how.startsWith("faces") ? `faces ${swap(h.how.slice(6))}` : h.how === "staggered" ? "" : h.how;
    return `room hall {\n  corners (0 m, ${y(0)}) (${h.length} m, ${y(0)}) (${h.length} m, ${y(h.width - h.cut)}) (${h.length / 2} m, ${y(h.width)}) (0 m, ${y(h.width)})\n`
      + `  chairs ${count} in ${h.rows} rows at (${h.x} m, ${y(Math.min(h.y, h.width))}) {\n    pitch ${h.pitch} m\n    spacing ${h.spacing} m\n    turned ${h.turn} deg ${swap(h.way)}\n${how === "" ? "" : `    ${how}\n`}  }\n`
      + `  stage at (2 m, ${y(2)}), size 2 m by 2 m\n  column at (3 m, ${y(1)})\n  door at (${h.length / 2} m, ${y(0)})\n}\n`;
  };

  it("mirroring it mirrors everything", () => {
    fc.assert(fc.property(hall, (h) => {
      const [one, other] = [false, true].map((mirrored) => roomShape(readText(text(h, mirrored)).floor, new Trial()));
      if (one === undefined || other === undefined) throw new Error("no shape");
      const flip = (p: { x: number; y: number }): string => `${p.x.toFixed(4)} ${(h.width - p.y).toFixed(4).replace("-0.0000", "0.0000")}`;
      const plain = (p: { x: number; y: number }): string => `${p.x.toFixed(4)} ${p.y.toFixed(4).replace("-0.0000", "0.0000")}`;
      const raw = (mirrored: boolean, how: typeof flip): string[] => {
        const setup = readText(text(h, mirrored));
        const [group] = setup.room.seats;
        return group === undefined ? [] : spotsOf(setup.floor, group, new Trial(), true).map((spot) => how(spot.at)).sort();
      };
      expect(raw(true, flip)).toEqual(raw(false, plain));
      expect(other.columns.map((c) => flip(c.at))).toEqual(one.columns.map((c) => plain(c.at)));
      expect(other.doors.map((d) => flip(d.at))).toEqual(one.doors.map((d) => plain(d.at)));
      expect(other.stages.flatMap((s) => s.outlines.flat().map(flip)).sort()).toEqual(one.stages.flatMap((s) => s.outlines.flat().map(plain)).sort());
    }), { numRuns: 60, seed: 20261125 });
  });

  it("no seat is moved inside without a word", () => {
    let moved = 0;
    fc.assert(fc.property(hall, (h) => {
      const setup = readText(text(h, false));
      const trial = new Trial();
      const { outline, seats: [group] } = roomShape(setup.floor, trial);
      for (const seat of group?.seats ?? []) expect(farOutside(outline, seat.at)).toBeLessThan(0.01);
      const [stated] = setup.room.seats;
      const out = stated !== undefined && spotsOf(setup.floor, stated, trial, false).some((spot) => farOutside(outline, spot.at) > 0.01);
      if (out) moved += 1;
      expect(setup.problems.some((p) => p.code === "outside-room" && p.message.includes("audience"))).toBe(out);
    }), { numRuns: 60, seed: 20261125 });
    expect(moved).toBeGreaterThan(8);
  });

  it("rows too wide for the room, and chairs on steps 5,000 strong, are read", () => {
    expect(read("chairs 60 in 2 rows").problems.map((p) => p.message)).toEqual([expect.stringMatching(/seats of audience, the first in row 1, would stand outside hall/)]);
    const big = readText("room arena 150 m by 120 m by 20 m { chairs 5000 in 50 rows { first 10 m, riser 0.2 m, curved 60 m, aisle 1.5 m } }\n");
    expect(said(big)).toEqual([]);
    expect(roomShape(big.floor, new Trial()).seats[0]?.seats).toHaveLength(5000);
  });
});
