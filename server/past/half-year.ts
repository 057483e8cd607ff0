import { setImmediate as otherTurns } from 'node:timers/promises';
import { halfYear, receiptsOf } from '#hardware/practice/history/half-year/half-year';
import type { Past } from '#hardware/practice/history/half-year/half-year';
import { ORDERS } from '#hardware/practice/history/half-year/orders';
import {
  BUYERS,
  CURE,
  CUTTER,
  FORMULAS,
  GOODS,
  LABEL,
  MATERIALS,
  MOULDS,
  TRADE,
  VESSELS,
} from '#hardware/practice/history/half-year/workshop';
import { bandsFor } from '#hardware/practice/history/half-year/bands';
import { drawnBy } from '#lib/work/orders/wraps';
import { labelled } from '#lib/record/journal';
import type { Append } from '#lib/record/journal';
import type { BarsEntry } from '#lib/work/bars/index';
import type { Entry } from '#lib/work/batch/index';
import { dayOf } from '#lib/units/day';
import type { PersonId } from '#lib/units/id';
import type { Clock } from '#lib/units/time';
import type { Noun } from '#lib/work/shelf/shelf';
import { MAKER } from '../maker';
import { keepPictures } from './pictures';
import type { Store } from '../store/store';

/** Batches of the invented half-year. */
const BATCHES = 60;

/** Whether nothing was ever written here: only then is a past invented. */
const isBlank = (store: Store): boolean => store.bench.seq() === 0 && Object.values(store.shelf.now()).every((kept) => kept.size === 0);

const appendOf = (entries: readonly (Entry | BarsEntry)[]): Append => ({
  batch: entries[0]?.batch ?? null,
  entries: entries.map(labelled),
  intent: null,
  blobs: [],
});

/**
 * Half a year of the invented workshop in the practice record, when nothing stands there yet: formulas, lots with their receipts, batches,
 * bars, sales, an order and a market to come. Every entry says that it is practice. Returns how many batches it laid down.
 */
export const layOutPast = async (store: Store, clock: Clock, seed: number, batches = BATCHES): Promise<number> => {
  if (!isBlank(store)) return 0;
  const put = async (noun: Noun, documents: readonly { readonly id: string }[]): Promise<void> => {
    for (const document of documents) {
      const answer = await store.shelf.put({ noun, id: document.id, expected: 0, document, note: '' }, MAKER);
      if (!answer.ok) throw new Error(`${noun} ${document.id} stands already`);
    }
  };
  const named = async (name: string, role?: 'buyer'): Promise<PersonId> => store.settings.addPerson(name, MAKER, role);
  const people = [MAKER, await named('Wren')];
  const buyers: PersonId[] = [];
  for (const name of BUYERS) buyers.push(await named(name, 'buyer'));
  await put('material', MATERIALS);
  await put('mould', MOULDS);
  await put('vessel', VESSELS);
  await put('formula', FORMULAS);
  await put('cutter', [CUTTER]);
  await put('cure', [CURE]);
  await put('trade', [TRADE]);
  await put('label', [LABEL]);
  await put('goods', GOODS);

  const pictures = await keepPictures(store);
  const [now, offsetMin] = [clock.wall(), clock.offsetMinutes()];
  const pasts: Past[] = [];
  for (const past of halfYear({ seed, batches, realm: store.realm, now, offsetMin, people, buyers, pictures })) {
    await store.bench.append(appendOf(past.batch));
    for (const bars of past.bars) await store.bench.append(appendOf(bars));
    pasts.push(past);
    // Whoever wants the program to end is heard after each batch.
    await otherTurns();
  }
  await put('goods', [bandsFor(drawnBy(await store.bars.wrapped()))]);
  await put('lot', receiptsOf(pasts, now, offsetMin));
  await put(
    'order',
    ORDERS(
      dayOf(now, offsetMin),
      buyers,
      pasts.flatMap(({ bars }) => bars),
    ),
  );
  return pasts.length;
};
