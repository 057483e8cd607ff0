import * as z from 'zod/mini';
import { MOST_WEIGHED } from '#lib/units/mass';
import { plateHolds } from '#lib/measure/plate';
import { PROBE_SHAPES, SCALE_SHAPES } from '#lib/measure/shape';

const id = z.string().check(z.regex(/^[a-z0-9-]{1,40}$/));
const name = z.string().check(z.minLength(1), z.maxLength(40));
const path = z.string().check(z.regex(/^\/[^\0]{1,250}$/));
const milligrams = z.nullable(z.int().check(z.gte(1), z.lte(MOST_WEIGHED)));
const serial = z.object({
  baudRate: z.int().check(z.gte(110), z.lte(921_600)),
  frame: z.enum(['8N1', '7E1', '7O1', '8E1']),
});

/** POST /api/instruments: adds an instrument, or replaces the one with the same id. The body of an `InstrumentConfig`. */
export const bindAsk = z.discriminatedUnion('kind', [
  z
    .object({
      kind: z.literal('scale'),
      id,
      role: z.enum(['main', 'fine']),
      name,
      path,
      shape: z.nullable(z.enum(SCALE_SHAPES)),
      serial,
      capacity: milligrams,
      division: milligrams,
    })
    .check(z.refine(({ capacity, division }) => plateHolds(capacity, division))),
  z.object({
    kind: z.literal('probe'),
    id,
    name,
    path,
    use: z.nullable(z.enum(['lye', 'oils', 'room', 'batter', 'mould'])),
    shape: z.nullable(z.enum(PROBE_SHAPES)),
    serial,
  }),
]);

/** POST /api/instruments/unbind */
export const unbindAsk = z.object({ id });

const ids = z._default(z.array(z.string().check(z.minLength(1), z.maxLength(120))).check(z.maxLength(500)), []);

/** POST /api/instruments/leave-practice: to the real, empty workshop, with what was chosen to come along. Said out loud by the page first. */
export const leavePracticeAsk = z.object({ leave: z.literal('practice'), formulas: ids, moulds: ids, cutters: ids });
