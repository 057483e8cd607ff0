import * as z from 'zod/mini';

/** Exactly the words of a union: one more, and this does not compile until it stands here too. */
export const oneOf = <T extends string>(words: Readonly<Record<T, true>>) => z.enum(Object.keys(words) as [T, ...T[]]);
