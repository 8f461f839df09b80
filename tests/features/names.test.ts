/** Names across files: where they are given and used, and giving them another. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { definition } from "../../server/features/definition";
import { occurrences } from "../../server/features/names";
import { references } from "../../server/features/references";
import { rename, renameable } from "../../server/features/rename";
import { applyEdits } from "../../server/model/edits";
import { readSetup } from "../../server/model/setup";
import { inMemory } from "../language/folder";
import { asked, marked, type Marked } from "./marked";

const setupsOf = (of: Marked, files: ReadonlyMap<string, string> = of.files) => {
  const setups = [...files].filter(([, text]) => text.includes('setup "')).map(([path]) => readSetup(inMemory(files), path));
  return (path: string) => setups.filter((setup) => setup.files.some((file) => file.path === path));
};
type Files = Readonly<Record<string, string>>;
const used = (of: Marked) => references(setupsOf(of), of.path, of.cursor, true);
const edits = (of: Marked, name: string) => rename(setupsOf(of), inMemory(of.files), of.path, of.cursor, name);

function renamed(of: Marked, name: string): Record<string, string> {
  const list = edits(of, name);
  if ("refused" in list) throw new Error(list.refused);
  return Object.fromEntries([...of.files].map(([path, text]) => [path, applyEdits(text, list.filter((edit) => edit.path === path))]));
}

const KIT = "device laptop is laptop\ndevices mic 1 to 2 is lapel-microphone\nkind tube is a microphone { port plug is xlr }\n";
const CASES: Readonly<Record<string, Files>> = {
  "a device, from the kit into two setups": {
    "kit.bothways": "device ⟦lap⟨⟩top⟧ is laptop\n",
    "a.bothways": 'setup "a"\nuse "kit.bothways"\nplace ⟦laptop⟧ at lectern\nplace tv is flat-display, near ⟦laptop⟧\ncable from ⟦laptop⟧.hdmi to tv.hdmi\njoin ⟦laptop⟧ { sends picture from ⟦laptop⟧.camera }\n',
    "b.bothways": 'setup "b"\nuse "kit.bothways"\nplace ⟦laptop⟧ at front\n',
  },
  "a talker": { "a.bothways": 'setup "a"\nitem talk, talkers ⟦Ines⟧\ntalker ⟦In⟨⟩es⟧ at lectern\nplace lapel is lapel-microphone, on ⟦Ines⟧\n' },
  "an item": { "a.bothways": 'setup "a"\nitem ⟦talk⟧\nitem questions\nplace laptop is laptop\njoin laptop { sends no sound during ⟦ta⟨⟩lk⟧ and questions }\n' },
  "a spot of a room in a file of its own": {
    "a.bothways": 'setup "a"\nuse "hall.bothways"\ntalker Ines at ⟦pul⟨⟩pit⟧\n', "hall.bothways": "room hall 9 m by 6 m { spot ⟦pulpit⟧ at (2 m, 2 m) }\n",
  },
  "a kind": { "a.bothways": 'setup "a"\nkind ⟦tube⟧ is a microphone\nplace one is ⟦tu⟨⟩be⟧\nplace two is ⟦tube⟧\n' },
  "a room": { "a.bothways": 'setup "a"\nuse "hall.bothways"\nin ⟦ha⟨⟩ll⟧ { noise 41 dBA }\n', "hall.bothways": "room ⟦hall⟧ 9 m by 6 m\n" },
  "a numbered set": { "a.bothways": 'setup "a"\ndevices ⟦m⟨⟩ic⟧ 1 to 2 is lapel-microphone\nplace ⟦mic⟧-1 at lectern\nplace desk is mixer\ncable from each ⟦mic⟧.plug to desk.in-1 and desk.in-2\n' },
  "a name before a file": { "a.bothways": 'setup "a"\nuse "kit.bothways" as ⟦ou⟨⟩rs⟧\nplace ⟦ours⟧.laptop at lectern\ncable from ⟦ours⟧.mic-1.plug to ⟦ours⟧.laptop.headset\n', "kit.bothways": KIT },
  "a channel of one mixer": { "a.bothways": 'setup "a"\nplace desk is mixer\nmixer desk {\n  channel ⟦vo⟨⟩ice⟧ from desk.in-1\n  bus hall to desk.main-left { holds ⟦voice⟧ }\n}\n' },
  "a port of a kind": { "a.bothways": 'setup "a"\nkind tube is a microphone { port ⟦plug⟧ is xlr }\nplace one is tube\nplace desk is mixer\ncable from one.⟦pl⟨⟩ug⟧ to desk.in-1\n' },
  "a talker whose letters are composed otherwise elsewhere": { "a.bothways": 'setup "a"\nitem talk, talkers ⟦A\u030ase⟧\ntalker ⟦A\u030as⟨⟩e⟧ at lectern\n' },
  "a device of a file before which a composed name stands": { "a.bothways": 'setup "a"\nuse "k.bothways" as o\u0308\nplace o\u0308.⟦tu\u0308r⟧ at lectern\ncable from o\u0308.⟦tu\u0308⟨⟩r⟧.hdmi to tv.hdmi\nplace tv is flat-display\n', "k.bothways": "device ⟦tu\u0308r⟧ is laptop\n" },
  "a talker in letters beyond ASCII": { "a.bothways": 'setup "a"\r\nitem talk, talkers ⟦Åse⟧\r\ntalker ⟦Ås⟨⟩e⟧ at lectern\r\n' },
};

describe("references", () => {
  it("find a name in either composition and any case", () => {
    const of = marked('setup "a"\nitem talk, talkers ⟦åse⟧\ntalker ⟦A\u030as⟨⟩e⟧ at lectern\nplace lapel is lapel-microphone, on ⟦ÅSE⟧\n');
    expect(used(of)).toEqual(of.ranges);
  });

  it.each(Object.entries(CASES))("of %s are all of them, the declaration included", (_, files) => {
    const of = marked(files);
    const order = (a: { path: string; start: number }, b: { path: string; start: number }): number => (a.path < b.path ? -1 : a.path > b.path ? 1 : a.start - b.start);
    expect(used(of)).toEqual([...of.ranges].sort(order));
  });
});

describe("the definition", () => {
  it.each(Object.entries(CASES))("of %s is where it gets its name", (_, files) => {
    const of = marked(files);
    const places = definition(asked(of, setupsOf(of)(of.path)[0]?.root), of.cursor);
    expect(places).toHaveLength(1);
    expect(of.ranges).toContainEqual(places[0]);
    const line = of.files.get(places[0]?.path ?? "")?.slice(0, places[0]?.start).split("\n").at(-1) ?? "";
    expect(line.trim().split(/\s+/).some((word) => ["device", "devices", "talker", "item", "spot", "kind", "room", "use", "channel", "port"].includes(word))).toBe(true);
  });

  it("of a file that is taken in is its beginning, and of typical equipment there is none", () => {
    const of = marked({ "a.bothways": 'setup "a"\nuse "ki⟨⟩t.bothways"\n', "kit.bothways": KIT });
    expect(definition(asked(of), of.cursor)).toEqual([{ path: "kit.bothways", start: 0, end: 0 }]);
    const typical = marked('setup "a"\nplace one is web⟨⟩cam\n');
    expect(definition(asked(typical), typical.cursor)).toEqual([]);
  });
});

describe("renaming", () => {
  it.each(Object.entries(CASES))("%s changes every place, and back again is the text as it was", (_, files) => {
    const of = marked(files);
    const after = renamed(of, "brand-new");
    const back = marked(files);
    // The same places, as many as are marked, bear the new name.
    const count = Object.values(after).join("\n").split("brand-new").length - 1;
    expect(count).toBe(of.ranges.length);
    const old = of.files.get(of.path)?.slice(of.ranges.find((r) => r.path === of.path && r.start <= of.cursor && of.cursor <= r.end)?.start, of.ranges.find((r) => r.path === of.path && r.start <= of.cursor && of.cursor <= r.end)?.end) ?? "";
    const now = new Map(Object.entries(after));
    const start = Math.min(...[...(now.get(of.path) ?? "").matchAll(/brand-new/g)].map((match) => match.index));
    const again = renamed({ ...back, files: now, text: now.get(of.path) ?? "", cursor: start }, old);
    expect(again).toEqual(Object.fromEntries(of.files));
  });

  it("says what it would rename before it does", () => {
    const of = marked('setup "a"\nplace laptop is laptop\njoin ⟦lap⟨⟩top⟧\n');
    expect(renameable(setupsOf(of), of.path, of.cursor)).toEqual({ start: of.ranges[0]?.start, end: of.ranges[0]?.end, name: "laptop" });
    const nothing = marked('setup "a⟨⟩"\n');
    expect(renameable(setupsOf(nothing), nothing.path, nothing.cursor)).toBeUndefined();
  });

  it.each([
    ["a name that is taken", "place la⟨⟩p is laptop\nplace tv is flat-display\n", "tv"], ["one that differs in case only from another", "place la⟨⟩p is laptop\nplace tv is flat-display\n", "TV"],
    ["two words", "place la⟨⟩p is laptop\n", "my lap"], ["nothing", "place la⟨⟩p is laptop\n", ""], ["a word of the language", "place la⟨⟩p is laptop\n", "from"], ["one with a point", "place la⟨⟩p is laptop\n", "a.b"],
    ["a number", "place la⟨⟩p is laptop\n", "3"], ["a spot that the text uses", "talker I⟨⟩nes at lectern\n", "lectern"],
  ])("refuses %s", (_, text, name) => {
    const of = marked(`setup "a"\n${text}`);
    const answer = edits(of, name);
    expect("refused" in answer ? answer.refused : "").not.toBe("");
  });

  it.each([["a typical kind", "place lap is web⟨⟩cam\n"], ["a port of typical equipment", "place lap is laptop\nplace tv is flat-display\ncable from lap.hd⟨⟩mi to tv.hdmi\n"], ["a spot that every room has", "talker Ines at lec⟨⟩tern\n"]])("leaves %s alone", (_, text) => {
    const of = marked(`setup "a"\n${text}`);
    expect(renameable(setupsOf(of), of.path, of.cursor)).toHaveProperty("refused");
    expect(edits(of, "other")).toHaveProperty("refused");
  });

  it("of any name to any other and back is the identity, or is refused", () => {
    const files = new Map([["kit.bothways", KIT], ["a.bothways", 'setup "a"\nuse "kit.bothways"\nroom hall 9 m by 6 m { spot pulpit at (2 m, 2 m), outlet wall at back }\nitem talk, talkers Ines\ntalker Ines at pulpit\nplace laptop near pulpit\nplace one is tube, on Ines\nplace mic-1 at lectern\nmains from wall to laptop\ncable from one.plug to laptop.headset\njoin laptop { sends sound from one during talk }\n']]);
    const root = "a.bothways";
    const all = occurrences(readSetup(inMemory(files), root));
    let done = 0;
    fc.assert(fc.property(fc.nat(all.length - 1), fc.oneof(fc.constantFrom("new", "x-1", "Ñandú", "e\u0301tude", "laptop", "talk", "plug", "mic", "mic-2", "front", "hall"), fc.string({ maxLength: 4 })), (i, name) => {
      const one = all[i];
      if (one === undefined) return;
      const of: Marked = { files, path: one.path, text: "", cursor: one.start, ranges: [] };
      const old = files.get(one.path)?.slice(one.start, one.end) ?? "";
      const answer = edits(of, name);
      if ("refused" in answer || name === old) return;
      done += 1;
      const now = new Map(Object.entries(renamed(of, name)));
      expect(readSetup(inMemory(now), root).problems.length).toBe(readSetup(inMemory(files), root).problems.length);
      // The place has moved by what changed before it.
      const moved = answer.filter((edit) => edit.path === one.path && edit.start < one.start).reduce((sum, edit) => sum + edit.newText.length - (edit.end - edit.start), 0);
      expect(renamed({ ...of, files: now, cursor: one.start + moved }, old)).toEqual(Object.fromEntries(files));
    }), { numRuns: 120, seed: 20261125 });
    expect(done).toBeGreaterThan(20);
  });
});
