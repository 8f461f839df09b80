/** What the extension says of verdicts, and how it reads the answers of somebody who starts. */
import { describe, expect, it } from "vitest";
import { askedOf, peopleOf } from "../../client/questions";
import { Restarts } from "../../client/restarts";
import { inShort, inWords, SIGNS, sixOf, spoken, statusOf } from "../../client/verdict-words";
import { MARKS } from "../../server/features/lenses";
import { VERDICT_WORDS, WAY_TITLES, WAYS, type Verdict, type WayName } from "../../server/model/ways";
import type { ShownVerdict, VerdictsOf } from "../../server/protocol/messages";

const shown = (way: WayName, verdict: Verdict, more: Partial<ShownVerdict> = {}): ShownVerdict => ({
  way, title: WAY_TITLES[way], verdict, word: VERDICT_WORDS[verdict], weakest: "", hangsOn: [], ...more,
});
const all = (verdict: Verdict): ShownVerdict[] => WAYS.map((way) => shown(way, verdict));
const told = (ways: readonly ShownVerdict[], more: Partial<VerdictsOf> = {}): VerdictsOf => ({
  uri: "file:///a.bothways", setup: { uri: "file:///a.bothways", title: "October" }, ways, items: [], errors: 1, warnings: 0, hints: 0, questions: 2, setups: [], ...more,
});

describe("six verdicts", () => {
  it("have the signs of the lenses in the text", () => expect(SIGNS).toEqual(MARKS));

  it("are six in the order in which they are always shown, whatever order they come in", () => {
    expect(sixOf(all("works").reverse()).map((one) => one.way)).toEqual(WAYS);
  });

  it("are those of the item meant, else the worst of all items", () => {
    const ways = [shown("call", "works", { item: "talk" }), shown("call", "fails", { item: "song" }), shown("call", "cannot-tell", { item: "end" }), shown("internet", "doubtful")];
    expect(sixOf(ways, "talk").map((one) => one.verdict)).toEqual(["works", "doubtful"]);
    expect(sixOf(ways).map((one) => one.verdict)).toEqual(["fails", "doubtful"]);
  });

  it("stand as six signs, and as sentences for who listens", () => {
    const six = sixOf([...all("works").slice(0, 5), shown("internet", "cannot-tell", { weakest: "the uplink is not known", hangsOn: ["uplink"] })]);
    expect(inShort(six)).toBe("✓✓✓✓✓?");
    expect(inWords(six)).toMatch(/^The room hears the people online: works\. .*The internet: cannot tell\.$/u);
    const status = statusOf(told(six));
    expect(status.text).toBe("✓✓✓✓✓?");
    expect(status.lines[5]).toEqual({ sign: "?", words: "The internet: cannot tell", reason: "the uplink is not known; hangs on uplink" });
    expect(status.label).toContain("six verdicts of October");
    expect(status.label).toContain("1 error, 0 warnings, 2 questions");
    expect(status.label).not.toMatch(/[✓~✗]/u);
  });

  it("claim nothing where no setup is judged", () => {
    const bare: VerdictsOf = { uri: "file:///hall.bothways", ways: [], items: [], errors: 0, warnings: 0, hints: 0, questions: 0, setups: [] };
    expect(statusOf(bare)).toMatchObject({ text: "no setup uses this file", lines: [] });
  });

  it("are spoken whole at first, then only where they change", () => {
    const before = all("works");
    const after = before.map((one) => (one.way === "call" ? shown("call", "fails") : one));
    expect(spoken(undefined, before, "Signal flow of October")).toMatch(/^Signal flow of October\. The room hears/u);
    expect(spoken(before, before, "x")).toBe("");
    expect(spoken(before, after, "x")).toBe("The call: now fails.");
  });
});

describe("answers of somebody who starts", () => {
  it.each([
    ["24 in the room, 8 online", { seats: 24, online: 8 }],
    ["24 and 8", { seats: 24, online: 8 }],
    ["8 online, 24 here", { seats: 24, online: 8 }],
    ["30", { seats: 30 }],
    ["12 people online", { online: 12 }],
    ["", {}],
    ["  ", {}],
  ])("%j", (words, people) => expect(peopleOf(words)).toEqual(people));

  it.each(["some", "1, 2 or 3", "2.5 and 8"])("%j is asked again", (words) => expect(peopleOf(words)).toHaveProperty("problem"));

  it("leave out what is empty", () => {
    expect(askedOf({ talkers: " ", people: "20, 5", size: "9 m by 6 m", own: "", audience: false })).toEqual({ audience: false, seats: 20, online: 5, size: "9 m by 6 m" });
    expect(askedOf({})).toEqual({});
  });
});

describe("a server that dies", () => {
  it("is started again a few times in a few minutes, then no more, until somebody says so", () => {
    const restarts = new Restarts(2, 1000);
    expect([restarts.again(0), restarts.again(10), restarts.again(20)]).toEqual([true, true, false]);
    expect(restarts.again(1500)).toBe(true);
    expect(new Restarts(1, 1000).again(0)).toBe(true);
    restarts.again(1501);
    expect(restarts.again(1502)).toBe(false);
    restarts.forget();
    expect(restarts.again(1503)).toBe(true);
  });
});
