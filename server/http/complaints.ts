import { zValidator } from '@hono/zod-validator';
import { Hono } from 'hono';
import { isDay } from '#lib/units/day';
import { complaintAsk } from '#lib/protocol/lots';
import type { ComplaintAnswer } from '#lib/protocol/lots';
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
 * POST /api/complaints: all bars of that batch are held and the complaint is kept, naming what it held. Holding comes first: should the
 * machine fail between the two, bars stand held without a reason's document rather than the other way round, and the same request again
 * finds them held and keeps the document.
 */
export const complaints = (deps: ApiDeps): Hono =>
  new Hono().post('/', makersOnly(deps), zValidator('json', complaintAsk, unreadable), async (c) => {
    const { intent, ...said } = c.req.valid('json');
    if (!isDay(said.day)) return problem(c, 400, 'That is no day.', 'Write it as 2026-11-03.', KEPT);
    const found = await followBars(followParts(deps), said.mark.split('/')[0] ?? '');
    if (found === null) return problem(c, 404, 'No batch of this workshop bears that mark.', 'Read it from the label again.', KEPT);
    const { bench, bars, store } = deps.running();
    const by = byOf(deps, c);
    const asker = { by, boot: bench.boot, clock: systemClock, armed: null };
    const held: string[] = [];
    for (const [n, { id, mark }] of found.followed.bars.entries()) {
      const lot = id as Parameters<typeof bars.send>[0];
      const head = headOf(lot, { intent: `${intent}-${n}`, expectedVersion: null }, asker);
      const answer = await bars.send(lot, () => ({ ...head, kind: 'hold', body: { reason: holdReason(said.day) } }));
      const refused = answer.ok ? null : answer.refusal.code;
      if (refused !== null && refused !== 'already-done')
        return problem(c, 503, `The bars ${mark} could not be held.`, 'Set them apart by hand, then send this again.', KEPT);
      held.push(mark);
    }
    const id = `complaint-${intent}`;
    const document: Complaint = { id, batch: found.followed.batch.id, ...said, held };
    const answer = await store.shelf.put({ noun: 'complaint', id, expected: 0, document: document as unknown as Json, note: '' }, by);
    // Sent again: it is kept already.
    return answer.ok || answer.stale === 1
      ? c.json({ id, held } satisfies ComplaintAnswer)
      : problem(c, 409, 'It was changed meanwhile.', 'Open it from the list.');
  });

const KEPT = 'What you typed is still on this page.';
