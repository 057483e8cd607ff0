import { mg } from '#lib/units/mass';
import { remedyQuestion } from '#lib/work/batch/remedy/index';
import type { RemedyFacts, RemedyQuestion } from '#lib/work/batch/remedy/index';
import type { Plan } from '#lib/work/batch/index';
import type { Formula } from '#lib/work/formula/index';
import { BatchRig } from './batch';
import { share } from './formula';
import { computed, factsWith } from './remedy-rig';
import { RICH, RICH_WORKSHOP } from './rich-formula';

const KEPT: Readonly<Record<string, readonly [low: string, high: string]>> = {
  tallow: ['22', '28'],
  coconut: ['19', '25'],
  olive: ['34', '42'],
  castor: ['3', '8'],
  shea: ['7', '14'],
};

/** Twelve lines: five fats each kept in a range, two alkalis, a milk and water, citric acid, a fragrance with its certificate, a clay; moulds. */
export const TWELVE: Formula = {
  ...RICH,
  id: 'twelve',
  limits: { superfat: { low: '4', high: '8' }, lye: { low: '29', high: '33' } },
  entries: RICH.entries
    .filter(({ id }) => id !== 'rosemary' && id !== 'cedar')
    .map((entry) => {
      const keep = KEPT[entry.id];
      return keep === undefined ? entry : { ...entry, keep: { low: keep[0], high: keep[1] } };
    }),
  blends: [{ id: 'hedge', name: 'Hedge', amount: share('2.5'), entries: ['lavender'] }],
};

export const twelvePlan = (): Plan => computed({ ...TWELVE, entries: TWELVE.entries.map(alone) }, RICH_WORKSHOP);

/** A blend of one is all of it. */
const alone = (entry: Formula['entries'][number]): Formula['entries'][number] =>
  entry.id === 'lavender' ? { ...entry, amount: share('100', 'blend') } : entry;

/** Everything weighed to its target up to a line. */
export const pouredUpTo = (plan: Plan, line: string): BatchRig => new BatchRig().start(plan).weighAll(line);

/** That line over by a fraction of it, decided and entered. */
export const overBy = (rig: BatchRig, line: string, by: number): BatchRig => {
  const target = rig.line(line).plan.target;
  rig.weigh(line, Math.round((target * (1 + by)) / 100) / 10);
  return rig;
};

/** Everything weighed to its target up to a line, and that one over by a fraction of it. */
export const pouredOver = (plan: Plan, line: string, by: number): BatchRig => overBy(pouredUpTo(plan, line), line, by);

const STOCK = [null, 5_000, 40_000, 400_000];

/** The question after it, with little or much on the shelf. */
export const questionOf = (rig: BatchRig, more: number, given: Partial<RemedyFacts> = {}): RemedyQuestion => {
  const stock = STOCK[more % STOCK.length] ?? null;
  // What is still to come is there; so much beyond it.
  const toCome = (id: string): number => Math.max(0, rig.line(id).plan.target - rig.line(id).actual);
  const all = stock === null ? {} : Object.fromEntries(rig.now.order.map((id) => [id, mg(stock + toCome(id))]));
  return remedyQuestion(rig.now, factsWith({ stock: all, ...given }));
};
