/** The hand-out as text: well formed, self-contained, complete, and bounded whatever the names are. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { study, type Study } from "../../server/study";
import { handout } from "../../server/views/handout/handout";
import { WAY_TITLES, WAYS } from "../../server/model/ways";
import { all, parseXml, type XmlElement } from "./xml";

const project = path.dirname(path.dirname(path.dirname(fileURLToPath(import.meta.url))));
const ofFile = (file: string): Study => study({ read: (at) => ({ text: readFileSync(path.join(project, at), "utf8") }) }, file);
const ofText = (text: string): Study => study({ read: (at) => (at === "a.bothways" ? { text } : { problem: "no such file" }) }, "a.bothways");

const tree = (page: string): XmlElement => parseXml(page.replace(/^<!DOCTYPE html>\s*/u, "").replace(/<meta([^>]*)>/gu, "<meta$1/>"));
/** What a reader sees, in order, blanks put together. */
const words = (page: string): string => page.replace(/<style>[\s\S]*?<\/style>/gu, "").replace(/<svg[\s\S]*?<\/svg>/gu, "").replace(/<[^>]*>/gu, "")
  .replace(/&#39;/gu, "'").replace(/&quot;/gu, "\"").replace(/&lt;/gu, "<").replace(/&gt;/gu, ">").replace(/&amp;/gu, "&").replace(/\s+/gu, " ");

const AUTUMN = "samples/association/autumn.bothways";
const SETUPS = [
  AUTUMN, "samples/october.bothways", "samples/kitchen-table.bothways",
  ...["nobody-hears-ines", "in-the-dark", "everything-twice", "thin-line"].map((name) => `samples/gone-wrong/${name}.bothways`),
  ...["council", "chapel", "theatre"].map((name) => `tests/language/${name}.bothways`),
];

function mustBeSafe(page: string): XmlElement[] {
  const elements = all(tree(page));
  expect(elements.filter(({ tag }) => ["script", "link", "iframe", "img", "object", "embed", "form", "base", "a", "image", "use", "foreignobject"].includes(tag.toLowerCase()))).toEqual([]);
  for (const { attributes } of elements) {
    for (const [name, value] of Object.entries(attributes)) {
      expect(name).not.toMatch(/^on|^(src|href|action|style)$/iu);
      if (name !== "xmlns") expect(value).not.toMatch(/^\s*(https?|javascript|data|file):/iu);
    }
  }
  for (const { tag, text } of elements) if (tag === "style") expect(text).not.toMatch(/@import|url\(/iu);
  expect(elements.find(({ attributes }) => attributes["http-equiv"] === "Content-Security-Policy")?.attributes["content"]).toMatch(/^default-src 'none'/u);
  return elements;
}

describe("every hand-out", () => {
  it.each(SETUPS)("%s: well formed, nothing from elsewhere, every device, cable and way on it", (file) => {
    const one = ofFile(file);
    const page = handout(one, { all: true });
    const elements = mustBeSafe(page);
    const ids = elements.flatMap(({ attributes }) => (attributes["id"] === undefined ? [] : [attributes["id"]]));
    expect(new Set(ids).size).toBe(ids.length);
    const said = words(page);
    for (const device of one.setup.devices.values()) if (device.placed !== undefined) expect(said).toContain(device.name);
    for (const link of [...one.setup.links, ...one.setup.mains]) expect(said).toContain(`${link.from} → `);
    const count = (how: string): number => one.setup.links.filter((link) => link.how === how).length;
    if (count("cable") > 0) expect(said).toContain(`C${count("cable")}`);
    if (one.setup.mains.length > 0) expect(said).toContain(`M${one.setup.mains.length}`);
    for (const way of WAYS) expect(said).toContain(`${WAY_TITLES[way]}: `);
    for (const heading of ["Take care", "Set up in this order", "Who does what", "Line check", "If not, look at", "When the internet is thin"]) expect(said).toContain(heading);
  });

  it("numbers devices alike in the drawing and in the lists", () => {
    const page = handout(ofFile(AUTUMN));
    const drawn = [...page.matchAll(/>(\d+) · ([\w-]+)</gu)].map(([, number, name]) => `${number ?? ""} ${name ?? ""}`);
    expect(drawn.length).toBeGreaterThan(4);
    for (const each of new Set(drawn)) expect(words(page)).toContain(each);
  });
});

describe("the association's evening", () => {
  const said = words(handout(ofFile(AUTUMN)));
  it("says what and when, and who brings what", () => {
    expect(said).toContain("Wednesday 14 October 2026 · room open 17:30 · start 18:30 · end 20:30");
    expect(said).toMatch(/7 phone ?at the left front corner, aimed at audience ?long-lead M4 ?Marit/u);
  });
  it("tries each way, with where to look", () => {
    expect(said).toContain("audience: 6 laptop – R1 – 5 box");
    expect(said).toContain("audience (Ines repeats) during questions: 4 lapel – C1 – 6 laptop");
  });
  it("gives steps for a thin internet, each with its threshold, and sound last", () => {
    // Computed: what is sent before each step, by three quarters that can be counted on, rounded up.
    const below = [...said.matchAll(/below (\d+\.\d) Mb\/s: /gu)].map((m) => Number(m[1]));
    expect(below.length).toBeGreaterThan(3);
    expect([...below].sort((a, b) => b - a)).toEqual(below);
    expect(said).toContain(`below ${String(below[0])} Mb/s: 7 phone: camera at 360p15 – from the start`);
    expect(said).toMatch(/: sound only/u);
    expect(said).toContain("Sound is given up last");
  });
  it("tells accepted risks with their reason, what was assumed, and who decides on mains", () => {
    expect(said).toContain("Accepted: Ines brings a second laptop.");
    expect(said).toContain("Assumed, and something hangs on it the usable part of the uplink of venue");
    expect(said).toContain("the venue, the local code and licensed people decide");
  });
  it("lists what is to be settled before the evening, under who would know", () => {
    const settle = /To settle before the evening (.*?)(?:Assumed|Still to find out|$)/u.exec(said)?.[1] ?? "";
    expect(settle).toMatch(/The helpers: .*Who runs the call, and who else can\./u);
    expect(settle).toMatch(/The venue: A day to try it in the room\. Who has the keys/u);
    expect(settle).toMatch(/Whoever invites: Whether people in the room join too/u);
  });
  it("keeps comments out", () => expect(said).not.toContain("this evening only"));
});

describe("whatever the text is", () => {
  it("prints notes and no comment", () => {
    const said = words(handout(ofText("setup \"N\"\nnote \"keys are at the inn\" # secret\nplace laptop is laptop, near lectern\njoin laptop\n")));
    expect(said).toContain("keys are at the inn");
    expect(said).not.toContain("secret");
  });
  it.each([
    ["a script", "</title><script>alert(1)</script><img src=x onerror=alert(1)>"], ["marks that turn the text", "evil \u202Etxet\u2066 more"],
    ["5,000 letters", "w".repeat(5000)], ["an attribute", "\" onload=\"alert(1)".replaceAll("\"", "'")],
  ])("%s as title, note and owner does no harm", (_what, nasty) => {
    const page = handout(ofText(`setup "${nasty}"\nnote "${nasty}"\nplace box is battery-loudspeaker, near front\nplace laptop is laptop, near lectern, owned by "${nasty}"\njoin laptop { plays sound on box }\n`));
    mustBeSafe(page);
    expect(page).not.toMatch(/[\u202A-\u202E\u2066-\u2069]/u);
    expect(page.length).toBeLessThan(60_000);
  });
  it("bounds 300 devices, says how many more there are and what lists them", () => {
    const many = Array.from({ length: 300 }, (_, i) => `place lamp-${i} is extension-lead, near front`).join("\n");
    const one = ofText(`setup "Many"\n${many}\nplace laptop is laptop, near lectern\njoin laptop\n`);
    const page = handout(one);
    mustBeSafe(page);
    expect(page.length).toBeLessThan(200_000);
    expect(words(page)).toContain("… and 261 more devices: bothways handout a.bothways --all lists all.");
    expect(words(handout(one, { all: true }))).toContain("lamp-299");
  });
  it("says that a text has mistakes", () => {
    expect(words(handout(ofText("setup \"M\"\nplase box is\njoin nobody { plays }\n")))).toMatch(/The text has (a mistake|\d+ mistakes), so this sheet may lack something\. bothways check a\.bothways shows what/u);
  });
  it("does without a programme, a date and anything joined", () => {
    const page = handout(ofText("setup \"Bare\"\n"));
    mustBeSafe(page);
    expect(words(page)).toContain("Day: ");
  });
  it("has nothing to hand out for a room alone", () => {
    const page = handout(ofText("room hall 9 m by 6 m\n"));
    mustBeSafe(page);
    expect(words(page)).toContain("a.bothways holds no setup");
  });
});

describe("gaps in the plan", () => {
  const seen = (jobs: string): string => words(handout(ofText(`setup "Fern society"\nroom hall 8 m by 6 m by 3 m, chairs 24 in 4 rows\ninternet venue { up 8 Mb/s measured 2026-10-01 18:00 }\nplace laptop is laptop, at lectern\njoin laptop { sends sound }\n${jobs}`)));
  it("leave the sheet once somebody has seen to them", () => {
    expect(seen("")).toContain("Who reads what the people online write.");
    expect(seen("job chat by Ute\n")).not.toContain("Who reads what the people online write.");
    expect(seen("visitors none\njob chat by Ute\njob listen by Marit\njob run-call by Teo and Ute\n")).not.toContain("To settle before the evening");
  });
});

describe("when the line is gone", () => {
  it("says what steps in, what fits on it, and how long its allowance lasts", () => {
    const inn = words(handout(ofFile("samples/thin-lines/inn.bothways")));
    // What goes out and what comes in, 4.9 Mb/s together: 6 × 8 × 10⁹ bit in 9,780 s.
    expect(inn).toContain("Line gone: pocket steps in with everything as planned; its 6 GB last 2 h 43 min.");
  });

  it("says no more than is known where the text says nothing of the line that steps in", () => {
    const text = 'setup "Fern society"\nroom hall 8 m by 6 m by 3 m\ninternet venue { up 8 Mb/s measured 2026-10-01 18:00 }\nplace laptop is laptop, at lectern\nplace pocket is phone, at lectern\njoin laptop { sends sound from laptop.microphone }\nfallback pocket for venue\n';
    expect(words(handout(ofText(text)))).toMatch(/Line gone: \d pocket steps in\./u);
  });
});
