/** Finds the word somebody most likely meant. */

/**
 * Edit distance with swapped neighbours counted once (optimal string alignment, the restricted form of
 * Damerau's distance, Communications of the ACM 7 (1964) 171–176).
 */
export function editDistance(from: string, to: string): number {
  const a = [...from];
  const b = [...to];
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        best = Math.min(best, beforeLast[j - 2]! + 1);
      }
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}

/** The candidate nearest to a word, if near enough to be a slip of the keys: one change in three letters, at least one. */
export function nearMiss(word: string, candidates: Iterable<string>): string | undefined {
  const plain = (text: string) => text.toLowerCase().replace(/[\s_-]+/g, '_');
  const wanted = plain(word.slice(0, 80));
  const reach = Math.max(1, Math.floor(wanted.length / 3));
  let best: string | undefined;
  let bestDistance = reach + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - wanted.length) > reach + 2) continue;
    const distance = editDistance(wanted, plain(candidate));
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** The only field that is the same but for its unit or is this name with a unit: `wind_mps` for `wind_kmh`, `power_kw` for `power`. */
export function sameButUnit(name: string, fields: readonly string[]): string | undefined {
  const withoutUnit = (field: string) => field.replace(/_[^_]*$/, '');
  const wanted = name.toLowerCase();
  const alike = fields.filter(
    field => field.includes('_') && [wanted, withoutUnit(wanted)].includes(withoutUnit(field)),
  );
  return alike.length === 1 ? alike[0] : undefined;
}
