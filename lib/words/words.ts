const SMALL = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'] as const;

/** A count as running text has it: words up to twelve, figures above. */
export const inWords = (count: number): string => SMALL[count] ?? String(count);

/** "one weight", "three weights", "no weight". */
export const counted = (count: number, one: string, many = `${one}s`): string => `${inWords(count)} ${count > 1 ? many : one}`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "a", "a and b", "a, b and c". */
export const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`;
