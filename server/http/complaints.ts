import { zValidator } from '@hono/zod-validator';
import { Hono } from 'hono';
import { isDay } from '#lib/units/day';
import { as } from '#lib/units/id';
import { complaintAsk } from '#lib/protocol/lots';
import type { ComplaintAnswer, FollowBars } from '#lib/protocol/lots';
import type { Json } from '#lib/record/journal';
import type { Complaint } from '#lib/work/lots/complaint';
import { headOf } from '../bars/command';
import { systemClock } from '../bench/system';
import { holdReason } from '../lots/complained';
import { followBars } from '../lots/follow';
import type { ApiDeps } from './deps';
import { followParts } from './lots';
import { makersOnly, unreadable } from './makers';
import { byOf } from './person';
import { problem } from './problem';

/**
 * POST /api/complaints: all bars of that batch, and of any other of the same mark, are held and the complaint is kept, naming what it held. Holding comes first: should the
 * machine fail between the two, bars stand held without a reason's document rather than the other way round, and the same request again
 * finds them held and keeps the document.
 */
export const complaints = (deps: ApiDeps): Hono =>
  new Hono().post('/', makersOnly(deps), zValidator('json', complaintAsk, unreadable), async (c) => {
    const { intent, anyway = false, ...said } = c.req.valid('json');
    if (!isDay(said.day)) return problem(c, 400, 'That is no day.', 'Write it as 2026-11-03.', KEPT);
    const asked = await followBars(followParts(deps), said.mark);
    if (asked === null) return problem(c, 404, 'No batch of this workshop bears that mark.', 'Read it from the label again.', KEPT);
    if (asked.isUnknown && !anyway) return problem(c, 422, `No bars of this workshop bear the mark ${said.mark}.`, barsThere(asked), KEPT);
    const { bench, bars, store } = deps.running();
    const [batch = '', ...also] = asked.batches.map(({ followed }) => followed.batch.id);
    // What is wrong with one bar may be wrong with all of its batch.
    const lots = await Promise.all([batch, ...also].map((one) => store.bars.of(as(one))));
    const by = byOf(deps, c);
    const asker = { by, boot: bench.boot, clock: systemClock, armed: null };
    const held: string[] = [];
    for (const { id, mark, n } of lots.flatMap((of, at) => of.map((one, n) => ({ ...one, n: at === 0 ? `${n}` : `${at}-${n}` })))) {
      const head = headOf(as(id), { intent: `${intent}-${n}`, expectedVersion: null }, asker);
      const answer = await bars.send(as(id), () => ({ ...head, kind: 'hold', body: { reason: holdReason(said.day) } }));
      const refused = answer.ok ? null : answer.refusal.code;
      if (refused !== null && refused !== 'already-done')
        return problem(c, 503, `The bars ${mark} could not be held.`, 'Set them apart by hand, then send this again.', KEPT);
      held.push(mark);
    }
    const id = `complaint-${intent}`;
    const several = also.length > 0 ? { also } : {};
    const document: Complaint = { id, batch, ...several, ...(asked.isUnknown ? { isUnknown: true } : {}), ...said, held };
    const answer = await store.shelf.put({ noun: 'complaint', id, expected: 0, document: document as unknown as Json, note: '' }, by);
    // Sent again: it is kept already.
    return answer.ok || answer.stale === 1
      ? c.json({ id, held } satisfies ComplaintAnswer)
      : problem(c, 409, 'It was changed meanwhile.', 'Open it from the list.');
  });

const barsThere = ({ batches }: FollowBars): string => {
  const marks = batches.flatMap(({ followed }) => followed.bars.map(({ mark }) => mark));
  const there = marks.length === 0 ? 'That batch has no bars yet.' : `Its bars bear ${marks.join(', ')}.`;
  return `${there} Read it from the label again. If nobody can, keep it all the same: the whole batch is then held.`;
};

const KEPT = 'What you typed is still on this page.';
