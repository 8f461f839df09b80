/** The built server: setting everything right when a file is saved, and what is said of an offer when somebody looks at it. */
import { rm } from "node:fs/promises";
import type { CodeAction, CompletionItem, CompletionList } from "vscode-languageserver-protocol/node";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { hall, IN_ORDER } from "../study/setups";
import { Editor, uriOf } from "./editor";
import { evenings, FILES } from "./evenings";

const PHONE = hall(`${IN_ORDER}place phone is phone, at (3 m, 6 m), aim audience, calls on\njoin phone { sends no sound, plays no sound, sends picture }\n`);

describe("an editor", () => {
  let editor: Editor;
  let folder: string;
  let phone: string;
  beforeAll(async () => {
    folder = evenings({ "phone.bothways": PHONE });
    phone = uriOf(folder, "phone.bothways");
    editor = await Editor.start([folder]);
    await editor.open(phone, PHONE);
  });
  afterAll(async () => {
    await editor.kill();
    await rm(folder, { recursive: true, force: true });
  });
  const actions = (only?: readonly string[]): Promise<CodeAction[]> => editor.ask("textDocument/codeAction", {
    textDocument: { uri: phone }, range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, context: { diagnostics: [], ...(only === undefined ? {} : { only }) },
  });

  it("has every mere setting set right if it asks, and then nothing more", async () => {
    expect((await actions()).filter((one) => one.kind?.startsWith("source"))).toEqual([]);
    const [all, ...others] = await actions(["source.fixAll"]);
    expect(others).toEqual([]);
    expect(all).toMatchObject({ kind: "source.fixAll.bothways", title: "Set right every setting that has one remedy" });
    await editor.apply(all?.edit ?? {});
    expect(editor.text(phone)).toBe(PHONE.replace("calls on", "calls off"));
    expect(await actions(["source.fixAll.bothways"])).toEqual([]);
    expect(await actions(["source.fixAll.other"])).toEqual([]);
  });

  it("gets a list of offers without long words, and those of one when it looks at it", async () => {
    const autumn = uriOf(folder, "autumn.bothways");
    await editor.open(autumn, FILES["autumn.bothways"]);
    const { items } = await editor.ask<CompletionList>("textDocument/completion", editor.at(autumn, "plays sound on box", "plays sound on ".length));
    const box = items.find((item) => item.label === "box");
    expect(items.filter((item) => item.documentation !== undefined)).toEqual([]);
    const resolved = await editor.ask<CompletionItem>("completionItem/resolve", box);
    expect(resolved).toMatchObject({ label: "box", documentation: { kind: "markdown", value: expect.stringContaining("battery-loudspeaker") as unknown } });
    // Of an older list nothing is known any more, and nothing is taken for something else.
    await editor.ask<CompletionList>("textDocument/completion", editor.at(autumn, "plays sound on box", "plays ".length));
    expect(await editor.ask<CompletionItem>("completionItem/resolve", box)).toEqual(box);
    expect(await editor.ask<CompletionItem>("completionItem/resolve", { label: "anything" })).toEqual({ label: "anything" });
  });
});
