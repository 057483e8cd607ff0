/** What a portion of the batter is called in the record until somebody calls it otherwise. */
export const portionName = (number: number): string => `portion ${number}`;
