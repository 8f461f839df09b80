/** A small line-by-line difference of two texts, to show what was changed. */

export interface Change {
  readonly sign: " " | "-" | "+";
  readonly line: string;
  /** Counted from 1 in the text that the line stands in. */
  readonly at: number;
}

const split = (text: string): string[] => text.split(/\r\n|\r|\n/u);
// Beyond this many pairs of lines the middle is shown as replaced as a whole.
const MOST_PAIRS = 4_000_000;

/**
 * Lines taken out and put in, each group with `context` lines around it (longest common subsequence, after what both
 * texts begin and end with is set aside).
 */
export function changes(before: string, after: string, context = 1): Change[][] {
  const a = split(before);
  const b = split(after);
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
  const n = a.length - head - tail;
  const m = b.length - head - tail;
  if (n === 0 && m === 0) return [];

  const all: Change[] = [];
  for (let i = 0; i < head; i++) all.push({ sign: " ", line: a[i] ?? "", at: i + 1 });
  if (n * m > MOST_PAIRS) {
    for (let i = 0; i < n; i++) all.push({ sign: "-", line: a[head + i] ?? "", at: head + i + 1 });
    for (let j = 0; j < m; j++) all.push({ sign: "+", line: b[head + j] ?? "", at: head + j + 1 });
  } else {
    const width = m + 1;
    const common = new Uint32Array((n + 1) * width);
    for (let i = n - 1; i >= 0; i--) {
      for (let j = m - 1; j >= 0; j--) {
        common[i * width + j] = a[head + i] === b[head + j]
          ? (common[(i + 1) * width + j + 1] ?? 0) + 1
          : Math.max(common[(i + 1) * width + j] ?? 0, common[i * width + j + 1] ?? 0);
      }
    }
    for (let i = 0, j = 0; i < n || j < m;) {
      if (i < n && j < m && a[head + i] === b[head + j]) {
        all.push({ sign: " ", line: b[head + j] ?? "", at: head + j + 1 });
        i++;
        j++;
      } else if (i < n && (j === m || (common[(i + 1) * width + j] ?? 0) >= (common[i * width + j + 1] ?? 0))) {
        all.push({ sign: "-", line: a[head + i] ?? "", at: head + i + 1 });
        i++;
      } else {
        all.push({ sign: "+", line: b[head + j] ?? "", at: head + j + 1 });
        j++;
      }
    }
  }
  for (let i = 0; i < tail; i++) all.push({ sign: " ", line: b[b.length - tail + i] ?? "", at: b.length - tail + i + 1 });

  const groups: Change[][] = [];
  let until = -1;
  all.forEach((change, i) => {
    if (change.sign === " ") return;
    const from = Math.max(0, i - context);
    if (from > until || groups.length === 0) groups.push([]);
    const group = groups[groups.length - 1] as Change[];
    for (let k = Math.max(from, until + 1); k <= i; k++) group.push(all[k] as Change);
    until = i;
    for (let k = i + 1; k <= Math.min(all.length - 1, i + context); k++) {
      if (all[k]?.sign !== " ") break;
      group.push(all[k] as Change);
      until = k;
    }
  });
  return groups;
}
