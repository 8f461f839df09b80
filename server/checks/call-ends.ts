import { insertInto } from "../model/edits";
import { duration, list } from "../model/show";
import type { Setup } from "../model/setup";
import { fileOf, type Case, type Check, type Remedy } from "./check";

export const callEnds: Check = {
  silentInOrder: true,
  entry: {
    code: "call-ends", title: "The call ends before the meeting does", severity: "error", group: "The call",
    notice: "In the middle of a sentence everybody online is gone, and the room takes a minute to see it.",
    why: "The service cuts a call off after a time that is shorter than the meeting.",
    todo: ["Ask who has an account with a longer time.", "Open the call anew where an item ends, by a second invitation sent out beforehand: reopens at 19:10.", "Say at the start when that will be, and have the second invitation in the chat."],
    source: "the limit is the text's; arithmetic", symptoms: ["call ended", "everybody was thrown out", "the meeting closed by itself", "time limit", "disconnected after forty minutes"],
    limit: "the call lasts as long as the meeting, or is opened anew in time",
  },
  cases: ({ setup, item }) => {
    const { service } = setup;
    const { endsAfter } = service;
    const span = spanOf(setup);
    if (endsAfter === undefined || span === undefined || setup.joins.length === 0) return [];
    const own = setup.items.find((one) => one.name === item);
    const [from, to] = [own?.from ?? span.from, own?.to ?? span.to];
    return [{
      key: `call ${from} ${to}`, ways: ["call"],
      measure: (trial) => {
        // Of each time that the call is opened, what lies beyond its end.
        const cut = stretches(setup, span).map((s) => ({ ...s, ends: s.from + trial.value(endsAfter) / 60 })).filter((s) => s.ends < s.to - 1e-9);
        const here = cut.filter((s) => Math.max(s.ends, from) < Math.min(s.to, to) - 1e-9);
        const lost = here.reduce((sum, s) => sum + Math.min(s.to, to) - Math.max(s.ends, from), 0);
        const [first] = here.length > 0 ? here : cut;
        const longest = Math.max(...stretches(setup, span).map((s) => s.to - s.from));
        return {
          severity: here.length > 0 ? "error" : undefined, badness: here.length > 0 ? lost : longest - trial.value(endsAfter) / 60,
          measured: { value: longest, unit: "min" }, limit: { value: trial.value(endsAfter) / 60, unit: "min" },
          cause: { key: "ends", subjects: [], where: endsAfter.from.where ?? service.where ?? setup.titleWhere },
          say: () => ({
            because: `the service ends a call after ${duration(trial.value(endsAfter))}, and the meeting keeps it open for ${duration(longest * 60)}`,
            effect: first === undefined ? "" : `at ${clock(first.ends)} everybody online is cut off`,
            summary: first === undefined ? `the call lasts the meeting${service.reopens.length === 0 ? "" : `, opened anew at ${list(service.reopens.map(clock))}`}` : `the call is cut off at ${clock(first.ends)}`,
            chain: [`opened at ${list(stretches(setup, span).map((s) => clock(s.from)))}`, `the meeting lasts until ${clock(span.to)}`],
          }),
        };
      },
      remedies: () => reopen(setup, span, endsAfter.low),
    } satisfies Case];
  },
};

interface Span { readonly from: number; readonly to: number }

/** When the meeting begins and ends, minutes since midnight. */
function spanOf(setup: Setup): Span | undefined {
  const from = setup.start ?? setup.items[0]?.from;
  const to = setup.end ?? setup.items.at(-1)?.to;
  return from === undefined || to === undefined || to <= from ? undefined : { from, to };
}

/** The times for which the call is open without a break. */
export function stretches(setup: Setup, span: Span): Span[] {
  const at = [span.from, ...setup.service.reopens.filter((time) => time > span.from && time < span.to), span.to];
  return at.slice(1).map((to, i) => ({ from: at[i] ?? span.from, to }));
}

/** The length of the meeting in minutes, and that of the longest stretch of the call. */
export function callLength(setup: Setup): { readonly meeting: number; readonly longest: number } | undefined {
  const span = spanOf(setup);
  return span === undefined ? undefined : { meeting: span.to - span.from, longest: Math.max(...stretches(setup, span).map((s) => s.to - s.from)) };
}

/** Opens the call anew where an item begins, as seldom as will do; in the middle of an item nobody would want it. */
function reopen(setup: Setup, span: Span, limit: number): Remedy[] {
  const { statement } = setup.service;
  const file = statement && fileOf(setup, statement.where.path);
  if (statement === undefined || file === undefined) return [];
  const starts = setup.items.flatMap((item) => item.from ?? []).filter((time) => time > span.from && time < span.to);
  const at: number[] = [];
  for (let open = span.from; open + limit / 60 < span.to;) {
    const next = Math.max(...starts.filter((time) => time > open && time <= open + limit / 60));
    if (!Number.isFinite(next)) return [];
    at.push(next);
    open = next;
  }
  const fresh = at.filter((time) => !setup.service.reopens.includes(time));
  return fresh.length === 0 ? [] : [{ title: `Open the call anew at ${list(at.map(clock))}, where an item begins`, edits: [insertInto(file, statement, fresh.map((time) => `reopens at ${written(time)}`))] }];
}

const two = (n: number): string => String(n).padStart(2, "0");
const clock = (minutes: number): string => `${two(Math.floor(Math.round(minutes) / 60) % 24)}:${two(Math.round(minutes) % 60)}`;
const written = (minutes: number): string => `${clock(minutes)}${minutes >= 1440 ? " next-day" : ""}`;
