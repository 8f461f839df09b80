/**
 * Findings as a static-analysis log by the OASIS standard SARIF 2.1.0. Lines and columns count from 1, columns in UTF-16
 * units; URIs are relative to the folder that was open.
 */
import type { Edit, Finding, Fix, Severity, TextProblem } from "../finding";
import type { Study } from "../study";
import type { Entry } from "../checks/catalogue";
import type { Places, Range } from "./places";
import { pathToFileURL } from "node:url";

interface Region { startLine: number; startColumn: number; endLine: number; endColumn: number }
interface ArtifactLocation { uri: string; uriBaseId: string }
interface Location { physicalLocation: { artifactLocation: ArtifactLocation; region?: Region }; message?: { text: string } }
interface Result {
  ruleId: string;
  ruleIndex: number;
  kind: "fail" | "informational";
  level: "error" | "warning" | "note" | "none";
  message: { text: string };
  locations: Location[];
  relatedLocations?: Location[];
  partialFingerprints?: Record<string, string>;
  /** By the standard either all results of a run have it or none has. */
  suppressions: { kind: "inSource" }[];
  fixes?: {
    description: { text: string };
    artifactChanges: { artifactLocation: ArtifactLocation; replacements: { deletedRegion: Region; insertedContent: { text: string } }[] }[];
  }[];
}
interface Rule {
  id: string;
  shortDescription: { text: string };
  fullDescription?: { text: string };
  help?: { text: string };
  defaultConfiguration: { level: Result["level"] };
  properties?: { group: string };
}

const LEVELS: Readonly<Record<Severity, Result["level"]>> = { error: "error", warning: "warning", hint: "note", plan: "none" };

const region = ({ start, end }: Range): Region => ({
  startLine: start.line + 1, startColumn: start.character + 1, endLine: end.line + 1, endColumn: end.character + 1,
});

/** A path with `/` as a relative reference by RFC 3986. */
const uriOf = (path: string): string => {
  const uri = path.split("/").map(encodeURIComponent).join("/");
  return /^[^/]*:/u.test(uri) ? `./${uri}` : uri;
};

/** Collects what was found in several files into one log. */
export class SarifLog {
  readonly #rules: Rule[] = [];
  readonly #index = new Map<string, number>();
  readonly #results: Result[] = [];
  readonly #bases = new Map<string, string>();
  readonly #unread: { path: string; problem: string }[] = [];
  readonly #version: string;

  constructor(catalogue: readonly Entry[], version: string) {
    this.#version = version;
    for (const entry of catalogue) {
      this.#rule({
        id: entry.code,
        shortDescription: { text: entry.title },
        fullDescription: { text: [entry.notice, entry.why].filter((part) => part !== "").join(" ") || entry.title },
        help: { text: [...entry.todo, entry.source === "" ? "" : `Source: ${entry.source}`].filter((p) => p !== "").join("\n") || entry.title },
        defaultConfiguration: { level: LEVELS[entry.severity] },
        properties: { group: entry.group },
      });
    }
  }

  #rule(rule: Rule): number {
    let index = this.#index.get(rule.id);
    if (index === undefined) {
      index = this.#rules.push(rule) - 1;
      this.#index.set(rule.id, index);
    }
    return index;
  }

  #base(root: string): string {
    let id = this.#bases.get(root);
    if (id === undefined) {
      id = this.#bases.size === 0 ? "ROOT" : `ROOT-${this.#bases.size + 1}`;
      this.#bases.set(root, id);
    }
    return id;
  }

  /** All that a study says; `root` is the folder that its paths are relative to. */
  add(study: Study, places: Places, root: string, fixesOf: (finding: Finding) => readonly Fix[]): void {
    const uriBaseId = this.#base(root);
    const artifact = (path: string): ArtifactLocation => ({ uri: uriOf(path), uriBaseId });
    const location = (where: Finding["where"], message?: string): Location => {
      const place = places.at(where);
      return {
        physicalLocation: { artifactLocation: artifact(where.path), ...(place.text === undefined ? {} : { region: region(place.range) }) },
        ...(message === undefined ? {} : { message: { text: message } }),
      };
    };
    const result = (from: Finding | TextProblem): Result => ({
      ruleId: from.code,
      ruleIndex: this.#rule({
        id: from.code, shortDescription: { text: from.code.replaceAll("-", " ") }, defaultConfiguration: { level: LEVELS[from.severity] },
      }),
      // A gap in the plan is no failure, and by the standard only failures have a level.
      kind: from.severity === "plan" ? "informational" : "fail",
      level: LEVELS[from.severity],
      message: { text: from.message },
      locations: [location(from.where)],
      suppressions: [],
      ...(from.related.length === 0 ? {} : { relatedLocations: from.related.map((r) => location(r.where, r.message)) }),
    });
    const finding = (from: Finding): Result => ({
      ...result(from), partialFingerprints: { "bothwaysIdentity/v1": `${study.root} ${from.identity}` },
    });
    for (const problem of study.problems) this.#results.push(result(problem));
    for (const from of study.findings) {
      const fixes = fixesOf(from);
      this.#results.push({ ...finding(from), ...(fixes.length === 0 ? {} : {
        fixes: fixes.map((fix) => ({ description: { text: fix.title }, artifactChanges: changesOf(fix.edits, artifact, places) })),
      }) });
    }
    for (const from of study.disproved) this.#results.push({ ...finding(from), suppressions: [{ kind: "inSource" }] });
    for (const from of study.accepted) this.#results.push({ ...finding(from), suppressions: [{ kind: "inSource" }] });
  }

  /** A file that could not be read. */
  unread(path: string, problem: string): void {
    this.#unread.push({ path, problem });
  }

  /** The log as text. */
  text(): string {
    const log = {
      $schema: "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
      version: "2.1.0",
      runs: [{
        tool: { driver: { name: "Bothways", version: this.#version, rules: this.#rules } },
        columnKind: "utf16CodeUnits",
        originalUriBaseIds: Object.fromEntries([...this.#bases].map(([root, id]) => [id, { uri: `${pathToFileURL(root).href.replace(/\/$/u, "")}/` }])),
        invocations: [{
          executionSuccessful: this.#unread.length === 0,
          ...(this.#unread.length === 0 ? {} : {
            toolExecutionNotifications: this.#unread.map((u) => ({ level: "error", message: { text: `${u.path}: ${u.problem}` } })),
          }),
        }],
        results: this.#results,
      }],
    };
    return `${JSON.stringify(log, undefined, 2)}\n`;
  }
}

const changesOf = (edits: readonly Edit[], artifact: (path: string) => ArtifactLocation, places: Places):
NonNullable<Result["fixes"]>[number]["artifactChanges"] => [...new Set(edits.map((edit) => edit.path))].map((path) => ({
  artifactLocation: artifact(path),
  replacements: edits.filter((edit) => edit.path === path).map((edit) => ({
    deletedRegion: region(places.range(edit)), insertedContent: { text: edit.newText },
  })),
}));
