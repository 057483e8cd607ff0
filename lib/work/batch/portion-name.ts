const WORD = 'portion';

/** What a portion of the batter is called in the record until somebody calls it otherwise. */
export const portionName = (number: number): string => `${WORD} ${number}`;

/** Number of the next portion: none is given again after one was crossed out. */
export const nextPortion = (parts: readonly { readonly name: string }[]): number =>
  1 + Math.max(parts.length, ...parts.map(({ name }) => Number(new RegExp(`^${WORD} (\\d+)$`).exec(name)?.[1] ?? 0)));
