import { describe, expect, it } from 'vitest';
import type { Card, RemedySeen } from '#lib/bench/cue';
import { as } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { batchOf } from '#tests/support/remedy-rig';
import { formula } from '#tests/support/formula';
import { wayText, wayWords } from '../../../app/bench/_parts/way-words';
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

  it('says what becomes of the superfat always, and of the figure that is wrong beside it', () => {
    const said = wayText(card({ matters: [{ of: 'lye', line: null, value: 294_000 }] }), batch, show);
    expect(said).toContain('superfat 5.0 %, ±1.8. lye 29.4 %.');
  });

  it('says what to mind of the recommended way too, and why it comes first', () => {
    const said = wayText(card({ recommended: 'least-change', cautions: ['protect', 'cool-first', 'stock-not-known'] }), batch, show);
    expect(said).toContain('goggles, gloves, water. only into cooled lye. asks first whether there is enough');
    expect(said).toContain('Recommended: least change that keeps every limit.');
  });

  it('names what goes in and how much, each by its name', () => {
    const moves = { 'line 1': 'coconut', 'move 1': 15_200, 'line 2': 'soda', 'move 2': 4_200 };
    const add = wayWords(card({ added: mg(19_400) }, { code: 'add', params: { count: 2, mass: 19_400, ...moves } }), batch, show);
    expect(add.name).toBe('Add 15.2 g coconut oil, 4.2 g sodium hydroxide');
    const change = { count: 4, 'line 1': 'coconut', 'move 1': 15_200, 'line 2': 'olive', 'move 2': -9_000 };
    const named = wayWords(card({}, { code: 'least-change', params: change }), batch, show).name;
    expect(named).toBe('Use 15.2 g more coconut oil, 9.0 g less olive oil and 2 more');
    // What an older record has of it.
    expect(wayWords(card({}, { code: 'add', params: { count: 2, mass: 19_400 } }), batch, show).name).toBe('Add to 2 of them');
  });

  it('says which limit it would leave, and nothing about limits in general where it knows', () => {
    const clashes = [{ ...clash, limit: 'superfat-least', by: 7_000 }] as const;
    expect(wayWords(card({ clashes }, { enabled: false, why: 'outside-limit' }), batch, show).notes).toEqual(['superfat too low by 0.7 %']);
    expect(wayWords(card({}, { enabled: false, why: 'outside-limit' }), batch, show).notes).toEqual(['leaves the formula’s limits']);
  });

  it('says the same of a card that only waits for the reading to rest', () => {
    const one = { code: 'use-less', params: { line: 'olive', mass: 12_000 } } as const;
    const change = { recommended: 'least-change', cautions: ['protect'], lines: [] } as const;
    expect(wayWords(card(change, { ...one, enabled: false, why: 'settling' }), batch, show)).toEqual(
      wayWords(card(change, one), batch, show),
    );
  });

  it('of a part set aside says what it needs to be a batch of its own', () => {
    const said = wayText(
      card({ cautions: ['label-as-own-batch'], ownBatch: [{ line: as<never>('soda'), mass: grams(8.5) }] }),
      batch,
      show,
    );
    expect(said).toMatch(/its own batch, parked: needs 8\.5 g sodium hydroxide/);
    const two = [
      { line: as<never>('soda'), mass: grams(8.5) },
      { line: as<never>('water'), mass: grams(20) },
    ];
    // A list of them does not stand on a small card.
    expect(wayText(card({ cautions: ['label-as-own-batch'], ownBatch: two }), batch, show)).toMatch(/parked: needs 2 more, 28\.5 g/);
  });
});
