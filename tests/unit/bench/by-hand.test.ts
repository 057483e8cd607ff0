import { describe, expect, it } from 'vitest';
import type { IntentWant } from '#lib/protocol/intent';
import type { Entry } from '#lib/work/batch/index';
import { tell } from '#lib/work/batch/review/story';
import { upcast } from '#lib/work/batch/upcast';
import { started } from '#tests/support/batch';
import type { BatchRig } from '#tests/support/batch';
import { benchAfter } from '#tests/support/bench-after';
import { entriesIn } from '#tests/support/bench-rig';

const STATED: readonly [Entry['kind'], () => BatchRig, IntentWant][] = [
  ['moved', () => started().weighAll('water'), { kind: 'move', from: 'oat-cup', to: 'clay-cup', mass: 15_000, residue: null }],
  ['withdrawn', () => started().weighAll('water'), { kind: 'withdraw', vessel: 'oils-pot', mass: 5_000, to: 'waste' }],
  ['lost', () => started().weighAll('water'), { kind: 'lose', vessel: 'scent-cup', mass: 5_000, cause: 'spill', note: '' }],
  ['split', () => started().weighAll().makeLye().join(), { kind: 'split', vessel: 'oils-pot', parts: [{ name: 'log', mass: 500_000 }] }],
];

describe('a mass that a person stated and no scale gave', () => {
  it.each(STATED)(
    '%s says by hand in the record and in its story, and reads as before where it does not say',
    async (kind, before, want) => {
      const rig = await benchAfter(before());
      expect(await rig.intent(want)).toMatchObject({ ok: true });
      const entry = (await entriesIn(rig.journal)).find((one) => one.kind === kind);
      const batch = rig.bench.batch();
      if (entry === undefined || batch === null) throw new Error(`nothing was ${kind}`);
      expect(entry.body).toMatchObject({ source: 'by-hand' });
      expect(upcast(entry)).toMatchObject({ ok: true });
      expect(tell(entry, batch)[0]?.params).toMatchObject({ source: 'by-hand' });

      const { source: _none, ...older } = entry.body as Record<string, unknown>;
      const read = upcast({ ...entry, body: older });
      expect(read).toMatchObject({ ok: true });
      expect(read.ok && tell(read.entry, batch)[0]?.params['source']).toBeUndefined();
    },
  );
});
