import { JournalReadOnly } from '#lib/record/journal';
import type { Journal } from '#lib/record/journal';
import { EMPTY } from '#lib/record/seal';
import type { Realm } from '#lib/work/batch/index';
import { EMPTY_SHELF } from '#lib/work/shelf/shelf';
import type { RecordProof } from './proof-store';
import type { Standing } from './standing';
import type { ChainFinding, Store } from './store';

/**
 * What stands in for a file nothing can be read from: it has no lines, takes none, and says why. The program starts all the
 * same, so that the reason is read on the screen at the bench and not in a log. Nothing on the disk is touched.
 */
export const unreadableStore = (
  realm: Realm,
  file: string,
  { readOnly, damage }: Pick<Standing, 'readOnly' | 'damage'>,
  release: () => void,
): Store => {
  const why = readOnly ?? '';
  const refuse = (): Promise<never> => Promise.reject(new JournalReadOnly(why));
  const nothing: ChainFinding = { head: EMPTY, breaks: [] };
  return {
    realm,
    file,
    bench: emptyJournal('bench', refuse),
    workshop: emptyJournal('workshop', refuse),
    entry: async () => null,
    settings: {
      instruments: () => [],
      bindInstrument: refuse,
      unbindInstrument: refuse,
      addPerson: refuse,
      renamePerson: refuse,
      eraseName: refuse,
      setPin: refuse,
      pinOf: () => null,
      people: () => [],
      screen: () => ({ mass: 'g', temperature: 'C' }),
      setScreen: refuse,
      practiceLeft: () => null,
      leavePractice: refuse,
    },
    proof: emptyProof(refuse),
    copied: false,
    ended: () => undefined,
    shelf: { now: () => EMPTY_SHELF, put: refuse, keepFile: refuse, file: () => null, files: () => [] },
    blobs: { get: async () => null },
    checks: () => ({}),
    bars: {
      list: async () => ({ bars: [], next: null }),
      open: async () => [],
      of: async () => [],
      serving: async () => [],
      wrapped: async () => [],
      onceWrapped: async () => [],
    },
    lots: { used: async () => new Map(), batches: async () => [], once: async () => [], marked: async () => [] },
    batches: { list: async () => ({ batches: [], next: null }), get: async () => null, formulas: async () => [] },
    health: () => ({ ok: false, seq: 0, readOnly: why, damage }),
    verify: async () => ({ ok: false, bench: nothing, workshop: nothing, file: [why], withdrawn: [] }),
    rebuild: refuse,
    close: async () => release(),
  };
};

const emptyJournal = (name: string, refuse: () => Promise<never>): Journal => ({
  name,
  seq: () => EMPTY.seq,
  link: () => EMPTY.link,
  append: refuse,
  lines: async () => [],
  linesOf: async () => [],
  answerTo: async () => null,
});

const emptyProof = (refuse: () => Promise<never>): RecordProof => ({
  named: () => null,
  newest: () => null,
  covering: () => null,
  before: () => null,
  unsigned: () => 0,
  stampOf: () => null,
  stampUrl: () => null,
  withdrawn: () => [],
  withdrawnAt: () => undefined,
  name: refuse,
  keepHeads: refuse,
  keepStamp: refuse,
  setStampUrl: refuse,
  withdraw: refuse,
});
