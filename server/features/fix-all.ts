/**
 * Everything that can be set right at one go and that nobody has to think about: proven fixes that are a finding's only one and change a
 * mere setting of the call, a mixer or a device. Never a move, a purchase, a cable, a person's job or a fact.
 */
import type { Edit, Finding } from "../finding";
import { applyEdits, MOST_TRIED, proofs } from "../fixes/prove";
import type { Bound } from "../model/bound";
import { gather, type Texts } from "../model/files";
import { everywhere } from "../model/reading";
import { studying, type Study } from "../study";

/** Statements that only set what is there, by what they stand in and their first word. */
const SETTINGS: ReadonlySet<string> = new Set([
  "join cancels", "join sends", "join plays", "join shows", "join suppresses", "join monitors", "shows faces", "shows text-height", "watch plays",
  "mixer automatic", "channel trim", "channel gain", "channel phantom", "bus holds", "bus delay", "bus before-faders",
  "call keeps", "call large", ...["cancels", "gain", "pattern", "mirrored", "calls"].flatMap((head) => [`place ${head}`, `device ${head}`]),
]);
/** Fixes that are taken one after the other; no evening has so many things to set. */
const MOST_ROUNDS = 12;
/** Copies of the text that are studied in all. What is not come to by then is left for the next time: the text is right so far. */
export const MOST_STUDIES = 40;

/** How many more copies may be studied. */
interface Budget { left: number }

/** What the setup's own text would be, as edits of it; none where there is nothing to set right. Yields, so that whoever asks can stop. */
export function* settingsMended(below: Texts, before: Study, most = MOST_STUDIES): Generator<undefined, readonly Edit[]> {
  const budget: Budget = { left: most };
  const path = before.root;
  const textOf = (study: Study): string => study.files.find((file) => file.path === path)?.text ?? "";
  const first = textOf(before);
  const seen = new Set([first]);
  let now = before;
  for (let round = 0; round < MOST_ROUNDS && isWhole(now); round += 1) {
    const text = textOf(now);
    const texts: Texts = { read: (asked) => (asked === path ? { text } : below.read(asked)), beside: (asked) => below.beside?.(asked) ?? [] };
    const edits = yield* firstSetting(texts, now, budget);
    if (edits === undefined) break;
    budget.left -= 1;
    const changed = applyEdits(text, edits);
    // A text that was there before would come again for ever: what undoes another fix is a choice, and left to the author.
    if (seen.has(changed)) return [];
    seen.add(changed);
    for (const work = studying({ ...texts, read: (asked) => (asked === path ? { text: changed } : below.read(asked)) }, path); ;) {
      const step = work.next();
      if (step.done === true) {
        now = step.value;
        break;
      }
      yield;
    }
  }
  return difference(path, first, textOf(now));
}

/** A text with mistakes is read in part only: nothing is changed in it by itself. */
const isWhole = (study: Study): boolean => study.isSetup && study.problems.every((problem) => problem.severity !== "error");

/** The edits of the first finding whose one proven fix is a mere setting. */
function* firstSetting(texts: Texts, study: Study, budget: Budget): Generator<undefined, readonly Edit[] | undefined> {
  for (const finding of study.findings) {
    const edits = finding.severity === "plan" ? undefined : yield* soleSetting(texts, study, finding, budget);
    if (edits !== undefined) return edits;
  }
  return undefined;
}

function* soleSetting(texts: Texts, study: Study, finding: Finding, budget: Budget): Generator<undefined, readonly Edit[] | undefined> {
  const remedies = study.remedies(finding);
  // More than are tried: whether one is the only one is not known. And nothing is tried where nothing could be taken.
  if (remedies.length > MOST_TRIED || !remedies.some((remedy) => isSetting(study, remedy.edits))) return undefined;
  // One that was begun is brought to its end, or it would not be known to be the only one; then the changed text is studied once.
  if (remedies.length + 1 > budget.left) return undefined;
  budget.left -= remedies.length;
  let sole: readonly Edit[] | undefined;
  for (const fix of proofs(texts, study, finding)) {
    if (fix !== undefined && sole !== undefined) return undefined;
    if (fix !== undefined) sole = fix.edits;
    yield;
  }
  return sole !== undefined && isSetting(study, sole) ? sole : undefined;
}

/** Whether edits change nothing but settings, and those in the setup's own text alone. */
export function isSetting(study: Study, edits: readonly Edit[]): boolean {
  const path = study.root;
  const text = study.files.find((file) => file.path === path)?.text;
  if (text === undefined || edits.length === 0 || edits.some((edit) => edit.path !== path)) return false;
  const count = new Map<string, number>();
  const add = (of: string, by: number): void => {
    for (const key of statementsIn(path, of)) count.set(key, (count.get(key) ?? 0) + by);
  };
  add(text, 1);
  add(applyEdits(text, edits), -1);
  const changed = [...count].filter(([, left]) => left !== 0).map(([key]) => key.split("\n")[0] ?? "");
  return changed.length > 0 && changed.every((key) => SETTINGS.has(key));
}

/** The statements of a text alone: what each stands in, its first word, and on a second line the words that are its own. */
function statementsIn(path: string, text: string): string[] {
  const { files } = gather({ read: (asked) => (asked === path ? { text } : { problem: "" }) }, path);
  const own = files.find((file) => file.path === path)?.statements ?? [];
  // What was measured is a fact, and whoever gave a reason has thought about it.
  const meant = ({ tails }: Bound): string => (tails.measured === undefined && tails.because === undefined ? "" : ", and meant");
  return everywhere(own).map((statement) => `${statement.owner} ${statement.row.head}${meant(statement)}\n${ownWords(text, statement)}`);
}

/** The words of a statement without the statements that stand in it: its place counts among them, also behind a comma. */
function ownWords(text: string, { whole, children }: Bound): string {
  let words = "";
  let at = whole.start;
  for (const child of [...children].sort((one, other) => one.whole.start - other.whole.start)) {
    words += `${text.slice(at, Math.max(at, child.whole.start))} `;
    at = Math.max(at, child.whole.end);
  }
  return `${words}${text.slice(at, whole.end)}`.replace(/[\s,{}]+/gu, " ").trim();
}

/** One edit: what stands between the first and the last letter that differ. */
function difference(path: string, before: string, after: string): readonly Edit[] {
  if (before === after) return [];
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before.charCodeAt(start) === after.charCodeAt(start)) start += 1;
  let end = 0;
  while (end < shorter - start && before.charCodeAt(before.length - 1 - end) === after.charCodeAt(after.length - 1 - end)) end += 1;
  return [{ path, start, end: before.length - end, newText: after.slice(start, after.length - end) }];
}
