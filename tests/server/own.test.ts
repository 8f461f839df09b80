/** What only Bothways asks: verdicts, the setup in view, the drawing, the hand-out, explanations, a first setup. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Explained, FlowOf, HandoutOf, LookOf, MoveOf, PlanOf, StarterOf, VerdictsOf } from "../../server/protocol/messages";
import { WAYS } from "../../server/model/ways";
import { parseXml } from "../views/xml";
import { Editor, uriOf } from "./editor";
import { evenings, FILES, sample, SAMPLES } from "./evenings";

describe("the association's evening", () => {
  let editor: Editor;
  const uri = uriOf(SAMPLES, "association/autumn.bothways");
  beforeAll(async () => {
    editor = await Editor.start([SAMPLES]);
    await editor.open(uri, sample("association/autumn.bothways"));
    await editor.diagnostics(uri);
  });
  afterAll(() => editor.kill());

  it("is told of by itself: verdict of every way, what was found, which setup", async () => {
    const told = await editor.until(() => editor.verdicts.find((one) => one.uri === uri), "verdicts");
    expect(told.setup).toEqual({ uri, title: "Thursday Beekeepers, autumn meeting" });
    expect(new Set(told.ways.map((one) => one.way))).toEqual(new Set(WAYS));
    expect(told.items).toEqual(["talk", "questions"]);
    expect(told.setups).toEqual([told.setup]);
    expect(await editor.ask<VerdictsOf>("bothways/verdicts", { uri })).toEqual(told);
    const shown = await editor.diagnostics(uri);
    expect(told.warnings).toBe(shown.filter((one) => one.severity === 2).length);
  });

  it("is told of again when a change turns a verdict, with the lenses asked for anew", async () => {
    const before = editor.verdicts.length;
    const refreshes = editor.lensRefreshes;
    await editor.replace(uri, "  plays sound on box\n", "  plays no sound\n");
    const told = await editor.until(() => editor.verdicts.slice(before).find((one) => one.uri === uri), "other verdicts");
    expect(told.ways.filter((one) => one.way === "room-hears-online").map((one) => one.verdict)).toContain("fails");
    await editor.until(() => (editor.lensRefreshes > refreshes ? true : undefined), "a refresh of the lenses");
    await editor.replace(uri, "  plays no sound\n", "  plays sound on box\n");
    await editor.diagnostics(uri);
  });

  it("is not told of again when nothing changes for it", async () => {
    await editor.quiet(uri);
    const before = editor.verdicts.length;
    await editor.replace(uri, "# this evening only", "# this one evening only");
    await editor.diagnostics(uri);
    await editor.quiet(uri);
    expect(editor.verdicts.length).toBe(before);
  });

  it("is drawn from above, and asked one thing", async () => {
    const drawn = await editor.ask<PlanOf>("bothways/plan", { uri, ask: "reads", form: "panel" });
    expect(parseXml(drawn.svg).tag).toBe("svg");
    expect(drawn.ask).toBe("reads");
    expect(drawn.asks.map(({ ask }) => ask)).toContain("frame");
    expect(drawn.desc).toContain("from above");
    expect(await editor.ask<PlanOf>("bothways/plan", { uri, ask: "nonsense" })).not.toHaveProperty("ask");
  });

  it("is looked at through its cameras, from its seats and from the side, and every thing in the picture leads to a text", async () => {
    const looks = [["camera", "stage-camera"], ["camera", "phone.camera"], ["seat", "audience.row-4.seat-1"], ["seat", "Ines"], ["side", "audience.row-2"]] as const;
    for (const [view, of] of looks) {
      const drawn = await editor.ask<LookOf>("bothways/look", { uri, view, of, form: "panel" });
      expect(drawn).toMatchObject({ view, of, items: ["talk", "questions"], item: "talk" });
      expect(parseXml(drawn.svg).tag).toBe("svg");
      expect(drawn.places.some((place) => of === place.of || of.startsWith(`${place.of}.seat-`)), of).toBe(true);
      expect(drawn.views.map((one) => one.view)).toEqual(["camera", "seat", "side"]);
      expect(drawn.desc.length).toBeGreaterThan(50);
      const files = new Set(drawn.files.map((file) => file.path));
      const led = [...drawn.svg.matchAll(/data-path="([^"]*)"/g)].map((match) => match[1] ?? "");
      expect(led.length).toBeGreaterThan(0);
      expect(led.filter((path) => !files.has(path))).toEqual([]);
    }
  });

  it("is looked at anew after an edit, and from elsewhere where a name has gone or is none", async () => {
    const before = await editor.ask<LookOf>("bothways/look", { uri, view: "camera", of: "stage-camera" });
    await editor.replace(uri, "place stage-camera behind row 3, aim lectern", "place stage-camera behind row 1, aim lectern");
    const nearer = await editor.ask<LookOf>("bothways/look", { uri, view: "camera", of: "stage-camera" });
    expect(nearer.svg).not.toBe(before.svg);
    expect(nearer.version).toBe(editor.document(uri).version);
    await editor.replace(uri, "place stage-camera behind row 1, aim lectern", "place stage-camera behind row 3, aim lectern");
    expect((await editor.ask<LookOf>("bothways/look", { uri, view: "camera", of: "stage-camera" })).svg).toBe(before.svg);
    expect(await editor.ask<LookOf>("bothways/look", { uri, view: "roof", of: 7 })).toMatchObject({ view: "camera", of: "stage-camera" });
    expect(await editor.ask<LookOf>("bothways/look", { uri, view: "seat", of: `x${".row-1".repeat(50_000)}` })).toMatchObject({ view: "seat", of: "audience.row-4.seat-3" });
  });

  it("is told what to write when something in it is moved, in the file that says where it is", async () => {
    const moved = await editor.ask<MoveOf>("bothways/move", { uri, what: "place", name: "box", x: 2, y: 5 });
    expect(moved).toMatchObject({ refused: false, edits: [{ uri, newText: "at (2.0 m, 5.0 m)" }] });
    const rows = await editor.ask<MoveOf>("bothways/move", { uri, what: "row", name: "audience", row: 1, x: 3.5, y: 3 });
    expect(rows.edits).toEqual([expect.objectContaining({ uri: uriOf(SAMPLES, "association/rooms/old-schoolroom.bothways"), newText: "3.5 m" })]);
    expect(await editor.ask<MoveOf>("bothways/move", { uri, what: "place", name: "lapel", x: 2, y: 5 })).toMatchObject({ refused: true, edits: [] });
  });

  it("is drawn, in words too, for the item that is asked for", async () => {
    const drawn = await editor.ask<FlowOf>("bothways/flow", { uri, item: "questions", theme: "dark", width: 700 });
    expect(parseXml(drawn.svg).tag).toBe("svg");
    expect(drawn).toMatchObject({ item: "questions", items: ["talk", "questions"], version: editor.document(uri).version });
    expect(drawn.desc.length).toBeGreaterThan(100);
    expect(new Set(drawn.verdicts.map((one) => one.way)).size).toBe(WAYS.length);
    expect(drawn.verdicts.length).toBe(WAYS.length);
    const files = new Map(drawn.files.map((file) => [file.path, file.uri]));
    const meant = [...drawn.svg.matchAll(/data-path="([^"]*)"/g)].map((match) => match[1] ?? "");
    expect(meant.length).toBeGreaterThan(0);
    expect(meant.filter((path) => !files.has(path))).toEqual([]);
    expect(files.get("association/autumn.bothways")).toBe(uri);
  });

  it("is handed out as a page", async () => {
    const page = await editor.ask<HandoutOf>("bothways/handout", { uri });
    expect(page.setup.title).toBe("Thursday Beekeepers, autumn meeting");
    expect(page.html).toMatch(/^<!DOCTYPE html>/);
    expect(page.html).toContain("Thursday Beekeepers, autumn meeting");
  });

  it("has every code that it shows explained", async () => {
    const codes = (await editor.diagnostics(uri)).filter((one) => one.codeDescription !== undefined).map((one) => String(one.code));
    expect(codes.length).toBeGreaterThan(0);
    for (const code of codes) {
      const page = await editor.ask<Explained>("bothways/explain", { code });
      expect(page.code).toBe(code);
      expect(page.markdown).toContain(`# ${page.title}`);
    }
    expect(await editor.ask("bothways/explain", { code: "no-such-code" })).toBeNull();
  });
});

describe("a first setup", () => {
  let editor: Editor;
  beforeAll(async () => {
    editor = await Editor.start([]);
  });
  afterAll(() => editor.kill());

  it("is written from answers, says what was taken, and reads well", async () => {
    const started = await editor.ask<StarterOf>("bothways/starter", { title: "Choir", talkers: "Ines at lectern", seats: 12, own: "laptop, lapel microphone, sundial" });
    expect(started.problem).toBeUndefined();
    expect(started.text).toContain('setup "Choir"');
    expect(started.remarks.join(" ")).toContain("sundial");
    await editor.open("untitled:Untitled-1", started.text);
    expect((await editor.diagnostics("untitled:Untitled-1")).filter((one) => one.severity === 1 && one.codeDescription === undefined)).toEqual([]);
  });

  it("says which answer does not fit", async () => {
    const started = await editor.ask<StarterOf>("bothways/starter", { size: "as large as it gets" });
    expect(started.problem).toContain("as large as it gets");
  });

  it("takes answers of the wrong kind as not given", async () => {
    const started = await editor.ask<StarterOf>("bothways/starter", { seats: "many", audience: "perhaps", talkers: 7 });
    expect(started.problem).toBeUndefined();
    expect(started.text).toContain("setup");
  });
});

describe("the setup in view", () => {
  let editor: Editor;
  let folder: string;
  let hall: string;
  let autumn: string;
  let winter: string;
  beforeAll(async () => {
    // The winter evening lacks what the autumn one has, so that the two are told apart.
    folder = evenings({ "winter.bothways": FILES["winter.bothways"].replace("  plays sound on box\n", "  plays no sound\n") });
    [hall, autumn, winter] = ["rooms/hall", "autumn", "winter"].map((name) => uriOf(folder, `${name}.bothways`)) as [string, string, string];
    editor = await Editor.start([folder]);
    await editor.open(hall, FILES["rooms/hall.bothways"]);
    await editor.diagnostics(hall);
  });
  afterAll(() => editor.kill());

  it("of a room is the first that uses it, of all of which it tells", async () => {
    const told = await editor.ask<VerdictsOf>("bothways/verdicts", { uri: hall });
    expect(told.setup).toEqual({ uri: autumn, title: "Autumn evening" });
    expect(told.setups).toEqual([{ uri: autumn, title: "Autumn evening" }, { uri: winter, title: "Winter evening" }]);
  });

  it("is the one that was chosen, until the choice is given back", async () => {
    const before = editor.verdicts.length;
    const chosen = await editor.ask<VerdictsOf>("bothways/choose", { uri: hall, setup: winter });
    expect(chosen.setup?.uri).toBe(winter);
    expect(chosen.ways.filter((one) => one.way === "room-hears-online").map((one) => one.verdict)).toContain("fails");
    const pushed = await editor.until(() => editor.verdicts.slice(before).find((one) => one.uri === hall), "verdicts of the chosen setup");
    expect(pushed).toEqual(chosen);
    expect((await editor.ask<FlowOf>("bothways/flow", { uri: hall })).setup.uri).toBe(winter);
    const back = await editor.ask<VerdictsOf>("bothways/choose", { uri: hall });
    expect(back.setup?.uri).toBe(autumn);
  });

  it("is the one that was last opened where none was chosen", async () => {
    await editor.open(winter, FILES["winter.bothways"]);
    await editor.diagnostics(winter);
    expect((await editor.ask<VerdictsOf>("bothways/verdicts", { uri: hall })).setup?.uri).toBe(winter);
    await editor.close(winter);
  });

  it("cannot be a file that does not use the room", async () => {
    const told = await editor.ask<VerdictsOf>("bothways/choose", { uri: hall, setup: uriOf(folder, "kit.bothways") });
    expect(told.setups.map((one) => one.uri)).toContain(told.setup?.uri);
  });

  it("is none for a file that nothing uses", async () => {
    const alone = uriOf(folder, "alone.bothways");
    await editor.open(alone, "room shed 3 m by 2 m\n");
    await editor.diagnostics(alone);
    const told = await editor.ask<VerdictsOf>("bothways/verdicts", { uri: alone });
    expect(told).toMatchObject({ ways: [], setups: [] });
    expect(told.setup).toBeUndefined();
    expect(await editor.ask("bothways/flow", { uri: alone })).toBeNull();
    expect(await editor.ask("bothways/look", { uri: alone })).toBeNull();
    expect(await editor.ask("bothways/handout", { uri: alone })).toBeNull();
  });
});
