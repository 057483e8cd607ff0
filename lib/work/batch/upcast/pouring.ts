import * as z from 'zod/mini';
import type { InstrumentId } from '#lib/units/id';
import type { EntryBodies } from '../entries';
import { BATTER_WRONGS, PATTERNS, PHOTO_SUBJECTS, type Container, type PlanMould, type PlanPart, type Source } from '../pouring/types';
import { id, mass, weighed, whole } from './atoms';

const text = z.string();
const source = text.check(z.regex(/^(?:pot$|part:)/)) as unknown as z.ZodMiniType<Source>;
const container = text.check(z.regex(/^(?:part:.|mould:\d+$)/)) as unknown as z.ZodMiniType<Container>;
const pattern = z.enum(PATTERNS);
const told = { mass, weighed: z.exactOptional(weighed), source: z.exactOptional(z.literal('by-hand')) };

type Kinds = 'pattern-named' | 'container-set' | 'parted' | 'mould-poured' | 'left-over' | 'batter-wrong' | 'photo-asked';

export const POURING: { readonly [K in Kinds]: z.ZodMiniType<EntryBodies[K]> } = {
  'pattern-named': z.strictObject({ mould: whole, pattern, was: z.nullable(pattern), why: z.enum(['named', 'dropped']) }),
  'container-set': z.strictObject({ container, instrument: id<InstrumentId>(), gross: mass, episode: whole }),
  parted: z.strictObject({ part: text, name: text, ...told }),
  'mould-poured': z.strictObject({ mould: whole, from: z.array(source), ...told }),
  'left-over': z.strictObject({ of: source, ...told }),
  'batter-wrong': z.strictObject({ what: z.enum(BATTER_WRONGS) }),
  'photo-asked': z.strictObject({ of: z.enum(PHOTO_SUBJECTS), mould: z.nullable(whole) }),
};

export const planMould: z.ZodMiniType<PlanMould> = z.strictObject({
  n: whole,
  mould: text,
  name: text,
  brimMl: z.nullable(whole),
  mass: z.nullable(mass),
  pattern: z.nullable(pattern),
});

export const planPart: z.ZodMiniType<PlanPart> = z.strictObject({ id: text, name: text, ppm: whole });
