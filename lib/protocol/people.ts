import * as z from 'zod/mini';

/** Over HTTP a screen says who acts in this header, over the socket with each intent: the pass that switching gave it. */
export const PASS_HEADER = 'x-potwatch-person';
export const LONGEST_NAME = 60;

const name = z.string().check(z.trim(), z.minLength(1), z.maxLength(LONGEST_NAME), z.regex(/^\P{Cc}*$/u));
const pin = z.string().check(z.regex(/^\d{4,8}$/));

/** POST /api/people */
export const personAsk = z.object({ name, role: z.enum(['maker', 'buyer']) });
/** POST /api/people/:id/name */
export const renameAsk = z.object({ name });
/** POST /api/people/:id/pin: `now` is the PIN they have; `pin` null takes it away. */
export const pinAsk = z.object({ pin: z.nullable(pin), now: z.nullable(pin) });
/** POST /api/people/:id/here: this screen acts as them from now on. */
export const hereAsk = z.object({ pin: z.nullable(z.string().check(z.maxLength(20))) });
export const eraseAsk = z.object({ erase: z.literal('name') });

/** GET /api/people: everyone the workshop has named. `me`: who this screen acts as, `null` for the unnamed maker. */
export interface PeoplePage {
  readonly people: readonly PersonRow[];
  readonly me: string | null;
}
export interface PersonRow {
  readonly id: string;
  readonly role: 'maker' | 'buyer';
  /** `null` once erased: the id stays in the record. */
  readonly name: string | null;
  readonly pin: boolean;
}
export interface HereAnswer {
  readonly pass: string;
}
