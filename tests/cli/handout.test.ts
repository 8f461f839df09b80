/** `bothways handout`, from outside. */
import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { bothways, build, folder, isPlainRefusal, project } from "./built";

beforeAll(build);
const FIVE = readFileSync(path.join(project, "samples/october.bothways"), "utf8");

describe("handout", () => {
  it("goes to standard output, or to the file that is asked for", () => {
    const cwd = folder({ "a.bothways": FIVE });
    const plain = bothways(cwd, "handout", "a.bothways");
    expect(plain.status).toBe(0);
    expect(plain.out).toMatch(/^<!DOCTYPE html>/u);
    const filed = bothways(cwd, "handout", "a.bothways", "--out", "a.html");
    expect([filed.status, filed.out, filed.err]).toEqual([0, "Hand-out: a.html\n", ""]);
    expect(readFileSync(path.join(cwd, "a.html"), "utf8")).toBe(plain.out);
  });
  it.each([
    [["handout", "a.bothways", "--out", "a.bothways"], /replace a setup/u],
    [["handout", "a.bothways", "--out", "room.bothways"], /replace a setup/u],
    [["handout", "room.bothways"], /holds no setup/u],
    [["handout", "none.bothways"], /no such file/u],
    [["handout", "a.bothways", "--item", "talk"], /item/u],
  ])("%j ends with 2 and one line, and touches nothing", (args, message) => {
    const cwd = folder({ "a.bothways": FIVE, "room.bothways": "room hall 9 m by 6 m\n" });
    const ran = bothways(cwd, ...args);
    expect(ran.err).toMatch(message);
    expect(isPlainRefusal(ran)).toBe(true);
    expect(readFileSync(path.join(cwd, "a.bothways"), "utf8")).toBe(FIVE);
    expect(existsSync(path.join(cwd, "a.html"))).toBe(false);
  });
  it("makes a sheet of a text with mistakes, and says so", () => {
    const ran = bothways(folder({ "a.bothways": `${FIVE}plase nothing\n` }), "handout", "a.bothways");
    expect(ran.status).toBe(0);
    expect(ran.err).toMatch(/1 mistake in the text/u);
    expect(ran.out).toContain("The text has a mistake");
  });
});
