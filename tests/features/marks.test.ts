/** How a text is shown: what is alike, how a selection grows, links, marks of words, hints beside lines, names of a folder. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { highlights } from "../../server/features/highlights";
import { inlayHints } from "../../server/features/inlay-hints";
import { joinLenses } from "../../server/features/lenses";
import { links } from "../../server/features/links";
import { selection } from "../../server/features/selection";
import { semanticTokens } from "../../server/features/semantic-tokens";
import { matches, namesGiven } from "../../server/features/workspace-symbols";
import { withUnit } from "../../server/model/show";
import { bothwaysFiles } from "../language/folder";
import { chance, damages } from "../grammar/damages";
import { asked, marked } from "./marked";

const words = (text: string, spans: readonly { start: number; end: number }[]): string[] => spans.map(({ start, end }) => text.slice(start, end));

describe("what is alike", () => {
  it("is every place of the name, the one that gives it told apart", () => {
    const of = marked('setup "a"\ntalker ⟦In⟨⟩es⟧ at lectern\nplace lapel is lapel-microphone, on ⟦ines⟧\nplace ines-cam is webcam, at front\n');
    const found = highlights(asked(of), of.cursor);
    expect(found.map(({ start, end }) => ({ path: of.path, start, end }))).toEqual(of.ranges);
    expect(found.map((one) => one.declares)).toEqual([true, false]);
  });
  it("is nothing where no name is", () => {
    const of = marked('setup "a⟨⟩"\n');
    expect(highlights(asked(of), of.cursor)).toEqual([]);
  });
});

describe("a selection", () => {
  it("grows from the word to its value, its statement, its block and the whole text", () => {
    const of = marked('setup "a"\nroom hall 9 m by 6 m {\n  noise 3⟨⟩8 dBA measured 2026-10-07\n  floor wood\n}\n');
    expect(words(of.text, selection(asked(of), of.cursor))).toEqual([
      "38", "38 dBA", "noise 38 dBA measured 2026-10-07", "noise 38 dBA measured 2026-10-07\n  floor wood", "{\n  noise 38 dBA measured 2026-10-07\n  floor wood\n}",
      "room hall 9 m by 6 m {\n  noise 38 dBA measured 2026-10-07\n  floor wood\n}", of.text,
    ]);
  });
  it("takes one of several facts of a line before the line", () => {
    const of = marked('setup "a"\nplace lapel is lapel-microphone, on I⟨⟩nes, windshield\n');
    const found = words(of.text, selection(asked(of), of.cursor));
    expect(found).toContain("on Ines");
    expect(found).toContain("place lapel is lapel-microphone, on Ines, windshield");
  });
  it("at every place of every sample grows step by step, each around the one before", () => {
    for (const [path, text] of bothwaysFiles("samples")) {
      const of = { files: new Map([[path, text]]), path, text, cursor: 0, ranges: [] };
      const about = asked(of);
      for (let at = 0; at <= text.length; at += 7) {
        const spans = selection(about, at);
        expect(spans.at(-1)).toEqual({ start: 0, end: text.length });
        spans.forEach((span, i) => {
          const outer = spans[i + 1];
          expect(span.start <= at && at <= span.end).toBe(true);
          if (outer !== undefined) expect(outer.start <= span.start && span.end <= outer.end && outer.end - outer.start > span.end - span.start).toBe(true);
        });
      }
    }
  });
});

describe("links", () => {
  it("lead to the files that are taken in, where there are such", () => {
    const of = marked({ "a/b.bothways": 'setup "a"\nuse ⟦"../kit.bothways"⟧\nuse "missing.bothways"\nuse "../../../etc/passwd"\n', "kit.bothways": "device laptop is laptop\n" });
    expect(links(asked(of))).toEqual([{ start: of.ranges[0]?.start, end: of.ranges[0]?.end, target: "kit.bothways" }]);
  });
});

describe("marks of words", () => {
  it("tell names by what they stand for, and words of the language", () => {
    const of = marked('setup "a"   # a remark\nkind tube is a microphone { port plug is xlr }\nplace one is tube, at lectern\ntalker Ines at lectern\nroom hall 9 m by 6 m { noise 38 dBA }\nnonsense here\n');
    const told = semanticTokens(asked(of)).map((one) => `${of.text.slice(one.start, one.end)}:${one.kind}${one.marks.map((mark) => `+${mark}`).join("")}`);
    for (const one of ["setup:keyword", '"a":string', "# a remark:comment", "tube:class+declaration", "tube:class", "plug:property+declaration", "one:variable+declaration", "Ines:parameter+declaration", "hall:namespace+declaration", "9:number", "dBA:number", "by:operator", "xlr:enumMember", "lectern:struct+defaultLibrary"]) expect(told, one).toContain(one);
    expect(told.some((one) => one.startsWith("nonsense"))).toBe(false);
  });
  it("never lie over one another nor over a line's end, and those of a stretch are those of the whole, in any damaged text", () => {
    const samples = [...bothwaysFiles("samples").values()];
    fc.assert(fc.property(fc.nat(samples.length - 1), fc.nat(5000), fc.nat(), (which, at, seed) => {
      const sound = samples[which] ?? "";
      const random = chance(seed);
      const made = damages(sound, at % sound.length, random);
      const text = made[random(Math.max(1, made.length))]?.text ?? sound;
      const about = asked({ files: new Map([["a.bothways", text]]), path: "a.bothways", text, cursor: 0, ranges: [] });
      const all = semanticTokens(about);
      all.forEach((one, i) => {
        expect(one.start < one.end && one.start >= (all[i - 1]?.end ?? 0)).toBe(true);
        expect(text.slice(one.start, one.end)).not.toMatch(/[\r\n]/u);
      });
      const half = { start: Math.floor(text.length / 3), end: Math.floor((2 * text.length) / 3) };
      expect(semanticTokens(about, half)).toEqual(all.filter((one) => one.end > half.start && one.start < half.end));
    }), { numRuns: 40 });
  });
});

const EVENING = `setup "Choir"
room hall 9 m by 6 m { reverberation 0.8 s, chairs 24 in 4 rows }
talker Ines at lectern
place laptop is laptop, at lectern
place box is battery-loudspeaker, near front
cable from laptop.headset to box.line
internet venue { up 4 Mb/s measured 2026-10-07 18:40 }
join laptop {
  sends sound
  sends picture from laptop.camera at 720p30
  plays sound on box
}
online 8 people
`;

describe("hints beside lines", () => {
  const of = marked(EVENING);
  const about = asked(of);
  const lineOf = (at: number): string => EVENING.slice(EVENING.lastIndexOf("\n", at - 1) + 1, EVENING.indexOf("\n", at));

  it("tell what was computed of what the line states, with formula and source", () => {
    const hints = inlayHints(about, undefined, ["computed"]);
    const figure = (name: string): number => about.study().figures().find((f) => f.name === name)?.value ?? NaN;
    const told = hints.map((hint) => `${lineOf(hint.at).trim().split(" ").slice(0, 2).join(" ")}: ${hint.label}`);
    expect(told).toContain(`place box: plays at ${figure("level at 1 m when playing speech").toPrecision(3)} dBA at 1 m`);
    expect(told).toContain("sends picture: 2.6 Mb/s");
    expect(told.some((one) => one.startsWith(`internet venue: ${withUnit(figure("uplink that can be counted on"), "Mb/s")} can be counted on`)), told.join("\n")).toBe(true);
    expect(hints.every((hint) => hint.tooltip.length > 10)).toBe(true);
  });
  it("tell assumptions at the line of what they are about, and only where a finding hangs on them", () => {
    const twice = `${EVENING}place phone is phone, near front\njoin phone\n`;
    const about = asked(marked(twice));
    const lineOf = (at: number): string => twice.slice(twice.lastIndexOf("\n", at - 1) + 1, twice.indexOf("\n", at));
    const hints = inlayHints(about, undefined, ["assumed"]);
    const assumed = about.study().findings.filter((f) => f.severity !== "plan").flatMap((f) => f.assumed.map((a) => a.text));
    expect(assumed.length).toBeGreaterThan(0);
    expect(hints.length).toBeGreaterThan(0);
    for (const hint of hints) {
      expect(assumed.map((text) => `assumed: ${text}`)).toContain(hint.label);
      // It stands at a line that names what it is about.
      const name = /^(?:place|talker|room|internet|join) (\S+)/u.exec(lineOf(hint.at).trim())?.[1] ?? "chairs";
      expect(hint.label).toContain(name);
    }
  });
  it("stand behind the line, never before a comma, and say of what they speak where statements share one", () => {
    const line = "join laptop { sends picture from laptop.camera at 720p30, sends sound, plays sound on box }   # as last time";
    const shared = EVENING.replace(/join laptop \{[\s\S]*?\n\}/u, line);
    expect(shared).toContain(line);
    const hints = inlayHints(asked(marked(shared)), undefined, ["computed"]);
    for (const hint of hints) expect(shared.slice(hint.at).split("\n")[0]?.trim()).toBe("");
    const ofJoin = hints.filter((hint) => hint.at === shared.indexOf(line) + line.length).map((hint) => hint.label);
    expect(ofJoin[0]).toBe("laptop.camera at 720p30: 2.6 Mb/s");
    expect(hints.find((hint) => hint.label.includes("plays at"))?.label).toMatch(/^plays at/u);
  });
  it("are only those that are wanted, and only those of the stretch", () => {
    expect(inlayHints(about, undefined, [])).toEqual([]);
    const at = EVENING.indexOf("place box");
    const some = inlayHints(about, { start: at, end: at + 5 }, ["computed"]);
    expect(some.map((hint) => lineOf(hint.at))).toEqual(some.map(() => "place box is battery-loudspeaker, near front"));
    expect(some.length).toBeGreaterThan(0);
  });
  it("are none in a kit", () => {
    const kit = marked({ "kit.bothways": "device box is battery-loudspeaker\n" });
    expect(inlayHints(asked(kit))).toEqual([]);
  });
});

describe("lenses at joins", () => {
  it("tell what is sent, how long the battery lasts, and what was found", () => {
    const about = asked(marked(EVENING));
    const found = joinLenses(about.study());
    const sent = about.study().figures().filter((f) => f.name === "sent in all").map((f) => f.value);
    expect(found.every((lens) => EVENING.slice(lens.start).startsWith("join laptop"))).toBe(true);
    expect(found[0]?.title).toBe(`sends up to ${Math.max(...sent).toPrecision(2)} Mb/s`);
    expect(found.at(-1)?.title).toMatch(/^(nothing found|\d+ found: )/u);
  });
});

describe("names of a folder", () => {
  it("are those that a text gives, each where it is given", () => {
    const text = 'setup "a"\nroom hall 9 m by 6 m { spot pulpit at (1 m, 1 m) }\nkind tube is a microphone { port plug is xlr }\nplace one is tube\nplace two at front\ndevices mic 1 to 3 is tube\ntalker Ines at lectern\n';
    expect(namesGiven(text).map((one) => `${one.head} ${one.name}${one.within === undefined ? "" : ` in ${one.within}`}`)).toEqual([
      "room hall", "spot pulpit in hall", "kind tube", "port plug in tube", "place one", "devices mic", "talker Ines",
    ]);
    for (const one of namesGiven(text)) expect(text.slice(one.start, one.end)).toBe(one.name);
  });
  it.each([["stage-camera", "scam", true], ["Ines", "INES", true], ["Ines", "sen", false], ["box", "", true]])("%s by %s: %s", (name, typed, fits) => {
    expect(matches(name, typed)).toBe(fits);
  });
});
