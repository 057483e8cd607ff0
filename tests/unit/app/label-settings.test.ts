import { expect, it } from 'vitest';
import type { LabelPage } from '#lib/protocol/label';
import { labelSettingsSchema, NO_LABEL_SETTINGS, type LabelSettings } from '#lib/work/label/settings';
import { settingsOf } from '../../../app/bars/label/_parts/settings';
import { figureOf, startOf } from '../../../app/bars/net/_parts/typed';
import { scaleChecked } from '../../../app/bars/net/_parts/scale-first';

const label = {
  materials: [{ id: 'olive', name: 'Olive oil', inci: null, saponifiedAs: null, fat: true, proposed: false }],
} as unknown as LabelPage;
const { typedOf, read } = settingsOf(label, () => undefined);
const kept: LabelSettings = {
  ...NO_LABEL_SETTINGS,
  title: 'Meadow bar',
  responsible: { name: 'Brook & Alder', address: '1 Mill Lane\nOldham' },
  durability: { kind: 'best-before', months: 18 },
  naming: 'as-soap',
  onlySoap: false,
  estimated: true,
  names: {
    olive: { inci: 'Olea Europaea Fruit Oil', saponifiedAs: 'Sodium Olivate' },
    shea: { inci: 'Butyrospermum Parkii Butter', saponifiedAs: null },
  },
};

it('what labels say stays as it is when nothing is typed, names of other bars’ materials among it', () => {
  expect(read(typedOf(kept), kept)).toEqual({ document: kept, errors: {}, minds: {} });
  expect(read(typedOf(null), null)).toEqual({ document: NO_LABEL_SETTINGS, errors: {}, minds: {} });
  expect(labelSettingsSchema.safeParse(kept).success).toBe(true);
});

it('what cannot be is said at its field, and a name that was emptied is gone', () => {
  const typed = { ...typedOf(kept), months: '0', 'size.width': '7', 'names.olive.inci': '', 'names.olive.saponifiedAs': '' };
  const { errors, document } = read(typed, kept);
  expect(Object.keys(errors).toSorted()).toEqual(['months', 'size.width']);
  expect((document as LabelSettings).names).toEqual({ shea: kept.names['shea'] });
});

it('a scale nobody put a known mass on is not known, and one that was is looked at', () => {
  const typed = startOf('none');
  expect(scaleChecked(typed, 0.1, 120, null).average.verdict).toBe('not-known');
  expect(scaleChecked({ ...typed, known: '100', shown: '100,3' }, 0.1, 120, null).average).toMatchObject({ verdict: 'good' });
  expect(scaleChecked({ ...typed, known: '100', shown: '102' }, 0.1, 120, null).average.verdict).toBe('not-good');
  expect(scaleChecked({ ...typed, known: '100', shown: '100', step: 'x' }, 0.1, 120, null).average.verdict).toBe('not-known');
  // What the scale itself told goes before what was typed; of another scale than the bars' nothing is known.
  const weighed = { entry: 'e' as never, wall: 0, offsetMin: 0, known: 100, shown: 100.3, step: 0.1, same: true };
  const told = (more: object) => scaleChecked({ ...typed, known: '100', shown: '102' }, 0.1, 120, { ...weighed, ...more }).average;
  expect(told({})).toMatchObject({ verdict: 'good' });
  // |100.3 − 100| + 0.75 · 1 g = 1.05 g, and 0.2 · 5.4 g = 1.08 g are allowed; the bars' scale counts by 1 g.
  expect(scaleChecked(typed, 1, 120, weighed).average.error).toBeCloseTo(1.05, 9);
  expect(told({ shown: 101.5 }).verdict).toBe('not-good');
  expect(told({ same: false }).verdict).toBe('not-known');
  expect([figureOf(' '), figureOf('1,5'), figureOf('1,250')]).toEqual([null, 1.5, 1.25]);
  expect(figureOf('much')).toBeNaN();
});
