/** Places of an earlier text found again in the text as it is now. */
import { describe, expect, test } from "vitest";
import type { SourceFile } from "../../../server/model/files";
import { Moved } from "../../../server/model/watching/moved";

const PATH = "bees.bothways";
const file = (text: string): SourceFile => ({ path: PATH, text }) as SourceFile;
const BEFORE = "room barn\nplace desk\nplace lamp\nnote\n";

/** Where each word of the text before stands now; nothing where it cannot be told. */
const found = (after: string): Readonly<Record<string, string | undefined>> => {
  const moved = new Moved([file(BEFORE)], [file(after)]);
  return Object.fromEntries(["room barn", "place desk", "place lamp", "note"].map((words) => {
    const start = BEFORE.indexOf(words);
    const now = moved.of({ path: PATH, start, end: start + words.length });
    return [words, now && after.slice(now.start, now.end)];
  }));
};
const ALL = { "room barn": "room barn", "place desk": "place desk", "place lamp": "place lamp", note: "note" };

describe("what stands in the text before an edit stands after it", () => {
  test.each([
    ["nothing changed", BEFORE], ["a line before all", `# bees\n${BEFORE}`], ["a line after all", `${BEFORE}# bees\n`],
    ["a line that begins as the next one does", BEFORE.replace("place lamp", "place hive\nplace lamp")], ["a blank line", BEFORE.replace("place lamp", "\nplace lamp")],
    ["a comment behind a line", BEFORE.replace("place desk", "place desk  # oak")], ["blanks before a line", BEFORE.replace("place lamp", "  place lamp")],
  ])("%s", (_what, after) => {
    expect(found(after)).toEqual(ALL);
  });

  test("but for what was taken out or written otherwise", () => {
    expect(found(BEFORE.replace("place desk\n", ""))).toEqual({ ...ALL, "place desk": undefined });
    expect(found(BEFORE.replace("place desk", "site bench"))).toEqual({ ...ALL, "place desk": undefined });
  });

  test("together with what was changed in the midst of it", () => {
    expect(found(BEFORE.replace("desk", "bench"))).toEqual({ ...ALL, "place desk": "place bench" });
  });

  test("and not where its file is gone", () => {
    expect(new Moved([file(BEFORE)], []).of({ path: PATH, start: 0, end: 4 })).toBeUndefined();
    expect(new Moved([], [file(BEFORE)]).of({ path: PATH, start: 0, end: 4 })).toBeUndefined();
  });

  test("and it is known that nothing moved", () => {
    expect(new Moved([file(BEFORE)], [file(BEFORE)]).still).toBe(true);
    expect(new Moved([file(BEFORE)], [file(`${BEFORE}\n`)]).still).toBe(false);
    expect(new Moved([file(BEFORE)], [file(BEFORE.replace("barn", "shed"))]).still).toBe(false);
  });
});
