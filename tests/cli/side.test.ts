import { beforeAll, describe, expect, it } from "vitest";
import { bothways, build, folder, isPlainRefusal } from "./built";

const HALL = `setup "Fern"
room hall 12 m by 8 m by 4 m {
  chairs stalls 24 in 4 rows { first 3.2 m, pitch 0.9 m }
  chairs gallery 12 in 2 rows { first 8 m, pitch 0.9 m }
  screen wall at front, width 2.4 m
}
place beamer is projector, at (3 m, 4 m, 2.5 m), fills wall
place laptop is laptop, at (1 m, 1 m)
cable from laptop.hdmi to beamer.hdmi
join laptop { shows slides on beamer, text-height 4 % }
`;

beforeAll(build, 120_000);

describe("draw --view side", () => {
  it("draws the row that is asked for, and says in one line which rows there are where there is no such row", () => {
    const cwd = folder({ "a.bothways": HALL, "b.bothways": "setup \"Fern\"\nplace laptop is laptop\n" });
    const draw = (file: string, row: string) => bothways(cwd, "draw", file, "--view", "side", "--row", row);
    expect(draw("a.bothways", "2").out).toContain("From row 2 of stalls");
    expect(draw("a.bothways", "gallery.row-2").out).toContain("From row 2 of gallery");
    for (const row of ["5", "0", "front", "balcony.row-1", "gallery.row-3"]) {
      const ran = draw("a.bothways", row);
      expect(ran.err).toContain(`--row ${row}: there is no such row in a.bothways; stalls has rows 1 to 4 and gallery has rows 1 to 2`);
      expect(ran.err).toContain("name one so: stalls.row-1");
      expect(isPlainRefusal(ran)).toBe(true);
    }
    expect(draw("b.bothways", "1").err).toContain("no rows of seats are stated");
    expect(bothways(cwd, "draw", "a.bothways", "--view", "side").out).toMatch(/^<svg[\s\S]*<\/svg>\s*$/u);
  }, 120_000);
});
