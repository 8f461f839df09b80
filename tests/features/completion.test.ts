import { describe, expect, it } from "vitest";
import { completion, type Offer } from "../../server/features/completion";
import { applyEdits } from "../../server/model/edits";
import { DEVICE_TYPES, rowsOf } from "../../grammar/vocabulary";
import { asked, marked, type Marked } from "./marked";

const BASE = `setup "Choir"
room hall 9 m by 6 m { chairs 24 in 4 rows, outlet back-wall at back, table long-table at middle }
item talk from 18:30
item questions
talker Ines at lectern
device laptop is laptop, owned by "the choir"
devices mic 1 to 3 is lapel-microphone
place laptop at lectern
place box is battery-loudspeaker, near front
place desk is mixer, at operator
place lead is extension-lead, at back
internet venue { up 4 Mb/s }
`;
const FILES = ["evening.bothways", "kit/ours.bothways", "rooms/hall.bothways"];

const at = (of: Marked): readonly Offer[] => [...completion(asked(of), of.cursor, FILES)].sort((a, b) => a.rank - b.rank);
const offers = (text: string): readonly Offer[] => at(marked(BASE + text));
const labels = (text: string): string[] => offers(text).map((offer) => offer.label);
/** The text after the offer of that label was taken, without what stands before in every fixture. */
function taken(text: string, label: string, base = BASE): string {
  const of = marked(base + text);
  const offer = at(of).find((one) => one.label === label);
  if (offer === undefined) throw new Error(`“${label}” is not offered; offered are ${at(of).map((one) => one.label).join(", ")}`);
  return applyEdits(of.text, [{ path: of.path, ...offer.replaces, newText: offer.insert }]).slice(base.length);
}

describe("taking an offer", () => {
  it.each([
    // Half a word, and none.
    ["pl⟨⟩", "place", "place "],
    ["⟨⟩", "cable", "cable "],
    ["place la⟨⟩", "laptop", "place laptop"],
    ["place tv ⟨⟩", "is", "place tv is "],
    ["place tv is fl⟨⟩", "flat-display", "place tv is flat-display"],
    ["place laptop n⟨⟩", "near", "place laptop near "],
    ["place laptop near f⟨⟩ # in front", "front", "place laptop near front # in front"],
    // In the middle of a line: a blank that is there is not doubled.
    ["cable f⟨⟩ laptop.hdmi", "from", "cable from laptop.hdmi"],
    ["cable from lap⟨⟩top to box.line", "laptop", "cable from laptop to box.line"],
    ["cable from laptop.⟨⟩", "laptop.hdmi", "cable from laptop.hdmi"],
    ["cable from laptop.h⟨⟩ to box", "laptop.hdmi", "cable from laptop.hdmi to box"],
    ["cable from each m⟨⟩", "mic", "cable from each mic"],
    ["cable from ⟨⟩", "each mic", "cable from each mic"],
    ["cable from each mic.⟨⟩", "mic.plug", "cable from each mic.plug"],
    ["cable from each mic.plug to each de⟨⟩", "desk.in", "cable from each mic.plug to each desk.in"],
    // Units, behind a blank, at the figure, and begun.
    ["place tv is flat-display, height 2 ⟨⟩", "m", "place tv is flat-display, height 2 m"],
    ["place tv is flat-display, height 2⟨⟩", "2 m", "place tv is flat-display, height 2 m"],
    ["place tv is flat-display, height 2m⟨⟩", "2 m", "place tv is flat-display, height 2 m"],
    ["internet home { up 3.2 M⟨⟩ }", "Mb/s", "internet home { up 3.2 Mb/s }"],
    ["spot pulpit at (2 ⟨⟩", "m", "spot pulpit at (2 m"],
    ["spot pulpit at (2 m, 3⟨⟩)", "3 m", "spot pulpit at (2 m, 3 m)"],
    ["talker Teo 1.5 ⟨⟩", "m", "talker Teo 1.5 m"],
    ["talker Teo 1.5 m ⟨⟩", "behind", "talker Teo 1.5 m behind "],
    // Items, files, points of the clock.
    ["join laptop { sends no sound during ⟨⟩ }", "questions", "join laptop { sends no sound during questions }"],
    ["join laptop { sends no sound during talk ⟨⟩ }", "and", "join laptop { sends no sound during talk and }"],
    ["join laptop { sends no sound during talk and ⟨⟩", "questions", "join laptop { sends no sound during talk and questions"],
    ['use "⟨⟩', "kit/ours.bothways", 'use "kit/ours.bothways"'],
    ['use "ki⟨⟩"', "kit/ours.bothways", 'use "kit/ours.bothways"'],
    ['use "ki⟨⟩.bothways"', "kit/ours.bothways", 'use "kit/ours.bothways"'],
    ["use ⟨⟩", '"kit/ours.bothways"', 'use "kit/ours.bothways"'],
    ["internet home { up 3 Mb/s m⟨⟩ }", "measured", "internet home { up 3 Mb/s measured }"],
    ["internet home { up 3 Mb/s ⟨⟩", "because", 'internet home { up 3 Mb/s because "'],
    ["talker Teo at row ⟨⟩", "4", "talker Teo at row 4"],
    ["device tv is flat-display, owned by ⟨⟩", '"the choir"', 'device tv is flat-display, owned by "the choir"'],
  ])("%s, taken “%s”", (before, label, after) => {
    expect(taken(before, label)).toBe(after);
  });

  it("works on lines that end CR LF, behind tabs and behind letters of two code units", () => {
    const base = BASE.replaceAll("\n", "\r\n");
    expect(taken("join laptop {\r\n\tsends pic⟨⟩\r\n}\r\n", "picture", base)).toBe("join laptop {\r\n\tsends picture\r\n}\r\n");
    expect(taken('note "🎺🎺", pl⟨⟩', "place", base)).toBe('note "🎺🎺", place ');
  });

  it("finds names in either composition of their letters", () => {
    const base = "setup \"Chorprobe\"\nplace lautsprecher-süd is battery-loudspeaker\n";
    expect(taken("join lautsprecher-su\u0308⟨⟩", "lautsprecher-süd", base.normalize("NFD"))).toBe("join lautsprecher-süd");
  });

  it("writes the files of other folders from the folder of the file", () => {
    const of = marked({ "evenings/may/choir.bothways": 'setup "May"\nuse "⟨⟩"' });
    const found = completion(asked(of), of.cursor, ["evenings/may/choir.bothways", "evenings/kit.bothways", "rooms/hall.bothways", "evenings/may/plan.bothways"]);
    expect(found.map((offer) => offer.label)).toEqual(["../kit.bothways", "../../rooms/hall.bothways", "plan.bothways"]);
    expect([...found].sort((a, b) => a.rank - b.rank)[0]?.label).toBe("plan.bothways");
  });
});

describe("what is offered", () => {
  const heads = (owner: Parameters<typeof rowsOf>[0]): string[] => rowsOf(owner).map((row) => row.head);

  it("at the top of a file is what may stand there, but what is said and stands once only", () => {
    const found = labels("⟨⟩");
    expect(found.length).toBeGreaterThan(25);
    expect(found.every((label) => heads("file").includes(label))).toBe(true);
    expect(found).not.toContain("setup");
    // The version stands first or nowhere.
    expect(found).not.toContain("bothways");
  });

  it("in an empty file is first of all what makes it a setup", () => {
    const of = marked("⟨⟩");
    expect(at(of)[0]?.label).toBe("setup");
    expect(at(of).map((offer) => offer.label)).toContain("bothways");
  });

  it.each([
    ["join laptop {\n  ⟨⟩\n}\n", "join"], ["join laptop { ⟨⟩ }\n", "join"], ["join laptop {\n  ⟨⟩\n", "join"], ["join laptop {\n  plays sound on box\n  s⟨⟩\ncable from laptop.hdmi to box.line\n", "join"],
    ["join laptop {\n  shows call {\n    ⟨⟩\n", "shows"], ["mixer desk {\n  bus far to desk.aux-1 {\n    ⟨⟩\n  }\n}", "bus"], ["meeting { ⟨⟩", "meeting"],
    ["kind tube is a microphone {\r\n  port plug is xlr { ⟨⟩ }\r\n}", "port"], ["join laptop {\r  ⟨⟩\r", "join"],
  ] as const)("in the block of %j is what may stand with %s", (text, owner) => {
    const found = labels(text);
    expect(found.length).toBeGreaterThan(1);
    expect(found.filter((label) => !heads(owner).includes(label))).toEqual([]);
  });

  it("in a block that nothing knows is nothing", () => {
    expect(labels("xyzzy {\n  ⟨⟩\n}")).toEqual([]);
    expect(labels("xyzzy ⟨⟩")).toEqual([]);
  });

  it("what stands once is not offered again, wherever in its block it stands", () => {
    expect(labels("meeting {\n  start 18:30\n  ⟨⟩\n  online 8 people\n}")).not.toContain("start");
    expect(labels("meeting {\n  start 18:30\n  ⟨⟩\n  online 8 people\n}")).not.toContain("online");
    expect(labels("meeting { start 18:30, end 20:00, ⟨⟩ }")).not.toContain("end");
    expect(labels("place tv is flat-display, ⟨⟩, height 2 m")).not.toContain("height");
    expect(labels("place tv is flat-display, ⟨⟩ {\n  height 2 m\n}")).not.toContain("height");
    // The one that is being written is none that is said.
    expect(labels("meeting {\n  start⟨⟩ 18:30\n}")).toContain("start");
    expect(labels("join laptop {\n  sends sound\n  ⟨⟩\n}")).toContain("sends");
  });

  it("after a comma is what belongs to the line, at the top of a file that alone", () => {
    expect(labels("cable from laptop.hdmi to box.line, ⟨⟩")).toEqual(["length", "delay", "loss", "rate", "signal", "margin", "pad"]);
    expect(labels("date 2026-10-14, ⟨⟩")).toContain("start");
    const place = labels("place tv is flat-display, ⟨⟩");
    expect(place).toContain("aim");
    expect(place).toContain("near");
    expect(place).not.toContain("cable");
    expect(labels("kind x is a camera { port usb is usb-b, ⟨⟩ }")).toEqual(expect.arrayContaining(["gives", "host", "view"]));
  });

  it("before what must be said nothing else is", () => {
    const place = labels("place ⟨⟩");
    expect(place).toEqual(expect.arrayContaining(["laptop", "box", "mic-1"]));
    expect(place.filter((label) => ["is", "at", "near", "because"].includes(label))).toEqual([]);
    expect(labels("cable ⟨⟩")).toEqual(["from", "to"]);
    expect(labels("cable from laptop.hdmi ⟨⟩").slice(0, 1)).toEqual(["to"]);
    expect(labels("call { shall ⟨⟩ }")).toEqual(["show", "hear"]);
    expect(labels("room attic ⟨⟩")).not.toContain("by");
    expect(labels("room attic 4 m ⟨⟩")).toContain("by");
    expect(labels("accept ⟨⟩")).not.toContain("of");
    expect(labels("room attic { clap ⟨⟩ }")).toEqual(["dies"]);
  });

  it("after “no” is what can be negated, and “no” is offered before it", () => {
    expect(labels("join laptop { sends ⟨⟩ }")).toEqual(["sound", "picture", "clip", "content", "no"]);
    expect(labels("join laptop { sends no ⟨⟩ }")).toEqual(["sound", "picture", "clip", "content"]);
    expect(labels("mixer desk {\n  channel voice from desk.in-1\n  bus far to desk.aux-1 { holds no ⟨⟩ }\n}")).toEqual(["all", "voice"]);
  });

  it("a tail is offered once, where it says something", () => {
    expect(labels("join laptop { sends no sound during talk ⟨⟩ }")).not.toContain("during");
    expect(labels("internet home { up 3 Mb/s measured 2026-10-07 ⟨⟩ }")).not.toContain("measured");
    expect(labels("internet home { up 3 Mb/s guessed ⟨⟩ }")).toEqual(["because"]);
    expect(labels("internet home { up 3 Mb/s measured ⟨⟩ }")[0]).toMatch(/^\d{4}-\d\d-\d\d$/);
    expect(labels("room attic ⟨⟩")).not.toContain("measured");
    expect(labels("kind x is a camera { port usb is usb-b, gives picture ⟨⟩ }")).not.toContain("guessed");
    expect(labels("online 8 ⟨⟩")).toEqual(expect.arrayContaining(["people", "guessed"]));
  });

  it("behind the point of a device are its own parts and ports alone", () => {
    expect(labels("cable from laptop.⟨⟩").every((label) => /^laptop\.[a-z]/.test(label))).toBe(true);
    expect(labels("cable from laptop.⟨⟩")).toContain("laptop.usb-1");
    expect(labels("cable from laptop.⟨⟩")).not.toContain("laptop.camera");
    expect(labels("join laptop { sends picture from laptop.⟨⟩")[0]).toBe("laptop.camera");
    expect(labels("join laptop { plays sound on laptop.⟨⟩")[0]).toBe("laptop.loudspeaker");
    expect(labels("cable from LAPTOP.⟨⟩")).toContain("laptop.hdmi");
  });

  it("names of the kind wanted, the likely ones first, never the thing itself", () => {
    expect(labels("mains from ⟨⟩").slice(0, 2).sort()).toEqual(["back-wall", "lead"]);
    expect(labels("mixer ⟨⟩")[0]).toBe("desk");
    expect(labels("join ⟨⟩")[0]).toBe("laptop");
    expect(labels("item break, talkers ⟨⟩")).toEqual(["audience", "Ines"]);
    expect(labels("talker Teo at ⟨⟩")).not.toContain("Teo");
    expect(labels("place tv is flat-display, near ⟨⟩")).not.toContain("tv");
    expect(labels("talker Teo at ⟨⟩").indexOf("lectern")).toBeLessThan(labels("talker Teo at ⟨⟩").indexOf("laptop"));
    expect(labels("place tv is flat-display, on ⟨⟩")[0]).toBe("long-table");
    expect(labels("place laptop ⟨⟩")).not.toContain("is");
    expect(labels("place box is ⟨⟩")).toContain("webcam");
    expect(labels("place box is ⟨⟩")).not.toContain("desk");
  });

  it("where a thing points are places, without a word before them", () => {
    const found = labels("place tv is flat-display, aim ⟨⟩");
    expect(found).toEqual(expect.arrayContaining(["audience", "lectern", "Ines"]));
    expect(labels("place tv is flat-display, fills ⟨⟩")).toContain("front-screen");
  });

  it("examples of a figure are of the size that is meant there", () => {
    expect(labels("room attic { clap dies in ⟨⟩ }")[0]).toBe("about 1 s");
    expect(labels("room attic { noise ⟨⟩ }")[0]).toBe("38 dBA");
    expect(labels("internet home { up ⟨⟩ }")[0]).toBe("4.0 Mb/s");
    expect(labels("meeting { zone ⟨⟩ }")[0]).toBe("Europe/Tallinn");
  });

  it("kinds are the built-in ones and those of the setup, their own first", () => {
    const found = labels("kind tube is a microphone\ndevice one is ⟨⟩");
    expect(found[0]).toBe("tube");
    expect(found).toContain("webcam");
    expect(labels("kind tube is a ⟨⟩").sort()).toEqual(Object.keys(DEVICE_TYPES).sort());
  });

  it("is nothing in a comment or in words that the author chooses", () => {
    expect(labels("# pla⟨⟩")).toEqual([]);
    expect(labels('note "pla⟨⟩')).toEqual([]);
    expect(labels('setup "⟨⟩"')).toEqual([]);
    expect(labels("kind ⟨⟩")).toEqual([]);
  });

  it("every offer has words that say what it does, or what it is", () => {
    for (const text of ["⟨⟩", "place ⟨⟩", "join laptop { ⟨⟩ }", "place tv is ⟨⟩", "talker Teo ⟨⟩", "talker Teo at ⟨⟩", "internet home { up 3 ⟨⟩"]) {
      expect(offers(text).filter((offer) => offer.about === "" && offer.detail === "").map((offer) => offer.label), text).toEqual([]);
    }
  });

  it("of names that a prefix leads to are written with it outside and without it inside their file", () => {
    const files = { "evening.bothways": 'setup "x"\nuse "kit.bothways" as ours\nplace ⟨⟩', "kit.bothways": "device tv is flat-display\n" };
    expect(at(marked(files)).map((offer) => offer.label)).toContain("ours.tv");
    const inside = { "evening.bothways": 'setup "x"\nuse "kit.bothways" as ours\n', "kit.bothways": "device tv is flat-display\nplace ⟨⟩" };
    expect(at(marked(inside)).map((offer) => offer.label)).toContain("tv");
    const member = { "evening.bothways": 'setup "x"\nuse "kit.bothways" as ours\ncable from ours.tv.⟨⟩', "kit.bothways": "device tv is flat-display\n" };
    expect(at(marked(member)).map((offer) => offer.label)).toContain("ours.tv.hdmi");
  });

  it("of a thousand names those that what is typed could mean are offered", () => {
    const of = marked(`setup "x"\ndevices mic 1 to 900 is lapel-microphone\ndevice zither is webcam\nplace zi⟨⟩`);
    expect(at(of).map((offer) => offer.label)).toContain("zither");
    expect(at(of).length).toBeLessThan(600);
  });

  it("needs no study", () => {
    const of = marked(`${BASE}place ⟨⟩`);
    const here = { ...asked(of), study: () => { throw new Error("a study was asked for"); } };
    expect(completion(here, of.cursor).length).toBeGreaterThan(3);
  });
});
