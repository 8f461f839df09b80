/** The six verdicts, first thing that anyone sees. */
import type { WayVerdict } from "../finding";
import { VERDICT_WORDS, VERDICTS, WAY_TITLES, WAYS, type Verdict } from "../model/ways";
import type { Ink, Page } from "./terminal";
import { hung, listed, padded } from "./wording";

const INKS: Readonly<Record<Verdict, Ink>> = { works: "good", doubtful: "poor", "cannot-tell": "open", fails: "bad" };
/** Told apart by shape, so that neither colour nor a rich font is needed. */
const MARKS: Readonly<Record<Verdict, { rich: string; poor: string }>> = {
  works: { rich: "✓", poor: "+" }, doubtful: { rich: "~", poor: "~" },
  "cannot-tell": { rich: "?", poor: "?" }, fails: { rich: "✗", poor: "x" },
};
const WIDEST = Math.max(...Object.values(VERDICT_WORDS).map((word) => word.length));

const markOf = (verdict: Verdict, page: Page): string => MARKS[verdict][page.unicode ? "rich" : "poor"];

/** A verdict's mark and word, coloured where the page has colour. */
export const verdictWords = (verdict: Verdict, page: Page): string =>
  page.paint(INKS[verdict], `${markOf(verdict, page)} ${padded(VERDICT_WORDS[verdict], WIDEST)}`);

const reason = (way: WayVerdict): string => {
  const hangs = way.hangsOn.length === 0 ? "" : `hangs on ${listed(way.hangsOn)}`;
  const weakest = way.weakest.trim().replace(/\.$/u, "");
  return weakest === "" ? hangs : hangs === "" ? weakest : `${weakest}; ${hangs}`;
};

/** Where items of the programme differ they stand below their way, the worst of them being the way's own mark. */
export function printVerdicts(ways: readonly WayVerdict[], page: Page): string[] {
  const out: string[] = [];
  const indent = WIDEST + 6;
  for (const name of WAYS) {
    const all = ways.filter((way) => way.way === name);
    if (all.length === 0) continue;
    const worst = all.reduce((a, b) => (VERDICTS.indexOf(b.verdict) > VERDICTS.indexOf(a.verdict) ? b : a));
    out.push(`  ${verdictWords(worst.verdict, page)}  ${page.paint("strong", WAY_TITLES[name])}`);
    for (const way of all) {
      const words = reason(way);
      if (all.length === 1) {
        if (words !== "") out.push(hung(" ".repeat(indent), words, page.width));
        continue;
      }
      const item = way.item === undefined ? "otherwise" : `in ${way.item}`;
      const mark = page.paint(INKS[way.verdict], markOf(way.verdict, page));
      const line = hung(" ".repeat(indent + 2), `${VERDICT_WORDS[way.verdict]} ${item}${words === "" ? "" : `: ${words}`}`, page.width);
      out.push(`${" ".repeat(indent)}${mark} ${line.slice(indent + 2)}`);
    }
  }
  return out;
}
