/** A place in a text as the editor protocol counts it: line and UTF-16 unit in the line, both from 0. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

/** Translates between offsets and positions of one text; offsets count UTF-16 units from 0. */
export interface LineTable {
  /** How many lines the text has; an empty text has one. */
  readonly count: number;
  /** Position of an offset; offsets outside the text are moved to its nearer end. */
  at(offset: number): Position;
  /** Offset of a position; beyond the end of a line it is the line's end (before the line break). */
  offset(line: number, character: number): number;
}

const LINE_BREAK = /\r\n|\n|\r/g;

/**
 * Builds the line table of a text in one pass. Line breaks are CR LF, LF and a lone CR, as in the editor protocol; other
 * Unicode separators do not end a line. Looking up an offset takes a binary search.
 */
export function lineTable(text: string): LineTable {
  const starts = [0];
  /** Where each line ends, its line break left out. */
  const ends: number[] = [];
  for (const match of text.matchAll(LINE_BREAK)) {
    ends.push(match.index);
    starts.push(match.index + match[0].length);
  }
  ends.push(text.length);

  const at = (offset: number): Position => {
    const place = Math.min(Math.max(offset, 0), text.length);
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] ?? 0) <= place) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: place - (starts[low] ?? 0) };
  };

  const offset = (line: number, character: number): number => {
    if (line < 0) return 0;
    const start = starts[line];
    const end = ends[line];
    if (start === undefined || end === undefined) return text.length;
    return Math.min(start + Math.max(character, 0), end);
  };

  return { count: starts.length, at, offset };
}
