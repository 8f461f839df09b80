const LONGEST = 60;

/** The candidate nearest to a mistyped word, if one is near enough to be meant: at most a third of its letters differ. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  // Nobody mistypes a word of a hundred letters, and comparing two such takes long.
  if (word.length === 0 || word.length > LONGEST) return undefined;
  const wanted = word.toLowerCase();
  let best: string | undefined;
  let least = Math.max(1, Math.floor(wanted.length / 3)) + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - wanted.length) >= least) continue;
    const distance = editDistance(wanted, candidate.toLowerCase(), least);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** Damerau–Levenshtein distance, adjacent letters swapped counting one (Damerau 1964); stops counting at `cap`. */
export function editDistance(a: string, b: string, cap = Infinity): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min((previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (previous[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      row.push(cost);
    }
    if (Math.min(...row) >= cap) return cap;
    before = previous;
    previous = row;
  }
  return previous[b.length] ?? 0;
}
