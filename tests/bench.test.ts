/** What `npm run bench` measures holds what it says it holds; how long it takes is for the bench, not for a test. */
import { describe, expect, it } from "vitest";
import { readSetup, type Setup } from "../server/model/setup";
import { inMemory, said } from "./language/folder";

interface Maker {
  readonly FEWEST_LINES: number;
  readonly makeSetup: (lines: number) => string;
  readonly makeFolder: (count: number) => Map<string, string>;
  readonly callOf: (of: { readonly joins: number; readonly items: number }) => string;
  readonly hallOf: (of: { readonly seats: number; readonly speakers: number; readonly mics: number }) => string;
}
// A script without types: it is not part of what is compiled.
const script = new URL("../.scripts/make-setup.mjs", import.meta.url).href;
const { FEWEST_LINES, makeSetup, makeFolder, callOf, hallOf } = (await import(script)) as Maker;

const { EDITS } = (await import(new URL("../.scripts/edits.mjs", import.meta.url).href)) as { readonly EDITS: Readonly<Record<string, (text: string, turn: number) => string | undefined>> };

const read = (lines: number): Setup => readSetup(inMemory(new Map([["evening.bothways", makeSetup(lines)]])), "evening.bothways");
const seats = (setup: Setup): number => setup.room.seats.reduce((sum, group) => sum + group.count, 0);

describe("the setup that is measured", () => {
  it.each([FEWEST_LINES, 300, 1000, 3000, 10_000])("of %i lines has that many, and no problem in its text", (lines) => {
    expect(makeSetup(lines).split("\n").length - 1).toBe(lines);
    expect(said(read(lines))).toEqual([]);
  });

  it("has at 1,000 lines 250 seats, 40 devices, 60 cables, one mixer, 8 items, 3 joins", () => {
    const setup = read(1000);
    const holds = {
      seats: seats(setup), devices: setup.devices.size, cables: setup.links.length,
      channels: [...setup.mixers.values()].map((mixer) => mixer.channels.length), items: setup.items.length, joins: setup.joins.length,
    };
    expect(holds).toEqual({ seats: 250, devices: 40, cables: 60, channels: [21], items: 8, joins: 3 });
  });

  it("grows with its lines: ten times the seats, microphones and loudspeakers at 10,000", () => {
    const many = read(10_000);
    expect(seats(many)).toBe(2500);
    // Ten devices and ten cables serve the hall as a whole: three computers, desk, recorder, switch, two pictures, two cameras.
    expect(many.devices.size).toBe(10 + 10 * 30);
    expect(many.links.length).toBe(10 + 10 * 50);
  });

  it("is the same on every run, and is refused where it has no room", () => {
    expect(makeSetup(1000)).toBe(makeSetup(1000));
    expect(() => makeSetup(FEWEST_LINES - 1)).toThrow("lines or more");
  });
});

describe("the edits that are measured", () => {
  it.each([["setup", makeSetup(100)], ["hall", hallOf({ seats: 24, speakers: 3, mics: 3 })], ["call", callOf({ joins: 6, items: 3 })]])("are another text in each turn, and no problem in any: %s", (name, text) => {
    let made = 0;
    for (const [what, edit] of Object.entries(EDITS)) {
      const [once, twice] = [edit(text, 1), edit(text, 2)];
      if (once === undefined || twice === undefined) continue;
      made += 1;
      expect(new Set([text, once, twice]).size, what).toBe(3);
      for (const changed of [once, twice]) expect(said(readSetup(inMemory(new Map([["x.bothways", changed]])), "x.bothways")), what).toEqual([]);
    }
    expect(made).toBe(name === "call" ? 4 : 6);
  });
});

describe("the hall that is measured", () => {
  const hall = (count: number, speakers: number, mics: number): Setup => readSetup(inMemory(new Map([["hall.bothways", hallOf({ seats: count, speakers, mics })]])), "hall.bothways");

  it.each([[50, 20, 20], [500, 20, 20], [5000, 20, 20], [24, 2, 3]])("of %i seats, %i loudspeakers and %i microphones holds them, and no problem in its text", (count, speakers, mics) => {
    const setup = hall(count, speakers, mics);
    expect(said(setup)).toEqual([]);
    const parts = (type: string): number => [...setup.devices.values()].filter((device) => device.name.includes("-") && device.parts.some((part) => part.type === type)).length;
    expect([seats(setup), parts("loudspeaker"), parts("microphone")]).toEqual([count, speakers, mics]);
  });

  it("has one mixer: a bus for each loudspeaker, a send to the call that leaves out its return", () => {
    const mixers = [...hall(500, 20, 20).mixers.values()];
    expect(mixers.map((mixer) => [mixer.channels.length, mixer.buses.length])).toEqual([[21, 21]]);
  });
});

describe("the folder that is measured", () => {
  const files = makeFolder(300);
  const setups = [...files.keys()].map((name) => readSetup(inMemory(files), name)).filter((setup) => setup.isSetup);

  it("holds 300 setups without a problem, no two of one text", () => {
    expect(setups.length).toBe(300);
    expect(setups.flatMap(said)).toEqual([]);
    expect(new Set(files.values()).size).toBe(302);
  });

  it("shares one room file and one kit file", () => {
    for (const setup of setups) expect(setup.files.map((file) => file.path).sort()).toEqual([setup.root, "kit.bothways", "room.bothways"].sort());
  });
});

describe("the call that is measured", () => {
  it.each([[5, 12], [40, 12]])("has %i joined devices over %i items, and no problem in its text", (joins, items) => {
    const setup = readSetup(inMemory(new Map([["call.bothways", callOf({ joins, items })]])), "call.bothways");
    expect(said(setup)).toEqual([]);
    expect([setup.joins.length, setup.items.length]).toEqual([joins, items]);
  });
});
