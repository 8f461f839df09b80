/** Capitals of single strokes, for text that is drawn at its true size. One letter is 0.62 wide and 1 high; the strokes are our own. */

type Stroke = readonly (readonly [x: number, y: number])[];

const W = 0.62;
const M = W / 2;

const STROKES: Readonly<Record<string, readonly Stroke[]>> = {
  A: [[[0, 0], [M, 1], [W, 0]], [[0.12, 0.38], [W - 0.12, 0.38]]],
  D: [[[0, 0], [0, 1], [0.34, 1], [W, 0.7], [W, 0.3], [0.34, 0], [0, 0]]],
  E: [[[W, 0], [0, 0], [0, 1], [W, 1]], [[0, 0.52], [0.5, 0.52]]],
  F: [[[0, 0], [0, 1], [W, 1]], [[0, 0.52], [0.5, 0.52]]],
  G: [[[W, 0.8], [0.45, 1], [0.17, 1], [0, 0.75], [0, 0.25], [0.17, 0], [0.45, 0], [W, 0.2], [W, 0.48], [0.36, 0.48]]],
  H: [[[0, 0], [0, 1]], [[W, 0], [W, 1]], [[0, 0.52], [W, 0.52]]],
  I: [[[M, 0], [M, 1]]],
  L: [[[0, 1], [0, 0], [W, 0]]],
  M: [[[0, 0], [0, 1], [M, 0.4], [W, 1], [W, 0]]],
  N: [[[0, 0], [0, 1], [W, 0], [W, 1]]],
  O: [[[0.17, 0], [0, 0.25], [0, 0.75], [0.17, 1], [0.45, 1], [W, 0.75], [W, 0.25], [0.45, 0], [0.17, 0]]],
  R: [[[0, 0], [0, 1], [0.42, 1], [W, 0.86], [W, 0.64], [0.42, 0.48], [0, 0.48]], [[0.34, 0.48], [W, 0]]],
  S: [[[0, 0.14], [0.18, 0], [0.44, 0], [W, 0.16], [W, 0.36], [0.44, 0.5], [0.18, 0.52], [0, 0.68], [0, 0.86], [0.18, 1], [0.44, 1], [W, 0.86]]],
  T: [[[0, 1], [W, 1]], [[M, 0], [M, 1]]],
  X: [[[0, 0], [W, 1]], [[0, 1], [W, 0]]],
};

/** What the smallest text says: only letters that have strokes. */
const TEXT = "THE SMALLEST TEXT ON THIS SLIDE IS AS LARGE AS THIS ";

/** From one letter to the next, and from one line to the next, in heights of a capital. Common practice, no source. */
const ADVANCE = 0.86;
const PITCH = 2.2;
/** Of the picture's height and width that text fills. */
const FILLS = { high: 0.84, wide: 0.86 } as const;
/** So many letters are drawn, and no more. */
const MOST_LETTERS = 700;

/** A stretch of a line of text on a picture: from −0.5 to 0.5 across, from −0.5 to 0.5 up. */
export type OnPicture = readonly (readonly [across: number, up: number])[];

/**
 * Lines of capitals whose height is a share of the picture's. `fine`: letter by letter; else each line as one stroke, as
 * small print is drawn.
 */
export function lettering(share: number, aspect: number, fine: boolean): readonly OnPicture[] {
  const high = Math.min(0.8, Math.max(0.002, share));
  const lines = Math.max(1, Math.floor(FILLS.high / (high * PITCH)));
  const inLine = Math.max(1, Math.floor((FILLS.wide * aspect) / (high * ADVANCE)));
  const out: OnPicture[] = [];
  let drawn = 0;
  for (let line = 0; line < lines; line += 1) {
    const foot = FILLS.high / 2 - high - line * high * PITCH;
    // The last line of a paragraph is shorter.
    const many = line % 3 === 2 ? Math.ceil(inLine * 0.6) : inLine;
    const x = (n: number): number => (-FILLS.wide / 2) + (n * ADVANCE * high) / aspect;
    if (!fine || drawn + many > MOST_LETTERS) {
      if (out.length > MOST_LETTERS * 3) break;
      out.push([[x(0), foot + high / 2], [x(many), foot + high / 2]]);
      continue;
    }
    drawn += many;
    for (let n = 0; n < many; n += 1) {
      for (const stroke of STROKES[TEXT[(n + line * 19) % TEXT.length] ?? " "] ?? []) out.push(stroke.map(([sx, sy]) => [x(n) + (sx * high) / aspect, foot + sy * high] as const));
    }
  }
  return out;
}
