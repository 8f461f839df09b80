import { describe, expect, it } from "vitest";
import { resolve } from "../../server/model/files";
import { readSetup, type Setup } from "../../server/model/setup";
import { inMemory, said } from "../language/folder";

const read = (files: Readonly<Record<string, string>>, root = "evening.bothways"): Setup => readSetup(inMemory(new Map(Object.entries(files))), root);
const paths = (setup: Setup): string[] => setup.files.map((file) => file.path);

describe("use takes in what a file states, and what that uses", () => {
  it("from the folder of the file that says so", () => {
    const setup = read({
      "evenings/october.bothways": 'setup "October"\nuse "../rooms/hall.bothways"\nplace box at stage',
      "rooms/hall.bothways": 'use "parts/stage.bothways"\nuse "../kit.bothways"\nroom hall 9 m by 6 m',
      "rooms/parts/stage.bothways": "spot stage at front",
      "kit.bothways": "device box is battery-loudspeaker",
    }, "evenings/october.bothways");
    expect(said(setup)).toEqual([]);
    expect(paths(setup)).toEqual(["evenings/october.bothways", "rooms/hall.bothways", "rooms/parts/stage.bothways", "kit.bothways"]);
    expect(setup.room.length.best).toBe(9);
  });

  it("a file that two use is taken in once", () => {
    const setup = read({
      "evening.bothways": 'use "a.bothways"\nuse "b.bothways"\nuse "./a.bothways"', "a.bothways": 'use "kit.bothways"', "b.bothways": 'use "kit.bothways"', "kit.bothways": "device box is webcam",
    });
    expect(said(setup)).toEqual([]);
    expect(paths(setup)).toEqual(["evening.bothways", "a.bothways", "kit.bothways", "b.bothways"]);
  });

  it("the order of lines does not matter", () => {
    const setup = read({ "evening.bothways": 'place box at front\nuse "kit.bothways"', "kit.bothways": "device box is webcam" });
    expect(said(setup)).toEqual([]);
  });

  it("prefixes add up", () => {
    const setup = read({ "evening.bothways": 'use "a.bothways" as x\nplace x.y.box at front', "a.bothways": 'use "kit.bothways" as y', "kit.bothways": "device box is webcam" });
    expect(said(setup)).toEqual([]);
    expect([...setup.devices.keys()]).toEqual(["x.y.box"]);
  });

  it("only the file itself makes it a setup and gives its title", () => {
    const setup = read({ "evening.bothways": 'use "other.bothways"', "other.bothways": 'setup "Other"' });
    expect(setup).toMatchObject({ isSetup: false, title: "evening.bothways" });
  });
});

describe("what cannot be taken in has one message, at the line that asks for it", () => {
  it("files that use each other in a circle", () => {
    const setup = read({ "evening.bothways": 'use "a.bothways"', "a.bothways": 'use "b.bothways"', "b.bothways": 'use "a.bothways"' });
    expect(said(setup)).toEqual([
      "use-cycle at “use \"a.bothways\"”: “a.bothways” is already being taken in: these files use each other in a circle. Take this “use” out of one of them.",
    ]);
    expect(setup.problems[0]?.where.path).toBe("b.bothways");
    expect(said(read({ "evening.bothways": 'use "evening.bothways"' }))).toHaveLength(1);
  });

  it("a file that is not there", () => {
    expect(said(read({ "evening.bothways": 'use "gone.bothways"' }))).toEqual(["cannot-read at “use \"gone.bothways\"”: “gone.bothways” cannot be read: there is no such file."]);
    expect(said(read({}))).toEqual(["cannot-read at “”: “evening.bothways” cannot be read: there is no such file."]);
  });

  it("one file under two names", () => {
    const files = { "evening.bothways": 'use "kit.bothways"\nuse "kit.bothways" as ours', "kit.bothways": "device box is webcam" };
    expect(said(read(files))).toEqual([
      "use-twice at “use \"kit.bothways\" as ours”: “kit.bothways” is taken in already under its own names; its names cannot be two. Take it in the same way everywhere.",
    ]);
  });

  it.each([
    "../kit.bothways", "../../etc/passwd", "a/../../kit.bothways", "/kit.bothways", "https://example.org/kit.bothways", "file:///kit.bothways", "C:/kit.bothways", "", "a/..",
  ])("“%s” leads out of the folder and is never read", (use) => {
    const asked: string[] = [];
    const setup = readSetup({
      read: (path) => {
        asked.push(path);
        return path === "evening.bothways" ? { text: `use "${use}"` } : { text: "" };
      },
    }, "evening.bothways");
    expect(asked).toEqual(["evening.bothways"]);
    expect(setup.problems.map((problem) => problem.code)).toEqual(["use-outside"]);
  });

  it("a backslash has a message of its own", () => {
    expect(said(read({ "evening.bothways": 'use "kit\\ours.bothways"' }))).toEqual([
      'use-outside at “use "kit\\ours.bothways"”: “kit\\ours.bothways”: folders are parted by /, so that it reads alike everywhere: use "rooms/hall.bothways".',
    ]);
  });

  it("more files than any setup has", () => {
    const files = new Map<string, string>();
    for (let i = 0; i < 300; i += 1) files.set(`f${i}.bothways`, `use "f${i + 1}.bothways"`);
    files.set("f300.bothways", "");
    const setup = readSetup(inMemory(files), "f0.bothways");
    expect(setup.files).toHaveLength(200);
    expect(setup.problems.map((problem) => problem.code)).toEqual(["too-many-files"]);
    const wide = new Map([...Array(300).keys()].map((i) => [`f${i}.bothways`, ""]));
    wide.set("all.bothways", [...Array(300).keys()].map((i) => `use "f${i}.bothways"`).join("\n"));
    expect(readSetup(inMemory(wide), "all.bothways").problems.map((problem) => problem.code)).toEqual(["too-many-files"]);
  });
});

describe("a path from the folder of its file", () => {
  it.each([
    ["a/b.bothways", "c.bothways", "a/c.bothways"], ["b.bothways", "./x/../c.bothways", "c.bothways"], ["a/b/c.bothways", "../d.bothways", "a/d.bothways"],
    ["a.bothways", "x//y.bothways", "x/y.bothways"],
  ])("from %s, %s is %s", (from, use, path) => {
    expect(resolve(from, use)).toBe(path);
  });

  it("never holds a step up, and nothing where it would lead out", () => {
    for (const use of ["..", "../..", "a/../..", "\0", "a\0b", "\\\\host\\share", "//host/share"]) expect(resolve("x.bothways", use)).toBeUndefined();
  });
});
