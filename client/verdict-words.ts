/** The six verdicts in signs and words, for the status bar, the preview and whoever listens to either. */
import type { ShownVerdict, VerdictsOf } from "../server/protocol/messages";

/** Signs that differ in shape, so that they are told apart without colour. */
export const SIGNS: Readonly<Record<ShownVerdict["verdict"], string>> = { works: "✓", doubtful: "~", "cannot-tell": "?", fails: "✗" };

const WORST_LAST: readonly ShownVerdict["verdict"][] = ["works", "doubtful", "cannot-tell", "fails"];
const ORDER: readonly ShownVerdict["way"][] = ["room-hears-online", "online-hears-room", "room-sees-online", "online-sees-room", "call", "internet"];

const worse = (a: ShownVerdict, b: ShownVerdict): ShownVerdict => (WORST_LAST.indexOf(b.verdict) > WORST_LAST.indexOf(a.verdict) ? b : a);

/**
 * One verdict for each way, in the order in which they are always shown. With an item of the programme, that item's; else the
 * worst of all items.
 */
export function sixOf(all: readonly ShownVerdict[], item?: string): ShownVerdict[] {
  return ORDER.flatMap((way) => {
    const own = all.filter((one) => one.way === way);
    const meant = item === undefined ? [] : own.filter((one) => one.item === item);
    const whole = own.filter((one) => one.item === undefined);
    const [first, ...rest] = meant.length > 0 ? meant : item !== undefined && whole.length > 0 ? whole : own;
    return first === undefined ? [] : [rest.reduce(worse, first)];
  });
}

/** A verdict as a clause: `The room hears the people online: works`. */
const clause = (one: ShownVerdict): string => `${one.title}${one.item === undefined ? "" : ` (${one.item})`}: ${one.word}`;

/** What a way's verdict rests on: its weakest link, and the open values that it hangs on. */
export function reason(one: ShownVerdict): string {
  const hangs = one.hangsOn.length === 0 ? "" : `${one.weakest === "" ? "" : "; "}hangs on ${one.hangsOn.join(", ")}`;
  return `${one.weakest}${hangs}`;
}

/** The six in short: six signs. */
export const inShort = (six: readonly ShownVerdict[]): string => six.map((one) => SIGNS[one.verdict]).join("");

/** The six in words, for who cannot see the signs. */
export const inWords = (six: readonly ShownVerdict[]): string => six.map((one) => `${clause(one)}.`).join(" ");

/** What the status line says of a document. */
export interface Status {
  readonly text: string;
  /** Lines of the tip: sign, words, reason. */
  readonly lines: readonly { readonly sign: string; readonly words: string; readonly reason: string }[];
  readonly label: string;
  readonly title: string;
}

const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? "" : "s"}`;

/** The status line of a document: nothing is claimed where no setup is judged. */
export function statusOf(verdicts: VerdictsOf): Status {
  if (verdicts.setup === undefined) {
    const text = "no setup uses this file";
    return { text, lines: [], label: `Bothways: ${text}, so nothing is judged.`, title: "" };
  }
  const six = sixOf(verdicts.ways);
  const found = `${counted(verdicts.errors, "error")}, ${counted(verdicts.warnings, "warning")}, ${counted(verdicts.questions, "question")}`;
  return {
    text: inShort(six),
    lines: six.map((one) => ({ sign: SIGNS[one.verdict], words: clause(one), reason: reason(one) })),
    label: `Bothways, six verdicts of ${verdicts.setup.title}. ${inWords(six)} ${found}.`,
    title: `${verdicts.setup.title}: ${found}`,
  };
}

/**
 * What to say aloud when a drawing has changed: everything where another setup or item is shown, else only the verdicts that are
 * different; nothing where none is.
 */
export function spoken(before: readonly ShownVerdict[] | undefined, now: readonly ShownVerdict[], of: string): string {
  if (before === undefined) return now.length === 0 ? "" : `${of}. ${inWords(now)}`;
  const changed = now.filter((one) => before.find((old) => old.way === one.way)?.verdict !== one.verdict);
  return changed.map((one) => `${one.title}: now ${one.word}.`).join(" ");
}
