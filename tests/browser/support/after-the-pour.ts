import { labelled } from '#lib/record/journal';
import { as } from '#lib/units/id';
import { celsius } from '#lib/units/temperature';
import type { CommandBodies, CommandHead, CommandKind, Plan } from '#lib/work/batch/index';
import { planOf } from '#lib/work/formula/index';
import type { Formula, Lot, Mould } from '#lib/work/formula/index';
import { ALDER_AND_OAT_FORMULA } from '#lib/work/formula/sample/formulas';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';
import type { Noun } from '#lib/work/shelf/shelf';
import { systemClock } from '#server/bench/system';
import { MAKER } from '#server/maker';
import { openStore } from '#server/store/open';
import { appendOf } from '#tests/support/appends';
import { BatchRig, FINE, MAIN } from '#tests/support/batch';
import { KeptLog } from '#tests/support/store-rig';

const SHARES: Readonly<Record<string, string>> = { coconut: '26', shea: '12', olive: '38', rapeseed: '24' };

/** Small, so that simulated hands are soon done: 150 × 64 × 60 mm. */
const SHORT_LOG: Mould = {
  id: 'short-log',
  name: 'short log',
  shape: { kind: 'box', length: '150', width: '64', depth: '60' },
  lengthU: null,
};

/** A green part and a plain one; a plain log, and a tray of six in which both meet. Coconut stands just above rapeseed. */
const TWO_PARTS: Formula = {
  ...ALDER_AND_OAT_FORMULA,
  id: 'two-parts',
  name: 'Two parts',
  version: 1,
  entries: ALDER_AND_OAT_FORMULA.entries.map((entry) => {
    const percent = SHARES[entry.id];
    if (percent !== undefined) return { ...entry, keep: null, amount: { kind: 'share', of: 'fats', percent } };
    return entry.id === 'clay' ? { ...entry, intoPart: 'green' } : entry;
  }),
  batterParts: [{ id: 'green', name: 'Green', percent: '30' }],
  size: { kind: 'moulds' },
  moulds: [
    { mould: 'short-log', count: 1, fill: '92', pattern: 'plain-pour' },
    { mould: 'rounds', count: 1, fill: '60', pattern: 'drop-swirl' },
  ],
};

/** A shop that buys. */
export const SHOP = 'The weir shop';

/** The one lot that is asked for in the end. */
export const BAD_LOT: Lot = { id: 'lot-coconut-07', mark: 'CO 26-07', material: 'coconut', certificate: null, files: [] };

const plan = (): Plan => {
  const computed = planOf(TWO_PARTS, { ...SAMPLE_WORKSHOP, moulds: [...SAMPLE_WORKSHOP.moulds, SHORT_LOG] });
  if (computed.kind !== 'plan') throw new Error(`no plan: ${JSON.stringify(computed)}`);
  const lines = computed.plan.lines.map((line) =>
    line.id === 'coconut' ? { ...line, lot: { id: as<NonNullable<typeof line.lot>['id']>(BAD_LOT.id), mark: BAD_LOT.mark } } : line,
  );
  return { ...computed.plan, lines };
};

/** A rig whose acts lie apart, from a moment of one's own on. */
class Paced extends BatchRig {
  readonly #from: number;
  constructor(from: number) {
    super();
    this.#from = from;
  }
  override command<K extends CommandKind>(kind: K, body: CommandBodies[K], head: Partial<CommandHead> = {}) {
    this.mono += 20_000;
    return super.command(kind, body, { wall: this.#from + this.mono, offsetMin: 0, ...head });
  }
}

/** mg. More than rapeseed falls short of coconut by. */
const OVER = 26_000;

/** Joined and at trace, with much more rapeseed in it than planned. */
const joined = (from: number): BatchRig => {
  const rig = new Paced(from);
  rig.more = { scales: [MAIN, FINE] };
  rig.must('start', { mark: '26-11', plan: plan(), realm: 'practice', bench: 'bench' });
  rig.weighAll('rapeseed');
  rig.weigh('rapeseed', (rig.line('rapeseed').plan.target + OVER) / 1000);
  rig.keepOver();
  rig.lift('rapeseed');
  rig.weighAll().makeLye();
  [rig.lye, rig.oils] = [celsius(41), celsius(42)];
  rig.must('join', { held: true });
  rig.must('stamp-trace', { mark: 'medium', note: '' });
  return rig;
};

/** A practice store in which a batch stands joined, and its lot; its id. */
export const layJoined = async (dir: string, from: number): Promise<string> => {
  const store = await openStore({ dir, realm: 'practice', clock: systemClock, log: new KeptLog() });
  const rounds = SAMPLE_WORKSHOP.moulds.find(({ id }) => id === 'rounds');
  if (rounds === undefined) throw new Error('no rounds');
  const put = async (noun: Noun, document: { readonly id: string }): Promise<void> => {
    const answer = await store.shelf.put({ noun, id: document.id, expected: 0, document, note: '' }, MAKER);
    if (!answer.ok) throw new Error(`${noun} was not kept`);
  };
  await put('lot', BAD_LOT);
  await put('mould', SHORT_LOG);
  await put('mould', rounds);
  await store.settings.addPerson(SHOP, MAKER, 'buyer');
  const { entries } = joined(from);
  for (const entry of entries) {
    await store.bench.append(appendOf([labelled(entry)]));
  }
  await store.close();
  return entries[0]?.batch ?? '';
};
