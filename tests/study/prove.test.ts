/** A remedy is given up as soon as its finding is sure to stay; that must never give up what the whole proof would have let pass. */
import { describe, expect, test } from "vitest";
import { holds, mends } from "../../server/fixes/prove";
import { applyEdits } from "../../server/model/edits";
import { study, type Study } from "../../server/study";
import { studyingWithout } from "../../server/study-without";
import { atOnce } from "../../server/pieces";
import { bothwaysFiles, inMemory } from "../language/folder";

const SAMPLES = bothwaysFiles("samples");
/** A setup of the bench: one mixer, eight items, many remedies that do not hold. */
const { makeSetup } = (await import(new URL("../../.scripts/make-setup.mjs", import.meta.url).href)) as { readonly makeSetup: (lines: number) => string };
const TEXTS: readonly (readonly [path: string, files: ReadonlyMap<string, string>])[] = [
  ...["parish-council/chamber-all-open", "low-moor-chapel/harvest-sent-back", "rowing-club/two-laptops", "gone-wrong/everything-twice", "reading-room/poetry-loop-forgotten", "association/autumn"]
    .map((name) => [[...SAMPLES.keys()].find((path) => path.endsWith(`${name}.bothways`)) ?? expect.fail(name), SAMPLES] as const),
  ["measured.bothways", new Map([["measured.bothways", makeSetup(100)]])],
];

/** The whole proof: the copy is studied to its end, and compared. */
function wholly(files: ReadonlyMap<string, string>, before: Study, finding: Study["findings"][number], edits: Parameters<typeof holds>[3]): boolean {
  const changed = new Map(files);
  for (const file of before.files) changed.set(file.path, applyEdits(file.text, edits.filter((edit) => edit.path === file.path)));
  return mends(before, study(inMemory(changed), before.root), finding);
}

describe("a remedy proven by its finding's own check first", () => {
  test.each(TEXTS)("holds where the whole proof holds and nowhere else: %s", (path, files) => {
    const before = study(inMemory(files), path);
    let tried = 0;
    for (const finding of before.findings) {
      for (const remedy of before.remedies(finding).slice(0, 8)) {
        tried += 1;
        expect(holds(inMemory(files), before, finding, remedy.edits), `${finding.identity}: ${remedy.title}`).toBe(wholly(files, before, finding, remedy.edits));
      }
    }
    expect(tried).toBeGreaterThan(0);
  });

  test("is given up before the rest is judged where nothing was changed, and judged to its end where the finding is sought in vain", () => {
    for (const [path, files] of [TEXTS[0], TEXTS.at(-1)].flatMap((one) => (one === undefined ? [] : [one]))) {
      const before = study(inMemory(files), path);
      const errors = before.problems.filter((p) => p.severity === "error").length;
      const [finding] = before.findings.filter((f) => f.folded.length === 0);
      const sought = { code: finding?.code ?? "", cause: finding?.identity.split(" | ")[1] ?? "", severity: finding?.severity ?? "error", errors };
      expect(atOnce(studyingWithout(inMemory(files), path, sought, before))).toBeUndefined();
      const after = atOnce(studyingWithout(inMemory(files), path, { ...sought, cause: "no such cause" }, before));
      expect(JSON.stringify([after?.findings, after?.ways, after?.questions, after?.problems])).toBe(JSON.stringify([before.findings, before.ways, before.questions, before.problems]));
    }
  });

  test("is given up where the text has more errors than it may have", () => {
    const [path, files] = TEXTS[0] ?? expect.fail("no texts");
    expect(atOnce(studyingWithout(inMemory(files), path, { code: "", cause: "", severity: "error", errors: -1 }, study(inMemory(files), path)))).toBeUndefined();
  });
});
