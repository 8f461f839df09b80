import { describe, expect, it } from "vitest";
import type { Part } from "../../server/model/device";
import { lampsAt, lightOn } from "../../server/model/lights";
import { canonical } from "../../server/model/names";
import type { Setup } from "../../server/model/setup";
import { headOf } from "../../server/model/voices";
import { Trial } from "../../server/model/trial";
import { acoustics } from "../../server/signal/acoustics";
import { viewOf } from "../../server/signal/sight";
import { readText, said } from "../language/folder";

const read = (lines: string): Setup => {
  const setup = readText(lines);
  expect(said(setup)).toEqual([]);
  return setup;
};
const part = (type: string, facts: string, more = ""): Part => {
  const found = read(`kind thing is a ${type} {\n${facts}\n}\nroom hall 9 m by 6 m\nplace one is thing, at front${more}\n`).devices.get("one")?.parts[0];
  if (found === undefined) throw new Error("no part");
  return found;
};
const problems = (lines: string): string[] => readText(lines).problems.map((p) => `${p.code}: ${p.message}`);

describe("displays and projectors", () => {
  it("are read as a data sheet gives them", () => {
    const display = part("display", "diagonal 55 inch\naspect 16:10\npixels 1920x1200\nbrightness 350 cd/m2\nviewing-angle 120 deg by 80 deg").optics;
    expect(display).toMatchObject({ aspect: 1.6, pixels: { width: 1920, height: 1200 }, brightness: { best: 350 }, viewingAngle: { horizontal: { best: 120 }, vertical: { best: 80 } } });
    const projector = part("projector", "light 3200 lm\nthrow 1.6 to 1.2\nkeystone 20 deg").optics;
    expect(projector).toMatchObject({ throws: { least: { best: 1.2 }, most: { best: 1.6 } }, keystone: { up: { best: 20 }, sideways: undefined } });
    expect(part("projector", "keystone 30 deg by 15 deg").optics.keystone).toMatchObject({ up: { best: 30 }, sideways: { best: 15 } });
    // The two ends of a lens are two values.
    expect(projector.throws?.least.id).not.toBe(projector.throws?.most.id);
    expect(part("projector", "throw 1.5").optics.throws).toMatchObject({ least: { best: 1.5, low: 1.5, high: 1.5 }, most: { best: 1.5 } });
    expect(part("display", "diagonal 55 inch").optics).toMatchObject({ aspect: undefined, pixels: undefined, brightness: undefined, throws: undefined });
  });

  it("the setup may say what the kit does not", () => {
    expect(part("display", "diagonal 55 inch", ", brightness 500 nits").optics.brightness?.best).toBe(500);
  });

  it("a screen has a gain and a shape", () => {
    const { room } = read("room hall 9 m by 6 m {\nscreen white at front, width 2 m, gain 1.3, aspect 4:3\nscreen bare at back, width 2 m\n}\n");
    expect(room.surfaces.get(canonical("white"))).toMatchObject({ gain: { best: 1.3, low: 1.3 }, aspect: 4 / 3 });
    expect(room.surfaces.get(canonical("bare"))?.gain.from.how).toBe("assumed");
  });

  it("says what does not fit", () => {
    expect(problems("kind tv is a display { brightness 300 lx }\n")).toEqual([expect.stringContaining("A luminance is wanted here, not an illuminance: write it like 350 cd/m2.")]);
    expect(problems("kind beamer is a projector { throw 1.5 m }\n")).toHaveLength(1);
    expect(problems("kind tv is a display { aspect 16:0 }\n")).toHaveLength(1);
  });
});

describe("what cannot be", () => {
  const hall = (screen: string, height = "3.1 m"): string => `room hall 9 m by 6 m by ${height} {\n${screen}\n}\nplace beamer is projector, at back, fills white\n`;
  it("a picture too high for its room is told of, and by how much", () => {
    // 2.4 m at 16:9 are 1.35 m high: from 2.4 m up to 3.75 m, 0.65 m through the ceiling.
    expect(problems(hall("screen white at front, width 2.4 m, lower-edge 2.4 m"))).toEqual([expect.stringMatching(/^too-high: A picture 2\.4 m wide on white is 1\.4 m high.*would reach 3\.8 m.*0\.65 m lower/)]);
    expect(problems(hall("screen white at front, width 2.4 m, lower-edge 1.7 m"))).toEqual([]);
    // Nobody said how high the room is: it may be as high as that.
    expect(problems("room hall 9 m by 6 m {\nscreen white at front, width 2.4 m, lower-edge 1.8 m\n}\nplace beamer is projector, at back, fills white\n")).toEqual([]);
    expect(problems("room hall 9 m by 6 m by 3 m\nplace tv is flat-display, at front, height 2.9 m { diagonal 55 inch }\n")).toEqual([expect.stringMatching(/^too-high: The upper edge of tv would be 3\.2 m up.*too high by 0\.24 m/)]);
    expect(problems("room hall 9 m by 6 m by 3 m\nplace tv is flat-display, at front, height 1.6 m { diagonal 55 inch }\n")).toEqual([]);
  });

  it("a lens zoomed in farther than it goes is told of", () => {
    const eye = (facts: string): string[] => problems(`room hall 9 m by 6 m\nplace eye is webcam, on table at middle { ${facts} }\n`);
    expect(eye("zoom 5 times, zoomed 8 times")).toEqual([expect.stringMatching(/^impossible: That cannot be: eye is zoomed in 8 times, and its lens goes to 5 times/)]);
    expect(eye("zoom 5 times, zoomed 5 times")).toEqual([]);
  });
});

describe("cameras", () => {
  const view = (facts: string): number => viewOf(part("camera", facts), new Trial());
  it("have the view that follows from sensor and lens: 36 mm behind 50 mm are 39.6 degrees, 22.5 mm behind 30 mm 41.1 degrees", () => {
    expect(view("sensor 36 mm by 24 mm, focal-length 50 mm".replace(", ", "\n"))).toBeCloseTo(39.6, 1);
    expect(view("sensor 22.5 mm by 15 mm\nfocal-length 30 mm")).toBeCloseTo(41.1, 1);
    // Zoomed in, a lens of 24 to 70 mm has the view of so many times its shortest.
    expect(view("sensor 36 mm by 24 mm\nfocal-length 25 mm to 75 mm\nzoomed 2 times")).toBeCloseTo(39.6, 1);
    expect(view("view 90 deg\nzoom 10 times\nzoomed 2 times")).toBeCloseTo((Math.atan(0.5) * 360) / Math.PI, 6);
    expect(view("view 90 deg\nzoom 10 times")).toBe(90);
    // What is stated goes before what follows.
    expect(view("sensor 36 mm by 24 mm\nfocal-length 50 mm\nview 30 deg")).toBe(30);
  });

  it("with a lens that zooms have any view from its longest to its shortest", () => {
    const zoomed = part("camera", "sensor 36 mm by 24 mm\nfocal-length 24 mm to 70 mm").view;
    expect([zoomed?.low, zoomed?.high].map((n) => Number(n?.toFixed(1)))).toEqual([28.8, 73.7]);
    expect(zoomed?.best).toBeGreaterThan(28.8);
    expect(zoomed?.best).toBeLessThan(73.7);
  });

  it("are tilted, expose, give out and stop as is said", () => {
    expect(part("camera", "view 60 deg\nzoom 12 times\nexposure 20 ms\noutput clean\nstops recording after 29 min", ", tilt 10 deg down").optics).toMatchObject({
      zoom: { best: 12 }, exposure: { best: 0.02 }, output: "clean", tilt: { best: -10 }, stops: { what: "recording", after: { best: 1740 } },
    });
    expect(part("camera", "stops after 29 min").optics.stops).toMatchObject({ what: undefined, after: { best: 1740 } });
  });
});

describe("people who speak", () => {
  it("have mouth, eyes and the top of the head where it is said, above the floor under them", () => {
    const { voices } = read("room hall 9 m by 6 m {\nstage at front, size 2 m by 5 m, height 0.5 m\n}\ntalker Ines at stage, standing, mouth 1.4 m, eyes 1.5 m, head 1.6 m\ntalker Teo at (5 m, 3 m), seated\n");
    const of = (name: string): number[] => {
      const voice = voices.get(name);
      if (voice === undefined) throw new Error("nobody");
      const { eyes, top } = headOf(voice, new Trial());
      return [voice.position.at(new Trial()).z, eyes.z, top].map((n) => Number(n.toFixed(6)));
    };
    expect(of("ines")).toEqual([1.9, 2, 2.1]);
    expect(of("teo")).toEqual([1.15, 1.2, 1.32]);
    expect(voices.get("teo")?.body.eyes.from.how).toBe("assumed");
  });
});

describe("light and curtains", () => {
  it("differ from item to item, and the evening differs from the survey", () => {
    const { room } = read('setup "Film"\nroom hall 9 m by 6 m {\nlight 300 lx\nlight 80 lx on screen\nlamps all on\n}\nin hall {\nlight 250 lx\nlight 5 lx on screen during film\nlamps front off during film\n}\nitem film\nitem talk\n');
    expect(lightOn(room, "room")?.level.best).toBe(250);
    expect([undefined, "talk", "film"].map((item) => lightOn(room, "screen", item)?.level.best)).toEqual([80, 80, 5]);
    expect(lightOn(room, "faces")).toBeUndefined();
    expect(["front", "back"].map((which) => lampsAt(room, which as "front", "film")?.how)).toEqual(["off", "on"]);
    expect(lampsAt(room, "front")?.how).toBe("on");
  });

  it("windows are bare glass but for the curtains before them; curtains may name a window", () => {
    const time = (lines: string): number => acoustics(read(`room hall 9 m by 6 m by 3 m {\n${lines}\n}\n`), new Trial()).time[3];
    const window = "window street-side at left, width 5 m, height 2 m";
    expect(time(`${window}\ncurtains heavy over street-side`)).toBeCloseTo(time("curtains heavy 10 m2"), 9);
    expect(time(window)).toBeCloseTo(time("windows glass 10 m2"), 9);
    expect(time(`${window}\ncurtains heavy over street-side`)).toBeLessThan(time(window));
    expect(problems("room hall 9 m by 6 m { curtains heavy }\n")).toEqual([expect.stringContaining("incomplete: “curtains” wants how much is drawn, or over which window")]);
    expect(problems("room hall 9 m by 6 m {\ncurtains heavy 3 m2\ncurtains light 3 m2\n}\n")).toEqual([expect.stringContaining("said-twice")]);
    expect(problems("room hall 9 m by 6 m { curtains heavy over nowhere }\n")).toEqual([expect.stringContaining("unknown-name")]);
  });
});
