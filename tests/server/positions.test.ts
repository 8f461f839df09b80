/** Wherever a cursor stands in a sample, whole or damaged: nothing that is asked there fails, and nothing is logged as a fault. */
import fc from "fast-check";
import { LSPErrorCodes } from "vscode-languageserver-protocol/node";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bothwaysFiles } from "../language/folder";
import { project } from "../cli/built";
import { Editor, uriOf } from "./editor";

const samples = [...bothwaysFiles("samples")];
const METHODS = ["hover", "completion", "definition", "references", "prepareRename"] as const;

/** Whether a name can be renamed is asked; a refusal that says why is an answer as good as any. */
const isRefusal = (error: unknown): boolean => (error as { code?: number }).code === LSPErrorCodes.RequestFailed && (error as Error).message.length > 10;

describe("any position in the samples", () => {
  let editor: Editor;
  const opened = new Set<string>();
  beforeAll(async () => {
    editor = await Editor.start([project]);
  });
  afterAll(() => editor.kill());

  /** Asks all that can be asked at an offset. */
  const askAt = async (uri: string, offset: number): Promise<void> => {
    const position = editor.document(uri).positionAt(offset);
    for (const method of METHODS) {
      try {
        await editor.ask(`textDocument/${method}`, { textDocument: { uri }, position, context: { includeDeclaration: true } });
      } catch (error) {
        if (method !== "prepareRename" || !isRefusal(error)) throw error;
      }
    }
  };

  it("has samples", () => {
    expect(samples.length).toBeGreaterThan(5);
  });

  it("answers hover, completion, definition, references and prepareRename", async () => {
    await fc.assert(fc.asyncProperty(fc.constantFrom(...samples), fc.double({ min: 0, max: 1, noNaN: true }), async ([path, text], part) => {
      const uri = uriOf(project, path);
      if (!opened.has(uri)) {
        opened.add(uri);
        await editor.open(uri, text);
      }
      await askAt(uri, Math.round(part * text.length));
    }), { numRuns: 150 });
    expect(editor.errors()).toEqual([]);
  });

  it("answers at every seventh position of each, and logs no fault", async () => {
    for (const [path, text] of samples) {
      const uri = uriOf(project, path);
      if (!opened.has(uri)) {
        opened.add(uri);
        await editor.open(uri, text);
      }
      const offsets = Array.from({ length: Math.floor(text.length / 7) + 1 }, (_, i) => i * 7);
      // Several at a time, so that the way there and back is not waited for each time.
      for (let i = 0; i < offsets.length; i += 20) await Promise.all(offsets.slice(i, i + 20).map((offset) => askAt(uri, offset)));
    }
    expect(editor.errors()).toEqual([]);
  }, 600_000);

  it("answers in damaged texts as well", async () => {
    const uri = "untitled:damaged.bothways";
    await editor.open(uri, "");
    await fc.assert(fc.asyncProperty(
      fc.constantFrom(...samples), fc.double({ min: 0, max: 1, noNaN: true }), fc.nat(60), fc.constantFrom("", "{", "}", "\"", "(", ",", "\n", "join ", "🎤", "\r"),
      async ([, text], part, cut, put) => {
        const at = Math.round(part * text.length);
        const damaged = text.slice(0, at) + put + text.slice(at + cut);
        await editor.edit(uri, [{ range: { start: { line: 0, character: 0 }, end: { line: 100_000, character: 0 } }, newText: damaged }]);
        await askAt(uri, at);
        await askAt(uri, at + put.length);
      },
    ), { numRuns: 60 });
    expect(editor.errors()).toEqual([]);
  });
});
