import { converter, parse, type Color, filterDeficiencyDeuter, filterDeficiencyProt, filterDeficiencyTrit, wcagContrast } from "culori";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ASKS, type Ask } from "../../server/signal/ground-plan/plan";
import { drawnPlan } from "../../server/views/plan/draw";
import { place } from "../../server/views/plan/place";
import { crosses } from "../../server/views/svg/taken";
import { PALETTES, THEMES } from "../../server/views/svg/palette";
import { hall, overlapsIn, planAlone, RING, SCHOOLROOM, studyOf, textsIn } from "./plans";
import { all, parseXml, type XmlElement } from "./xml";

const HOSTILE = SCHOOLROOM.replace("\"Fern society\"", "\"</svg><script>alert(1)</script> & \u202Eelif\"").replaceAll("stage-camera", "so-long-a-name-".repeat(12));
const TEXTS: Readonly<Record<string, string>> = { schoolroom: SCHOOLROOM, ring: RING, "a hall": hall(30, 40), hostile: HOSTILE, "hardly anything": "setup \"October\"\nplace laptop is laptop\n" };
const STUDIES = new Map(Object.entries(TEXTS).map(([name, text]) => [name, studyOf(text)] as const));
const planOf = (name: string, ask?: Ask) => {
  const study = STUDIES.get(name);
  if (study === undefined) throw new Error(`no ${name}`);
  return study.plan(undefined, ask);
};
const elements = (svg: string): XmlElement[] => all(parseXml(svg));

describe.each(Object.keys(TEXTS))("the floor plan of %s", (name) => {
  it("is well formed in every theme, asks for nothing from outside, and is the same each time", () => {
    for (const theme of [undefined, ...THEMES]) {
      const svg = drawnPlan(planOf(name), theme === undefined ? {} : { theme }).svg;
      expect(drawnPlan(planOf(name), theme === undefined ? {} : { theme }).svg).toBe(svg);
      const every = elements(svg);
      expect(every[0]?.tag).toBe("svg");
      expect(every.filter((each) => ["script", "image", "use", "foreignObject", "a", "animate", "set"].includes(each.tag))).toEqual([]);
      expect(every.flatMap((each) => Object.entries(each.attributes)).filter(([key, value]) => key.startsWith("on") || key.includes("href") || /url\(|javascript:/iu.test(value) && key !== "aria-label")).toEqual([]);
    }
  });

  it.each(["nothing", ...ASKS] as const)("has no words on words, seats, marks, walls or thin lines, asked %s", (ask) => {
    for (const form of ["whole", "paper", "panel"] as const) expect(overlapsIn(place(planOf(name, ask === "nothing" ? undefined : ask), form))).toEqual([]);
  });
});

describe("a floor plan", () => {
  it("is to scale: what is a metre apart in the room is as far apart as a metre of the bar", () => {
    const scene = place(planOf("schoolroom"));
    const [first, second] = scene.bar.stops;
    const said = Number(scene.bar.texts.at(-1)?.text.replace(" m", "")) / (scene.bar.stops.length - 1);
    expect(((second ?? 0) - (first ?? 0)) / said).toBeCloseTo(scene.frame.scale, 9);
    const rows = scene.rows.map(({ seats }) => seats[0]?.at.y ?? 0);
    expect((rows[1] ?? 0) - (rows[0] ?? 0)).toBeCloseTo(0.9 * scene.frame.scale, 6);
    const box = scene.things.find(({ thing }) => thing.name === "box");
    expect(box?.at.x).toBeCloseTo(scene.frame.left + 5 * scene.frame.scale, 6);
    expect(box?.at.y).toBeCloseTo(scene.frame.top + 0.5 * scene.frame.scale, 6);
  });

  it("shows every device with its place, its height and what it points at", () => {
    const scene = place(planOf("schoolroom"));
    const said = (name: string): string => scene.things.find(({ thing }) => thing.name === name)?.label?.texts.map(({ text }) => text).join(" ") ?? "";
    expect(said("box")).toContain("0.5 m from front, 1.4 m from right, 1.4 m high points at audience");
    expect(said("Ines")).toContain("with lapel");
    expect(said("stage-camera")).toContain("about ");
    expect(scene.things.map(({ thing }) => thing.name).sort()).toEqual(["Ines", "back-wall", "box", "laptop", "projector", "stage-camera"]);
  });

  it("writes the value of every seat on it, and draws those that have not enough round", () => {
    const plan = planOf("schoolroom", "reads");
    const { answer } = plan;
    const scene = place(plan);
    const seats = scene.rows.flatMap((row) => row.seats);
    expect(seats).toHaveLength(24);
    seats.forEach((seat, i) => {
      const value = answer?.values[i] ?? NaN;
      expect(seat.number).toBe(String(value < 16 ? Math.min(15, Math.round(value)) : Math.round(value)));
      expect(seat.short).toBe(value < 16);
    });
    // By hand: 3 % of a picture 1.125 m high, seen from 3.0 m before it, 0.275 m aside and 0.5625 m below its middle, the lower edge being 1.2 m up: arctan(0.03375 / 3.0646).
    expect(Math.max(...Array.from(answer?.values ?? []))).toBeCloseTo(37.86, 2);
    const digits = elements(drawnPlan(plan).svg).filter((each) => /^n\d$/u.test(each.attributes["class"] ?? "")).map((each) => each.text).join("");
    expect([...digits].sort().join("")).toBe([...seats.map((seat) => seat.number).join("")].sort().join(""));
  });

  it("gives every name a place at its mark or a line to it, however many things stand together", () => {
    const heap = ["laptop", "mixer", "sound-interface", "picture-grabber", "projector", "webcam", "network-switch", "mobile-router"].map((kind, i) => `place thing-${i} is ${kind}, at operator\n`).join("");
    const scene = place(studyOf(`setup "Heap"\nroom hall 8 m by 5 m by 3 m { chairs 20 in 5 rows, outlet porch at back }\ntalker Ines at lectern\n${heap}`).plan());
    for (const { thing, at, radius, label } of scene.things) {
      const box = label?.box ?? expect.fail(`no words at ${thing.name}`);
      const [dx, dy] = [Math.max(box.x - at.x, 0, at.x - box.x - box.width), Math.max(box.y - at.y, 0, at.y - box.y - box.height)];
      expect(label?.leader !== undefined || Math.hypot(dx, dy) < radius + 18, `${thing.name} stands apart from its words`).toBe(true);
    }
  });

  it("says once where things are that are put in one place", () => {
    const scene = place(studyOf('setup "Desk"\nroom hall 9 m by 6 m by 3 m\nplace desk is mixer, at (8 m, 3 m)\nplace laptop is laptop, at (8 m, 3 m)\nplace eye is webcam, at (8 m, 3 m), height 2 m\n').plan());
    const said = (name: string): string => scene.things.find(({ thing }) => thing.name === name)?.label?.texts.map(({ text }) => text).join(" ") ?? "";
    expect(said("desk")).toBe("desk mixer 1.0 m from back, 3.0 m from left, 0.9 m high");
    expect(said("laptop")).toBe("laptop where desk is");
    expect(said("eye")).toContain("2.0 m high");
  });

  it("measures heights from the floor that a thing stands on, and says that it is a raised one", () => {
    const plan = studyOf('setup "Step"\nroom hall 12 m by 8 m by 5 m { stage at front, size 3 m by 6 m, height 0.8 m, outlet wing at (1 m, 2 m) }\nplace eye is webcam, at (2 m, 4 m), height 1.6 m\nplace laptop is laptop, at (2 m, 5.5 m)\nplace box is battery-loudspeaker, at (6 m, 4 m)\ncable from eye.usb to laptop.usb-1\nmains from wing to laptop\nmains from wing to box\n').plan(undefined, "cables");
    const words = place({ ...plan, asked: undefined, answer: undefined }).things.map(({ label }) => label?.texts.map(({ text }) => text).join(" ") ?? "").join("; ");
    expect(words).toContain("1.6 m above its floor");
    expect(words).toContain("1.2 m high");
    // By hand: 1.5 m apart, 1.6 m and 0.9 m down to the stage.
    expect(plan.routes.find(({ from }) => from === "eye.usb")?.length).toBeCloseTo(1.5 + 1.6 + 0.9, 9);
    // From the stage to the hall a lead goes down with the floor: 0.3 m and 1.2 m at its ends, and 0.8 m between.
    const box = plan.routes.find(({ to }) => to === "box") ?? expect.fail("no lead");
    const flat = box.points.slice(1).reduce((sum, p, i) => sum + Math.hypot(p.x - (box.points[i]?.x ?? 0), p.y - (box.points[i]?.y ?? 0)), 0);
    expect(box.length - flat).toBeCloseTo(0.3 + 1.2 + 0.8, 9);
  });

  it("strikes out no number: somebody who is drawn beside a seat is tied to its edge", () => {
    for (const ask of ["hears", "frame"] as const) {
      const scene = place(planOf("ring", ask));
      const moved = scene.things.filter(({ truly }) => truly !== undefined);
      expect(moved.length).toBeGreaterThan(11);
      for (const { seats } of scene.rows) {
        for (const { at } of seats) {
          const figure = { x: at.x - 6, y: at.y - 5, width: 12, height: 10 };
          expect(scene.things.filter((thing) => thing.moved !== undefined && crosses(...thing.moved, figure)).map(({ thing }) => thing.name)).toEqual([]);
        }
      }
    }
  });

  it("writes no length of nothing where two things stand together", () => {
    const plan = studyOf('setup "Desk"\nroom hall 9 m by 6 m by 3 m\nplace desk is mixer, at (8 m, 3 m)\nplace laptop is laptop, at (8 m, 3 m)\nplace far is laptop, at (1 m, 3 m)\ncable from desk.usb to laptop.usb-1\ncable from laptop.ethernet to far.ethernet\n').plan(undefined, "cables");
    expect(place(plan).routes.map(({ label }) => label !== undefined)).toEqual([false, true]);
  });

  it("says which cables are too short for their way", () => {
    const plan = planOf("schoolroom", "cables");
    const usb = plan.routes.find((route) => route.from === "stage-camera.usb");
    expect(usb?.length).toBeGreaterThan(5);
    expect(plan.asked?.result).toContain("too short");
    expect(textsIn(place(plan)).map(({ text }) => text).join(" ")).toContain("it is 5.0 m: too short");
  });

  it("stays bounded for two thousand seats, and every seat has its number", () => {
    const plan = planAlone(hall(40, 50), "reads");
    const { svg } = drawnPlan(plan);
    expect(elements(svg).length).toBeLessThan(1500);
    expect(svg.length).toBeLessThan(450_000);
    expect(place(plan).rows.flatMap(({ seats }) => seats).filter(({ number }) => number !== "")).toHaveLength(2000);
  }, 60_000);

  it("is told in words", () => {
    const { description } = drawnPlan(planOf("schoolroom", "reads"));
    expect(description).toContain("6.4 m wide, 9.2 m deep");
    expect(description).toContain("row 4 of audience: 6 seats");
    expect(description).toContain("box: 0.5 m from the front, 5.0 m from the left of 6.4 m");
  });

  it("is drawn for any room, however things are heaped", () => {
    const point = fc.tuple(fc.integer({ min: 0, max: 90 }), fc.integer({ min: 0, max: 60 })).map(([x, y]) => `at (${x / 10} m, ${y / 10} m)`);
    const kind = fc.constantFrom("laptop", "webcam", "battery-loudspeaker", "projector", "flat-display", "phone");
    const things = fc.array(fc.tuple(kind, fc.oneof(point, fc.constantFrom("at lectern", "behind row 2", "near front", "at operator"))), { maxLength: 25 });
    fc.assert(fc.property(things, fc.integer({ min: 1, max: 80 }), fc.integer({ min: 1, max: 9 }), (placed, seats, rows) => {
      const text = `setup "Any"\nroom hall 9 m by 6 m by 3 m { chairs ${Math.max(seats, rows)} in ${rows} rows, outlet one at back, outlet two at back, table t at middle }\ntalker Ines at lectern\n`
        + placed.map(([what, where], i) => `place thing-${i} is ${what}, ${where}\n`).join("");
      expect(overlapsIn(place(studyOf(text).plan()))).toEqual([]);
    }), { numRuns: 25 });
  }, 120_000);
});

describe("the check for overlaps", () => {
  it("finds words moved onto other words, onto a seat, onto a mark and outside", () => {
    const scene = place(planOf("schoolroom"));
    const [text] = scene.texts;
    const seat = scene.rows[0]?.seats[0];
    const mark = scene.things[0];
    if (text === undefined || seat === undefined || mark === undefined) throw new Error("nothing drawn");
    const moved = (x: number, y: number): string => overlapsIn({ ...scene, texts: [...scene.texts, { ...text, x, y }] }).join();
    expect(moved(text.x, text.y)).toContain(`${text.text}" on "`);
    expect(moved(seat.at.x, seat.at.y)).toContain("on a seat");
    expect(moved(mark.at.x, mark.at.y)).toContain("on the mark of Ines");
    expect(moved(-20, 10)).toContain("outside");
  });
});

/** OKLab after B. Ottosson (2020); simulation of colour vision after G. M. Machado and others (2009): both by a colour library. */
describe("the scale of colours", () => {
  const lab = converter("oklab");
  const steps = (theme: "light" | "dark" | "contrast" | "print") => ([1, 2, 3, 4, 5] as const).map((n) => ({ fill: PALETTES[theme][`step${n}`], ink: PALETTES[theme][`on${n}`] }));

  it.each(THEMES)("rises in even steps of lightness, for any kind of colour vision and in grey: %s", (theme) => {
    for (const seen of [undefined, filterDeficiencyProt(1), filterDeficiencyDeuter(1), filterDeficiencyTrit(1)]) {
      const lightness = steps(theme).map(({ fill }) => lab(seen === undefined ? fill : seen(parse(fill) as Color))?.l ?? NaN);
      const rises = lightness.slice(1).map((l, i) => l - (lightness[i] ?? 0));
      for (const rise of rises) {
        expect(rise).toBeGreaterThan(0.11);
        expect(rise).toBeLessThan(0.17);
      }
    }
  });

  it.each(THEMES)("lets the number on each step be read (WCAG 2.2, 1.4.3: 4.5 to 1): %s", (theme) => {
    for (const { fill, ink } of steps(theme)) expect(wcagContrast(fill, ink)).toBeGreaterThan(4.5);
  });
});
