import * as z from 'zod/mini';
import type { Turn } from '#lib/soap/cooling/types';
import { oneOf } from '../../words';
import { degrees, whole } from './atoms';

const turn = oneOf<Turn>({ faster: true, slower: true, warms: true, sets: true, leapt: true, said: true });
const steps = z.array(z.strictObject({ after: whole, low: degrees, middle: degrees, high: degrees }));

/** The way both vessels took until they were joined; records from before have neither marks nor what was foretold. */
export const course = z.strictObject({
  everyS: whole,
  lye: z.array(z.nullable(degrees)),
  oils: z.array(z.nullable(degrees)),
  marks: z.exactOptional(
    z.array(z.strictObject({ of: oneOf<'lye' | 'oils'>({ lye: true, oils: true }), turn, since: whole, noticed: whole })),
  ),
  foretold: z.exactOptional(
    z.strictObject({ at: whole, meets: z.strictObject({ low: whole, middle: whole, high: whole }), lye: steps, oils: steps }),
  ),
});
