import { describe, expect, it } from "vitest";
import { checkJson, fileJson, type FileJson } from "../../server/cli/json";
import { SarifLog } from "../../server/cli/sarif";
import type { Entry } from "../../server/checks/catalogue";
import type { Fix } from "../../server/finding";
import { finding, place, places, study, TEXT } from "./studies";

const fix: Fix = { title: "Turn off the sound of phone", edits: [{ path: "fern.bothways", start: TEXT.indexOf("plays"), end: TEXT.indexOf("plays") + 5, newText: "plays no" }] };
const problem = { code: "unknown-name", severity: "warning" as const, message: "there is no fone", where: { path: "kit.bothways", start: 7, end: 12 }, related: [] };

describe("the JSON of check", () => {
  const one = study({ problems: [problem] });
  const file = JSON.parse(JSON.stringify(fileJson(one, places(one), () => [fix]))) as FileJson;

  it("has the shape that scripts count on", () => {
    const whole = JSON.parse(checkJson([file])) as { version: number; files: FileJson[] };
    expect(whole.version).toBe(1);
    const [first] = whole.files;
    expect(first?.path).toBe("fern.bothways");
    expect(first?.ways[0]).toEqual({ way: "room-hears-online", verdict: "works", weakest: "row 4 is the farthest", hangsOn: [] });
    expect(first?.findings[1]).toMatchObject({
      code: "echo-path", severity: "error", message: finding().message, subjects: ["phone", "box"],
      range: { start: { line: 4, character: 2 }, end: { line: 4, character: 20 } },
      measured: { value: 38.2, unit: "dB" }, limit: { value: 50.1, unit: "dB" }, assumed: ["room noise 40 dBA"],
      related: [{ path: "kit.bothways", range: { start: { line: 0, character: 0 }, end: { line: 0, character: 6 } }, message: "phone stands here" }],
      fixes: [{ title: fix.title, edits: [{ path: "fern.bothways", range: { start: { line: 4, character: 2 }, end: { line: 4, character: 7 } }, newText: "plays no" }] }],
    });
  });

  it("names the file of what stands in another one, and only then", () => {
    expect(file.findings[0]).toMatchObject({ code: "unknown-name", path: "kit.bothways", range: { start: { line: 0, character: 7 } } });
    expect(file.findings[1]).not.toHaveProperty("path");
  });

  it("leaves out what is not known instead of writing null", () => {
    const bare = study({ findings: [finding({ measured: undefined, limit: undefined })] });
    const text = checkJson([fileJson(bare, places(bare), () => [])]);
    expect(text).not.toContain("null");
    expect(text).not.toContain("\"measured\"");
  });

  it("gives the item of a verdict where items differ", () => {
    const differing = study({ ways: [{ way: "call", verdict: "fails", weakest: "", hangsOn: ["x"], item: "questions" }] });
    expect(fileJson(differing, places(differing), () => []).ways[0]).toHaveProperty("item", "questions");
  });
});

describe("SARIF 2.1.0 (OASIS)", () => {
  const entry: Entry = {
    code: "echo-path", title: "An echo path", severity: "error", group: "Echo and howl", notice: "They hear themselves.", why: "It comes back.",
    todo: ["Sound off on the second device."], source: "ITU-T G.131", symptoms: [], limit: "TELR",
  };
  const log = (): Record<string, unknown>[] => {
    const sarif = new SarifLog([entry], "1.2.3");
    const one = study({ problems: [problem], accepted: [finding({ identity: "other" })], findings: [finding(), finding({ code: "role-open", severity: "plan" })] });
    sarif.add(one, places(one), "/some where/évening", (f) => (f.code === "echo-path" ? [fix] : []));
    const whole = JSON.parse(sarif.text()) as { version: string; $schema: string; runs: Record<string, unknown>[] };
    expect(whole.version).toBe("2.1.0");
    expect(whole.$schema).toMatch(/sarif-schema-2\.1\.0\.json$/u);
    return whole.runs;
  };
  interface Result {
    ruleId: string; ruleIndex: number; kind: string; level: string; message: { text: string }; suppressions: unknown[];
    locations: { physicalLocation: { artifactLocation: { uri: string; uriBaseId: string }; region: Record<string, number> } }[];
    fixes?: { artifactChanges: { replacements: { deletedRegion: Record<string, number>; insertedContent: { text: string } }[] }[] }[];
  }
  const parts = () => {
    const [run] = log();
    const driver = (run?.["tool"] as { driver: { name: string; version: string; rules: { id: string; shortDescription: { text: string } }[] } }).driver;
    return { run, driver, results: run?.["results"] as Result[] };
  };

  it("has one run with a named tool, rules from the catalogue, and results that point at them", () => {
    const { driver, results } = parts();
    expect(driver).toMatchObject({ name: "Bothways", version: "1.2.3" });
    expect(driver.rules[0]).toMatchObject({ id: "echo-path", shortDescription: { text: "An echo path" } });
    expect(results).toHaveLength(4);
    for (const result of results) {
      expect(driver.rules[result.ruleIndex]?.id).toBe(result.ruleId);
      expect(result.message.text).not.toBe("");
    }
    expect(new Set(driver.rules.map((rule) => rule.id)).size).toBe(driver.rules.length);
  });

  it("counts lines and columns from 1 and keeps URIs relative to a base", () => {
    const { run, results } = parts();
    const location = results.find((r) => r.ruleId === "echo-path")?.locations[0]?.physicalLocation;
    expect(location?.region).toEqual({ startLine: 5, startColumn: 3, endLine: 5, endColumn: 21 });
    for (const result of results) {
      const at = result.locations[0]?.physicalLocation.artifactLocation;
      expect(at?.uri).not.toMatch(/^(?:\/|[a-z]+:)/iu);
      expect(Object.keys(run?.["originalUriBaseIds"] as object)).toContain(at?.uriBaseId);
    }
    const base = (run?.["originalUriBaseIds"] as Record<string, { uri: string }>)["ROOT"]?.uri ?? "";
    expect(new URL(base).href).toBe(base);
    expect(base).toMatch(/^file:\/\/\/.*%20.*\/$/u);
  });

  it("has levels only for what failed, and either all results tell of suppression or none does", () => {
    const { results } = parts();
    for (const result of results) {
      expect(result.level === "none").toBe(result.kind !== "fail");
      expect(Array.isArray(result.suppressions)).toBe(true);
    }
    expect(results.filter((r) => r.suppressions.length > 0)).toHaveLength(1);
    expect(results.map((r) => r.level).sort()).toEqual(["error", "error", "none", "warning"]);
  });

  it("carries the mends as replacements", () => {
    const { results } = parts();
    const replacement = results.find((r) => r.fixes !== undefined)?.fixes?.[0]?.artifactChanges[0]?.replacements[0];
    expect(replacement).toEqual({ deletedRegion: { startLine: 5, startColumn: 3, endLine: 5, endColumn: 8 }, insertedContent: { text: "plays no" } });
  });

  it("says that it did not succeed where a file could not be read", () => {
    const sarif = new SarifLog([entry], "1");
    sarif.unread("x.bothways", "it is not UTF-8 text");
    const whole = JSON.parse(sarif.text()) as { runs: { invocations: { executionSuccessful: boolean; toolExecutionNotifications: { message: { text: string } }[] }[] }[] };
    expect(whole.runs[0]?.invocations[0]?.executionSuccessful).toBe(false);
    expect(whole.runs[0]?.invocations[0]?.toolExecutionNotifications[0]?.message.text).toContain("x.bothways");
  });

  it("escapes names of files as a URI wants them", () => {
    const sarif = new SarifLog([entry], "1");
    const odd = study({ root: "a b/ü:#?.bothways", files: [{ path: "a b/ü:#?.bothways", text: TEXT }], findings: [finding({ where: { ...place("box"), path: "a b/ü:#?.bothways" } })] });
    sarif.add(odd, places(odd), "/x", () => []);
    expect(sarif.text()).toContain("\"uri\": \"a%20b/%C3%BC%3A%23%3F.bothways\"");
  });
});
