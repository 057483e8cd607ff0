import { zValidator } from '@hono/zod-validator';
import { Hono } from 'hono';
import { afterwardsAsk } from '#lib/protocol/afterwards';
import type { AfterwardsWant } from '#lib/protocol/afterwards';
import type { Afterwards } from '#lib/bench/pipeline/types';
import { as } from '#lib/units/id';
import type { EntryId, LotId } from '#lib/units/id';
import type { Lot } from '#lib/work/formula/index';
import { newest } from '#lib/work/shelf/shelf';
import type { ApiDeps } from './deps';
import { makersOnly, unreadable } from './makers';
import { byOf } from './person';
import { problem } from './problem';

/** POST /api/batches/:id/afterwards: a note, a picture, or what is put right after the end. */
export const afterwards = (deps: ApiDeps): Hono =>
  new Hono().post('/:id/afterwards', makersOnly(deps), zValidator('json', afterwardsAsk, unreadable), async (c) => {
    const { intent, want } = c.req.valid('json');
    const meant = meaning(deps, want);
    if (meant === null) return problem(c, 404, 'What that names is not kept here.', 'Open the batch again and choose it once more.', KEPT);
    const answer = await deps.running().bench.afterwards(as(c.req.param('id')), meant, byOf(deps, c), as(intent));
    if (answer.ok) return c.json(answer);
    const [error, todo] = REFUSED[answer.refusal.code] ?? [
      'It could not be entered.',
      'Open the batch again and look whether it stands there already.',
    ];
    return problem(c, answer.refusal.code === 'read-only' ? 503 : 409, error, todo, KEPT);
  });

const KEPT = 'The record is as it was; what you typed is still on this page.';

const REFUSED: Readonly<Partial<Record<string, readonly [error: string, todo: string]>>> = {
  'wrong-state': [
    'That batch is not there, or has not ended.',
    'While it is under way, cross the weight out at the bench and weigh again.',
  ],
  'already-done': ['It stands there so already.', 'Nothing is to be done.'],
  'no-such': ['There is no such thing in that batch.', 'Open the batch again and choose it once more.'],
  'bad-number': ['That is no value it could have.', 'Look at it again.'],
  'read-only': ['The record cannot be written.', 'See what the page says of the record; try again once it can be written.'],
};

/** In words of the record; `null` when it names a lot or a picture that is not kept. */
const meaning = (deps: ApiDeps, want: AfterwardsWant): Afterwards | null => {
  const { shelf } = deps.running().store;
  if (want.kind === 'note') return { kind: 'note', body: { text: want.text, ...(want.deviation === true ? { deviation: true } : {}) } };
  if (want.kind === 'keep-photo') {
    const { sha256, of, caption } = want;
    return shelf.file(sha256) === null ? null : { kind: 'keep-photo', body: { sha256, of, caption } };
  }
  if (want.kind !== 'amend-lot') return amendment(want);
  const lot = newest(shelf.now(), 'lot', want.lot)?.document as unknown as Lot | undefined;
  if (lot === undefined) return null;
  const { entry, why } = want;
  return amend({ what: 'lot', entry: as<EntryId>(entry), is: lot.mark, why, lot: { id: as<LotId>(lot.id), mark: lot.mark } });
};

const amendment = (want: Extract<AfterwardsWant, { kind: 'amend-weight' | 'amend-temperature' | 'amend-other' }>): Afterwards => {
  if (want.kind === 'amend-weight') return amend({ what: 'weight', entry: as<EntryId>(want.entry), is: String(want.is), why: want.why });
  if (want.kind === 'amend-temperature') return amend({ what: 'temperature', of: want.of, is: String(want.is), why: want.why });
  return amend({ what: 'other', of: want.of, was: want.was, is: want.is, why: want.why });
};

type Amend = Extract<Afterwards, { kind: 'amend' }>['body'];
const amend = (body: Pick<Amend, 'what' | 'is' | 'why'> & Partial<Amend>): Afterwards => ({
  kind: 'amend',
  body: { entry: null, line: null, of: '', was: '', ...body },
});
