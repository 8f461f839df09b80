/** Beside the lines: what was computed of the thing that a line states, and what is assumed of it where a finding hangs on that. */
import { HEADS } from "../../grammar/vocabulary";
import type { Figure } from "../finding";
import { valueOf, type Bound } from "../model/bound";
import { canonical } from "../model/names";
import type { Setup } from "../model/setup";
import { withUnit } from "../model/show";
import type { Where } from "../model/where";
import { fileAsked, type Asked, type Span } from "./asked";

export interface InlayHint {
  /** Where in the text it stands. */
  readonly at: number;
  readonly label: string;
  /** Formula and source, or where the assumption comes from. */
  readonly tooltip: string;
  readonly sort: "computed" | "assumed";
}

/** Figures that say most of a thing, the first that there is; and how they read beside its line. */
const TOLD: readonly { readonly heads: readonly string[]; readonly figure: string; readonly words: (value: string) => string }[] = [
  { heads: ["room"], figure: "reverberation time", words: (value) => `rings for ${value}` },
  { heads: ["internet"], figure: "uplink that can be counted on", words: (value) => `${value} can be counted on` },
  { heads: ["internet"], figure: "sent in all", words: (value) => `${value} sent` },
  { heads: ["place"], figure: "level at 1 m when playing speech", words: (value) => `plays at ${value} at 1 m` },
  { heads: ["place"], figure: "height of the picture", words: (value) => `picture ${value} high` },
  { heads: ["place"], figure: "angle of view, from side to side", words: (value) => `sees ${value}` },
  { heads: ["place"], figure: "battery life", words: (value) => `battery lasts ${value}` },
  { heads: ["sends"], figure: "target rate of a stream", words: (value) => value },
];
/** No more than so many beside one line. */
const MOST = 2;

/** Hints of a stretch of the text, in order; none where the file is part of no setup. `which`: the sorts that are wanted. */
export function inlayHints(asked: Pick<Asked, "setup" | "path" | "text" | "study">, within: Span = { start: 0, end: Infinity }, which: readonly InlayHint["sort"][] = ["computed", "assumed"]): readonly InlayHint[] {
  const file = fileAsked(asked);
  if (file === undefined || !asked.setup.isSetup) return [];
  const study = asked.study();
  const out: InlayHint[] = [];
  if (which.includes("computed")) {
    const byName = new Map<string, Figure[]>();
    for (const figure of study.figures()) byName.set(figure.name, [...(byName.get(figure.name) ?? []), figure]);
    const visit = (statement: Bound, owner: Bound | undefined): void => {
      if (statement.where.end >= within.start && statement.where.start <= within.end) out.push(...computed(asked.text, statement, owner, byName));
      for (const child of statement.children) visit(child, statement);
    };
    for (const statement of file.statements) visit(statement, undefined);
  }
  if (which.includes("assumed")) {
    const told = new Map<number, Set<string>>();
    for (const finding of study.findings.filter((one) => one.severity !== "plan")) {
      for (const { text, source, where: stated } of finding.assumed) {
        const where = stated ?? ownerOf(asked.setup, text);
        if (where?.path !== asked.path || where.start > within.end || where.end < within.start) continue;
        const at = lineEnd(asked.text, where.start);
        const known = told.get(at) ?? new Set<string>();
        told.set(at, known);
        if (known.has(text) || known.size >= MOST) continue;
        known.add(text);
        out.push({ at, sort: "assumed", label: `assumed: ${text}`, tooltip: `${finding.code} hangs on it.${source === undefined ? "" : ` Source: ${source}`}` });
      }
    }
  }
  return out.sort((a, b) => a.at - b.at);
}

function computed(text: string, statement: Bound, owner: Bound | undefined, byName: ReadonlyMap<string, readonly Figure[]>): InlayHint[] {
  const subject = subjectOf(text, statement, owner);
  if (subject === undefined) return [];
  const own = (figure: Figure): boolean => figure.of.some((of) => canonical(of) === canonical(subject) || canonical(of).startsWith(`${canonical(subject)}.`) || canonical(of).startsWith(`${canonical(subject)} at `));
  return TOLD.filter(({ heads }) => heads.includes(statement.row.head)).flatMap(({ figure: name, words }): InlayHint[] => {
    const found = (byName.get(name) ?? []).filter(own);
    // Of octave bands the middle one is told.
    const figure = found.find((one) => one.band === 1000) ?? found[0];
    if (figure === undefined) return [];
    const { at, before } = behindLine(text, statement);
    return [{ at, sort: "computed", label: `${before ? `${subject}: ` : ""}${words(withUnit(figure.value, figure.unit))}`, tooltip: `${figure.name}: ${figure.formula}. ${figure.source}` }];
  }).slice(0, MOST);
}

/** Behind all that stands on the line on which a statement's own words end, so that nothing is torn apart; `before`: other statements share the line, so that it has to be said what it is about. */
function behindLine(text: string, { where, fact, children }: Bound): { readonly at: number; readonly before: boolean } {
  const first = text.slice(text.lastIndexOf("\n", where.start - 1) + 1, where.start).trim() === "";
  // What stands behind its commas is its own, unless it is a statement beside it.
  const beside = fact.also.some((also) => HEADS.has(also.head.text.toLowerCase()) && !children.some((child) => child.fact === also));
  return { at: lineEnd(text, where.end), before: !first || beside };
}

/** Where the text speaks of the thing that an assumption is about: the first name in its words that bears one; nothing where the text has none of it. */
function ownerOf(setup: Setup, words: string): Where | undefined {
  for (const word of words.split(/[\s,;()]+/u)) {
    const name = canonical(word.split(".")[0] ?? "");
    const device = setup.devices.get(name);
    const found = device?.placed?.where ?? device?.where ?? setup.voices.get(name)?.where ?? setup.room.seats.find((seats) => canonical(seats.name) === name)?.where
      ?? setup.internets.find((internet) => canonical(internet.name) === name)?.where ?? (canonical(setup.room.name) === name ? setup.room.where : undefined);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** What a line is about, as figures name it. */
function subjectOf(text: string, statement: Bound, owner: Bound | undefined): string | undefined {
  switch (statement.row.head) {
    case "place": return valueOf(statement, "device", "name")?.text;
    case "sends": {
      const what = valueOf(statement, "what", "word")?.word;
      if (what !== "picture") return owner && `the ${what ?? "sound"} of ${valueOf(owner, "device", "name")?.text ?? ""}`;
      const mode = [...statement.values.values()].flat().find((value) => value.kind === "mode");
      const camera = valueOf(statement, "from", "name")?.text;
      return camera === undefined || mode === undefined ? camera : `${camera} at ${text.slice(mode.start, mode.end)}`;
    }
    default: return valueOf(statement, "name", "name")?.text;
  }
}

const lineEnd = (text: string, at: number): number => {
  const end = text.slice(at).search(/[\r\n]/u);
  const line = end < 0 ? text.length : at + end;
  return at + text.slice(at, line).trimEnd().length;
};
