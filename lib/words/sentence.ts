/** A piece of running text: plain, or a figure in the voice of its source. */
export type Piece = string | { readonly voice: 'measured' | 'worked'; readonly text: string };
export type Sentence = readonly Piece[];

/** A template whose figures keep their voices. */
export const t = (strings: TemplateStringsArray, ...values: readonly Piece[]): Sentence =>
  strings.flatMap((text, at) => {
    const value = values[at];
    return [...(text === '' ? [] : [text]), ...(value === undefined || value === '' ? [] : [value])];
  });

export const measured = (text: string): Piece => ({ voice: 'measured', text });
export const worked = (text: string): Piece => ({ voice: 'worked', text });

/** Sentences one after another, the empty ones left out. */
export const together = (...sentences: readonly Sentence[]): Sentence =>
  sentences.filter((one) => one.length > 0).flatMap((one, at) => (at === 0 ? one : [' ', ...one]));
