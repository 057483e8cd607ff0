import * as z from 'zod/mini';

const LONGEST_NAME = 200;
const LONGEST_NOTE = 4000;
const LONGEST_NUMBER = 40;

export const id = z.string().check(z.minLength(1), z.maxLength(LONGEST_NAME));
export const name = z.string().check(z.maxLength(LONGEST_NAME));
export const note = z.string().check(z.maxLength(LONGEST_NOTE));
/** As typed, right or wrong: a document keeps it, the plan says what is wrong with it. */
export const asTyped = z.string().check(z.maxLength(LONGEST_NUMBER));
export const date = z.string().check(z.regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/));
export const sha256 = z.string().check(z.regex(/^[0-9a-f]{64}$/));
export const count = z.int();
