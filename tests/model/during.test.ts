import { describe, expect, it } from "vitest";
import { valueOf, valuesOf, type Bound } from "../../server/model/bound";
import { holding } from "../../server/model/during";
import { readText, said } from "../language/folder";

const EVENING = `item talk from 18:30
item questions from 19:40
item hymn from 20:00
talker Ines at lectern
place l is laptop
place eye is webcam
`;
/** What of one head holds in a join: negated or not, and the words. */
function inJoin(lines: string, head: string, item: string | undefined): string[] {
  const setup = readText(`${EVENING}join l {\n${lines}\n}`);
  expect(said(setup)).toEqual([]);
  return holding(setup.joins[0]?.statements ?? [], head, item).map(words);
}
const words = (bound: Bound): string => [
  bound.negated ? "no" : "", valueOf(bound, "what", "word")?.word ?? "", ...valuesOf(bound, "from", "name").map((n) => n.text), ...valuesOf(bound, "on", "name").map((n) => n.text),
  ...valuesOf(bound, "channel", "name").map((n) => n.text), valueOf(bound, "mode", "mode")?.height ?? "", valueOf(bound, "gain", "quantity")?.best ?? "",
].filter((word) => word !== "").join(" ");

describe("during replaces the fact of the same key, for its item", () => {
  const PICTURES = "sends sound\nsends picture at 360p15\nsends picture at 720p30 during questions\nsends no picture during hymn";

  it("and for no other", () => {
    expect(inJoin(PICTURES, "sends", undefined)).toEqual(["sound", "picture 360"]);
    expect(inJoin(PICTURES, "sends", "talk")).toEqual(["sound", "picture 360"]);
    expect(inJoin(PICTURES, "sends", "questions")).toEqual(["sound", "picture 720"]);
    expect(inJoin(PICTURES, "sends", "Questions")).toEqual(["sound", "picture 720"]);
    expect(inJoin(PICTURES, "sends", "hymn")).toEqual(["sound", "no picture"]);
  });

  it("whatever the order of the lines", () => {
    const turned = PICTURES.split("\n").reverse().join("\n");
    for (const item of [undefined, "talk", "questions", "hymn"]) expect(inJoin(turned, "sends", item).sort()).toEqual(inJoin(PICTURES, "sends", item).sort());
  });

  it("for several items at once", () => {
    const lines = "plays sound\nplays no sound during talk and hymn";
    expect(["talk", "questions", "hymn"].map((item) => inJoin(lines, "plays", item))).toEqual([["no sound"], ["sound"], ["no sound"]]);
  });

  it("the key of what is shown is the display, of what a mix holds the channel", () => {
    const lines = "shows slides on eye\nshows call on l.screen\nshows call on eye during questions";
    expect(inJoin(lines.replaceAll("eye", "l"), "shows", "questions")).toEqual(["call l.screen", "call l"]);
    const setup = readText(`${EVENING}place desk is mixer\nmixer desk {
      channel choir from desk.in-1
      channel online from desk.in-2
      bus far-end to desk.aux-1 {
        holds all
        holds no online
        holds choir at -20 dB
        holds choir at 0 dB during hymn
      }
    }`);
    expect(said(setup)).toEqual([]);
    const bus = setup.mixers.get("desk")?.buses[0]?.statements ?? [];
    expect(holding(bus, "holds", "talk").map(words)).toEqual(["all", "no online", "choir -20"]);
    expect(holding(bus, "holds", "hymn").map(words)).toEqual(["all", "no online", "choir 0"]);
  });

  it("a key of several names is the same in any order", () => {
    const setup = readText(`${EVENING}place desk is mixer\nmixer desk {
      channel a1 from desk.in-1
      channel a2 from desk.in-2
      bus out to desk.aux-1 {
        holds a1 and a2 at -3 dB
        holds a2 and a1 at -9 dB during hymn
        holds no a1 during talk
      }
    }`);
    const bus = setup.mixers.get("desk")?.buses[0]?.statements ?? [];
    expect(holding(bus, "holds", "hymn").map(words)).toEqual(["a2 a1 -9"]);
    // Not of the same key: the one for the item stands last, so that whoever reads in order has it as the last word on a1.
    expect(holding(bus, "holds", "talk").map(words)).toEqual(["a1 a2 -3", "no a1"]);
  });

  it("a statement without a key is replaced whole", () => {
    expect(inJoin("suppresses noise\nsuppresses no noise during hymn", "suppresses", "hymn")).toEqual(["no noise"]);
  });

  it("what the people online shall see may differ too", () => {
    const setup = readText(`${EVENING}room hall, chairs 12 in 3 rows\ncall {\n  shall show lectern\n  shall show lectern and audience during questions\n  shall hear audience\n}`);
    expect(said(setup)).toEqual([]);
    expect(setup.shallShow("talk").map((name) => name.text)).toEqual(["lectern"]);
    expect(setup.shallShow("questions").map((name) => name.text)).toEqual(["lectern", "audience"]);
  });
});

describe("no", () => {
  it("without “during” stands beside what it takes from", () => {
    expect(inJoin("sends no sound\nplays no sound", "sends", undefined)).toEqual(["no sound"]);
  });

  it("goes only with what may be so or not", () => {
    expect(readText("place no box at front").problems.map((p) => p.code)).toEqual(["no-fit"]);
    expect(readText("room hall { noise no 38 dBA }").problems.map((p) => p.code)).toEqual(["no-fit"]);
  });
});

describe("the programme", () => {
  it("is in the order of its times; what is not said follows from the neighbours", () => {
    const setup = readText("meeting { start 18:00, end 21:00 }\nitem late from 20:00\nitem first\nitem middle from 19:00 to 19:30");
    expect(setup.items.map(({ name, from, to }) => [name, from, to])).toEqual([["middle", 1140, 1170], ["late", 1200, undefined], ["first", undefined, 1260]]);
    const plain = readText("meeting { start 18:00, end 21:00 }\nitem one\nitem two from 19:00\nitem three from 20:00");
    expect(plain.items.map(({ name, from, to }) => [name, from, to])).toEqual([["one", 1080, 1140], ["two", 1140, 1200], ["three", 1200, 1260]]);
  });

  it("passes midnight", () => {
    const setup = readText("meeting { start 22:00, end 00:15 next-day }\nitem vigil from 23:00");
    expect(setup.end).toBe(1455);
    expect(setup.items[0]).toMatchObject({ from: 1380, to: 1455 });
  });
});
