/** Texts as they are while somebody types, merges, or opens what is no setup: no feature throws, none answers with a place outside the text. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fixActions, spellingActions } from "../../server/features/code-actions";
import { completion } from "../../server/features/completion";
import { definition } from "../../server/features/definition";
import { diagnosticsOfPart, diagnosticsOfSetup } from "../../server/features/diagnostics";
import { folding } from "../../server/features/folding";
import { formatting } from "../../server/features/formatting";
import { hover } from "../../server/features/hover";
import { lenses } from "../../server/features/lenses";
import { occurrences } from "../../server/features/names";
import { outline, type OutlineNode } from "../../server/features/outline";
import { references } from "../../server/features/references";
import { rename, renameable } from "../../server/features/rename";
import { applyEdits } from "../../server/model/edits";
import { bothwaysFiles } from "../language/folder";
import { asked, type Marked } from "./marked";

/** Chance is the same each time; more runs are asked for with PROPERTY_RUNS, times the usual number. */
const runs = (count: number): { numRuns: number; seed?: number } => {
  const times = Number(process.env["PROPERTY_RUNS"] ?? "1");
  return times === 1 ? { numRuns: count, seed: 20261125 } : { numRuns: count * times };
};

const KIT = `device laptop is laptop\ndevices mic 1 to 3 is lapel-microphone\nkind hörrohr is a microphone { mouth 10 cm }\n`;
const EVENING = `bothways 1
setup "Chorprobe"
use "kit.bothways"
use "kit-2.bothways" as theirs
room Gemeindesaal 9 m by 6 m by 3 m {
  noise 38 dBA
  chairs 24 in 4 rows { pitch 0.9 m }
  spot kanzel at (2.0 m, 2.2 m, 1.2 m)
  outlet wand at back, sockets 2
}
item begrüßung from 18:30 to 19:00
item fragen, talkers audience
talker Ines at kanzel, repeats audience during fragen
place laptop on table beside lectern
place box is battery-loudspeaker, near front, aim audience
place ohr is hörrohr, on Ines
place desk is mixer, at operator
cable from each mic.plug to desk.in-1 and desk.in-2 and desk.in-3
mixer desk {
  channel stimme from desk.in-1, trim -6 dB
  bus saal to desk.main-left { holds stimme at -3 dB, holds no stimme during fragen }
}
internet venue { up 4.0 Mb/s measured 2026-10-07 18:40 }
join laptop over venue {
  sends picture from laptop.camera at 720p30
  plays sound on box
  shows call on laptop.screen, faces 4
}
accept one-device-carries-all of laptop because "so be it"
`;

/** What damages a text, by hand or by machine. */
const PIECES = ["{", "}", "(", ")", ",", "\"", "“", "#", "\n", "\r\n", "\r", "\t", " ", "\ufeff", "\u0000", "\ud83d", "😀", "e\u0301", "ö", "o\u0308", ".", "..", "each ", "during ",
  "from ", "and ", "at ", "during", "no ", "about ", "3,2 m", "9 m", "<<<<<<< mine\n", "=======\n", ">>>>>>> theirs\n", "use \"kit.bothways\"\n", "use \"", "place ", "is ", "mic-2.plug", "laptop.", "theirs.mic-1.plug", "\u2028", "bothways 1", "row 3 of "];
const change = fc.record({ at: fc.nat({ max: 2000 }), cut: fc.oneof(fc.nat({ max: 4 }), fc.nat({ max: 80 })), put: fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 3, unit: "binary" })) });
const damaged = (text: string): fc.Arbitrary<string> => fc.array(change, { maxLength: 4 }).map((changes) => changes.reduce((now, { at, cut, put }) => {
  const from = Math.min(at % (now.length + 1), now.length);
  return now.slice(0, from) + put + now.slice(from + cut);
}, text));
const lineEnds = fc.constantFrom("\n", "\r\n", "\r");
const texts = fc.record({ evening: damaged(EVENING), kit: damaged(KIT), ends: lineEnds, mark: fc.boolean(), cursor: fc.nat({ max: 2000 }), form: fc.constantFrom("NFC", "NFD") });

const within = (text: string | undefined, { start, end }: { start: number; end: number }): void => {
  expect(text).toBeDefined();
  expect(start).toBeGreaterThanOrEqual(0);
  expect(end).toBeGreaterThanOrEqual(start);
  expect(end).toBeLessThanOrEqual(text?.length ?? -1);
};

/** Asks everything at one place of a text that needs no study. */
function askAll(of: Marked, root?: string): void {
  const here = asked(of, root);
  const textOf = (path: string): string | undefined => of.files.get(path);
  for (const offer of completion(here, of.cursor, [...of.files.keys()])) {
    within(of.text, offer.replaces);
    expect(offer.replaces.start).toBeLessThanOrEqual(of.cursor);
    expect(offer.replaces.end).toBeGreaterThanOrEqual(of.cursor);
    expect(offer.label).not.toBe("");
  }
  const shown = hover({ ...here, setup: { ...here.setup, isSetup: false } }, of.cursor);
  if (shown !== undefined) {
    within(of.text, shown);
    expect(shown.start).toBeLessThanOrEqual(of.cursor);
    expect(shown.end).toBeGreaterThanOrEqual(of.cursor);
    expect(shown.markdown).not.toMatch(/undefined|NaN|\[object/);
  }
  const visit = (node: OutlineNode): void => {
    within(of.text, node.whole);
    expect(node.words.start).toBeGreaterThanOrEqual(node.whole.start);
    expect(node.words.end).toBeLessThanOrEqual(node.whole.end);
    for (const child of node.children) {
      expect(child.whole.start).toBeGreaterThanOrEqual(node.whole.start);
      expect(child.whole.end).toBeLessThanOrEqual(node.whole.end);
      visit(child);
    }
  };
  outline(here).forEach(visit);
  for (const at of definition(here, of.cursor)) within(textOf(at.path), at);
  const all = occurrences(here.setup);
  for (const one of all) {
    within(textOf(one.path), one);
    expect(one.end, textOf(one.path)?.slice(one.start, one.end)).toBeGreaterThan(one.start);
  }
  const setups = (): readonly [typeof here.setup] => [here.setup];
  for (const at of references(setups, of.path, of.cursor, true)) within(textOf(at.path), at);
  const may = renameable(setups, of.path, of.cursor);
  if (may !== undefined && !("refused" in may)) {
    within(of.text, may);
    const edits = rename(setups, here.texts, of.path, of.cursor, "quite-new");
    if (!("refused" in edits)) {
      expect(edits.length).toBeGreaterThan(0);
      for (const edit of edits) within(textOf(edit.path), edit);
    }
  }
  for (const fold of folding(of.text)) within(of.text, fold);
  const formatted = formatting(of.path, of.text);
  if (!("refused" in formatted)) for (const edit of formatted) within(of.text, edit);
}

const endings = (text: string, ends: string): string => text.replace(/\r\n|\n|\r/g, ends);

describe("damaged texts", () => {
  it("let no feature throw, nor point outside the text", () => {
    fc.assert(fc.property(texts, ({ evening, kit, ends, mark, cursor, form }) => {
      const text = `${mark ? "\ufeff" : ""}${endings(evening, ends)}`.normalize(form);
      const files = new Map([["evening.bothways", text], ["kit.bothways", endings(kit, ends)], ["kit-2.bothways", KIT]]);
      askAll({ files, path: "evening.bothways", text, cursor: cursor % (text.length + 1), ranges: [] });
      const kitText = files.get("kit.bothways") ?? "";
      askAll({ files, path: "kit.bothways", text: kitText, cursor: cursor % (kitText.length + 1), ranges: [] }, "evening.bothways");
    }), runs(250));
  });

  it("let no judged feature throw either", () => {
    fc.assert(fc.property(texts, ({ evening, kit, ends, mark, cursor }) => {
      const text = `${mark ? "\ufeff" : ""}${endings(evening, ends)}`;
      const files = new Map([["evening.bothways", text], ["kit.bothways", endings(kit, ends)], ["kit-2.bothways", KIT]]);
      const of: Marked = { files, path: "evening.bothways", text, cursor: cursor % (text.length + 1), ranges: [] };
      const here = asked(of);
      const judged = here.study();
      const shown = diagnosticsOfSetup(judged);
      for (const one of shown) {
        within(text, one);
        expect(one.message).not.toMatch(/undefined|NaN|\[object/);
        for (const { where } of one.related) within(files.get(where.path), where);
      }
      for (const one of diagnosticsOfPart(judged, "kit.bothways")) within(files.get("kit.bothways"), one);
      for (const lens of lenses(judged)) within(text, lens);
      hover(here, of.cursor);
      const errors = judged.problems.filter((problem) => problem.severity === "error").length;
      for (const action of spellingActions(here.texts, here.setup, shown, of.path, { start: 0, end: text.length })) {
        const [edit] = action.edits;
        if (edit !== undefined) within(text, edit);
        const after = new Map(files).set(of.path, applyEdits(text, action.edits));
        expect(asked({ ...of, files: after }).study().problems.filter((problem) => problem.severity === "error").length).toBeLessThanOrEqual(errors);
      }
      // One step is enough: every trial costs a study.
      fixActions(here.texts, judged, { start: of.cursor, end: of.cursor }).next();
    }), runs(25));
  });

  const ODD: Readonly<Record<string, string>> = {
    "an empty file": "", "a mark alone": "\ufeff", "a line end alone": "\r\n", "comments only": "# nothing yet\n\n   # still nothing", "a quotation that is not closed": 'setup "Choir', "a brace alone": "{", "a closing brace alone": "}",
    "a picture": "\u0000\u0001\u0002\ufffd\u0000", "only blanks": " \t \u00a0", "both sides of a merge": `<<<<<<< mine\n${EVENING}=======\n${EVENING}>>>>>>> theirs\n`,
    "blocks within blocks": "a {".repeat(400), "a circle of files": 'setup "x"\nuse "evening.bothways"\n', "a very long word": `place ${"x".repeat(5000)}.${"y".repeat(5000)}`,
  };
  it.each(Object.entries(ODD))("of the kind “%s” are answered at every place", (_, text) => {
    const step = Math.max(1, Math.floor(text.length / 60));
    for (let cursor = 0; cursor <= text.length; cursor += step) askAll({ files: new Map([["evening.bothways", text]]), path: "evening.bothways", text, cursor, ranges: [] });
  });

  it("of every language text and sample are answered at places all over", () => {
    const files = new Map([...bothwaysFiles("tests/language"), ...bothwaysFiles("samples")]);
    expect(files.size).toBeGreaterThan(8);
    for (const [path, text] of files) {
      for (let i = 0; i < 12; i += 1) askAll({ files, path, text, cursor: Math.floor((text.length * (i + 0.5)) / 12), ranges: [] }, path);
    }
  });
});
