/**
 * The fallback tables of three samples, worked out once by hand.
 *
 * Rates by the published table of VP8 (kbit/s, target): 720p 2500, 540p 1200, 360p 500; at 15 of 30 frames times (1/2)^0.6 = 0.6598;
 * a picture's packets take 50 bytes of headers over 1178 of payload, so × 1.042445. Full speech 32 + 50·8·50/1000 = 52 kbit/s,
 * plain speech 20 + 20 = 40, as on the telephone 12 + 20 = 32.
 *   720p30 2606.1   540p30 1250.9   360p30 521.2   360p15 500 · 0.6598 · 1.042445 = 343.9
 */
import { describe, expect, test } from "vitest";
import { levelWords } from "../../server/checks/set-words";
import { fallbackTables } from "../../server/figures/fallback-table";
import { standInsOf } from "../../server/figures/stand-ins";
import { Trial } from "../../server/model/trial";
import { study, type Study } from "../../server/study";
import { drawUplink } from "../../server/views/uplink/draw";
import { stairsOf } from "../../server/views/handout/thin";
import { bothwaysFiles, inMemory } from "../language/folder";
import { raised } from "../catalogue/harness";
import { fixesOf } from "../../server/fixes/prove";

const FILES = bothwaysFiles("samples");
const TEXTS = inMemory(FILES);
const sample = (name: string): Study => study(TEXTS, `samples/thin-lines/${name}.bothways`);
/** kbit/s that a set takes, and what is in it, sound only where it is not as planned. */
const table = (of: Study, at = 0): string[] => (fallbackTables(of.setup)[at]?.best ?? []).map((set) =>
  `${Math.round(set.cost / 1000)}: ${[...set.levels].filter(([ladder, level]) => ladder.stream.what !== "sound" || level?.planned !== true).map(([ladder, level]) => levelWords(ladder, level)).join(", ")}`);
const onTheWayDown = (of: Study): string[] => (stairsOf(of.setup)[0]?.steps ?? []).map((step) =>
  `${(step.below / 1e6).toFixed(2)}: ${step.turned.map((turned) => `${turned.picture} ${turned.to ?? "off"}`).join(", ")}${step.soundOnly ? ", sound only" : ""}`);

describe("a thin line in the country, over the mains wires to an upstairs library", () => {
  const it = sample("upstairs");
  test("nothing that would be noticed, and the powerline takes what passes it", () => {
    expect(it.findings.filter((f) => f.severity !== "plan").map((f) => f.message)).toEqual([]);
  });
  test("the table: 52 + 1250.9 + 343.9 = 1647; without the telephone's 1303; at 360 lines with it 52 + 521.2 + 343.9 = 917 …", () => {
    expect(table(it)).toEqual([
      "1647: laptop.camera at 540p30, phone.camera at 360p15",
      "1303: laptop.camera at 540p30, phone.camera off",
      "917: laptop.camera at 360p30, phone.camera at 360p15",
      "573: laptop.camera at 360p30, phone.camera off",
      "396: laptop.camera at 360p15, phone.camera off",
      "52: laptop.camera off, phone.camera off",
      "40: sound of laptop as plain speech, laptop.camera off, phone.camera off",
      "32: sound of laptop as on the telephone, laptop.camera off, phone.camera off",
      "0: sound of laptop off, laptop.camera off, phone.camera off",
    ]);
  });
  test("on the evening, 90 % of a wired line counted on: 1647/0.9 = 1830, 1303/0.9 = 1448, 573/0.9 = 637, 396/0.9 = 440", () => {
    expect(onTheWayDown(it)).toEqual(["1.83: phone.camera off", "1.45: laptop.camera 360p30", "0.64: laptop.camera 360p15", "0.44: laptop.camera off, sound only"]);
  });
  test("the telephone that steps in sends 1647 and receives 4 + 1 faces at 521.2 or 2606.1 and 3 voices at 52: its 2 GB last 41 min", () => {
    // 4 faces 4·521.2 = 2084.9, one face at 720 lines 2606.1, voices 156: 4847 kbit/s in, 1647 out; 16e9/6.494e6 = 2464 s.
    const [one] = standInsOf(it.setup, new Trial());
    expect(one?.internet.name).toBe("aulis-phone");
    expect((one?.data ?? NaN) / 60).toBeCloseTo(41.07, 1);
  });
  test("all that lasts 90 minutes is 90·60·(1646.8 + 4847.0)/8 kB = 4.38 GB", () => {
    expect(it.figures().find((f) => f.name === "data of the meeting")?.value).toBeCloseTo(4.383, 2);
  });
});

describe("an inn with a login that expires", () => {
  const it = sample("inn");
  test("the login holds for one hour of two, and the other connection mends it", () => {
    const [found] = raised(it, "login-expires");
    expect([found?.severity, found?.measured?.value, found?.limit?.value]).toEqual(["warning", 1, 2]);
    expect(it.findings.filter((f) => f.severity === "error" || f.severity === "warning")).toEqual([found]);
    expect(fixesOf(TEXTS, it, found ?? expect.fail("no finding")).map((fix) => fix.title)).toEqual(["Join over pocket"]);
  });
  test("the table: 52 + 2606.1 = 2658, 52 + 1250.9 = 1303, 52 + 521.2 = 573, 52 + 343.9 = 396", () => {
    const rows = ["2658: laptop.camera at 720p30", "1303: laptop.camera at 540p30", "573: laptop.camera at 360p30", "396: laptop.camera at 360p15", "52: laptop.camera off",
      "40: sound of laptop as plain speech, laptop.camera off", "32: sound of laptop as on the telephone, laptop.camera off", "0: sound of laptop off, laptop.camera off"];
    expect(table(it)).toEqual(rows);
    // The one that steps in carries the same.
    expect(table(it, 1)).toEqual(rows);
  });
  test("75 % of a wireless line counted on: 2658/0.75 = 3544, 1303/0.75 = 1737, 573/0.75 = 764, 396/0.75 = 528", () => {
    expect(onTheWayDown(it)).toEqual(["3.54: laptop.camera 540p30", "1.74: laptop.camera 360p30", "0.76: laptop.camera 360p15", "0.53: laptop.camera off, sound only"]);
  });
});

describe("a tent with a mobile router", () => {
  const it = sample("tent");
  test("nothing that would be noticed: 5.4 of 8 GB in 90 minutes", () => {
    expect(it.findings.filter((f) => f.severity === "error" || f.severity === "warning").map((f) => f.message)).toEqual([]);
    // Out 52 + 2606.1 + 521.2 = 3179.3; in 2084.9 + 2606.1 + 156 = 4847.0; 8026.3 kbit/s · 5400 s / 8 = 5.418 GB.
    expect(it.figures().find((f) => f.name === "data of the meeting")?.value).toBeCloseTo(5.418, 2);
  });
  test("the table: the second picture comes and goes with what the first one leaves", () => {
    expect(table(it)).toEqual([
      "3179: laptop.camera at 720p30, second.camera at 360p30", "3002: laptop.camera at 720p30, second.camera at 360p15", "2658: laptop.camera at 720p30, second.camera off",
      "1824: laptop.camera at 540p30, second.camera at 360p30", "1647: laptop.camera at 540p30, second.camera at 360p15", "1303: laptop.camera at 540p30, second.camera off",
      "1094: laptop.camera at 360p30, second.camera at 360p30", "917: laptop.camera at 360p30, second.camera at 360p15", "573: laptop.camera at 360p30, second.camera off",
      "396: laptop.camera at 360p15, second.camera off", "52: laptop.camera off, second.camera off",
      "40: sound of laptop as plain speech, laptop.camera off, second.camera off", "32: sound of laptop as on the telephone, laptop.camera off, second.camera off", "0: sound of laptop off, laptop.camera off, second.camera off",
    ]);
  });
  test("on the evening nothing is turned on again: 3179/0.75 = 4239, 3002/0.75 = 4003, 3544, 1737, 764, 528", () => {
    expect(onTheWayDown(it)).toEqual(["4.24: second.camera 360p15", "4.00: second.camera off", "3.54: laptop.camera 540p30", "1.74: laptop.camera 360p30", "0.76: laptop.camera 360p15", "0.53: laptop.camera off, sound only"]);
  });
  test("the drawing says in words what it shows, for every theme, and holds no name unescaped", () => {
    const [one] = fallbackTables(it.setup);
    const svgs = ([undefined, "light", "dark", "contrast", "print"] as const).map((theme) => drawUplink("<b>&", one ?? expect.fail("no table"), theme));
    for (const svg of svgs) {
      expect(svg).toContain("From 4.2 Mb/s: sound of laptop as full speech, laptop.camera at 720p30, second.camera at 360p30.");
      expect(svg).toContain("Below that nothing fits: dial in by telephone.");
      expect(svg).not.toContain("<b>");
      expect(svg).not.toMatch(/NaN|Infinity|<script/);
    }
  });
});

test("a voice that is in order asks nobody for the delay of the call", () => {
  expect(study(TEXTS, "samples/association/autumn.bothways").questions.map((question) => question.ask)).not.toContain("What is the one-way delay of the call?");
});
