/** The built command line, from outside: exit statuses, messages, and what it may touch. */
import { mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from "node:fs";
import { spawn } from "node:child_process";
import path from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { CATALOGUE } from "../../server/checks/catalogue";
import { WAYS } from "../../server/model/ways";
import { FORM } from "../../server/cli/surveyForm";
import { STARTER_KINDS } from "../../server/views/starter";
import type { FileJson } from "../../server/cli/json";
import { bothways, build, folder, isPlainRefusal, project } from "./built";

beforeAll(build);

/** Five lines, from the samples: enough to be a setup, and something is wrong with it. */
const FIVE = readFileSync(path.join(project, "samples/october.bothways"), "utf8");

const checked = (ran: { out: string }): FileJson[] => (JSON.parse(ran.out) as { version: number; files: FileJson[] }).files;

describe("help", () => {
  it("lists the commands there are, and no others", () => {
    const { status, out } = bothways(folder(), "--help");
    expect(status).toBe(0);
    const names = [...out.matchAll(/^ {2}bothways ([a-z]+) [[A-Z]/gmu)].map((m) => m[1]);
    expect(names.filter((name) => name !== "help").sort()).toEqual(["check", "draw", "explain", "figures", "fix", "format", "handout", "missing", "start", "survey"]);
  });
  it.each(["check", "draw", "explain", "figures", "fix", "format", "handout", "missing", "start", "survey"])("explains %s, in both ways of asking", (name) => {
    const one = bothways(folder(), "help", name);
    expect(one.status).toBe(0);
    expect(one.out).toContain(`bothways ${name}`);
    expect(one.out).toContain("For example: bothways");
    expect(bothways(folder(), name, "--help").out).toBe(one.out);
  });
  it("gives the version of the package", () => {
    const { version } = JSON.parse(readFileSync(path.join(project, "package.json"), "utf8")) as { version: string };
    expect(bothways(folder(), "--version").out).toBe(`${version}\n`);
  });
  it("ends with 2 where no command is given", () => {
    expect(bothways(folder()).status).toBe(2);
  });
});

describe("what cannot run ends with 2 and one line", () => {
  const files = { "a.bothways": FIVE };
  it.each([
    [["chek", "a.bothways"], /did you mean bothways check/u],
    [["check"], /wants a file or a folder/u],
    [["check", "a.bothways", "--fromat", "json"], /did you mean --format/u],
    [["check", "a.bothways", "--format", "yaml"], /text, json, sarif/u],
    [["check", "a.bothways", "--fail-on", "hint"], /error, warning, never/u],
    [["check", "b.bothways"], /b\.bothways: there is no such file/u],
    [["check", "no/where.bothways"], /there is no such file/u],
    [["check", "empty"], /no \.bothways file/u],
    [["check", "a.txt"], /ends in \.bothways/u],
    [["check", "a.bothways", "--root", "nowhere"], /no such folder/u],
    [["figures", "empty"], /it is a folder/u],
    [["figures", "kit.bothways"], /holds no setup/u],
    [["draw", "a.bothways", "--view", "elevation"], /--view is one of flow, plan, side/u],
    [["draw", "a.bothways", "--view", "plan", "--row", "3"], /--row 3: only the room from the side has a row/u],
    [["draw", "a.bothways", "--ask", "reads"], /only a floor plan is asked/u],
    [["draw", "a.bothways", "--view", "plan", "--ask", "weather"], /--ask is one of hears/u],
    [["draw", "a.bothways", "--out", "a.bothways"], /replace a setup/u],
    [["draw", "a.bothways", "--out", "empty"], /it is a folder/u],
    [["draw", "a.bothways", "--item", "tlak"], /no such item/u],
    [["draw", "a.bothways", "--view", "camera", "--of", "nobody"], /no such camera in a\.bothways; its cameras are laptop\.camera/u],
    [["draw", "a.bothways", "--view", "seat", "--of", "row-99"], /no such seat or talker in a\.bothways; /u],
    [["draw", "a.bothways", "--view", "seat"], /--view seat wants --of NAME; /u],
    [["draw", "a.bothways", "--of", "Ines"], /only --view camera and --view seat look from somewhere/u],
    [["fix", "a.bothways", "--apply", "ecko-path"], /did you mean echo-path/u],
    [["explain", "ecko-path"], /did you mean echo-path/u],
    [["explain", "echo-path", "--symptom", "x"], /not both/u],
    [["start", ".", "--seats", "many"], /--seats "24"/u],
    [["survey", "kit.bothways"], /holds no setup/u],
  ])("%j", (args, words) => {
    const cwd = folder({ ...files, "a.txt": "", "empty/x.txt": "", "kit.bothways": "device phone is phone\n" });
    const ran = bothways(cwd, ...args);
    expect(ran.err).toMatch(words);
    expect(isPlainRefusal(ran)).toBe(true);
    expect(ran.out).toBe("");
    expect(readFileSync(path.join(cwd, "a.bothways"), "utf8")).toBe(FIVE);
  });

  it.each([
    ["latin-1", new Uint8Array([0x73, 0x65, 0x74, 0x75, 0x70, 0x20, 0x22, 0xe9, 0x22]), /not UTF-8/u],
    ["UTF-16", new Uint8Array([0xff, 0xfe, 0x73, 0x00]), /UTF-16/u],
    ["5 MB of noise", new Uint8Array(5_000_000).map((_, i) => (i * 7919) % 251), /larger than 2 MB/u],
  ])("a file that is %s", (_what, bytes, words) => {
    const cwd = folder({ "a.bothways": bytes });
    for (const args of [["check", "a.bothways"], ["figures", "a.bothways"], ["format", "a.bothways"], ["fix", "a.bothways", "--apply", "all"], ["draw", "a.bothways"], ["survey", "a.bothways"]]) {
      const ran = bothways(cwd, ...args);
      expect(ran.err).toMatch(words);
      expect(isPlainRefusal(ran)).toBe(true);
    }
    expect(readFileSync(path.join(cwd, "a.bothways")).equals(Buffer.from(bytes))).toBe(true);
  });

  it("goes on with the other files of a folder, and still ends with 2", () => {
    const cwd = folder({ "a.bothways": FIVE, "b.bothways": new Uint8Array([0xff, 0xff]), "c.bothways": FIVE });
    const text = bothways(cwd, "check", ".");
    expect(text.status).toBe(2);
    expect(text.err).toContain("b.bothways: it is not UTF-8");
    expect(text.out).toContain("a.bothways");
    expect(text.out).toContain("c.bothways");
    expect(checked(bothways(cwd, "check", ".", "--format", "json")).map((f) => f.path)).toEqual(["a.bothways", "c.bothways"]);
    const log = JSON.parse(bothways(cwd, "check", ".", "--format", "sarif").out) as { runs: { invocations: { executionSuccessful: boolean }[] }[] };
    expect(log.runs[0]?.invocations[0]?.executionSuccessful).toBe(false);
  });
});

describe("check", () => {
  it("gives all six verdicts first, in text and in JSON", () => {
    const cwd = folder({ "a.bothways": FIVE });
    const ran = bothways(cwd, "check", "a.bothways");
    const rows = ran.out.split("\n");
    const verdicts = rows.filter((row) => /^ {2}[✓~?✗] (?:works|doubtful|fails|cannot tell)/u.test(row));
    expect(verdicts).toHaveLength(6);
    const last = rows.indexOf(verdicts[5] ?? "");
    expect(rows.slice(0, last).some((row) => /^(?:error|warning|hint) /u.test(row))).toBe(false);
    const [file] = checked(bothways(cwd, "check", "a.bothways", "--format", "json"));
    expect(new Set(file?.ways.map((way) => way.way))).toEqual(new Set(WAYS));
  });

  it("has in JSON the shape that scripts count on", () => {
    const cwd = folder({ "a.bothways": FIVE });
    const ran = bothways(cwd, "check", "a.bothways", "--format", "json");
    const whole = JSON.parse(ran.out) as { version: number };
    expect(whole.version).toBe(1);
    const [file] = checked(ran);
    expect(file?.path).toBe("a.bothways");
    expect(file?.findings.length).toBeGreaterThan(0);
    for (const finding of file?.findings ?? []) {
      expect(["error", "warning", "hint", "plan"]).toContain(finding.severity);
      expect(CATALOGUE.map((entry) => entry.code)).toContain(finding.code);
      for (const key of ["message", "range", "subjects", "assumed", "related", "fixes"]) expect(finding).toHaveProperty(key);
      const { start, end } = finding.range;
      const lines = FIVE.split("\n");
      expect(start.character).toBeLessThanOrEqual(lines[start.line]?.length ?? -1);
      expect(end.line > start.line || end.character >= start.character).toBe(true);
    }
    for (const way of file?.ways ?? []) expect(["works", "doubtful", "fails", "cannot-tell"]).toContain(way.verdict);
  });

  it("ends with 1 at or above the bar only", () => {
    // A mistake in the text is an error, whatever the engine thinks of the rest.
    const cwd = folder({ "wrong.bothways": `${FIVE}place nothing-known at nowhere-known\n`, "kit.bothways": "device phone is phone\n" });
    expect(bothways(cwd, "check", "wrong.bothways").status).toBe(1);
    expect(bothways(cwd, "check", "wrong.bothways", "--fail-on", "warning").status).toBe(1);
    expect(bothways(cwd, "check", "wrong.bothways", "--fail-on", "never").status).toBe(0);
    expect(bothways(cwd, "check", "kit.bothways").status).toBe(0);
  });

  it("agrees with its own JSON on the exit status, for every bar", () => {
    const cwd = folder({ "a.bothways": FIVE });
    const severities = checked(bothways(cwd, "check", "a.bothways", "--format", "json"))[0]?.findings.map((f) => f.severity) ?? [];
    expect(bothways(cwd, "check", "a.bothways").status).toBe(severities.includes("error") ? 1 : 0);
    expect(bothways(cwd, "check", "a.bothways", "--fail-on", "warning").status).toBe(severities.some((s) => s === "error" || s === "warning") ? 1 : 0);
  });

  it("reads a folder: every setup, rooms and kits as text, nothing hidden", () => {
    const cwd = folder({ "z/b.bothways": FIVE, "a.bothways": FIVE, "kit.bothways": "device phone is phone\n", ".git/x.bothways": FIVE, "node_modules/y.bothways": FIVE });
    expect(checked(bothways(cwd, "check", ".", "--format", "json")).map((f) => f.path)).toEqual(["a.bothways", "kit.bothways", "z/b.bothways"]);
    const { out } = bothways(cwd, "check", ".");
    expect(out).toMatch(/2 setups, 1 other file read as text: .* in all\.\n$/u);
  });

  it("leaves the mends of many files to fix in text, and gives them to programs", () => {
    const many = folder(Object.fromEntries(Array.from({ length: 11 }, (_, i) => [`${i}.bothways`, FIVE])));
    const few = folder({ "a.bothways": FIVE });
    expect(bothways(few, "check", ".").out).toMatch(/^ {2}mend /mu);
    const ran = bothways(many, "check", ".");
    expect(ran.out).not.toMatch(/^ {2}mend /mu);
    expect(ran.out).toContain("no mends were tried: bothways fix FILE");
    for (const file of checked(bothways(many, "check", ".", "--format", "json"))) {
      expect(file.findings.some((f) => f.fixes.length > 0)).toBe(true);
    }
  });

  it("gives SARIF whose results point into the text", () => {
    const cwd = folder({ "sub/a.bothways": FIVE });
    mkdirSync(path.join(cwd, ".git"));
    const log = JSON.parse(bothways(path.join(cwd, "sub"), "check", "a.bothways", "--format", "sarif").out) as {
      version: string;
      runs: { tool: { driver: { rules: { id: string }[] } }; results: { ruleId: string; ruleIndex: number; locations: { physicalLocation: { artifactLocation: { uri: string }; region: { startLine: number } } }[] }[] }[];
    };
    expect(log.version).toBe("2.1.0");
    const [run] = log.runs;
    expect(run?.tool.driver.rules.map((rule) => rule.id)).toEqual(expect.arrayContaining(CATALOGUE.map((entry) => entry.code)));
    expect(run?.results.length).toBeGreaterThan(0);
    for (const result of run?.results ?? []) {
      expect(run?.tool.driver.rules[result.ruleIndex]?.id).toBe(result.ruleId);
      const at = result.locations[0]?.physicalLocation;
      // The nearest folder with a .git is the root that URIs count from.
      expect(at?.artifactLocation.uri).toBe("sub/a.bothways");
      expect(at?.region.startLine).toBeGreaterThan(0);
      expect(at?.region.startLine).toBeLessThanOrEqual(FIVE.split("\n").length);
    }
  });

  it("prints no colour and no control where it is not on a terminal", () => {
    const cwd = folder({ "a.bothways": FIVE });
    expect(bothways(cwd, "check", "a.bothways").out).not.toContain("\u001b");
  });

  it("takes what is not a name for a path: -- ends the options", () => {
    const cwd = folder({ "--a.bothways": FIVE });
    expect(checked(bothways(cwd, "check", "--format", "json", "--", "--a.bothways"))[0]?.path).toBe("--a.bothways");
  });

  it("ends quietly where nobody reads any more", async () => {
    const files = Object.fromEntries(Array.from({ length: 12 }, (_, i) => [`${i}.bothways`, FIVE]));
    const child = spawn(process.execPath, [path.join(project, "dist/cli.js"), "check", "."], { cwd: folder(files), stdio: ["ignore", "pipe", "pipe"] });
    let err = "";
    child.stderr.setEncoding("utf8").on("data", (part: string) => { err += part; });
    child.stdout.once("data", () => child.stdout.destroy());
    await new Promise((resolve) => child.on("close", resolve));
    expect(err).toBe("");
  });
});

describe("the open folder", () => {
  const KIT = "device phone is phone\n";
  const using = (file: string): string => `setup "Fern"\nuse "${file}"\nroom 8 m by 6 m, chairs 12 in 3 rows\nplace phone at back\njoin phone\nonline 4 people\n`;
  const mistakes = (cwd: string, ...args: string[]): string[] =>
    (checked(bothways(cwd, "check", ...args, "--format", "json"))[0]?.findings ?? [])
      .filter((f) => f.severity === "error" && !CATALOGUE.some((entry) => entry.code === f.code)).map((f) => f.message);

  it("reads what a setup uses below the nearest folder with a .git", () => {
    const cwd = folder({ "repo/evenings/a.bothways": using("../kit/k.bothways"), "repo/kit/k.bothways": KIT });
    mkdirSync(path.join(cwd, "repo/.git"));
    expect(mistakes(cwd, "repo/evenings/a.bothways")).toEqual([]);
  });
  it("is the file's own folder without one, and what lies outside is one mistake in the text", () => {
    const cwd = folder({ "evenings/a.bothways": using("../kit/k.bothways"), "kit/k.bothways": KIT });
    const found = mistakes(cwd, "evenings/a.bothways");
    expect(found.length).toBeGreaterThan(0);
    expect(found.join(" ")).toMatch(/outside/u);
    expect(bothways(cwd, "check", "evenings/a.bothways").err).toBe("Only what lies in evenings may be read: the nearest folder upwards with a .git, or the one that --root DIR names.\n");
    expect(mistakes(cwd, "evenings/a.bothways", "--root", ".")).toEqual([]);
  });
  it("mends nothing where a part of the setup could not be read", () => {
    const text = using("../kit/k.bothways");
    const cwd = folder({ "evenings/a.bothways": text, "kit/k.bothways": KIT });
    const ran = bothways(cwd, "fix", "evenings/a.bothways", "--apply", "all");
    expect(isPlainRefusal(ran)).toBe(true);
    expect(ran.err).toContain("not all that it uses could be read");
    expect(readFileSync(path.join(cwd, "evenings/a.bothways"), "utf8")).toBe(text);
  });
  it("is not left through a link", () => {
    const cwd = folder({ "in/a.bothways": using("link.bothways"), "out/k.bothways": KIT });
    symlinkSync(path.join(cwd, "out/k.bothways"), path.join(cwd, "in/link.bothways"));
    expect(mistakes(cwd, "in/a.bothways").join(" ")).toMatch(/link that leads outside/u);
  });
  it("is not left by a setup that is itself a link", () => {
    const cwd = folder({ "out/a.bothways": FIVE, "in/x.txt": "" });
    symlinkSync(path.join(cwd, "out/a.bothways"), path.join(cwd, "in/a.bothways"));
    for (const args of [["check", "in/a.bothways"], ["format", "in/a.bothways"], ["fix", "in/a.bothways", "--apply", "all"]]) {
      const ran = bothways(cwd, ...args);
      expect(ran.status).toBe(2);
      expect(ran.err).toMatch(/link that leads outside/u);
    }
    expect(readFileSync(path.join(cwd, "out/a.bothways"), "utf8")).toBe(FIVE);
  });
});

describe("format", () => {
  const UNTIDY = "setup   \"Fern\"\nroom 8m by 6 m ,chairs 12 in 3 rows   # three\n";
  it("lists with --check what would change, ends with 1 and writes nothing", () => {
    const cwd = folder({ "a.bothways": UNTIDY });
    const ran = bothways(cwd, "format", "--check", ".");
    expect([ran.status, ran.out]).toEqual([1, "would change: a.bothways\n"]);
    expect(readFileSync(path.join(cwd, "a.bothways"), "utf8")).toBe(UNTIDY);
  });
  it("writes, keeps the comment, and has nothing to do a second time", () => {
    const cwd = folder({ "a.bothways": UNTIDY });
    expect(bothways(cwd, "format", "a.bothways").status).toBe(0);
    const text = readFileSync(path.join(cwd, "a.bothways"), "utf8");
    expect(text).toContain("setup \"Fern\"\nroom 8 m by 6 m, chairs 12 in 3 rows");
    expect(text).toContain("# three");
    const again = bothways(cwd, "format", "--check", "a.bothways");
    expect([again.status, again.out]).toEqual([0, "1 file: nothing to change.\n"]);
  });
  it("leaves alone, says why and ends with 2 where it cannot be done safely", () => {
    const broken = "setup \"Fern\"\n<<<<<<< mine\nroom 8 m by 6 m\n=======\nroom 9 m by 6 m\n>>>>>>> theirs\n";
    const cwd = folder({ "a.bothways": broken, "b.bothways": UNTIDY });
    const ran = bothways(cwd, "format", ".");
    expect(ran.status).toBe(2);
    expect(ran.err).toMatch(/^a\.bothways: it is left as it is: /u);
    expect(ran.out).toBe("formatted: b.bothways\n");
    expect(readFileSync(path.join(cwd, "a.bothways"), "utf8")).toBe(broken);
  });
});

describe("explain", () => {
  it("lists all codes as JSON with exactly four keys", () => {
    const list = JSON.parse(bothways(folder(), "explain", "--format", "json").out) as Record<string, string>[];
    expect(list.map((entry) => entry["code"])).toEqual(CATALOGUE.map((entry) => entry.code));
    for (const entry of list) expect(Object.keys(entry)).toEqual(["code", "title", "severity", "group"]);
  });
  it("tells of one code what it means, what one notices, what to do and its source", () => {
    const entry = CATALOGUE.find((e) => e.code === "echo-path");
    const out = bothways(folder(), "explain", "echo-path").out.replace(/\s+/gu, " ");
    for (const words of [entry?.title, entry?.notice, entry?.source, ...(entry?.todo ?? [])]) expect(out).toContain((words ?? "?").replace(/\s+/gu, " "));
  });
  it("finds an echo from “they hear themselves”", () => {
    const ran = bothways(folder(), "explain", "--symptom", "they hear themselves");
    expect(ran.status).toBe(0);
    expect(ran.out).toMatch(/echo-path/u);
    expect(bothways(folder(), "explain", "--symptom", "zzz qqq").status).toBe(1);
  });
  it("says where to look in one setup, the likeliest first", () => {
    const cwd = folder();
    writeFileSync(path.join(cwd, "one.bothways"), "setup \"One\"\nroom 8 m by 6 m\ntalker Ines at lectern\nplace laptop is laptop, at lectern\njoin laptop\n");
    const ran = bothways(cwd, "explain", "--symptom", "they cannot hear us", "one.bothways");
    expect([ran.status, ran.out]).toEqual([0, expect.stringMatching(/They do not hear us[^]*1\. laptop: /u)]);
    expect(JSON.parse(bothways(cwd, "explain", "--symptom", "black picture", "one.bothways", "--format", "json").out)).toMatchObject({ symptom: "Black picture", look: [{ name: "laptop" }] });
    expect(bothways(cwd, "explain", "--symptom", "zzz qqq", "one.bothways").status).toBe(1);
    expect(bothways(cwd, "explain", "--symptom", "echo", "none.bothways").status).toBe(2);
  });
  it("says what is lost if one thing is missing", () => {
    const cwd = folder();
    writeFileSync(path.join(cwd, "one.bothways"), "setup \"One\"\nroom 8 m by 6 m\ntalker Ines at lectern\nplace laptop is laptop, at lectern\njoin laptop\n");
    expect(bothways(cwd, "missing", "one.bothways").out).toMatch(/laptop[^]*without it[^]*nothing at hand/u);
    expect(JSON.parse(bothways(cwd, "missing", "one.bothways", "--format", "json").out)).toMatchObject({ version: 1, untried: 0, rows: [{ missing: "device", name: "laptop", jobs: [] }] });
  });
  it("finds every code by each of the symptoms that it lists", () => {
    const cwd = folder();
    for (const entry of CATALOGUE.filter((e) => e.symptoms.length > 0)) {
      const list = JSON.parse(bothways(cwd, "explain", "--symptom", entry.symptoms[0] ?? "", "--format", "json").out) as { code: string }[];
      expect(list.map((e) => e.code)).toContain(entry.code);
    }
  });
});

describe("start", () => {
  const ALL = ["--talkers", "Ines", "--seats", "24", "--online", "8", "--size", "9 m by 6 m", "--own", "laptop, battery loudspeaker", "--audience", "yes"];
  it("writes a setup of at most a dozen lines that has no mistake in its text", () => {
    const cwd = folder();
    const ran = bothways(cwd, "start", "next", ...ALL);
    expect(ran.status).toBe(0);
    expect(ran.out).toContain("Written: next/meeting.bothways");
    expect(ran.out).not.toContain("nothing was said");
    const text = readFileSync(path.join(cwd, "next/meeting.bothways"), "utf8");
    expect(text.trimEnd().split("\n").length).toBeLessThanOrEqual(12);
    const [file] = checked(bothways(cwd, "check", "next", "--format", "json"));
    expect(file?.findings.filter((f) => !CATALOGUE.some((entry) => entry.code === f.code))).toEqual([]);
    expect(bothways(cwd, "format", "--check", "next").status).toBe(0);
  });
  it("takes all the typical equipment at once without a mistake in the text", () => {
    const cwd = folder();
    const ran = bothways(cwd, "start", "--own", STARTER_KINDS.join(", "), "--talkers", "Ines at lectern, Teo at operator and 陽子");
    expect([ran.status, ran.err]).toEqual([0, ""]);
    expect(bothways(cwd, "format", "--check", ".").status).toBe(0);
  });
  it("never writes over a file", () => {
    const cwd = folder({ "meeting.bothways": "mine" });
    const ran = bothways(cwd, "start", ...ALL);
    expect(isPlainRefusal(ran)).toBe(true);
    expect(readFileSync(path.join(cwd, "meeting.bothways"), "utf8")).toBe("mine");
  });
  it("asks nothing without a terminal, and says what it assumed", () => {
    const cwd = folder();
    const ran = bothways(cwd, "start");
    expect(ran.status).toBe(0);
    expect(ran.out.replace(/\s+/gu, " ")).toMatch(/Taken, because nothing was said: 20 seats in the room, 6 people online/u);
    const [file] = checked(bothways(cwd, "check", ".", "--format", "json"));
    expect(file?.findings.filter((f) => !CATALOGUE.some((entry) => entry.code === f.code))).toEqual([]);
  });
  it("refuses an answer that the language cannot take, and writes nothing", () => {
    const cwd = folder();
    const ran = bothways(cwd, "start", "--talkers", "Ines at the moon");
    expect(ran.status).toBe(2);
    expect(ran.err).toMatch(/an answer does not fit/u);
    expect(readdirSync(cwd)).toEqual([]);
  });
});

describe("survey", () => {
  it("gives a blank form without a file", () => {
    const ran = bothways(folder(), "survey");
    expect(ran.status).toBe(0);
    expect(ran.out).toMatch(/^# What to find out at the venue/u);
    expect(bothways(folder(), "survey", "--format", "html").out).toMatch(/^<!DOCTYPE html>/u);
  });
  it("shows lines to write that the language takes", () => {
    const cwd = folder({ "a.bothways": ["setup \"Fern\"", ...FORM.flatMap((group) => group.write)
      .map((line) => (/^(?:clap|noise|curtains|chairs|screen|spot|outlet) /u.test(line) ? `in hall { ${line} }` : line))].join("\n") });
    const [file] = checked(bothways(cwd, "check", "a.bothways", "--format", "json"));
    expect(file?.findings.filter((f) => !CATALOGUE.some((entry) => entry.code === f.code))).toEqual([]);
  });
  it("asks in the same order as the JSON of check", () => {
    const cwd = folder({ "a.bothways": FIVE });
    const asked = checked(bothways(cwd, "check", "a.bothways", "--format", "json"))[0]?.questions.map((q) => q.ask) ?? [];
    expect(asked.length).toBeGreaterThan(0);
    const out = bothways(cwd, "survey", "a.bothways").out.replace(/\\/gu, "");
    const at = asked.map((ask, i) => out.indexOf(`## ${i + 1}. ${ask}`));
    expect(at).not.toContain(-1);
    expect(at).toEqual([...at].sort((a, b) => a - b));
  });
});

describe("figures and draw", () => {
  it("gives figures as a list with the keys that scripts count on", () => {
    const cwd = folder({ "a.bothways": FIVE });
    const list = JSON.parse(bothways(cwd, "figures", "a.bothways", "--format", "json").out) as Record<string, unknown>[];
    expect(list.length).toBeGreaterThan(0);
    for (const figure of list) {
      for (const key of ["name", "of", "value", "unit", "formula", "inputs", "source"]) expect(figure).toHaveProperty(key);
      expect(Number.isFinite(figure["value"])).toBe(true);
    }
    const text = bothways(cwd, "figures", "a.bothways").out;
    for (const figure of list) expect(text).toContain(figure["name"] as string);
  });
  it("draws to a file, making its folder, or to standard output", () => {
    const cwd = folder({ "a.bothways": FIVE });
    const ran = bothways(cwd, "draw", "a.bothways", "--view", "flow", "--out", "out/flow.svg");
    expect([ran.status, ran.out, ran.err]).toEqual([0, "Drawn: out/flow.svg\n", ""]);
    const svg = readFileSync(path.join(cwd, "out/flow.svg"), "utf8");
    expect(svg).toMatch(/<svg[\s\S]*<\/svg>\s*$/u);
    expect(bothways(cwd, "draw", "a.bothways").out).toBe(svg);
  });
  it("draws what a camera frames and what is seen from a seat", () => {
    const cwd = folder({ "a.bothways": FIVE });
    const camera = bothways(cwd, "draw", "a.bothways", "--view", "camera", "--of", "laptop", "--theme", "print");
    expect([camera.status, camera.err]).toEqual([0, ""]);
    expect(camera.out).toContain("What laptop.camera frames");
    const seat = bothways(cwd, "draw", "a.bothways", "--view", "seat", "--of", "audience", "--out", "seat.svg");
    expect([seat.status, seat.out, seat.err]).toEqual([0, "Drawn: seat.svg\n", ""]);
    expect(readFileSync(path.join(cwd, "seat.svg"), "utf8")).toMatch(/Seen from audience\.row-\d\.seat-\d[\s\S]*<\/svg>\s*$/u);
  });
});

describe("fix", () => {
  /** A second device in the room with its sound on: those online hear themselves. */
  const ECHO = `setup "Fern"
room hall 9.2 m by 6.4 m by 3.1 m {
  noise 38 dBA
  reverberation 0.8 s
  chairs 24 in 4 rows
  outlet back-wall at back
}
meeting { start 18:30, end 20:30 }
online 8 people   # from home
internet venue { up 12 Mb/s measured 2026-10-07 18:40 }
talker Ines at lectern
place laptop is laptop, at lectern
place phone is phone, at lectern
join laptop {
  sends sound from laptop.microphone
  plays sound on laptop.loudspeaker
}
join phone {
  sends sound from phone.microphone
  plays sound on phone.loudspeaker
}
`;
  const codes = (cwd: string): string[] => (checked(bothways(cwd, "check", "a.bothways", "--format", "json"))[0]?.findings ?? []).map((f) => f.code);

  it("lists mends with what they would change, and writes nothing", () => {
    const cwd = folder({ "a.bothways": ECHO });
    expect(codes(cwd)).toContain("echo-path");
    const ran = bothways(cwd, "fix", "a.bothways");
    expect(ran.status).toBe(0);
    expect(ran.out).toMatch(/echo-path {2}a\.bothways:\d+:\d+/u);
    expect(ran.out).toMatch(/^ {2}1\. /mu);
    expect(ran.out).toMatch(/^ +\d+ [+-] /mu);
    expect(readFileSync(path.join(cwd, "a.bothways"), "utf8")).toBe(ECHO);
  });
  it("applies the mend of one code: the finding is gone, comments stay", () => {
    const cwd = folder({ "a.bothways": ECHO });
    const ran = bothways(cwd, "fix", "a.bothways", "--apply", "echo-path");
    expect(ran.err).toBe("");
    expect(ran.status).toBe(0);
    expect(ran.out).toMatch(/^\d+ mends? applied/u);
    expect(codes(cwd)).not.toContain("echo-path");
    expect(readFileSync(path.join(cwd, "a.bothways"), "utf8")).toContain("online 8 people   # from home");
    expect(readdirSync(cwd)).toEqual(["a.bothways"]);
  });
  it("applies all that is offered, after which nothing is offered any more", () => {
    const cwd = folder({ "a.bothways": ECHO });
    const ran = bothways(cwd, "fix", "a.bothways", "--apply", "all");
    expect(ran.out).toMatch(/^\d+ mends? applied/u);
    expect(bothways(cwd, "fix", "a.bothways").out).not.toMatch(/^ {2}1\. /mu);
  });
  it("changes no text whose blocks are in doubt", () => {
    const broken = ECHO.replace("outlet back-wall at back\n}", "outlet back-wall at back\n");
    const cwd = folder({ "a.bothways": broken });
    const ran = bothways(cwd, "fix", "a.bothways", "--apply", "all");
    expect(isPlainRefusal(ran)).toBe(true);
    expect(ran.err).toContain("nothing was changed");
    expect(readFileSync(path.join(cwd, "a.bothways"), "utf8")).toBe(broken);
  });
  it("has nothing to do where the code is not found", () => {
    const cwd = folder({ "a.bothways": ECHO });
    const ran = bothways(cwd, "fix", "a.bothways", "--apply", "uplink-short");
    expect([ran.status, ran.out]).toEqual([0, "Nothing to mend: a.bothways has no finding uplink-short.\n"]);
  });
});

describe("bad input ends with one clear error and no hang", () => {
  const conflict = `${FIVE}<<<<<<< mine\nonline 8 people\n=======\nonline 9 people\n>>>>>>> theirs\n`;
  const thousand = `${FIVE}${Array.from({ length: 1000 }, (_, i) => `place l${i} is laptop, at back\njoin l${i} { plays no sound }`).join("\n")}\n`;
  it.each([
    ["rows 100000", FIVE.replace("4 rows", "100000 rows")],
    ["conflict markers", conflict],
    ["three hundred unclosed blocks", `${FIVE}${"meeting {\n".repeat(300)}`],
    ["a thousand joins", thousand],
    ["nothing at all", ""],
    ["only a byte order mark", "\ufeff"],
    ["control characters", `setup "a"\n\u0000\u0001\u001b[31m\u0007`],
  ])("%s", (_name, text) => {
    const cwd = folder({ "a.bothways": text });
    const ran = bothways(cwd, "check", "a.bothways");
    expect(ran.err).toBe("");
    expect([0, 1]).toContain(ran.status);
    expect(ran.out).not.toMatch(/\u001b|\n\s+at .*:\d+:\d+\)/u);
    expect(readFileSync(path.join(cwd, "a.bothways"), "utf8")).toBe(text);
  }, 60_000);
  it("a circle of use", () => {
    const cwd = folder({ "a.bothways": `use "b.bothways"\n${FIVE}`, "b.bothways": "use \"a.bothways\"\n" });
    const ran = bothways(cwd, "check", "a.bothways");
    expect([ran.err, ran.status]).toEqual(["", 1]);
  });
  it("a folder that cannot be written", () => {
    const cwd = folder({ "file": "" });
    writeFileSync(path.join(cwd, "a.bothways"), FIVE);
    expect(isPlainRefusal(bothways(cwd, "draw", "a.bothways", "--out", "file/x.svg"))).toBe(true);
    expect(isPlainRefusal(bothways(cwd, "start", "file"))).toBe(true);
  });
});
