import { describe, expect, it } from "vitest";
import { HEIGHTS } from "../../server/model/position";
import { readSetup } from "../../server/model/setup";
import { Trial } from "../../server/model/trial";
import { bothwaysFiles, inMemory, readText, said } from "../language/folder";

const lines = (count: number, line: (i: number) => string): string => Array.from({ length: count }, (_, i) => line(i)).join("\n");
describe("large texts are read in time that grows with their length", () => {
  // What is read in squares does not come to an end within the time that any test has.
  it("a thousand devices that join", () => {
    const text = `${lines(1000, (i) => `place laptop-${i} is laptop, at lectern`)}\n${lines(1000, (i) => `join laptop-${i} { sends no sound, plays no sound }`)}`;
    const setup = readText(text);
    expect(setup.problems.map((p) => p.code)).toEqual(["too-many"]);
    expect(setup.devices.size).toBe(1000);
    expect(setup.joins.length).toBeGreaterThan(20);
  });

  it("a thousand names that are nearly right", () => {
    const text = `${lines(1000, (i) => `place laptop-${i} is laptop, at lectern`)}\n${lines(1000, (i) => `cable from laptop-${i}.hmdi to laptop-${i}.usb-1`)}`;
    const setup = readText(text);
    expect(setup.problems).toHaveLength(1000);
    expect(setup.problems[7]?.message).toBe("Nothing here is called “laptop-7.hmdi”. Was “laptop-7.hdmi” meant?");
  });

  it("five thousand chairs, five hundred talkers, a thousand microphones", () => {
    const setup = readText("room hall 90 m by 40 m, chairs 5000 in 100 rows\ntable ring at middle\ntalkers 500 around ring\ndevices mic 1 to 1000 is lapel-microphone\nplace each mic at lectern");
    expect(said(setup)).toEqual([]);
    expect(setup.floor.seats(setup.room.seats[0] ?? (() => { throw new Error("none"); })(), new Trial())).toHaveLength(5000);
    expect(setup.voices.size).toBe(501);
  });

  it("ten thousand statements that no table knows have a message each", () => {
    const setup = readText(lines(10_000, (i) => `thing-${i} is nothing`));
    expect(setup.problems).toHaveLength(10_000);
  });

  it("a name of a hundred thousand letters, twice and not quite alike", () => {
    const setup = readText(`spot ${"x".repeat(100_000)} at front\ntalker Ines at ${"x".repeat(99_999)}`);
    expect(setup.problems).toHaveLength(1);
    expect(setup.problems[0]?.message.length).toBeLessThan(200);
  });
});

describe("one line broken costs that line", () => {
  const files = new Map([...bothwaysFiles("samples"), ...bothwaysFiles("tests/language")]);

  /** Damages one line, reads the whole, and tells which statements of other lines are no longer as they were. */
  it.each([...files.keys()].filter((file) => /^setup "/m.test(files.get(file) ?? "")))("%s: a wrong head in any line that opens no block has one message, and the lines around it still stand", (file) => {
    const text = files.get(file) ?? "";
    const all = text.split("\n");
    let tried = 0;
    for (const [index, line] of all.entries()) {
      if (!/^\s*[a-z-]+ [^{}]*$/.test(line) || /^\s*(setup|bothways)\b/.test(line)) continue;
      tried += 1;
      const damaged = [...all.slice(0, index), line.replace(/[a-z-]+/, "qqqqqqqqq"), ...all.slice(index + 1)].join("\n");
      const setup = readSetup(inMemory(new Map([...files, [file, damaged]])), file);
      const own = setup.problems.filter((p) => p.where.path === file && damaged.slice(p.where.start, p.where.end) === "qqqqqqqqq");
      expect(own, line).toHaveLength(1);
      const whole = readSetup(inMemory(files), file);
      const kept = (s: typeof setup): number => s.files[0]?.statements.reduce((sum, one) => sum + 1 + one.children.length, 0) ?? 0;
      // The line itself may state several facts behind commas.
      expect(kept(whole) - kept(setup), line).toBeLessThanOrEqual(line.split(",").length);
    }
    expect(tried).toBeGreaterThan(2);
  });
});

describe("a setup with nothing in it", () => {
  it.each(["", "\n\n", "# only a comment", "setup", 'setup "x"', "room", "\ufeff", "{", "}", "join", "\0\0\0"])("%j has places, voices and a room all the same", (text) => {
    const setup = readText(text);
    const trial = new Trial();
    for (const place of ["lectern", "operator", "audience", "front", "middle"]) {
      const point = setup.floor.position("x", undefined, place, HEIGHTS.lens).at(trial);
      for (const figure of Object.values(point)) expect(figure).toSatisfy(Number.isFinite);
    }
    expect(trial.value(setup.room.length)).toBeGreaterThan(0);
    expect(setup.title).not.toBe("");
  });
});
