import { describe, expect, it } from 'vitest';
import { gather } from '../../../app/_ui/kept/typed';
import { percentLines } from '../../../app/stores/_parts/percent-lines';
import { typedMould, readMould } from '../../../app/setup/_parts/mould-form';
import { typedMaterial, readMaterial } from '../../../app/stores/_parts/own-form';
import { readLot, typedLot } from '../../../app/stores/_parts/lot-form';
import { knownOf } from '../../../app/stores/_parts/stores';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';

describe('a field read', () => {
  it('takes either decimal mark, and of two readings the one that can be meant', () => {
    const read = gather({ a: '256,5', b: '1.050', c: '1.250' });
    expect(read.number('a', { to: 1000 })).toBe('256.5');
    expect(read.number('b', { to: 20 })).toBe('1.050');
    expect(read.errors).toEqual({});
    read.number('c', { to: 50_000 });
    expect(read.errors['c']).toContain('1.250 or 1250');
  });

  it.each(['-1', '0', '130', 'x', '1e3', '½'])('refuses %s as a share above nothing', (text) => {
    const read = gather({ a: text });
    read.must('a', { above: 0, to: 100 });
    expect(Object.keys(read.errors)).toEqual(['a']);
  });

  it('reads names with percentages line by line, and tells of the line that is none', () => {
    const wrong: string[] = [];
    const lines = percentLines('Linalool 1.5\n\nalpha-Isomethyl ionone: 0,2 %\nEugenol\nGeraniol 130', (why) => wrong.push(why));
    expect(lines).toEqual([
      { name: 'Linalool', percent: '1.5' },
      { name: 'alpha-Isomethyl ionone', percent: '0.2' },
    ]);
    expect(wrong).toHaveLength(2);
  });
});

const item = <T extends { readonly id: string }>(document: T) => ({ id: document.id, version: 1, wall: 0, document: document as never });
/** The figures of a material without where they come from. */
const values = (one: object): object =>
  Object.fromEntries(
    Object.entries(one).map(([key, value]: [string, unknown]) => [
      key,
      typeof value === 'object' && value !== null && 'value' in value ? value.value : typeof value === 'boolean' ? value : null,
    ]),
  );

describe('a document opened and kept without a change', () => {
  const { materials, moulds, lots, preparations } = SAMPLE_WORKSHOP;
  const known = knownOf({
    lots: { items: lots.map(item), away: [] },
    materials: { items: materials.filter(({ origin }) => origin === 'maker').map(item), away: [] },
    preparations: { items: preparations.map(item), away: [] },
    used: {},
    wraps: [],
  });

  it.each(moulds.map((one) => [one.name, one] as const))('mould %s stays as it is', (_name, mould) => {
    expect(readMould(mould.id, typedMould(mould))).toEqual({ document: mould, errors: {}, minds: {} });
  });

  it.each(lots.map((one) => [one.mark, one] as const))('lot %s stays as it is', (_name, lot) => {
    expect(readLot(lot.id, typedLot(lot), known)).toMatchObject({ document: lot, errors: {} });
  });

  it.each(materials.map((one) => [one.id, one] as const))('material %s keeps its figures', (_id, material) => {
    const { document, errors } = readMaterial(material.id, typedMaterial(material));
    expect(errors).toEqual({});
    expect(values(document)).toEqual(values(material));
  });

  it('a material keeps the names it has on labels, and none that nobody typed', () => {
    const [material] = materials;
    const named = { ...material!, inci: 'Olea Europaea Fruit Oil', saponifiedAs: 'Sodium Olivate' };
    expect(readMaterial(named.id, typedMaterial(named)).document).toMatchObject({ inci: named.inci, saponifiedAs: named.saponifiedAs });
    expect(readMaterial(material!.id, typedMaterial(material!)).document).not.toHaveProperty('inci');
  });
});
