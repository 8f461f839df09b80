/** Verdicts in words: at the side of each band, and above all bands for the call and the internet. */
import { VERDICT_WORDS, type Verdict } from "../../model/ways";
import { balance, wrap } from "../svg/wrap";
import type { PlacedVerdict, Text } from "./scene";
import { LEADING, TYPE } from "./sizes";

export const MARK = 22;
const MARK_GAP = 9;
const SENTENCE_LINES = 6;

/** A verdict's words from (0, 0) downwards; moved to their place once heights are known. */
export interface SideWords {
  readonly verdict: PlacedVerdict;
  readonly height: number;
}

/** Title, mark with the verdict's word, sentence, and what is not drawn. */
export function sideWords(title: string, verdict: PlacedVerdict["verdict"], sentence: string, note: string, width: number): SideWords {
  const texts: Text[] = [];
  let y = 0;
  const write = (lines: readonly string[], size: number, bold: boolean, rank: Text["rank"], x = 0): void => {
    for (const text of lines) {
      y += size * LEADING;
      texts.push({ x, y: y - size * 0.3, text, size, bold, anchor: "start", rank });
    }
  };
  write(wrap(title, TYPE.way, width, 2, true).lines, TYPE.way, true, "ink");
  y += verdict === undefined ? 2 : 8;
  const markY = y + MARK / 2;
  if (verdict !== undefined) {
    const word = verdict === "echo" ? "comes back" : VERDICT_WORDS[verdict];
    texts.push({
      x: MARK + MARK_GAP, y: markY + TYPE.verdict * 0.36, text: word, size: TYPE.verdict, bold: true, anchor: "start", rank: "ink",
    });
    y += MARK + 5;
  }
  const told = balance(sentence, TYPE.sentence, width, SENTENCE_LINES);
  write(told.lines, TYPE.sentence, false, "ink");
  if (note !== "") {
    y += 4;
    write(wrap(note, TYPE.note, width, 3).lines, TYPE.note, false, "ink2");
  }
  return {
    verdict: { verdict, markX: MARK / 2, markY, texts, whole: told.shortened ? sentence : undefined },
    height: y,
  };
}

/** The same on a line: mark, title and word, then the sentence below. */
export function lineWords(title: string, verdict: Verdict, sentence: string, width: number): SideWords {
  const texts: Text[] = [];
  const x = MARK + MARK_GAP;
  const markY = MARK / 2;
  texts.push({
    x, y: markY + TYPE.way * 0.36, text: `${title}: ${VERDICT_WORDS[verdict]}`, size: TYPE.way, bold: true, anchor: "start", rank: "ink",
  });
  let y = MARK + 3;
  const told = balance(sentence, TYPE.sentence, width - x, 3);
  for (const text of told.lines) {
    y += TYPE.sentence * LEADING;
    texts.push({ x, y: y - TYPE.sentence * 0.3, text, size: TYPE.sentence, bold: false, anchor: "start", rank: "ink" });
  }
  return { verdict: { verdict, markX: MARK / 2, markY, texts, whole: told.shortened ? sentence : undefined }, height: y };
}

/** The words, moved. */
export function moved(verdict: PlacedVerdict, x: number, y: number): PlacedVerdict {
  return {
    ...verdict,
    markX: verdict.markX + x,
    markY: verdict.markY + y,
    texts: verdict.texts.map((text) => ({ ...text, x: text.x + x, y: text.y + y })),
  };
}
