import { zValidator } from '@hono/zod-validator';
import { Hono } from 'hono';
import type { Context } from 'hono';
import * as z from 'zod/mini';
import { barsAsk, beginAsk } from '#lib/protocol/bars';
import type { BarsMoulds, BarsPage, BarsWaiting } from '#lib/protocol/bars';
import type { IntentAnswer } from '#lib/protocol/intent';
import { as } from '#lib/units/id';
import type { BarsId, BatchId } from '#lib/units/id';
import { barsIdOf, summaryOf } from '#lib/work/bars/index';
import { review } from '#lib/work/bars/review';
import type { Goods } from '#lib/work/orders/documents';
import { documentsOf } from '#lib/work/shelf/context';
import type { BatchState } from '#lib/work/batch/index';
import { complained } from '../lots/complained';
import { begunOf, mouldsToBegin } from '../bars/begin';
import { barsDue } from '../bars/due';
import { headOf, inRoom, inWraps } from '../bars/command';
import type { Asker } from '../bars/command';
import { foldBatch } from '../bench/restore';
import { systemClock } from '../bench/system';
import { orderName } from '../orders/called';
import type { ApiDeps } from './deps';
import { footOf } from './foot';
import { makersOnly, unreadable } from './makers';
import { byOf, namesOf } from './person';
import { problem } from './problem';

const MOST_ROWS = 200;
/** Bars are begun soon after their batch, or not at all. */
const LATE_BATCHES = 12;
const page = z.object({
  before: z.optional(z.string().check(z.minLength(1), z.maxLength(120))),
  limit: z._default(z.coerce.number().check(z.int(), z.gte(1), z.lte(MOST_ROWS)), 50),
});

/**
 * GET /api/bars (the list), /open (what is in moulds, curing or on the shelf), /lot?id= (one), /moulds?batch= and /waiting (what closed
 * batches can begin), /due (logs that want a hand now); POST /api/bars (begin), /lot?id= (an intent). A retry with the same id gets the first answer.
 */
export const bars = (deps: ApiDeps): Hono => {
  const asker = (c: Context): Asker => {
    const { bench } = deps.running();
    const batch = bench.batch();
    const armed = batch?.status === 'weighing' || batch?.status === 'joined' ? batch.id : null;
    return { by: byOf(deps, c), boot: bench.boot, clock: systemClock, armed };
  };
  const closed = async (id: string): Promise<BatchState | null> => {
    const batch = await foldBatch(deps.running().store.bench, as<BatchId>(id));
    return batch?.status === 'closed' ? batch : null;
  };
  const mouldsLeft = async (batch: BatchState): Promise<BarsMoulds> => {
    const { store } = deps.running();
    const begun = await store.bars.of(batch.id);
    const taken = new Set(begun.flatMap(({ numbers }) => numbers));
    const moulds = mouldsToBegin(batch, store.shelf.now()).filter(({ n }) => !taken.has(n));
    return { batch: { id: batch.id, mark: batch.mark, name: batch.plan.formula.name }, moulds, begun };
  };
  /** Batches with nothing left to begin, by realm: begun bars are never begun back, and folding a batch takes milliseconds. */
  const allBegun = new Set<string>();
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const answer = last.then(work);
    last = answer.catch(() => null);
    return answer;
  };
  return new Hono()
    .get('/', async (c) => {
      const asked = page.safeParse(c.req.query());
      if (!asked.success) return problem(c, 400, 'The page asked for is none.', `limit is a whole number from 1 to ${MOST_ROWS}.`);
      return c.json(await deps.running().store.bars.list({ before: asked.data.before ?? null, limit: asked.data.limit }));
    })
    .get('/due', async (c) => c.json(await barsDue(deps.running().store, systemClock)))
    .get('/open', async (c) => c.json({ bars: await deps.running().store.bars.open(), next: null }))
    .get('/lot', async (c) => {
      const lot = as<BarsId>(c.req.query('id') ?? '');
      const entries = await deps.running().bars.entries(lot);
      if (entries.length === 0) return noSuchLot(c);
      const reviewed = review(entries);
      const row = summaryOf(reviewed.state);
      const shelf = deps.running().store.shelf.now();
      const ids = new Set(reviewed.state.moves.flatMap(({ at }) => at ?? []));
      const orders = Object.fromEntries([...ids].map((id) => [id, orderName(shelf, id)]));
      return c.json({ ...reviewed, row, orders, record: await footOf(deps, lot) } satisfies BarsPage);
    })
    .get('/moulds', async (c) => {
      const batch = await closed(c.req.query('batch') ?? '');
      return batch === null ? notClosed(c) : c.json(await mouldsLeft(batch));
    })
    .get('/waiting', async (c) => {
      const { store } = deps.running();
      const { batches } = await store.batches.list({ before: null, limit: LATE_BATCHES, status: 'closed' });
      const { realm } = store;
      const asked = batches.filter(({ id }) => !allBegun.has(`${realm} ${id}`));
      const found = await Promise.all(asked.map(({ id }) => closed(id)));
      const left = await Promise.all(found.flatMap((batch) => (batch === null ? [] : [mouldsLeft(batch)])));
      for (const { batch, moulds } of left) if (moulds.length === 0) allBegun.add(`${realm} ${batch.id}`);
      return c.json({ batches: left.filter(({ moulds }) => moulds.length > 0) } satisfies BarsWaiting);
    })
    .post('/', makersOnly(deps), zValidator('json', beginAsk, unreadable), async (c) => {
      const { intent, batch: id, moulds, ...said } = c.req.valid('json');
      const batch = await closed(id);
      const [first] = moulds;
      const body = batch === null || first === undefined ? null : begunOf(batch, deps.running().store.shelf.now(), moulds, said);
      if (batch === null || first === undefined || body === null) return notClosed(c);
      const lot = barsIdOf(batch.id, first);
      const head = headOf(lot, { intent, expectedVersion: null }, asker(c));
      const { bars: desk, store } = deps.running();
      // Lots of one batch are streams apart: that no mould is in two of them is seen to here, one beginning after another.
      const answer = await inTurn(async () =>
        (await store.bars.of(batch.id)).some(({ id: other, numbers }) => other !== lot && numbers.some((n) => moulds.includes(n)))
          ? MOULD_TAKEN
          : desk.send(lot, () => ({ ...head, kind: 'begin', body: { ...body, realm: batch.realm } })),
      );
      const reason = answer.ok ? complained(store.shelf.now(), batch.id) : null;
      // Somebody complained of this batch before it had bars: they are held from the first.
      if (reason !== null)
        await desk.send(lot, () => ({
          ...headOf(lot, { intent: `${intent}-held`, expectedVersion: null }, asker(c)),
          kind: 'hold',
          body: { reason },
        }));
      return answered(c, answer);
    })
    .post('/lot', makersOnly(deps), zValidator('json', barsAsk, unreadable), async (c) => {
      const lot = as<BarsId>(c.req.query('id') ?? '');
      const { want, ...asked } = c.req.valid('json');
      const head = headOf(lot, asked, asker(c));
      const { bars: desk, bench, store } = deps.running();
      // An entry stands for ever: what it names has to be there.
      if ('at' in want && want.at !== null && !store.shelf.now().order.has(want.at)) return noSuchOrder(c);
      if ('to' in want && want.to !== null && !Object.hasOwn(namesOf(deps.people()), want.to)) return noSuchBuyer(c);
      if (want.kind === 'photo' && store.shelf.file(want.sha256) === null) return noSuchPicture(c);
      const wanted = inWraps(want, documentsOf<Goods>(store.shelf.now(), 'goods'));
      if (wanted === null) return noSuchWrap(c);
      return answered(c, await desk.send(lot, () => ({ ...head, ...inRoom(wanted, bench.frame()) })));
    });
};

/** A refusal is an answer, in codes as at the bench; its status says that nothing was done. */
const answered = (c: Context, answer: IntentAnswer): Response => c.json(answer, answer.ok ? 200 : 409);

/** What another screen began meanwhile. */
const MOULD_TAKEN: IntentAnswer = { ok: false, refusal: { code: 'already-done', params: { what: 'begin' } } };

const noSuchLot = (c: Context): Response => problem(c, 404, 'There are no such bars in this workshop.', 'Open them from the list of bars.');
const noSuchOrder = (c: Context): Response =>
  problem(c, 404, 'There is no such order or market in this workshop.', 'Write it down under Orders and days first.');
const noSuchBuyer = (c: Context): Response =>
  problem(c, 404, 'There is no such buyer in this workshop.', 'Write the buyer down under People first.');
const noSuchPicture = (c: Context): Response =>
  problem(c, 404, 'The picture has not arrived on the bench machine.', 'Choose the photograph again.');
const noSuchWrap = (c: Context): Response =>
  problem(c, 404, 'There is no such wrap in this workshop, or no such lot of it.', 'Write it down under Orders, How things are bought.');
const notClosed = (c: Context): Response =>
  problem(
    c,
    404,
    'Bars begin from the moulds of a batch that is closed; this is none, or has no such mould.',
    'Close the batch at the bench first.',
  );
