/** The association's evening with one line forgotten: what is wrong is named, and not what merely follows from it. */
import { describe, expect, test } from "vitest";
import { study, type Study } from "../../server/study";
import { bothwaysFiles, inMemory } from "../language/folder";

const FILES = bothwaysFiles("samples");
const PATH = "samples/association/autumn.bothways";
const whole = study(inMemory(FILES), PATH);

function without(start: string): Study {
  const lines = (FILES.get(PATH) ?? "").split("\n");
  const at = lines.findIndex((line) => line.trim().startsWith(start));
  if (at < 0) throw new Error(`no line begins with “${start}”`);
  return study(inMemory(new Map(FILES).set(PATH, lines.filter((_, i) => i !== at).join("\n"))), PATH);
}
/** Errors, and warnings that the whole evening does not have. */
const fresh = (it: Study): string[] => {
  const known = new Set(whole.findings.map((f) => f.identity));
  return it.findings.filter((f) => f.severity === "error" || (f.severity === "warning" && !known.has(f.identity))).map((f) => `${f.severity} ${f.code} ${f.subjects.join(" ")}`);
};
const verdict = (it: Study, way: string, item: string): string => it.ways.find((w) => w.way === way && (w.item === undefined || w.item === item))?.verdict ?? "none";

describe("one line forgotten", () => {
  test.each([
    ["cable from lapel.plug", ["error uncovered-direction laptop lapel"]],
    ["cable from laptop.hdmi", ["error uncovered-direction laptop projector"]],
    ["cable from stage-camera.usb", ["error uncovered-direction laptop stage-camera"]],
    ["radio from laptop.bluetooth", ["error uncovered-direction laptop box"]],
    ["mains from back-wall", ["error no-power projector"]],
    ["mains from left-wall", ["error no-power long-lead"]],
    ["mains from long-lead to laptop", []],
    ["sends no sound", ["error echo-path phone laptop"]],
    ["plays no sound", ["error hears-itself phone"]],
    ["place stage-camera", []],
    ["date", []],
    ["suppresses noise", []],
  ] as const)("%s: one finding, of its own cause", (line, expected) => {
    const it = without(line);
    expect(it.problems).toEqual([]);
    expect(fresh(it)).toEqual([...expected]);
  });

  test("who speaks is not known: nothing works for want of somebody to hear", () => {
    const it = without("talker Ines");
    expect(it.problems.map((p) => p.message)).toContain("Nothing here is called “Ines”. There is audience.");
    expect(verdict(it, "online-hears-room", "talk")).toBe("cannot-tell");
  });

  test("an outlet whose name is not known is a wrong name, not a dark projector", () => {
    const it = without('use "rooms/old-schoolroom');
    expect(it.problems.filter((p) => p.message.includes("back-wall"))).toHaveLength(1);
    expect(it.findings.map((f) => f.code)).not.toContain("no-power");
  });
});
