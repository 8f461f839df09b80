/** What is shown of a setup: diagnostics, mends, hover, verdicts, outline. */
import { describe, expect, it } from "vitest";
import { fixActions, spellingActions } from "../../server/features/code-actions";
import { diagnosticsOfPart, diagnosticsOfSetup } from "../../server/features/diagnostics";
import { explain } from "../../server/features/explain";
import { folding } from "../../server/features/folding";
import { formatting } from "../../server/features/formatting";
import { hover } from "../../server/features/hover";
import { lenses } from "../../server/features/lenses";
import { outline } from "../../server/features/outline";
import { CATALOGUE } from "../../server/checks/catalogue";
import { applyEdits } from "../../server/model/edits";
import { WAYS } from "../../server/model/ways";
import { study } from "../../server/study";
import { bothwaysFiles, inMemory } from "../language/folder";
import { asked, marked, type Marked } from "./marked";

const EVENING = `setup "Choir"
room hall 9 m by 6 m { noise 41 dBA measured 2026-10-07, chairs 24 in 4 rows }
talker Ines at lectern
place laptop is laptop, at lectern
place phone is phone, near front
internet venue { up 0.2 Mb/s measured 2026-10-07 18:40 }
join laptop {
  sends sound
  sends picture at 1080p30
  plays sound on laptop.loudspeaker
}
join phone
online 8 people
`;
const noStudy = (of: Marked) => ({ ...asked(of), study: () => { throw new Error("a study was asked for"); } });
const hoverAt = (text: string) => {
  const of = marked(text);
  return hover(noStudy(of), of.cursor);
};

describe("diagnostics", () => {
  const shown = diagnosticsOfSetup(asked(marked(EVENING)).study());
  const judged = asked(marked(EVENING)).study();

  it("show every finding but the gaps in the plan, with reason, and margin where one is measured", () => {
    const expected = judged.findings.filter((finding) => finding.severity !== "plan");
    expect(expected.length).toBeGreaterThan(1);
    expect(shown.filter((one) => one.identity !== undefined).map((one) => one.identity).sort()).toEqual(expected.map((finding) => finding.identity).sort());
    for (const one of shown.filter((other) => other.identity !== undefined)) {
      const finding = expected.find((other) => other.identity === one.identity);
      expect(one.message.startsWith(finding?.message ?? "-")).toBe(true);
      if (finding?.measured !== undefined && finding.limit !== undefined) expect(one.message).toMatch(/the limit .*\d/);
      else if ((finding?.chain.length ?? 0) > 0) expect(one.message).toContain("Because: ");
      expect(one.explained && explain(one.code) !== undefined).toBe(true);
    }
    expect(expected.some((finding) => finding.measured !== undefined)).toBe(true);
  });

  it("ask at a level of their own, and hold questions that findings ask already back", () => {
    const small = asked(marked('setup "October"\nroom about 13 steps by 9 steps, chairs 24 in 4 rows\nplace laptop is laptop, near lectern\nplace box is battery-loudspeaker, near front\njoin laptop { plays sound on box }\n')).study();
    const asks = diagnosticsOfSetup(small).filter((one) => one.level === "ask");
    expect(asks.length).toBeGreaterThan(0);
    expect(asks.length).toBeLessThanOrEqual(3);
    expect(asks.every((one) => one.message.startsWith("To find out: "))).toBe(true);
    const open = small.findings.flatMap((finding) => (finding.severity === "plan" || finding.question === undefined ? [] : [finding.question.ask]));
    expect(asks.filter((one) => open.some((ask) => one.message.includes(ask)))).toEqual([]);
  });

  it("of a used file stand at its “use”, and in the file itself as its own", () => {
    const of = marked({ "a.bothways": 'setup "a"\n⟦use "kit.bothways"⟧\n', "kit.bothways": "device tv is flat-displya\n" });
    const study = asked(of).study();
    const there = diagnosticsOfSetup(study).filter((one) => one.message.startsWith("In kit.bothways"));
    expect(there.map(({ start, end, level }) => ({ start, end, level }))).toEqual([{ start: of.ranges[0]?.start, end: of.ranges[0]?.end, level: "error" }]);
    expect(there[0]?.related[0]?.where.path).toBe("kit.bothways");
    expect(diagnosticsOfPart(study, "kit.bothways").map((one) => one.code)).toEqual(["unknown-name"]);
  });
});

describe("mends", () => {
  it("of a finding hold: applied, it is gone", () => {
    const path = "samples/gone-wrong/everything-twice.bothways";
    const files = bothwaysFiles("samples");
    const of: Marked = { files, path, text: files.get(path) ?? "", cursor: 0, ranges: [] };
    const here = asked(of, path);
    const judged = here.study();
    const walk = fixActions(here.texts, judged, { start: 0, end: of.text.length });
    let step = walk.next();
    while (step.done !== true) step = walk.next();
    expect(step.value.length).toBeGreaterThan(0);
    for (const action of step.value.slice(0, 4)) {
      const after = study(inMemory(new Map([...files].map(([name, text]) => [name, applyEdits(text, action.edits.filter((edit) => edit.path === name))]))), of.path);
      expect(after.findings.filter((finding) => finding.identity === action.of.identity && finding.severity === action.of.level), action.title).toEqual([]);
    }
  });

  it.each([
    ["join laptop { ⟨⟩sneds sound }", "join laptop { sends sound }"], ["join ⟨⟩laptpo", "join laptop"], ["plcae⟨⟩ tv is flat-display", "place tv is flat-display"], ["join laptop { sends ⟨⟩pictrue }", "join laptop { sends picture }"],
    ["place tv is ⟨⟩flat-displya", "place tv is flat-display"], ["item talk\njoin laptop { sends no sound during ⟨⟩tlak }", "item talk\njoin laptop { sends no sound during talk }"],
  ])("of the mistyped word in %s write the one that was meant", (before, after) => {
    const base = 'setup "a"\nplace laptop is laptop\n';
    const of = marked(base + before);
    const here = asked(of);
    const actions = spellingActions(here.texts, here.setup, diagnosticsOfSetup(here.study()), of.path, { start: of.cursor, end: of.cursor });
    expect(actions.map((action) => applyEdits(of.text, action.edits).slice(base.length))).toEqual([after]);
  });
});

describe("hover", () => {
  const base = 'setup "a"\nroom hall 9 m by 6 m { noise 41 dBA measured 2026-10-07 because "the heating is on" }\nplace laptop is laptop, at lectern\n';
  it.each([
    ["a measured figure", `${base.replace("41", "4⟨⟩1")}`, ["noise", "41 dB", "a level in dB", "measured 2026-10-07", "because the heating is on"]],
    ["a guess", `${base}internet venue { up ⟨⟩4 Mb/s guessed }`, ["4.0 Mb/s", "a bit rate", "a guess of the author"]],
    ["what is stated", `${base}internet venue { up ⟨⟩4 Mb/s }`, ["stated"]],
    ["what nobody knows", `${base}internet venue { up unk⟨⟩nown }`, ["nobody knows yet"]],
    ["a statement", `${base}internet venue { u⟨⟩p 4 Mb/s }`, ["How much can be sent", "a bit rate", "4.0 Mb/s"]],
    ["a default", `${base.replace("noise", "n⟨⟩oise")}`, ["taken where nothing is said", "40 dB (35 dB to 48 dB)", "noise criteria"]],
    ["a relation", `${base}place tv is flat-display, be⟨⟩hind lectern`, ["farther from the front"]],
    ["a connector", `${base}cable fr⟨⟩om laptop.hdmi to laptop.usb-1`, ["one end"]],
  ])("of %s needs no study", (_, text, words) => {
    const found = hoverAt(text);
    for (const word of words) expect(found?.markdown).toContain(word);
  });

  it("of typical equipment says that its figures are assumed", () => {
    const of = marked('setup "a"\nplace box is battery-loudspeaker, near front\njoin bo⟨⟩x\n');
    const found = hover(asked(of), of.cursor);
    expect(found?.markdown).toContain("battery-loudspeaker");
    expect(found?.markdown).toMatch(/assumed, typical of its kind/);
  });

  it("of what is computed shows the working with its numbers, as the figures have it", () => {
    const of = marked(EVENING.replace("room hall", "room ha⟨⟩ll"));
    const here = asked(of);
    const found = hover(here, of.cursor)?.markdown ?? "";
    expect(found).toContain("**Computed**");
    const own = here.study().figures().filter((figure) => figure.of.includes("hall"));
    expect(own.length).toBeGreaterThan(0);
    expect(own.some((figure) => found.includes(figure.formula) && found.includes(figure.source))).toBe(true);
  });

  it("of blanks, comments and nothing is nothing", () => {
    expect(hoverAt('setup "a"\n# pla⟨⟩ce\n')).toBeUndefined();
    expect(hoverAt("⟨⟩")).toBeUndefined();
  });
});

describe("verdicts above the setup", () => {
  it("are six, each with a mark, a word and what it hangs on; a kit has none", () => {
    const judged = asked(marked(EVENING)).study();
    const found = lenses(judged);
    expect(found.map((lens) => lens.way)).toEqual([...WAYS]);
    expect(found.every((lens) => /^[✓~?✗] .+: .+/.test(lens.title) && lens.tooltip.length > 20)).toBe(true);
    expect(found.every((lens) => EVENING.slice(lens.start, lens.end) === 'setup "Choir"')).toBe(true);
    expect(lenses(asked(marked("device laptop is laptop\n")).study())).toEqual([]);
  });
});

describe("the outline", () => {
  it("has statements in the order and nesting of the text", () => {
    const of = marked(EVENING);
    const found = outline(asked(of));
    expect(found.map((node) => node.head)).toEqual(["setup", "room", "talker", "place", "place", "internet", "join", "join", "online"]);
    expect(found.find((node) => node.head === "join")?.children.map((node) => node.name)).toEqual(["sends sound", "sends picture", "plays sound on laptop.loudspeaker"]);
    expect(found[0]?.name).toBe("setup Choir");
  });
});

describe("folding and layout", () => {
  it("fold blocks of several lines, whatever ends them", () => {
    expect(folding("join laptop {\n  sends sound\n}\nmeeting { start 18:30 }\n")).toEqual([{ start: 12, end: 28 }]);
    expect(folding("join laptop {\r  sends sound\r}\r")).toHaveLength(1);
  });

  it("lay out by changing only lines that differ, and leave a laid out text alone", () => {
    const text = 'setup "a"\njoin   laptop {\nsends   sound # as ever\n}\n';
    const edits = formatting("a", text);
    if ("refused" in edits) throw new Error(edits.refused);
    expect(applyEdits(text, edits)).toBe('setup "a"\njoin laptop {\n  sends sound   # as ever\n}\n');
    expect(edits.every((edit) => edit.start >= 10)).toBe(true);
    expect(formatting("a", applyEdits(text, edits))).toEqual([]);
    const windows = formatting("a", text.replaceAll("\n", "\r\n"));
    expect("refused" in windows ? "" : applyEdits(text.replaceAll("\n", "\r\n"), windows)).toBe('setup "a"\r\njoin laptop {\r\n  sends sound   # as ever\r\n}\r\n');
  });
});

describe("explanations", () => {
  it("there are of every code, in any case, and of no other", () => {
    for (const { code, title } of CATALOGUE) expect(explain(code.toUpperCase())?.markdown).toContain(`# ${title}`);
    expect(explain("no-such-code")).toBeUndefined();
  });
});
