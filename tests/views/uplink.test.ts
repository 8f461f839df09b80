/** The steps in which streams are given up, as a drawing. */
import { describe, expect, it } from "vitest";
import { fallbackTables } from "../../server/figures/fallback-table";
import { study } from "../../server/study";
import { drawUplink, stretchesOf } from "../../server/views/uplink/draw";
import { bothwaysFiles, inMemory } from "../language/folder";
import { studyOf } from "./plans";
import { all, parseXml } from "./xml";

const FILES = bothwaysFiles("samples");
const tableOf = (name: string) => fallbackTables(study(inMemory(FILES), `samples/${name}.bothways`).setup)[0] ?? expect.fail("no table");

const texts = (svg: string): string[] => all(parseXml(svg)).filter(({ tag }) => tag === "text").map(({ text }) => text);

describe("what fits for every uplink, drawn", () => {
  it.each(["thin-lines/upstairs", "thin-lines/tent", "association/autumn"])("%s: well formed in every theme, the same each time, one strip for each stream", (name) => {
    const table = tableOf(name);
    for (const theme of [undefined, "light", "dark", "contrast", "print"] as const) {
      const svg = drawUplink("An evening", table, theme);
      expect(drawUplink("An evening", table, theme)).toBe(svg);
      expect(all(parseXml(svg)).filter(({ attributes }) => attributes["class"] === "strip").length).toBe(table.ladders.flat().length);
    }
  });

  it("climbs where the table says, and never down as the uplink grows", () => {
    const table = tableOf("thin-lines/upstairs");
    const stretches = stretchesOf(table);
    expect(stretches.map(({ from }) => Math.round((from * table.share) / 1000))).toEqual([...table.best].reverse().map(({ cost }) => Math.round(cost / 1000)));
    for (const { attributes: { d } } of all(parseXml(drawUplink("An evening", table))).filter(({ attributes }) => attributes["class"] === "stair")) {
      const points = [...(d ?? "").matchAll(/[ML] ?(-?[\d.]+)[ ,]+(-?[\d.]+)/gu)].map((m) => [Number(m[1]), Number(m[2])] as const);
      expect(points.length).toBeGreaterThan(1);
      for (let i = 1; i < points.length; i += 1) expect(points[i]?.[0]).toBeGreaterThanOrEqual(points[i - 1]?.[0] ?? NaN);
    }
  });

  it("tells every step in words, too", () => {
    const [words] = all(parseXml(drawUplink("An evening", tableOf("thin-lines/upstairs")))).filter(({ tag }) => tag === "desc");
    expect(words?.text).toMatch(/laptop\.camera at 540p30/u);
    expect(words?.text).toMatch(/Below that nothing fits: dial in by telephone\./u);
  });

  it("shows names as names, whatever is in them", () => {
    const evening = studyOf('setup "<script>alert(1)</script> & co"\nroom hall 8 m by 6 m by 3 m\ninternet venue { up 2 Mb/s guessed }\nplace laptop is laptop, at lectern\njoin laptop { sends picture from laptop.camera at 720p30 }\n');
    const [table] = fallbackTables(evening.setup);
    expect(texts(drawUplink(evening.setup.title, table ?? expect.fail("no table"))).join(" ")).toContain("<script>alert(1)</script> & co");
  });
});
