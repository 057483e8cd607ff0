import * as z from 'zod/mini';

/** Exactly the words of a union: one more, and this does not compile until it stands here too. */
export const oneOf = <T extends string>(words: Readonly<Record<T, true>>) => z.enum(Object.keys(words) as [T, ...T[]]);

/** Identities of documents: made on the page, so that a save tried twice is one; what is said of a batch goes by the batch's own. */
export const shelfId = z.string().check(z.regex(/^[A-Za-z0-9_-]{1,60}$/));
export const isShelfId = (id: string): boolean => shelfId.safeParse(id).success;
