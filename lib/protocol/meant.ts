/** The known word a misspelt one was probably meant to be, or `null` when none is near: at most one slip per three letters. */
export const meant = (word: string, known: readonly string[]): string | null => {
  let best: string | null = null;
  let least = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const candidate of known) {
    const d = slips(word.toLowerCase(), candidate);
    if (d < least) [best, least] = [candidate, d];
  }
  return best;
};

/** Edits between two words, a swap of neighbours counting as one (optimal string alignment distance). */
const slips = (a: string, b: string): number => {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let d = Math.min((rows[i - 1]?.[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (rows[i - 1]?.[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) d = Math.min(d, (rows[i - 2]?.[j - 2] ?? 0) + 1);
      row.push(d);
    }
    rows.push(row);
  }
  return rows[a.length]?.[b.length] ?? 0;
};
