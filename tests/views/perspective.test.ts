import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Perspective, ViewIn } from "../../server/signal/perspective/perspective";
import { glance, type Glance } from "../../server/study";
import { drawPerspective } from "../../server/views/perspective/draw";
import { frameOf, type ViewForm } from "../../server/views/perspective/frame";
import { labelsOf } from "../../server/views/perspective/labels";
import { THEMES } from "../../server/views/svg/palette";
import { boxOf, meet } from "../../server/views/svg/text";
import { hall, RING, SCHOOLROOM } from "./plans";
import { all, parseXml, type XmlElement } from "./xml";

const HOSTILE = SCHOOLROOM.replace("\"Fern society\"", "\"</svg><script>alert(1)</script> & \u202Eelif\"").replaceAll("stage-camera", "so-long-a-name-".repeat(12));
const VIEWS: readonly (readonly [name: string, text: string, view: ViewIn, of: string])[] = [
  ["a camera", SCHOOLROOM, "camera", "stage-camera"], ["a seat", SCHOOLROOM, "seat", "audience.row-4.seat-6"], ["a talker", SCHOOLROOM, "seat", "Ines"],
  ["a ring", RING, "camera", "laptop"], ["hostile names", HOSTILE, "camera", "so-long-a-name-".repeat(12)], ["hardly anything", "setup \"October\"\nplace laptop is laptop\n", "camera", "laptop"],
];

const looked = (text: string): Glance => glance({ read: (path) => (path === "evening.bothways" ? { text } : { problem: "there is no such file" }) }, "evening.bothways");

function of(study: Glance, view: ViewIn, name: string): Perspective {
  const seen = study.sees(view, name);
  if ("known" in seen) throw new Error(seen.known);
  return seen;
}
const elements = (svg: string): XmlElement[] => all(parseXml(svg));

/** Words on words, and words outside the frame. */
function overlapsIn(seen: Perspective, form: ViewForm = "whole"): string[] {
  const frame = frameOf(seen, form);
  const { labels, marks } = labelsOf(seen, frame);
  const boxes = [...labels.map(({ text }) => ({ ...boxOf(text), what: text.text })), ...marks.map(({ plate, text }) => ({ ...plate, what: text.text }))];
  return boxes.flatMap((one, i) => [
    ...boxes.slice(i + 1).filter((other) => meet(one, other)).map((other) => `${one.what} on ${other.what}`),
    ...(one.x < 20 || one.x + one.width > 20 + frame.width || one.y < 78 || one.y + one.height > 78 + frame.height ? [`${one.what} outside`] : []),
  ]);
}

describe.each(VIEWS)("the view of %s", (_, text, view, name) => {
  const seen = of(looked(text), view, name);
  it("is well formed in every theme, asks for nothing from outside, and is the same each time", () => {
    for (const theme of [undefined, ...THEMES]) {
      const options = theme === undefined ? {} : { theme };
      const svg = drawPerspective(seen, options);
      expect(drawPerspective(of(looked(text), view, name), options)).toBe(svg);
      const every = elements(svg);
      expect(every[0]?.tag).toBe("svg");
      expect(svg).not.toMatch(/NaN|Infinity|undefined/u);
      expect(every.filter((each) => ["script", "image", "use", "foreignObject", "a", "animate", "set"].includes(each.tag))).toEqual([]);
      expect(every.flatMap((each) => Object.entries(each.attributes)).filter(([key, value]) => key.startsWith("on") || key.includes("href") || /url\(|javascript:/iu.test(value))).toEqual([]);
    }
  });
  it("has no words on words, none outside, and is told in words", () => {
    expect([overlapsIn(seen), overlapsIn(seen, "panel")]).toEqual([[], []]);
    // Beside a text in half a window words are as large in a smaller picture.
    const widths = (["whole", "panel"] as const).map((form) => Number(elements(drawPerspective(seen, { form }))[0]?.attributes["width"]));
    expect(widths).toEqual([1000, 680]);
    const every = elements(drawPerspective(seen));
    expect(every.find(({ tag }) => tag === "title")?.text).toMatch(/^(What .+ frames|Seen from .+): /u);
    expect(every.find(({ tag }) => tag === "desc")?.text).toContain("in true perspective");
  });
});

describe("a view", () => {
  it("leads from each thing to its line", () => {
    const every = elements(drawPerspective(of(looked(SCHOOLROOM), "seat", "audience.row-4.seat-6")));
    const lines = every.filter(({ attributes }) => "data-start" in attributes).map(({ attributes }) => SCHOOLROOM.slice(Number(attributes["data-start"]), Number(attributes["data-end"])).split("\n")[0]);
    for (const start of ["talker Ines", "place box", "place projector", "chairs 24"]) expect(lines.some((line) => line?.startsWith(start))).toBe(true);
    expect(every.filter(({ attributes }) => attributes["tabindex"] === "0").length).toBeGreaterThan(2);
    expect(elements(drawPerspective(of(looked(SCHOOLROOM), "seat", "Ines"), { stops: false })).filter(({ attributes }) => "tabindex" in attributes)).toEqual([]);
  });

  it("says in words what colour and lines show: who is cut off, what is hidden, what is not drawn", () => {
    const aside = SCHOOLROOM.replace("aim lectern", "aim (4 m, 6.2 m)");
    const svg = drawPerspective(of(looked(aside), "camera", "stage-camera"));
    const texts = elements(svg).filter(({ tag }) => tag === "text").map(({ text }) => text);
    expect(texts.some((text) => /^Ines: out of frame to the left by \d+°$/u.test(text))).toBe(true);
    expect(texts.join(" ")).toMatch(/audience: \d+ of 24 out of frame to the left/u);
  });

  it("draws a computer's own screen as large as it is, with what it shows", () => {
    const text = (shows: string): string => `setup "Desk"\nroom hall 8 m by 6 m by 3 m\nseat chair at (5 m, 3 m), faces front\nonline 4 people\ndevice laptop is laptop { part screen is a display { diagonal 15 inch } }\nplace laptop at (3 m, 3 m, 1.2 m)\njoin laptop { ${shows} }\n`;
    const laptop = (shows: string) => of(looked(text(shows)), "seat", "chair").things.find(({ name }) => name === "laptop") ?? expect.fail("no laptop");
    const looks = (shows: string): string[] => laptop(shows).surfaces.map(({ look }) => look);
    expect(looks("shows call on laptop.screen, faces 3").filter((look) => look === "tile")).toHaveLength(3);
    expect(looks("shows slides on laptop.screen, text-height 5 %")).toContain("sign");
    expect(looks("shows no call on laptop.screen").filter((look) => ["tile", "face", "sign"].includes(look))).toEqual([]);
    // By hand: 15 inch of 16:9 are 0.33208 m by 0.18680 m; 2 m away, level with the eyes, a lower edge is seen under 2 tan⁻¹(0.16604 / √(2² + 0.0934²)).
    const shows = "shows call on laptop.screen, faces 3";
    const { ring } = laptop(shows).surfaces.find(({ look }) => look === "picture") ?? expect.fail("no picture");
    const { horizontal, vertical } = of(looked(text(shows)), "seat", "chair");
    const [a, b] = ring.slice(0, 2).map(([x, y]) => [x * Math.tan((horizontal * Math.PI) / 360), y * Math.tan((vertical * Math.PI) / 360), 1] as const);
    if (a === undefined || b === undefined) expect.fail("no corners");
    const angle = Math.acos((a[0] * b[0] + a[1] * b[1] + 1) / Math.hypot(...a) / Math.hypot(...b));
    expect(angle).toBeCloseTo(2 * Math.atan(0.16604 / Math.hypot(2, 0.0934)), 5);
  });

  it("never writes the name of somebody who speaks under their feet, where others sit", () => {
    for (const [text, view, name] of [[SCHOOLROOM, "camera", "stage-camera"], [SCHOOLROOM, "seat", "audience.row-4.seat-6"], [RING, "seat", "audience.seat-1"]] as const) {
      const { labels } = labelsOf(of(looked(text), view, name));
      const talkers = labels.filter(({ thing }) => thing.kind === "talker");
      expect(talkers.length).toBeGreaterThan(0);
      for (const { text: words, thing } of talkers) expect(words.y).toBeLessThan(Math.max(...thing.surfaces.flatMap(({ ring }) => ring.map(([, up]) => 78 + ((1 - up) / 2) * 540))) + 1);
    }
  });

  it("stays bounded for two thousand seats, and says how many people are left out", () => {
    const study = looked(hall(40, 50));
    const seen = of(study, "seat", "audience.row-40.seat-25");
    const svg = drawPerspective(seen);
    expect(svg.length).toBeLessThan(1_000_000);
    expect(elements(svg).length).toBeLessThan(6000);
    const drawn = seen.things.filter(({ kind }) => kind === "person").length;
    expect(drawn).toBeGreaterThan(20);
    expect(seen.leftOut.hidden).toBeGreaterThan(100);
    expect(drawn + seen.leftOut.hidden + seen.leftOut.small).toBeLessThan(2000);
    expect(elements(svg).map(({ text }) => text).join(" ")).toContain(`${seen.leftOut.hidden} people quite behind others`);
    expect(drawPerspective(of(study, "seat", "Ada")).length).toBeLessThan(1_000_000);
  }, 60_000);

  it("is drawn for any room, however things are heaped", () => {
    const point = fc.tuple(fc.integer({ min: 0, max: 90 }), fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 30 })).map(([x, y, z]) => `at (${x / 10} m, ${y / 10} m, ${z / 10} m)`);
    const kind = fc.constantFrom("laptop", "webcam", "battery-loudspeaker", "projector", "flat-display", "phone");
    const things = fc.array(fc.tuple(kind, fc.oneof(point, fc.constantFrom("at lectern", "behind row 2", "near front", "at operator"))), { maxLength: 15 });
    fc.assert(fc.property(things, point, fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 9 }), (placed, eye, seats, rows) => {
      const text = `setup "Any"\nroom hall { corners (0 m, 0 m) (9 m, 0 m) (9 m, 4 m) (5 m, 4 m) (5 m, 6 m) (0 m, 6 m), chairs ${Math.max(seats, rows)} in ${rows} rows, table t at middle, column at (4 m, 2 m), stage at front, door at back, window at left }\ntalker Ines at lectern\nplace eye is webcam, ${eye}\n`
        + placed.map(([what, where], i) => `place thing-${i} is ${what}, ${where}\n`).join("");
      for (const [view, name] of [["camera", "eye"], ["seat", "audience.row-1.seat-1"], ["seat", "Ines"]] as const) {
        const seen = of(looked(text), view, name);
        expect(overlapsIn(seen)).toEqual([]);
        expect(drawPerspective(seen)).not.toMatch(/NaN|Infinity/u);
        for (const thing of seen.things) for (const { ring } of thing.surfaces) for (const [across, up] of ring) expect(Math.max(Math.abs(across), Math.abs(up))).toBeLessThanOrEqual(1 + 1e-9);
      }
    }), { numRuns: 12 });
  }, 120_000);
});
