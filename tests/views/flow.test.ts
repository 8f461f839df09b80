import { describe, expect, it } from "vitest";
import type { Flow } from "../../server/signal/drawing/flow";
import { WAY_TITLES } from "../../server/model/ways";
import { drawFlow } from "../../server/views/flow/draw";
import { MOST_LINES_IN_A_BAND, MOST_POSTS } from "../../server/views/flow/network";
import { plan } from "../../server/views/flow/place";
import { THEMES } from "../../server/views/svg/palette";
import { association, band, echoing, empty, hop, hostile, post, run, sixty, smallest } from "./flows";
import { overlapsOf } from "./overlaps";
import { all, parseXml, type XmlElement } from "./xml";

const FIXTURES: Readonly<Record<string, () => Flow>> = {
  smallest, association, echoing, sixty, "hostile names": () => hostile(300), empty,
};

function drawn(flow: Flow): XmlElement[] {
  return all(parseXml(drawFlow(flow)));
}
/** What a group says aloud: its own words, run together. */
function wordsIn(element: XmlElement): string {
  return all(element).filter((each) => each.tag === "text").map((each) => each.text).join(" ");
}
function descriptionOf(elements: readonly XmlElement[]): string {
  return elements.find((each) => each.tag === "desc")?.text ?? "";
}
function group(elements: readonly XmlElement[], kind: string, where: (element: XmlElement) => boolean = () => true): XmlElement {
  const found = elements.find((each) => each.tag === "g" && (each.attributes["class"] ?? "").split(" ").includes(kind) && where(each));
  if (found === undefined) throw new Error(`no ${kind} drawn`);
  return found;
}

describe.each(Object.entries(FIXTURES))("the drawing of %s", (_, make) => {
  it("is well formed in every theme, and the same each time", () => {
    for (const theme of [undefined, ...THEMES]) {
      const options = theme === undefined ? {} : { theme };
      const svg = drawFlow(make(), options);
      expect(parseXml(svg).tag).toBe("svg");
      expect(drawFlow(make(), options)).toBe(svg);
    }
  });

  it("has no words on words, on posts or on lines, no post on another, and nothing outside", () => {
    expect(overlapsOf(plan(make()).scene)).toEqual([]);
  });

  it("draws or counts every post, and draws or counts every run", () => {
    const flow = make();
    const { network } = plan(flow);
    const shown = [...network.posts, ...network.loose].flatMap((each) => each.members.map((member) => member.id));
    expect(new Set(shown).size).toBe(shown.length);
    expect(shown.length + network.postsLeft).toBe(flow.posts.length);
    for (const each of network.bands) {
      const given = each.band.runs.length;
      if (given > 0) expect(each.runs.length + each.left).toBe(given);
      for (const { run: its, lines } of each.runs) for (const line of lines) expect(line.runs).toContain(its);
    }
  });

  it("is no program and asks for nothing from outside", () => {
    const elements = drawn(make());
    expect(elements.filter((each) => ["script", "image", "use", "foreignObject", "a", "animate", "set"].includes(each.tag))).toEqual([]);
    const asked = elements.flatMap((each) => Object.entries(each.attributes))
      .filter(([name, value]) => name.startsWith("on") || name.includes("href") || /url\(|javascript:/i.test(name === "d" ? value : ""));
    expect(asked).toEqual([]);
    const sheet = elements.find((each) => each.tag === "style")?.text ?? "";
    expect(sheet).toContain("--out:");
    expect(sheet).not.toMatch(/@import|url\(|@font-face/);
  });

  it("tells everything in words: each way with its verdict, each gap, each echo", () => {
    const flow = make();
    const elements = drawn(flow);
    const svg = elements[0];
    const ids = (svg?.attributes["aria-labelledby"] ?? "").split(" ");
    expect(svg?.attributes["role"]).toBe("img");
    expect(ids.map((id) => elements.find((each) => each.attributes["id"] === id)?.tag)).toEqual(["title", "desc"]);
    const told = descriptionOf(elements);
    for (const way of [...flow.bands.map((each) => each.way), "call", "internet"] as const) expect(told).toContain(`${WAY_TITLES[way]}: `);
    const { network } = plan(flow);
    const runs = network.bands.flatMap((each) => each.runs);
    const broken = runs.filter(({ lines }) => lines.some((line) => line.gap !== ""));
    if (runs.length <= 60) expect(told.match(/breaks between/g) ?? []).toHaveLength(broken.length);
    expect(told.match(/turns round and comes back/g) ?? []).toHaveLength(network.echoes.length);
  });
});

describe("the check for overlaps", () => {
  it("finds words moved onto other words, onto a line, onto a post, and outside", () => {
    const { scene } = plan(association());
    const [first] = scene.posts;
    const flag = first?.texts[0];
    if (first === undefined || flag === undefined) throw new Error("no post");
    const moved = (x: number, y: number): string[] => overlapsOf({ ...scene, texts: [...scene.texts, { ...flag, x, y }] });
    expect(moved(flag.x, flag.y).join()).toContain(`"audience" on "audience"`);
    expect(moved(first.x + 90, first.beads[0]?.y ?? 0).join()).toContain("on line to audience");
    expect(moved(first.x, (first.beads[0]?.y ?? 0) + 60).join()).toContain("on post audience");
    expect(moved(5, 10).join()).toContain("outside");
  });
});

describe("a way across", () => {
  it("that is complete runs unbroken at one height from the people to the people", () => {
    const { scene } = plan(association());
    const lines = scene.lines.filter((each) => each.direction === "in" && each.line.via !== "sight" && each.line.gap === "")
      .filter((each) => each.line.runs.some((its) => its.hops.some((leg) => leg.to === "box")));
    expect(lines.map((each) => each.line.to).sort()).toEqual(["audience", "box", "call", "laptop"]);
    expect(new Set(lines.map((each) => each.y)).size).toBe(1);
    const pieces = lines.flatMap((each) => each.pieces).sort((a, b) => a.from - b.from);
    for (const [index, piece] of pieces.entries()) if (index > 0) expect(piece.from).toBe(pieces[index - 1]?.to);
    const at = new Map(scene.posts.map((each) => [each.post.id, each.x]));
    expect(pieces[0]?.from).toBe(at.get("audience"));
    expect(pieces.at(-1)?.to).toBe(at.get("online"));
    expect(pieces.every((piece) => !piece.pale)).toBe(true);
  });

  it("that breaks ends in an opening that says what is missing, and goes on pale", () => {
    const { scene } = plan(smallest());
    const line = scene.lines.find((each) => each.line.gap === "connected how?");
    const [before, after] = [line?.pieces[1], line?.pieces[0]];
    expect(line?.gap).toBeDefined();
    expect(before?.pale).toBe(false);
    expect(after?.pale).toBe(true);
    expect((line?.gap?.right ?? 0) - (line?.gap?.left ?? 0)).toBeGreaterThan(60);
    expect(before?.from).toBe(line?.gap?.right);
    expect(after?.to).toBe(line?.gap?.left);
    const behind = scene.lines.find((each) => each.line.from === "box");
    expect(behind?.pieces.every((piece) => piece.pale)).toBe(true);
    const elements = drawn(smallest());
    const words = wordsIn(group(elements, "line", (each) => each.attributes["data-from"] === "laptop" && each.attributes["data-to"] === "box"));
    expect(words).toContain("connected how?");
    expect(descriptionOf(elements)).toContain("breaks between laptop and box: connected how?");
  });

  it("without any run is drawn as one gap from side to side", () => {
    const flow = { ...smallest(), bands: [band("online-sees-room", "fails", "No camera.", [])] };
    const [line] = plan(flow).scene.lines;
    expect(line?.line.gap).toBe("no way across");
    expect([line?.line.from, line?.line.to]).toEqual(["seats", "online"]);
  });

  it("that stops without saying why still shows an open end towards its goal", () => {
    const stopped = { ...run("the lectern to the people online", [hop("lectern", "laptop.microphone", "air")]), complete: false };
    const flow = { ...smallest(), bands: [band("online-hears-room", "fails", "It stops.", [stopped])] };
    const open = plan(flow).scene.lines.find((each) => each.line.gap !== "");
    expect([open?.line.from, open?.line.to]).toEqual(["laptop", "online"]);
  });

  it("shows a break inside a device, beside the device", () => {
    const muted = run("Ines to the people online", [
      hop("lectern", "laptop.microphone", "air"), hop("laptop", "laptop", "inside", { gap: "sound is off" }), hop("laptop", "call", "call"), hop("call", "online", "call"),
    ]);
    const flow = { ...smallest(), bands: [band("online-hears-room", "fails", "Muted.", [muted])] };
    const broken = plan(flow).scene.lines.find((each) => each.line.gap !== "");
    expect([broken?.line.from, broken?.line.to, broken?.line.gap]).toEqual(["laptop", "call", "sound is off"]);
  });

  it("points from where it comes to where it goes, full one way and hollow the other", () => {
    const { scene } = plan(association());
    const at = new Map(scene.posts.map((each) => [each.post.id, each.x]));
    let arrows = 0;
    for (const line of scene.lines) {
      for (const arrow of line.arrows) {
        arrows += 1;
        expect(arrow.right).toBe((at.get(line.line.to) ?? 0) > (at.get(line.line.from) ?? 0));
      }
    }
    expect(arrows).toBeGreaterThan(10);
    const elements = drawn(association());
    const double = group(elements, "line", (each) => each.attributes["data-from"] === "laptop" && each.attributes["data-to"] === "box");
    const single = group(elements, "line", (each) => each.attributes["data-from"] === "lapel");
    expect(double.children.filter((each) => each.attributes["class"] === "run in")).toHaveLength(2);
    expect(single.children.filter((each) => each.attributes["class"] === "run out")).toHaveLength(1);
  });
});

describe("an echo", () => {
  it("turns round: to the room, then back to where it began", () => {
    const { scene } = plan(echoing());
    expect(scene.echoes).toHaveLength(2);
    const at = new Map(scene.posts.map((each) => [each.post.id, each.x]));
    for (const echo of scene.echoes) {
      expect(echo.startX).toBe(at.get("online"));
      expect(echo.endX).toBe(at.get("online"));
      expect(echo.turnX).toBeLessThan(at.get("box") ?? 0);
      expect(echo.backY).toBeGreaterThan(echo.outY);
      expect(echo.arrows.filter((each) => each.y === echo.outY).every((each) => !each.right)).toBe(true);
      expect(echo.arrows.filter((each) => each.y === echo.backY).every((each) => each.right)).toBe(true);
    }
    const words = wordsIn(group(drawn(echoing()), "echo"));
    expect(words).toContain("echo:");
    expect(words).toContain("echo comes back");
  });

  it("that starts in the room turns at the call", () => {
    const flow = association();
    const itself = run("the room hears itself by phone", [
      hop("Ines", "lapel", "air"), hop("lapel", "laptop", "cable"), hop("laptop", "call", "call"), hop("call", "phone", "call"), hop("phone", "audience", "air"),
    ], 3);
    const { scene } = plan({ ...flow, echoes: [itself] });
    const [echo] = scene.echoes;
    const at = new Map(scene.posts.map((each) => [each.post.id, each.x]));
    expect(echo?.turnX).toBeGreaterThan(at.get("call") ?? 0);
    expect(echo?.endX).toBe(at.get("audience"));
    expect(overlapsOf(scene)).toEqual([]);
  });

  it("that goes round and round is drawn as a closed loop, and told as one", () => {
    const flow = association();
    const howl = { ...run("lapel to box and back, 3 dB too loud", [hop("lapel", "laptop", "cable"), hop("laptop", "box", "radio"), hop("box", "lapel", "air")], 1), kind: "howl" as const };
    const { scene, network } = plan({ ...flow, echoes: [howl] });
    const [echo] = scene.echoes;
    const at = new Map(scene.posts.map((each) => [each.post.id, each.x]));
    const around = ["lapel", "laptop", "box"].map((id) => at.get(id) ?? NaN);
    expect(network.echoes[0]).toMatchObject({ out: ["lapel", "laptop"], back: ["box"] });
    const [left, right] = [Math.min(echo?.turnX ?? NaN, echo?.closeX ?? NaN), Math.max(echo?.turnX ?? NaN, echo?.closeX ?? NaN)];
    expect(left).toBeLessThan(Math.min(...around));
    expect(right).toBeGreaterThan(Math.max(...around));
    expect(new Set(echo?.arrows.map((each) => `${each.y === echo.outY} ${each.right}`)).size).toBe(2);
    expect(overlapsOf(scene)).toEqual([]);
    const elements = drawn({ ...flow, echoes: [howl] });
    expect(wordsIn(group(elements, "howl"))).toContain("howl: lapel to box");
    expect(wordsIn(group(elements, "howl"))).toContain("and round again");
    expect(group(elements, "howl").children.find((each) => each.attributes["class"] === "echo-path")?.attributes["d"]).toMatch(/Z$/u);
    expect(descriptionOf(elements)).toContain("goes round and round by");
    expect(scene.strips.find((each) => each.kind === "echoes")?.label).toBe("Howl");
  });

  it("stands between the two ways of sound", () => {
    const kinds = plan(echoing()).scene.strips.map((strip) => strip.way ?? strip.kind);
    expect(kinds).toEqual(["room-hears-online", "echoes", "online-hears-room", "room-sees-online", "online-sees-room"]);
  });
});

describe("posts", () => {
  it("stand in the order of their distance from the call, people at the ends", () => {
    const at = new Map(plan(association()).scene.posts.map((each) => [each.post.id, each.x]));
    const x = (id: string): number => at.get(id) ?? NaN;
    for (const far of ["lapel", "box", "projector", "stage-camera"]) expect(x(far)).toBeLessThan(x("laptop"));
    for (const people of ["audience", "Ines"]) for (const device of ["lapel", "box", "phone", "laptop"]) expect(x(people)).toBeLessThan(x(device));
    expect(x("laptop")).toBeLessThan(x("call"));
    expect(x("call")).toBeLessThan(x("online"));
  });

  it("span from the first to the last band they serve, thin where they only let lines pass", () => {
    const { scene } = plan(association());
    const laptop = scene.posts.find((each) => each.post.id === "laptop");
    const rows = new Set(laptop?.beads.map((bead) => bead.y));
    expect(rows.size).toBe(4);
    const passing = scene.lines.find((each) => each.line.gap.startsWith("no microphone"));
    const spine = laptop?.spines.find((each) => each.top < (passing?.y ?? 0) && (passing?.y ?? 0) < each.bottom);
    expect(spine).toBeDefined();
    const ines = scene.posts.find((each) => each.post.id === "Ines");
    expect(ines?.spines).toHaveLength(1);
  });

  it("of a kind with the same neighbours are one post with their number; each is named in its title", () => {
    const elements = drawn(sixty());
    const mics = group(elements, "post", (each) => each.attributes["data-post"] === "mic-1");
    expect(wordsIn(mics)).toContain("mic-1 … mic-12 (12)");
    expect(mics.children.find((each) => each.tag === "title")?.text).toContain("mic-7");
    const line = group(elements, "line", (each) => each.attributes["data-from"] === "mic-1");
    expect(wordsIn(line)).toContain("in-1 … in-12");
    expect(wordsIn(line)).toContain("12 × cable");
    // Cameras aimed at different people stay apart.
    for (const id of ["camera-1", "camera-2", "camera-3", "camera-4"]) expect(() => group(elements, "post", (each) => each.attributes["data-post"] === id)).not.toThrow();
  });

  it("three of a kind stay three", () => {
    const flow = association();
    const more = [2, 3, 4].map((index) => post(`box-${index}`, "device", "loudspeaker"));
    const runs = more.map((each) => run(`by ${each.id}`, [hop("laptop.bluetooth", `${each.id}.bluetooth`, "radio"), hop(each.id, "audience", "air")]));
    const { network } = plan({ ...flow, posts: [...flow.posts, ...more], bands: [band("room-hears-online", "works", "", runs)] });
    expect(network.posts.filter((each) => each.id.startsWith("box-")).map((each) => each.members.length)).toEqual([1, 1, 1]);
  });

  it("that serve no way stand apart, and say so", () => {
    const elements = drawn(sixty());
    expect(descriptionOf(elements)).toContain("On no way across: spare-1 … spare-17 (9), spare-2 … spare-18 (9).");
    expect(plan(sixty()).scene.loose).toHaveLength(2);
  });

  it("that are ailing say what ails them, behind a mark", () => {
    const flow = association();
    const posts = flow.posts.map((each) => (each.id === "box" ? { ...each, trouble: "no power" } : each));
    const elements = drawn({ ...flow, posts });
    const box = group(elements, "post", (each) => each.attributes["data-post"] === "box");
    expect(wordsIn(box)).toContain("no power");
    expect(all(box).some((each) => each.attributes["class"] === "ailing")).toBe(true);
    expect(descriptionOf(elements)).toContain("box: no power.");
    expect(overlapsOf(plan({ ...flow, posts }).scene)).toEqual([]);
  });

  it("lead to the line of the text that they come from, by pointer and by keyboard, except on paper", () => {
    const box = (options: Parameters<typeof drawFlow>[1]): XmlElement => group(all(parseXml(drawFlow(association(), options))), "post", (each) => each.attributes["data-post"] === "box");
    expect(box({}).attributes).toMatchObject({ "data-path": "evening.bothways", "data-start": "140", "data-end": "152", tabindex: "0", "aria-label": "box, loudspeaker" });
    expect(box({ stops: false }).attributes["tabindex"]).toBeUndefined();
  });
});

describe("verdicts", () => {
  it("stand at each band as a word, a shape of their own and a sentence", () => {
    const elements = drawn(association());
    for (const each of association().bands) {
      const side = group(elements, "side", (found) => found.attributes["data-way"] === each.way);
      expect(wordsIn(side)).toContain(each.sentence);
      expect(wordsIn(side)).toContain(` ${each.verdict} `);
    }
    const shape = (verdict: string): string => {
      const mark = group(drawn({ ...empty(), call: { verdict: verdict as Flow["call"]["verdict"], sentence: "" } }), "mark");
      return `${mark.children[0]?.tag ?? ""} ${(mark.children[0]?.attributes["d"] ?? "").replace(/[^A-Z]/g, "")}`;
    };
    expect(new Set(["works", "doubtful", "cannot-tell", "fails"].map(shape)).size).toBe(4);
  });
});

describe("hostile and boundless flows", () => {
  it("stay bounded and say how much is left out", () => {
    const flow = hostile(10_000);
    const svg = drawFlow(flow, { theme: "print" });
    const elements = all(parseXml(svg));
    expect(svg.length).toBeLessThan(1_500_000);
    const { network } = plan(flow);
    expect(network.posts.length + network.loose.length).toBeLessThanOrEqual(MOST_POSTS);
    for (const each of network.bands) expect(each.lines.length).toBeLessThanOrEqual(MOST_LINES_IN_A_BAND);
    expect(network.bands.some((each) => each.left > 0)).toBe(true);
    expect(elements.some((each) => each.tag === "text" && /^and \d+ more lines across are not drawn/.test(each.text))).toBe(true);
    expect(elements.some((each) => each.tag === "text" && /^and \d+ more are not drawn/.test(each.text))).toBe(true);
  });

  it("never turn the reading direction nor let control characters through", () => {
    expect(drawFlow(hostile(300))).not.toMatch(/[\u0000-\u0008\u000B-\u001F\u202A-\u202E\u2066-\u2069]/u);
  });

  it("keep a long name whole in the title of its post", () => {
    const name = `long ${"name ".repeat(60)}end`;
    const flow = association();
    const posts = flow.posts.map((each) => (each.id === "box" ? { ...each, name } : each));
    const box = group(drawn({ ...flow, posts }), "post", (each) => each.attributes["data-post"] === "box");
    expect(wordsIn(box)).toContain("…");
    expect(box.children.find((each) => each.tag === "title")?.text).toContain(name);
  });

  it("scale to the width asked for", () => {
    const svg = parseXml(drawFlow(association(), { width: 600 }));
    expect(svg.attributes["width"]).toBe("600");
    const [, , width = 0, height = 0] = (svg.attributes["viewBox"] ?? "").split(" ").map(Number);
    expect(Number(svg.attributes["height"]) / 600).toBeCloseTo(height / width, 2);
  });
});
