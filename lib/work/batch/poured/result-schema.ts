import * as z from 'zod/mini';
import type { LineId } from '#lib/units/id';
import { oneOf } from '../../words';
import { id, whole } from '../upcast/atoms';
import type { PouredResult, ResultLimit, SuperfatResult } from './result';

const text = z.string();
const range = { low: whole, high: whole };
const figure = { value: whole, u: whole, ...range };
const known = z.nullable(z.strictObject(figure));
const bound = z.nullable(whole);

const part = z.strictObject({
  what: oneOf<SuperfatResult['parts'][number]['what']>({
    sv: true,
    purity: true,
    reading: true,
    tare: true,
    gain: true,
    typed: true,
    stated: true,
    'to-come': true,
  }),
  of: text,
  name: text,
  share: whole,
  half: whole,
});

const narrowing = z.strictObject({
  by: oneOf<SuperfatResult['narrowing'][number]['by']>({ certificate: true, 'check-scale': true, weigh: true, 'finer-scale': true }),
  of: text,
  name: text,
  from: whole,
  to: whole,
});

const result: z.ZodMiniType<PouredResult> = z.strictObject({
  method: text,
  superfat: z.nullable(
    z.strictObject({
      ...figure,
      working: whole,
      worst: z.strictObject(range),
      lyeHeavy: whole,
      parts: z.array(part),
      narrowing: z.array(narrowing),
    }),
  ),
  lye: known,
  shares: z.array(z.strictObject({ line: id<LineId>(), figure: z.strictObject(figure) })),
  load: known,
  fragrance: known,
  unlimited: z.array(text),
  volume: known,
  full: known,
  limits: z.array(
    z.strictObject({
      what: oneOf<ResultLimit['what']>({ superfat: true, lye: true, share: true, fragrance: true, full: true }),
      line: z.nullable(id<LineId>()),
      low: bound,
      high: bound,
      verdict: oneOf<ResultLimit['verdict']>({ inside: true, check: true, outside: true }),
    }),
  ),
});

/** What a closed batch kept; `null` when it is not what any program of ours wrote. */
export const readResult = (stored: unknown): PouredResult | null => {
  const read = result.safeParse(stored);
  return read.success ? read.data : null;
};
