import type { BootId, EntryId, InstrumentId } from '#lib/units/id';
import type { Clock } from '#lib/units/time';
import type { BatchState } from '#lib/work/batch/index';
import type { ConductorMemory } from '../conductor/index';
import type { BenchView, ScaleView } from '../conductor-types';
import { barWeighed, panOf } from './pan';
import type { BarsBook, RoundParts } from './round';

/** What the heart of a bench knows, for bars on its scale. */
export interface OnBench {
  readonly boot: BootId;
  readonly clock: Clock;
  readonly book: BarsBook;
  readonly view: () => BenchView;
  readonly memory: () => ConductorMemory;
  readonly batch: () => BatchState | null;
  readonly checks: Readonly<Record<InstrumentId, EntryId>>;
  readonly changed: () => void;
}

/** The finer of the scales that can be heard; else the first there is. */
const chosen = (scales: readonly ScaleView[]): ScaleView | null => {
  const heard = scales.filter(({ reading }) => reading !== null);
  return heard.find(({ role }) => role === 'fine') ?? heard[0] ?? scales[0] ?? null;
};

export const roundOnBench = ({ boot, clock, book, view, memory, batch, checks, changed }: OnBench): RoundParts => {
  const scaleView = (id: InstrumentId): ScaleView | undefined => view().scales.find((scale) => scale.id === id);
  return {
    boot,
    clock,
    book,
    changed,
    scale: () => chosen(view().scales)?.id ?? null,
    pan: (id) => {
      const scale = scaleView(id);
      return scale === undefined ? null : panOf(memory(), scale);
    },
    weighed: (pan, zero) => barWeighed(memory(), pan, zero),
    check: (id) => checks[id] ?? null,
    capacity: (id) => scaleView(id)?.capacity ?? null,
    led: () => view().leased,
    unseen: () => view().unseen === true,
    armed: () => {
      const now = batch();
      return now !== null && (now.status === 'weighing' || now.status === 'joined') ? now.id : null;
    },
    spent: () => {
      const consumed = batch()?.consumed;
      return consumed?.boot === boot ? consumed.episode : 0;
    },
  };
};
