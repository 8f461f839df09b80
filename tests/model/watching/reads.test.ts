/** What is read of a setup is noted, however it was kept; nothing keeps in secret what it read. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readSetup } from "../../../server/model/setup";
import { Shelf, Trial } from "../../../server/model/trial";
import { once, onceFor, oncePair } from "../../../server/model/watching/once";
import { EVERYTHING, gathering, Ledger, noteCell, NOTHING } from "../../../server/model/watching/reads";
import { watched } from "../../../server/model/watching/watched";
import { inMemory } from "../../language/folder";

const TEXT = `bothways 1
setup "Bees"
room barn 9 m by 6 m by 3 m { chairs 12 in 3 rows }
place desk is laptop, at operator
place lamp-camera is webcam, at back, height 2 m, aim lectern
cable from lamp-camera.usb to desk.usb-1, length 5 m
join desk { sends picture from lamp-camera }
`;
const setup = readSetup(inMemory(new Map([["bees.bothways", TEXT]])), "bees.bothways");
const read = <T>(run: (of: typeof setup) => T): readonly string[] => {
  const ledger = new Ledger();
  const of = watched(setup, ledger);
  return ledger.cellsOf(gathering(ledger, () => run(of)).read).map((key) => key.replace("\n", ": "));
};

describe("sets of cells", () => {
  const ledger = new Ledger();
  const cells = Array.from({ length: 70 }, (_, i) => ledger.cell(`cell ${i}`));

  test("of equal cells are one, whichever order they were read in", () => {
    const all = ledger.union(cells, []);
    expect(ledger.union([...cells].reverse(), [])).toBe(all);
    expect(ledger.union([3], [ledger.union([66, 3], [])])).toBe(ledger.union([66], [ledger.union([3], [])]));
    expect(ledger.union([], [])).toBe(NOTHING);
    expect(ledger.cellsOf(ledger.union([66, 3], []))).toEqual(["cell 3", "cell 66"]);
  });

  test("meet where they share a cell; one of which nothing is known meets all", () => {
    expect(ledger.meet(ledger.union([1, 69], []), ledger.union([2, 69], []))).toBe(true);
    expect(ledger.meet(ledger.union([1, 68], []), ledger.union([2, 69], []))).toBe(false);
    expect(ledger.meet(NOTHING, ledger.union(cells, []))).toBe(false);
    expect(ledger.meet(EVERYTHING, NOTHING)).toBe(true);
    expect(ledger.union([1], [EVERYTHING])).toBe(EVERYTHING);
  });
});

describe("what is read", () => {
  test("is noted fact by fact, and things by name", () => {
    expect(read((of) => of.devices.get("lamp-camera")?.aim)).toEqual(["devices:  lamp-camera", "devices/lamp-camera: aim"]);
    expect(read((of) => [...of.devices.values()].map((device) => device.name))).toEqual(["devices:  all"]);
    expect(read((of) => of.links.map((link) => link.from))).toEqual(["links:  all", "links/lamp-camera.usb desk.usb-1: from"]);
    expect(read((of) => of.devices.get("nobody"))).toEqual(["devices:  nobody"]);
    expect(read((of) => of.shallShow("talk"))).toEqual([": call"]);
  });

  test("through the floor is noted as what the place was reckoned from", () => {
    const cells = read((of) => of.voices.get("audience")?.position.at(new Trial()));
    expect(cells).toContain("voices/audience: placing");
    expect(cells).toContain("room: seats");
    expect(cells.filter((cell) => cell.startsWith("devices/"))).toEqual([]);
  });

  test("is as the setup has it, and a copy of the setup has all of it", () => {
    const of = watched(setup, new Ledger());
    expect([...of.devices.keys()]).toEqual([...setup.devices.keys()]);
    expect(of.devices.get("desk")?.parts).toBe(setup.devices.get("desk")?.parts);
    expect(Object.keys({ ...of }).sort()).toEqual(Object.keys({ ...setup }).sort());
    expect(Object.keys({ ...of.devices.get("desk") }).sort()).toEqual(Object.keys({ ...setup.devices.get("desk") }).sort());
  });

  test("counts for whoever asks for what was kept, in a trial and out of one", () => {
    const ledger = new Ledger();
    const cell = ledger.cell("one");
    const owner = {};
    const kept = [
      (() => { const of = once(() => { noteCell(cell); return 1; }); return () => of(owner); })(),
      (() => { const of = onceFor((key: string) => key, () => { noteCell(cell); return 1; }); return () => of(owner, "key"); })(),
      (() => { const of = oncePair(() => { noteCell(cell); return 1; }); const other = {}; return () => of(owner, other); })(),
      (() => { const shelf = new Shelf(); return () => new Trial(new Map(), shelf).keep("key", () => { noteCell(cell); return 1; }); })(),
    ];
    for (const ask of kept) {
      const first = gathering(ledger, ask).read;
      expect(ledger.cellsOf(first)).toEqual(["one"]);
      expect(gathering(ledger, ask).read).toBe(first);
    }
  });

  test("is everything where it was kept while nobody took note", () => {
    const ledger = new Ledger();
    const of = once(() => 1);
    const owner = {};
    of(owner);
    expect(gathering(ledger, () => of(owner)).read).toBe(EVERYTHING);
  });
});

test("below the study nothing keeps a result of its own, but where it is noted what was read", () => {
  const sources = ["signal", "checks", "model", "missing", "figures"].flatMap((room) => readdirSync(`server/${room}`, { recursive: true, encoding: "utf8" }).map((file) => `server/${room}/${file}`)).filter((file) => file.endsWith(".ts"));
  expect(sources.length).toBeGreaterThan(200);
  expect(sources.filter((file) => /new WeakMap/.test(readFileSync(file, "utf8"))).sort()).toEqual(["server/model/trial.ts", "server/model/watching/once.ts"]);
});
