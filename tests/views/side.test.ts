import { describe, expect, it } from "vitest";
import { floorProfile } from "../../server/signal/elevation/profile";
import { verticalField } from "../../server/signal/elevation/side-of";
import { drawSide } from "../../server/views/elevation/draw";
import { bodyBoxes, placeSide } from "../../server/views/elevation/place";
import type { SideScene } from "../../server/views/elevation/scene";
import { around } from "../../server/views/plan/things";
import { crosses } from "../../server/views/svg/taken";
import { boxOf, meet, type Text } from "../../server/views/svg/text";
import { THEMES } from "../../server/views/svg/palette";
import { raised, judged } from "../catalogue/harness";
import { DISPLAY_PAIRS } from "../catalogue/pairs/displays";
import { RING, SCHOOLROOM, studyOf } from "./plans";
import { all, parseXml } from "./xml";

const STEPPED = SCHOOLROOM.replace("chairs 24 in 4 rows { first 3.2 m, pitch 0.9 m }", "chairs 24 in 4 rows { first 3.2 m, pitch 0.9 m, riser 0.2 m }\n  stage 2 m by 6.4 m at front, height 0.6 m");
const HOSTILE = SCHOOLROOM.replace("\"Fern society\"", "\"</svg><script>alert(1)</script> & \u202Eelif\"").replaceAll("stage-camera", "so-long-a-name-".repeat(12));
const TEXTS: Readonly<Record<string, string>> = { schoolroom: SCHOOLROOM, ring: RING, "steps and a stage": STEPPED, hostile: HOSTILE, "hardly anything": "setup \"October\"\nplace laptop is laptop\n" };
const STUDIES = new Map(Object.entries(TEXTS).map(([name, text]) => [name, studyOf(text)] as const));
const sideOf = (name: string, row?: number) => (STUDIES.get(name) ?? expect.fail(`no ${name}`)).side(undefined, row === undefined ? undefined : { group: undefined, row });

const labelsOf = (scene: SideScene) => [...scene.pictures, ...scene.rows, ...scene.people, ...scene.things].flatMap(({ label }) => (label === undefined ? [] : [label]));
const textsOf = (scene: SideScene): Text[] => [...scene.texts, ...labelsOf(scene).flatMap(({ texts }) => texts), ...scene.key.map(({ text }) => text), ...scene.bar.texts];

function overlapsOf(scene: SideScene): string[] {
  const to = ({ x, y }: { x: number; y: number }) => ({ x: scene.left + x * scene.scale, y: scene.base - y * scene.scale });
  const texts = textsOf(scene).map((text) => ({ ...boxOf(text), what: `"${text.text}"` }));
  const marks = [...scene.things.map(({ thing, at }) => ({ ...around(at, 9), what: thing.name })), ...[...scene.rows.map(({ row }) => row), ...scene.people.map(({ person }) => person)].flatMap((person) => bodyBoxes(person, to, scene.scale).map((box) => ({ ...box, what: person.name })))];
  return texts.flatMap((text, i) => [
    ...[...texts.slice(i + 1), ...marks].filter((other) => meet(text, other)).map((other) => `${text.what} on ${other.what}`),
    ...(text.x < -0.01 || text.y < -0.01 || text.x + text.width > scene.width + 0.01 || text.y + text.height > scene.height + 0.01 ? [`${text.what} outside`] : []),
    ...scene.section.filter((corner, n) => crosses(corner, scene.section[(n + 1) % scene.section.length] ?? corner, text)).map(() => `${text.what} on a wall`),
    ...labelsOf(scene).filter(({ leader }) => leader !== undefined && crosses(leader[0], leader[1], text)).map(({ of }) => `the line to ${of} on ${text.what}`),
  ]);
}

describe.each(Object.keys(TEXTS))("the side elevation of %s", (name) => {
  it("is well formed in every theme, and asks for nothing from outside", () => {
    for (const theme of THEMES) {
      const svg = drawSide(sideOf(name), { theme });
      const every = all(parseXml(svg));
      expect(every[0]?.tag).toBe("svg");
      expect(every.filter((each) => ["script", "image", "use", "foreignObject", "a"].includes(each.tag))).toEqual([]);
      expect(drawSide(sideOf(name), { theme })).toBe(svg);
    }
  });

  it("has no words on words, people, marks, walls or thin lines, whole or beside a text", () => {
    for (const form of ["whole", "panel"] as const) expect(overlapsOf(placeSide(sideOf(name), form)), form).toEqual([]);
  });

  it("is small enough beside a text for its words to be read there", () => {
    const { scale } = placeSide(sideOf(name), "panel");
    expect(scale).toBeLessThanOrEqual(placeSide(sideOf(name)).scale);
    expect(all(parseXml(drawSide(sideOf(name), { form: "panel" })))[0]?.attributes["width"]).toSatisfy((width: string) => Number(width) <= 1100);
  });
});

describe("a side elevation", () => {
  it("is to scale both ways: a metre up is as long as a metre along, and as a metre of the bar", () => {
    const scene = placeSide(sideOf("schoolroom"));
    const said = Number(scene.bar.texts.at(-1)?.text.replace(" m", "")) / (scene.bar.stops.length - 1);
    expect(((scene.bar.stops[1] ?? 0) - (scene.bar.stops[0] ?? 0)) / said).toBeCloseTo(scene.scale, 9);
    const corners = scene.section.map(({ x, y }) => [(x - scene.left) / scene.scale, (scene.base - y) / scene.scale] as const);
    expect(Math.max(...corners.map(([x]) => x))).toBeCloseTo(9.2, 9);
    expect(Math.max(...corners.map(([, y]) => y))).toBeCloseTo(3.1, 9);
    const box = scene.things.find(({ thing }) => thing.name === "box");
    expect(box?.at).toEqual({ x: scene.left + 0.5 * scene.scale, y: scene.base - 1.4 * scene.scale });
  });

  it("draws sight lines from the eyes of the row asked for to both edges of the picture", () => {
    const view = sideOf("schoolroom", 2);
    const row = view.rows.find(({ chosen }) => chosen);
    expect(row?.row).toBe(2);
    // First row at 3.2 m, 0.9 m more to the second; eyes of who sits 1.2 m up.
    expect(row?.x).toBeCloseTo(4.1, 9);
    expect(row?.eye).toBeCloseTo(1.2, 9);
    expect(view.lines.map(([from, to]) => [from.x, from.y, to.y])).toEqual([[row?.x, row?.eye, view.pictures[0]?.bottom], [row?.x, row?.eye, view.pictures[0]?.top]]);
    expect((view.pictures[0]?.top ?? 0) - (view.pictures[0]?.bottom ?? 0)).toBeCloseTo(1.125, 9);
  });

  it("looks from the row that heads hide most from, and says what the finding measures", () => {
    // What columns and other displays hide hangs on where in a row one sits: the view from a seat shows that.
    for (const pair of DISPLAY_PAIRS.filter(({ code, subjects }) => code === "heads-block" && subjects.length === 1)) {
      const study = judged(pair.raises);
      const measured = raised(study, "heads-block")[0]?.measured?.value ?? NaN;
      const view = study.side();
      expect(view.result).toContain(`${Math.round(measured)} %`);
      expect(judged(pair.doesNot).side().hidden ?? 0).toBeLessThan(0.2);
    }
  });

  it("shows the floor with its stage and the steps of the rows, and people on them", () => {
    const view = sideOf("steps and a stage", 4);
    expect(view.floor[0]).toEqual({ x: 0, y: 0.6 });
    expect(Math.max(...view.rows.map(({ floor }) => floor))).toBeCloseTo(0.6, 6);
    for (const row of view.rows) expect(row.eye - row.floor).toBeCloseTo(1.2, 6);
    expect(view.people[0]?.floor).toBeCloseTo(0.6, 6);
  });

  it("goes straight up at a step", () => {
    const profile = floorProfile({ floorAt: ({ x }) => (x < 2 ? 0.6 : x < 5 ? 0 : 0.1 * (x - 5)) }, 9, 1);
    expect(profile.map(({ x, y }) => [Number(x.toFixed(1)), Number(y.toFixed(2))])).toEqual([[0, 0.6], [2, 0.6], [2, 0], [5, 0], [9, 0.4]]);
  });

  it("cuts a camera's field by floor, ceiling and walls", () => {
    const section = [{ x: 0, y: 0 }, { x: 10, y: 0 }, { x: 10, y: 3 }, { x: 0, y: 3 }];
    const camera = { position: [8, 2, 1.5] as const, aim: [2, 2, 1.5] as const, horizontal: 1, vertical: Math.PI / 6 };
    const field = verticalField(camera, section) ?? expect.fail("no field");
    // 15° up and down from 1.5 m: the front wall, 8 m away, would be met 2.14 m higher; the floor and the ceiling are met after 1.5 / tan 15° = 5.598 m.
    const xs = field.filter(({ y }) => y < 1e-6 || y > 3 - 1e-6).map(({ x }) => x);
    expect(Math.max(...xs)).toBeCloseTo(8 - 5.598, 2);
    // From the side a ray that is turned by 60° looks steeper: tan θ / cos 60°.
    const turned = verticalField({ ...camera, aim: [8 - 3, 2 + 3 * Math.sqrt(3), 1.5] }, section) ?? expect.fail("no field");
    expect(Math.max(...turned.filter(({ y }) => y < 1e-6).map(({ x }) => x))).toBeCloseTo(8 - 5.598 / 2, 2);
    expect(verticalField({ ...camera, aim: [8, 5, 1.5] }, section)).toBeUndefined();
  });

});
