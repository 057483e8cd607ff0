import { describe, expect, it } from 'vitest';
import type { Card, RemedySeen } from '#lib/bench/cue';
import { as } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import { batchOf } from '#tests/support/remedy-rig';
import { formula } from '#tests/support/formula';
import { wayText } from '../../../app/bench/_parts/ways';
import { seen as bare } from '#tests/browser/support/ways';
import { showIn } from '../../../app/bench/_parts/words';

const show = showIn({ locale: 'en-GB', mass: 'g', temperature: 'C' }, 100);
const batch = batchOf(formula()).now;
const seen = (change: Partial<RemedySeen>): RemedySeen => bare({ superfat: { value: 50_000, half: 18_000 }, full: null, ...change });
const card = (change: Partial<RemedySeen>, more: Partial<Card> = {}): Card => ({
  code: 'carry-on',
  params: {},
  hold: true,
  enabled: true,
  why: null,
  remedy: seen(change),
  ...more,
});
const clash = { line: null, vessel: null, unit: 'ppm' } as const;

describe('a way out in words', () => {
  it('names every limit that stands against it, which oil, and by how much', () => {
    const clashes = [
      { ...clash, limit: 'superfat-most', by: 11_000 },
      { ...clash, limit: 'share-most', line: as<never>('olive'), by: 24_000 },
      { limit: 'stock', line: as<never>('coconut'), vessel: null, by: 12_000, unit: 'mg' },
      { limit: 'brim', line: null, vessel: as<never>('oils-pot'), by: 30, unit: 'ml' },
    ] as const;
    const olive = batch.lines[as<never>('olive')]?.plan.material.name.toLowerCase();
    const coconut = batch.lines[as<never>('coconut')]?.plan.material.name.toLowerCase();
    const said = wayText(card({ clashes }, { enabled: false, why: 'no-solution' }), batch, show);
    expect(said).toContain('superfat too high by 1.1 %');
    expect(said).toContain(`too much of ${olive} by 2.4 %`);
    expect(said).toMatch(new RegExp(`not enough ${coconut}: 12(\\.0)? g missing`));
    expect(said).toContain('over the brim by 30 ml');
  });

  it('says what becomes of the figure that is wrong, before the superfat', () => {
    const said = wayText(card({ matters: [{ of: 'lye', line: null, value: 294_000 }] }), batch, show);
    expect(said).toMatch(/lye 29\.4 %.*superfat 5\.0 %, ±1\.8/);
  });

  it('says what to mind of the recommended way too, not only why it comes first', () => {
    const said = wayText(card({ recommended: 'least-change', cautions: ['protect', 'cool-first', 'stock-not-known'] }), batch, show);
    expect(said).toContain(
      'only into cooled lye, is there enough of it? if not, say so under More, goggles, gloves, water, least change that keeps every limit',
    );
  });

  it('of a part set aside says what it needs to be a batch of its own', () => {
    const said = wayText(
      card({ cautions: ['label-as-own-batch'], ownBatch: [{ line: as<never>('soda'), mass: grams(8.5) }] }),
      batch,
      show,
    );
    expect(said).toMatch(/label it as a batch of its own: it needs 8\.5 g sodium hydroxide/);
  });
});
