/** While a text is written: how a statement goes on, laying out what was typed, files that move, refactorings, and following the signal. */
import { describe, expect, it } from "vitest";
import { formatting, rangeFormatting, typedFormatting } from "../../server/features/formatting";
import { acceptances, REASON, refactorings, type Refactoring } from "../../server/features/refactorings";
import { relative, renameFiles } from "../../server/features/rename-files";
import { fedBy, feeds, stationAt } from "../../server/features/signal-path";
import { signature } from "../../server/features/signature";
import { typeDefinition } from "../../server/features/type-definition";
import { applyEdits } from "../../server/model/edits";
import { readSetup } from "../../server/model/setup";
import { study } from "../../server/study";
import { bothwaysFiles, inMemory } from "../language/folder";
import { asked, marked, type Marked } from "./marked";

describe("how a statement goes on", () => {
  const next = (text: string): string | undefined => {
    const of = marked(text);
    const found = signature(of, of.cursor);
    const value = found?.active === undefined ? undefined : found.values[found.active];
    return value && found?.label.slice(value.start, value.end);
  };
  it.each([
    ["cable ⟨⟩", "FROM"], ["cable from lapel.plug to ⟨⟩", "TO"], ["room hall 9 m by ⟨⟩", "WIDTH"], ["place one is ⟨⟩", "KIND"], ["join laptop { sends ⟨⟩ }", "WHAT"], ["internet venue { up ⟨⟩", "RATE"],
  ])("%s", (text, value) => {
    expect(next(text)).toBe(value);
  });
  it("says what each value means, in which unit, and what is taken without it", () => {
    const of = marked("room hall ⟨⟩");
    const found = signature(of, of.cursor);
    expect(found?.label).toBe("room [NAME] [LENGTH] [by WIDTH] [by HEIGHT]");
    expect(found?.values.map(({ start, end }) => found.label.slice(start, end))).toEqual(["NAME", "LENGTH", "WIDTH", "HEIGHT"]);
    expect(found?.values[1]?.about).toMatch(/front wall.*like .* m.*without it 9 m is taken/u);
  });
  it.each(["pla⟨⟩", "# cable ⟨⟩", "", "outdoors ⟨⟩"])("“%s” has none", (text) => {
    expect(next(text)).toBeUndefined();
  });
});

describe("laying out what was typed", () => {
  const UNTIDY = 'setup   "a"\nroom hall   9 m by 6 m {\nnoise   38 dBA\n}\nonline   3 people\n';
  it("of a stretch touches its lines alone", () => {
    const at = UNTIDY.indexOf("noise");
    const edits = rangeFormatting("a", UNTIDY, { start: at, end: at + 3 });
    expect(applyEdits(UNTIDY, "refused" in edits ? [] : edits)).toBe('setup   "a"\nroom hall   9 m by 6 m {\n  noise 38 dBA\n}\nonline   3 people\n');
  });
  it("of the whole as a stretch is what laying out gives", () => {
    expect(rangeFormatting("a", UNTIDY, { start: 0, end: UNTIDY.length })).toEqual(formatting("a", UNTIDY));
  });
  it("after a line end takes the line that is finished", () => {
    const at = UNTIDY.indexOf("room");
    expect(applyEdits(UNTIDY, typedFormatting("a", UNTIDY, at, "\n"))).toBe(UNTIDY.replace('setup   "a"', 'setup "a"'));
  });
  it("after a brace takes its line, and leaves a text alone whose braces do not balance", () => {
    const text = 'setup "a"\njoin laptop {   sends sound}\n';
    expect(applyEdits(text, typedFormatting("a", text, text.indexOf("}") + 1, "}"))).toBe('setup "a"\njoin laptop { sends sound }\n');
    expect(typedFormatting("a", 'setup   "a"\njoin laptop {\n', 12, "\n")).toEqual([]);
  });
});

describe("files that move", () => {
  it.each([["a.bothways", "kit.bothways", "kit.bothways"], ["x/a.bothways", "kit.bothways", "../kit.bothways"], ["x/a.bothways", "x/y/kit.bothways", "y/kit.bothways"], ["x/y/a.bothways", "x/z/kit.bothways", "../z/kit.bothways"]])("from %s to %s: %s", (from, to, written) => {
    expect(relative(from, to)).toBe(written);
  });
  const files = new Map(Object.entries({
    "autumn.bothways": 'setup "a"\nuse "rooms/hall.bothways"\nuse "kit.bothways"\n', "rooms/hall.bothways": 'use "../kit.bothways"\nroom hall 9 m by 6 m\n', "kit.bothways": "device laptop is laptop\n",
  }));
  const setups = [...files.keys()].map((path) => readSetup(inMemory(files), path));
  it.each([
    [[{ from: "kit.bothways", to: "things/our kit.bothways" }]],
    [[{ from: "rooms/hall.bothways", to: "hall.bothways" }]],
    [[{ from: "autumn.bothways", to: "2026/autumn.bothways" }]],
    [[{ from: "rooms/hall.bothways", to: "old/hall.bothways" }, { from: "kit.bothways", to: "old/kit.bothways" }]],
  ])("every use means the same file afterwards: %j", (moves) => {
    const edits = renameFiles(setups, moves);
    expect(edits.length).toBeGreaterThan(0);
    const name = (path: string): string => moves.find((move) => move.from === path)?.to ?? path;
    const after = new Map([...files].map(([path, text]) => [name(path), applyEdits(text, edits.filter((edit) => edit.path === path))]));
    const setup = readSetup(inMemory(after), name("autumn.bothways"));
    expect(setup.problems).toEqual([]);
    expect(setup.files.map((file) => file.path).sort()).toEqual([...after.keys()].sort());
  });
  it("a file that nobody uses moves without a word", () => {
    expect(renameFiles(setups, [{ from: "autumn.bothways", to: "winter.bothways" }])).toEqual([]);
  });
});

/** The files after a refactoring. */
function after(of: Marked, { edits, creates }: Refactoring): ReadonlyMap<string, string> {
  const out = new Map([...of.files].map(([path, text]) => [path, applyEdits(text, edits.filter((edit) => edit.path === path))]));
  for (const { path, text } of creates) {
    expect(out.has(path)).toBe(false);
    out.set(path, text);
  }
  return out;
}
const at = (of: Marked) => ({ start: of.cursor, end: of.cursor });
/** What a study says, without where it says it. */
const said = (files: ReadonlyMap<string, string>, root: string) => {
  const judged = study(inMemory(files), root);
  return {
    problems: judged.problems.map((p) => p.message), // Gaps in the plan stand in the order of the text.
    findings: judged.findings.map((f) => f.message).sort(), ways: judged.ways.map((w) => [w.way, w.verdict, w.weakest]),
    figures: judged.figures().map((f) => [f.name, ...f.of, f.value]),
  };
};

const EVENING = `setup "Choir"
# Measured last spring.
room hall 9 m by 6 m { reverberation 0.8 s, chairs 24 in 4 rows }
device phone is phone, owned by Teo   # his own
talker Ines at lectern
place laptop is laptop, at lectern
place box is battery-loudspeaker, speech-level 90 dBA, near front, draws 12 W
place phone near front
cable from laptop.headset to box.line
online 8 people
join laptop { plays sound on box }
join phone
`;

describe("refactorings leave what is said as it is", () => {
  it("the room into a file of its own, its comment with it", () => {
    const of = marked(EVENING.replace("room ha", "room ha⟨⟩"));
    const [action] = refactorings(asked(of), at(of));
    expect(action?.title).toBe("Move room hall into a file of its own");
    const files = action === undefined ? of.files : after(of, action);
    expect(files.get("hall.bothways")).toBe("# Measured last spring.\nroom hall 9 m by 6 m { reverberation 0.8 s, chairs 24 in 4 rows }\n");
    expect(files.get(of.path)).toContain('setup "Choir"\nuse "hall.bothways"\ndevice');
    expect(said(files, of.path)).toEqual(said(of.files, of.path));
  });
  it("the kit into a file of its own, under a name that is free", () => {
    const of = marked({ "evening.bothways": EVENING.replace("device ph", "device ph⟨⟩"), "kit.bothways": "" });
    const action = refactorings(asked(of), at(of)).find((one) => one.title.includes("kit"));
    const files = action === undefined ? of.files : after(of, action);
    expect(files.get("kit-2.bothways")).toBe("device phone is phone, owned by Teo   # his own\n");
    expect(said(files, of.path)).toEqual(said(of.files, of.path));
  });
  it("what a device says of itself into a kind", () => {
    const of = marked(EVENING.replace("place bo", "place bo⟨⟩"));
    const [action] = refactorings(asked(of), at(of));
    expect(action?.title).toBe("Make what box says of itself a kind");
    const files = action === undefined ? of.files : after(of, action);
    expect(files.get(of.path)).toContain("kind box-kind is a loudspeaker {\n");
    expect(files.get(of.path)).toContain("  speech-level 90 dBA\n  draws 12 W\n}\nplace box is box-kind, near front\n");
    const [before, now] = [said(of.files, of.path), said(files, of.path)];
    expect(now.problems).toEqual(before.problems);
    expect(now.figures).toEqual(before.figures);
    expect(now.ways).toEqual(before.ways);
  });
  it.each([
    ["all of them on one line of a block", "place box is battery-loudspeaker, near front { speech-level 90 dBA, draws 12 W, owned by Teo }", "  speech-level 90 dBA\n  draws 12 W\n", "place box is box-kind, near front { owned by Teo }"],
    ["the device's own first", "place box is battery-loudspeaker, near front { owned by Teo, speech-level 90 dBA, draws 12 W }", "  speech-level 90 dBA\n  draws 12 W\n", "place box is box-kind, near front { owned by Teo }"],
    ["its own between", "place box is battery-loudspeaker, near front { speech-level 90 dBA, owned by Teo, draws 12 W }", "  speech-level 90 dBA\n  draws 12 W\n", "place box is box-kind, near front { owned by Teo }"],
    ["nothing of its own", "place box is battery-loudspeaker, near front { speech-level 90 dBA, draws 12 W }", "  speech-level 90 dBA\n  draws 12 W\n", "place box is box-kind, near front"],
    ["a port with commas of its own, before another", "place box is battery-loudspeaker, near front {\n  port aux is jack-3, takes sound, draws 12 W\n  owned by Teo\n}", "  port aux is jack-3, takes sound\n  draws 12 W\n", "place box is box-kind, near front {\n  owned by Teo\n}"],
    ["two lines of two", "place box is battery-loudspeaker, near front {\n  speech-level 90 dBA, draws 12 W\n  owned by Teo, height 1 m\n}", "  speech-level 90 dBA\n  draws 12 W\n", "place box is box-kind, near front {\n  owned by Teo, height 1 m\n}"],
    ["after commas of the line itself", "place box is battery-loudspeaker, near front, speech-level 90 dBA, draws 12 W", "  speech-level 90 dBA\n  draws 12 W\n", "place box is box-kind, near front"],
  ])("facts that follow commas: %s", (_what, line, inKind, left) => {
    const text = EVENING.replace(/place box [^\n]*(?:\n {2}[^\n]*)*(?:\n\})?/u, line);
    expect(text).toContain(`${line}\n`);
    const of = marked(text.replace("place bo", "place bo⟨⟩"));
    const action = refactorings(asked(of), at(of)).find((one) => one.title === "Make what box says of itself a kind") ?? expect.fail("nothing is offered");
    const files = after(of, action);
    const now = files.get(of.path) ?? "";
    expect(now).toContain(`${inKind}}\n`);
    expect(now).toContain(`}\n${left}\n`);
    const [before, then] = [said(of.files, of.path), said(files, of.path)];
    expect(then.problems).toEqual(before.problems);
    expect(then.figures).toEqual(before.figures);
    expect(then.ways).toEqual(before.ways);
  });
  it("of every sample: whatever is offered leaves no mistake, and every figure as it is", () => {
    let tried = 0;
    const samples = bothwaysFiles("samples");
    for (const root of [...samples.keys()].filter((path) => samples.get(path)?.includes('setup "') === true)) {
      const text = samples.get(root) ?? "";
      const of: Marked = { files: samples, path: root, text, cursor: 0, ranges: [] };
      const about = asked(of, root);
      const before = said(samples, root);
      for (const statement of about.setup.files[0]?.statements ?? []) {
        for (const action of refactorings(about, { start: statement.where.start, end: statement.where.start })) {
          if (tried >= 12) return;
          tried += 1;
          const now = said(after(of, action), root);
          expect(now.problems, `${root}: ${action.title}`).toEqual(before.problems);
          expect(now.figures, `${root}: ${action.title}`).toEqual(before.figures);
        }
      }
    }
    expect(tried).toBeGreaterThan(5);
  }, 60_000);
  it("is not offered where it would lose a comment, nor for a file that is a part already", () => {
    const of = marked('setup "a"\nplace bo⟨⟩x is battery-loudspeaker {\n  draws 12 W   # measured\n}\n');
    expect(refactorings(asked(of), at(of))).toEqual([]);
    const kit = marked({ "kit.bothways": "device ph⟨⟩one is phone\n" });
    expect(refactorings(asked(kit), at(kit))).toEqual([]);
  });
});

describe("accepting a risk", () => {
  it("is offered for what is found there, asks for a reason, and quiets it", () => {
    const of = marked(EVENING.replace("join phone", "join ph⟨⟩one"));
    const about = asked(of);
    const finding = about.study().findings.find((f) => f.where.start <= of.cursor && of.cursor <= f.where.end && f.severity !== "plan");
    const offered = acceptances(about.study(), at(of));
    const action = offered.find((one) => one.title.endsWith(finding?.code ?? "?"));
    expect(action?.edits[0]?.newText).toContain(`because "${REASON}"`);
    const now = study(inMemory(action === undefined ? of.files : after(of, action)), of.path);
    expect(now.findings.some((f) => f.identity === finding?.identity)).toBe(false);
    expect(now.accepted.some((f) => f.identity === finding?.identity)).toBe(true);
  });
});

describe("to the kind of a device", () => {
  it.each([
    ["its place", 'setup "a"\nkind ⟦tube⟧ is a microphone { port plug is xlr }\nplace o⟨⟩ne is tube\n'],
    ["a port at the end of a cable", 'setup "a"\nkind ⟦tube⟧ is a microphone { port plug is xlr }\nplace one is tube\nplace desk is mixer\ncable from one.pl⟨⟩ug to desk.in-1\n'],
    ["one of a set", 'setup "a"\nkind ⟦tube⟧ is a microphone\ndevices mic 1 to 2 is tube\nplace mi⟨⟩c-1 at front\n'],
  ])("from %s", (_, text) => {
    const of = marked(text);
    expect(typeDefinition(asked(of), of.cursor)).toEqual(of.ranges);
  });
  it("there is none for typical equipment, nor for a talker", () => {
    for (const text of ['setup "a"\nplace o⟨⟩ne is webcam\n', 'setup "a"\ntalker In⟨⟩es at lectern\n']) {
      const of = marked(text);
      expect(typeDefinition(asked(of), of.cursor)).toEqual([]);
    }
  });
});

describe("along the signal", () => {
  const of = marked(EVENING.replace("place bo", "place bo⟨⟩").replace("join phone\n", ""));
  const about = asked(of);
  it("a loudspeaker is fed by the computer through its cable, and feeds the seats through the air", () => {
    expect(stationAt(about, of.cursor)?.name).toBe("box");
    const [from, ...more] = fedBy(about, "box");
    expect(more).toEqual([]);
    expect(from?.station.name).toBe("laptop");
    expect(from?.how).toBe("by cable");
    expect(from?.made.map((one) => of.text.slice(one.start, one.end))).toEqual(["cable from laptop.headset to box.line"]);
    expect(feeds(about, "box").map((one) => one.station.name)).toContain("audience");
  });
  it("what feeds another is fed by it, everywhere", () => {
    const names = about.study().flow().posts.map((post) => post.name);
    for (const name of names) for (const { station } of feeds(about, name)) expect(fedBy(about, station.name).map((one) => one.station.name)).toContain(name);
  });
  it("nothing stands where no name is", () => {
    const nothing = marked('setup "a⟨⟩"\n');
    expect(stationAt(asked(nothing), nothing.cursor)).toBeUndefined();
  });
});
