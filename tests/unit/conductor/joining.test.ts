import { describe, expect, it } from 'vitest';
import { joiningScene } from '#lib/bench/conductor/joining';
import type { Scenery } from '#lib/bench/conductor/stage';
import { PRECAUTIONS } from '#lib/work/batch/index';
import type { Want } from '#lib/work/batch/index';
import { seeLye } from '#lib/work/batch/heating';
import { celsius } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';
import { cardWordsFor } from '../../../app/bench/messages-cards';
import { started } from '#tests/support/batch';
import { formula, planned } from '#tests/support/formula';

const probe = (use: string, value: number) => ({ use, value, freshness: 'fresh' });

/** All weighed and the lye made, both halves in the window. */
const readyAt = (superfat: string): Scenery & { readonly wants: Want[] } => {
  const { plan } = planned(
    formula({
      wishes: { superfat, lye: { kind: 'concentration', percent: '33' } },
      limits: { superfat: { low: '0', high: '8' }, lye: null },
    }),
  );
  const batch = started(plan).weighAll().makeLye().now;
  const view = { boot: batch.boot, probes: [probe('lye', 41_000), probe('oils', 42_000)], lyeSeen: null };
  return { batch, view, now: 0, wants: [], heard: null, memory: {} } as unknown as Scenery & { readonly wants: Want[] };
};

describe('joining lye that may be heavy', () => {
  it('waits behind a card of its own, whose taking is an override that goes on record', () => {
    const stage = readyAt('1');
    const scene = joiningScene(stage);
    expect(scene.phase).toBe('temperatures');
    const [join, allow] = scene.choices ?? [];
    expect(join?.card).toMatchObject({ code: 'join', enabled: false, why: 'may-be-lye-heavy' });
    expect(allow?.card).toMatchObject({ code: 'override', hold: true, params: { reason: 'may-be-lye-heavy', limit: 0 } });
    expect(Number(allow?.card.params['value'])).toBeLessThan(0);
    const show = { mass: String, temperature: String, difference: String, share: (value: number) => `${(value / 10_000).toFixed(1)} %` };
    expect(cardWordsFor('override').title(allow?.card.params ?? {}, show)).toBe('Allow: it may be lye-heavy');
    expect(cardWordsFor('override').sub(allow?.card.params ?? {}, show)).toMatch(
      /^superfat may be as low as -\d\.\d %, mostly by the value of [\w ]+\. Goes on record$/,
    );
    allow?.take();
    expect(stage.wants).toEqual([{ kind: 'override', body: { reason: 'may-be-lye-heavy', held: true, note: '' } }]);
  });

  it('with 5 % of superfat is only joining', () => {
    const scene = joiningScene(readyAt('5'));
    expect(scene.phase).toBe('joining');
    expect(scene.choices?.map(({ card }) => card.code)).toEqual(['join']);
  });
});

it('lye that crosses no limit and may still heat is not told to be too hot', () => {
  const stage = readyAt('5');
  const lyeSeen = seeLye(seeLye(null, celsius(20), monotonic(0)), celsius(41), monotonic(1));
  const [join, allow] = joiningScene({ ...stage, view: { ...stage.view, lyeSeen } }).choices ?? [];
  expect(join?.card.why).toBe('lye-still-heating');
  const show = { mass: String, temperature: String, difference: String, share: String };
  const { title, sub } = cardWordsFor('override');
  expect([title(allow?.card.params ?? {}, show), sub(allow?.card.params ?? {}, show)]).toEqual([
    'Allow: lye still heating',
    'goes on record',
  ]);
  const hot = { reason: 'lye-too-hot', value: 60_000, limit: 50_000 };
  expect([title(hot, show), sub(hot, show)]).toEqual(['Allow: lye too hot', 'at most 50000, recorded']);
});

/** The hydroxide dry in its cup, the liquid ticked cold. */
const dissolving = (lye: number | null) => {
  const rig = started().weighAll();
  rig.must('confirm-gate', { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true });
  const view = { boot: rig.now.boot, probes: lye === null ? [] : [probe('lye', lye)], lyeSeen: null };
  return joiningScene({ batch: rig.now, view, now: 0, wants: [], heard: null, memory: {} } as unknown as Scenery);
};

describe('hydroxide into its liquid', () => {
  it('is not offered while a probe says that it is hot, whatever was ticked', () => {
    expect(dissolving(88_000).choices?.map(({ card }) => card)).toMatchObject([{ code: 'dissolve', enabled: false, why: 'lye-too-hot' }]);
    expect(dissolving(21_000).choices?.map(({ card }) => card)).toMatchObject([{ code: 'dissolve', enabled: true }]);
    expect(dissolving(null).choices?.map(({ card }) => card)).toMatchObject([{ code: 'dissolve', enabled: true }]);
  });
});
