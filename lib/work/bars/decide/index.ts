import { wholeNumbers } from '../../batch/decide/checks';
import type { BarsCommand, BarsCommandKind } from '../commands';
import type { BarsState } from '../state';
import { correct } from './correct';
import { refuse, type BarsDecider, type BarsDecision } from './decision';
import * as mould from './mould';
import { roleMay } from './roles';
import * as shelf from './shelf';
import * as stock from './stock';
import * as weights from './weigh';
import { wrap } from './wrap';

export type { BarsDecision } from './decision';

const DECIDE: { readonly [K in Exclude<BarsCommandKind, 'begin'>]: BarsDecider<K> } = {
  'note-unmould': mould.noteUnmould,
  cut: mould.cut,
  trim: mould.trim,
  label: shelf.label,
  weigh: weights.weigh,
  'type-weight': weights.typeWeight,
  photo: shelf.photo,
  note: shelf.note,
  move: shelf.move,
  hold: shelf.hold,
  release: shelf.release,
  wrap,
  sell: stock.sell,
  give: stock.give,
  spoil: stock.spoil,
  take: stock.take,
  'bring-home': stock.bringHome,
  'count-market': stock.countMarket,
  correct,
};

/** What adds to the record without resting on what it says is taken from an older view. */
const FROM_ANY_VIEW: ReadonlySet<BarsCommandKind> = new Set(['photo', 'note', 'weigh']);

/**
 * What comes of a completed command about bars: entries to commit in one transaction, or a refusal. Pure and total, as it is for batches.
 * `state` is `null` before the bars begin; then only `begin` means anything.
 */
export const decide = (state: BarsState | null, command: BarsCommand): BarsDecision => {
  if (!roleMay(command.role, command.kind)) return refuse('not-yours', { role: command.role });
  // A moment in time is larger than any mass or length.
  const { poured = 0, ...body } = command.body as { readonly poured?: number };
  if (!Number.isSafeInteger(poured) || !wholeNumbers(body) || !wholeNumbers(command.observation)) return refuse('bad-number');
  if (command.kind === 'begin') return state === null ? mould.begin(command) : refuse('already-done', { what: 'begin' });
  if (state === null) return refuse('no-such', { what: 'bars', id: command.lot });
  const { expectedVersion } = command;
  if (expectedVersion !== null && expectedVersion !== state.version && !FROM_ANY_VIEW.has(command.kind))
    return refuse('moved-on', { seen: expectedVersion, version: state.version });
  return (DECIDE[command.kind] as BarsDecider<BarsCommandKind>)(state, command);
};
