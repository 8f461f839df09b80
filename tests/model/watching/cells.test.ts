/** Which parts of a setup an edit changes, and which only stand elsewhere. */
import { describe, expect, test } from "vitest";
import { readSetup } from "../../../server/model/setup";
import { Cells } from "../../../server/model/watching/cells";
import { Ledger } from "../../../server/model/watching/reads";
import { sameMeaning } from "../../../server/model/watching/same";
import { watched } from "../../../server/model/watching/watched";
import { inMemory } from "../../language/folder";

const TEXT = `bothways 1
setup "Bees"
meeting { date 2026-05-04, start 19:00, end 21:00 }
room barn 9 m by 6 m by 3 m { noise 35 dBA, chairs 12 in 3 rows }
programme {
  item talk from 19:00
  item questions from 20:00
}
talker Ada at lectern
place desk is laptop, at operator
place lamp-camera is webcam, at back, height 2 m, aim lectern
cable from lamp-camera.usb to desk.usb-1, length 5 m
internet venue { up 20 Mb/s measured 2026-05-01 19:00 }
join desk { sends picture from lamp-camera }
`;
const setupOf = (text: string): ReturnType<typeof readSetup> => readSetup(inMemory(new Map([["bees.bothways", text]])), "bees.bothways");

/** The cells that differ, of those that either version has. */
function changed(after: string): readonly string[] {
  const ledger = new Ledger();
  const [a, b] = [setupOf(TEXT), setupOf(after)];
  watched(a, ledger);
  watched(b, ledger);
  return new Cells(a).changed(new Cells(b), ledger.keys).map((i) => (ledger.keys[i] ?? "").replace("\n", ": "));
}

describe("an edit changes", () => {
  test("nothing but the text itself where comments and blanks are put in", () => {
    expect(changed(`# of bees\n${TEXT.replace("talker", "\n\ntalker").replace("5 m", "5 m   # coiled")}`)).toEqual([": files"]);
  });

  test.each<[string, string, string, readonly string[]]>([
    ["height 2 m", "height 2.4 m", "a height", ["devices/lamp-camera: height", "devices/lamp-camera: placed"]],
    ["length 5 m", "length 3 m", "a length", ["links/lamp-camera.usb desk.usb-1: length", "links/lamp-camera.usb desk.usb-1: statement"]],
    ["up 20 Mb/s", "up 21 Mb/s", "an uplink", ["internets/venue: up"]],
    ["noise 35", "noise 40", "a noise", ["room: noise"]],
    ["questions from 20:00", "questions from 20:10", "a time", ["items/talk: to", "items/questions: from"]],
  ])("%s to %s: %s", (from, to, _what, cells) => {
    expect(changed(TEXT.replace(from, to)).filter((cell) => cell !== ": files").sort()).toEqual([...cells].sort());
  });

  test("the name of the room, and whether it is stated at all", () => {
    expect(changed(TEXT.replace("room barn", "room shed"))).toContain("room: name");
    expect(changed(TEXT.replace(/room barn.*\n/, ""))).toEqual(expect.arrayContaining(["room: name", "room: where"]));
    expect(changed(`# of bees\n${TEXT}`)).not.toContain("room: where");
  });

  test("which things there are where one is put in", () => {
    const cells = changed(TEXT.replace("talker Ada", "place hive is webcam, at front\ntalker Ada"));
    expect(cells).toEqual(expect.arrayContaining(["devices:  all", "devices:  hive", ": names"]));
    expect(cells).not.toContain("devices:  desk");
    expect(cells.filter((cell) => cell.startsWith("devices/desk"))).toEqual([]);
  });
});

describe("parts mean the same", () => {
  test("wherever they stand", () => {
    expect(sameMeaning({ best: 2, from: { how: "stated", where: { path: "a", start: 1, end: 2 } } }, { best: 2, from: { how: "stated", where: { path: "a", start: 5, end: 6 } } })).toBe(true);
    expect(sameMeaning({ text: "desk", start: 1, end: 5 }, { text: "desk", start: 3, end: 7 })).toBe(true);
    expect(sameMeaning({ a: undefined, b: NaN }, { b: NaN })).toBe(true);
    expect(sameMeaning(new Map([["a", [1, new Set(["b"])]]]), new Map([["a", [1, new Set(["b"])]]]))).toBe(true);
  });

  test("only if all else does", () => {
    for (const [a, b] of [[{ best: 2 }, { best: 3 }], [{ a: 1 }, { a: 1, b: 2 }], [[1, 2], [2, 1]], [[1], { 0: 1 }], [new Map([["a", 1]]), new Map([["a", 2]])], [{ start: 3 }, { start: 4 }], [{}, undefined], [0, -0]]) {
      expect(sameMeaning(a, b), JSON.stringify([a, b])).toBe(false);
    }
    const f = (): number => 1;
    expect(sameMeaning({ f }, { f })).toBe(true);
    expect(sameMeaning({ f }, { f: (): number => 1 })).toBe(false);
  });
});
