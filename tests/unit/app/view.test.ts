import { describe, expect, it } from 'vitest';
import type { CuePhase } from '#lib/bench/cue';
import { massFigure } from '#lib/units/format';
import type { Display } from '#lib/units/display';
import { fineFill, GLASS, niceStep, scaleOf, silhouetteOf, ticks } from '../../../app/_charts/vernier-shape';
import { degreesOf, TEMPERATURE_GLASS } from '../../../app/_charts/temperature-shape';
import { roomFor, slotsOf } from '../../../app/bench/_parts/figure-slots';
import { numberKind, shapeOf } from '../../../app/bench/_parts/shape';
import type { Seen } from '../../../app/bench/_parts/shape';
import { nothingTyped, readTyping, typeKey } from '../../../app/bench/_parts/typing';
import { messages } from '../../../app/bench/messages';
import { cardWordsFor } from '../../../app/bench/messages-cards';
import { sayText } from '../../../app/bench/messages-codes';
import { readPreferences } from '../../../app/_live/preferences';
import { createRing } from '../../../app/_live/ring';
import { freshId } from '../../../app/_live/id';

const grams: Display = { locale: 'en-GB', mass: 'g', temperature: 'C' };

const shape = (total: number | null) => silhouetteOf(total, 520_000, 4_000);

describe('the vernier', () => {
  const glass = GLASS.wide;
  it.each([
    [520_000, 4_000],
    [12_000, 600],
    [3_000, 900],
  ])('keeps datum and notch in the same place for a target of %i and a tolerance of %i', (target, tolerance) => {
    const scale = scaleOf(glass, target, tolerance);
    const height = glass.foot - glass.top;
    expect(scale.datum - glass.top).toBeCloseTo(height / 5);
    expect(scale.coarse(target)).toBeCloseTo(scale.datum);
    expect(scale.fine(target)).toBeCloseTo(scale.datum);
    expect(scale.fine(target - tolerance) - scale.fine(target + tolerance)).toBeCloseTo(height / 10);
  });

  it('holds 0 to 1.25 of the target in the coarse column, and 16 tolerances below to 4 above in the fine one', () => {
    const scale = scaleOf(glass, 520_000, 4_000);
    expect(scale.coarse(0)).toBeCloseTo(glass.foot);
    expect(scale.coarse(1.25 * 520_000)).toBeCloseTo(glass.top);
    expect(scale.coarse(900_000)).toBe(glass.top);
    expect(scale.fine(520_000 - 16 * 4_000)).toBeCloseTo(glass.foot);
    expect(scale.fine(520_000 + 4 * 4_000)).toBeCloseTo(glass.top);
    expect(scale.stretchFrom).toBe(456_000);
  });

  it('has five silhouettes', () => {
    expect([null, 0, 400_000, 516_000, 520_000, 524_000, 524_001, 536_000, 536_001].map(shape)).toEqual([
      'hatched',
      'empty',
      'bar',
      'within',
      'within',
      'within',
      'cross',
      'cross',
      'brimming',
    ]);
  });

  it('widens what is in it once it is in the notch', () => {
    const scale = scaleOf(glass, 520_000, 4_000);
    const widest = (y: number): number => Math.min(...[...fineFill(glass, scale, y).matchAll(/H(-?[\d.]+)/g)].map(([, x]) => Number(x)));
    expect(widest(scale.fine(480_000))).toBeGreaterThan(glass.fine.x);
    expect(widest(scale.fine(521_000))).toBeLessThan(glass.fine.x);
  });

  it('labels by 1, 2 and 5', () => {
    expect([niceStep(650, 6), niceStep(80, 4), niceStep(7.5, 6)]).toEqual([200, 20, 2]);
    expect(
      ticks(0, 100, 5, 5, (value) => value)
        .filter(({ major }) => major)
        .map(({ value }) => value),
    ).toEqual([0, 20, 40, 60, 80, 100]);
  });
});

it('the window of temperatures stands in the same place for every formula', () => {
  const glass = TEMPERATURE_GLASS.wide;
  const one = degreesOf(glass, { low: 30_000, high: 50_000 });
  const two = degreesOf(glass, { low: 36_000, high: 42_000 });
  expect([one.high, one.low]).toEqual([two.high, two.low]);
  expect(one.y(30_000)).toBeCloseTo(one.low);
  expect(two.y(42_000)).toBeCloseTo(two.high);
  expect(one.y(150_000)).toBe(glass.top);
});

const slots = (milligrams: number, sign: 'both' | 'none' = 'none', room = 3) => slotsOf(massFigure(milligrams, grams, 100, sign), room);

describe('digit slots', () => {
  it('keeps every digit in its place from first to last', () => {
    expect(slots(412_600).whole).toEqual(['4', '1', '2']);
    expect(slots(7_400).whole).toEqual(['', '', '7']);
    expect([slots(412_600), slots(7_400), slots(400)].map(({ size, wholeWidth }) => [size, wholeWidth])).toEqual(
      Array.from({ length: 3 }, () => [1, slots(0).wholeWidth]),
    );
  });

  it('sets the sign before the first digit, where there is a place for it', () => {
    expect(slots(12_400, 'both').whole).toEqual(['+', '1', '2']);
    expect(slots(-12_400, 'both').whole).toEqual(['−', '1', '2']);
    expect(slots(112_400, 'both').whole).toEqual(['1', '1', '2']);
  });

  it('makes room for four digits by setting all of them smaller', () => {
    const room = roomFor(massFigure(1_250_000, grams, 100));
    expect(room).toBe(4);
    expect(slotsOf(massFigure(999_000, grams, 100), room).size).toBeLessThan(0.85);
  });

  it('gives pounds their ounces in the small places', () => {
    const shown = slotsOf(massFigure(520_000, { ...grams, mass: 'lb' }, 100), 2);
    expect([shown.whole, shown.part]).toEqual([
      ['', '1'],
      ['0', '2', '.', '3', '4'],
    ]);
  });
});

const seen = (change: Partial<Seen>): Seen => ({
  phase: 'pouring',
  block: null,
  left: 50_000,
  tolerance: 4_000,
  red: false,
  offline: false,
  joiningHeld: false,
  ...change,
});

describe('the shape of the screen', () => {
  it.each<[string, Partial<Seen>, string]>([
    ['bare while short', {}, 'bare'],
    ['brackets within, at either edge', { left: 4_000 }, 'within'],
    ['brackets within, at the other edge', { left: -4_000 }, 'within'],
    ['a calm slab over but inside the limits', { left: -4_001 }, 'calm'],
    ['a red slab outside the limits', { left: -4_001, red: true }, 'red'],
    ['hatched without a number', { left: null }, 'lost'],
    ['hatched when the scale is lost, whatever number came along', { block: 'lost' }, 'lost'],
    ['hatched when the connection is', { offline: true }, 'lost'],
    ['an octagon at a gate', { phase: 'gate' }, 'held'],
    ['an octagon at a question', { phase: 'question' }, 'held'],
    ['an octagon while joining is held', { phase: 'joining', joiningHeld: true }, 'held'],
    ['bare when joining may go on', { phase: 'joining' }, 'bare'],
    ['within although acceptance is blocked by a probe', { left: 0, block: 'probe-leaning' }, 'within'],
  ])('%s', (_name, change, shape) => {
    expect(shapeOf(seen(change))).toBe(shape);
  });

  it('never shows a running number where none stands', () => {
    for (const phase of Object.keys(messages.phases) as CuePhase[]) expect(numberKind(seen({ phase, left: null }))).not.toBe('left');
  });
});

const type = (keys: string, display = grams, what: 'weight' | 'oils' = 'weight') =>
  readTyping(Array.from(keys).reduce(typeKey, nothingTyped(what, display.mass)), display);

it('reads a weight back in the marks of the person', () => {
  expect(type('292.6')).toMatchObject({ kind: 'weight', net: 292_600, shown: '292.6 g', text: '292.6' });
  expect(type('292,6', { ...grams, locale: 'de-DE' })).toMatchObject({ kind: 'weight', net: 292_600, shown: '292,6 g' });
});

describe('the keypad', () => {
  it('does not take 1,250 or 1.250 before its reading is confirmed', () => {
    expect(type('1.250')).toEqual({
      kind: 'ambiguous',
      readings: [
        { decimal: '1.250', shown: '1.250 g' },
        { decimal: '1250', shown: '1250 g' },
      ],
    });
    const typed = { ...Array.from('1,250').reduce(typeKey, nothingTyped('weight', 'g')), meant: '1250' };
    expect(readTyping(typed, grams)).toMatchObject({ kind: 'weight', net: 1_250_000 });
    expect(typeKey(typed, '3').meant).toBeNull();
  });

  it('takes pounds with ounces', () => {
    const pounds = { ...grams, mass: 'lb' } as const;
    const typed = { ...typeKey(nothingTyped('weight', 'lb'), '2'), field: 'text' } as const;
    // 2 lb 3.5 oz = 35.5 oz of 28.349523125 g (NIST SP 811, App. B.8).
    expect(readTyping(['3', '.', '5'].reduce(typeKey, typed), pounds)).toMatchObject({
      kind: 'weight',
      net: 1_006_408,
      text: '2 lb 3.5 oz',
    });
    expect(readTyping(typeKey(nothingTyped('weight', 'lb'), '1'), pounds)).toMatchObject({ kind: 'weight', net: 453_592 });
    const none = { ...typeKey(nothingTyped('weight', 'lb'), '0'), field: 'text' } as const;
    expect(readTyping(['9', '.', '3'].reduce(typeKey, none), pounds)).toMatchObject({ net: 263_651, text: '9.3', shown: '9.3 oz' });
  });

  it('reads a temperature in the unit shown, and refuses one that no vessel has', () => {
    expect(type('113', { ...grams, temperature: 'F' }, 'oils')).toMatchObject({ kind: 'temperature', value: 45_000 });
    expect(type('900', grams, 'oils')).toEqual({ kind: 'invalid' });
    expect(type('0')).toEqual({ kind: 'invalid' });
  });
});

describe('words', () => {
  const show = {
    mass: (mg: number) => `${mg / 1000} g`,
    temperature: (value: number) => `${value}`,
    difference: (value: number) => `${value}`,
    share: (value: number) => `${value / 10_000} %`,
  };

  it('are there for a code that only a newer server knows', () => {
    expect(cardWordsFor('brand-new').title({}, show)).toBe('brand new');
    expect(sayText('brand-new', {}, show)).toBe('');
  });

  it('name the material and both weights', () => {
    expect(sayText('hold', { material: 'Sodium hydroxide', net: 140_600 }, show)).toContain('Sodium hydroxide, 140.6 g');
    expect(cardWordsFor('keep-weight').sub({ was: 1_000, now: 2_000 }, show)).toBe('was 1 g, now 2 g');
    // Asked in mid-pour too, when the vessel is not empty.
    expect(cardWordsFor('it-is-vessel').sub({ vessel: 'pot', gross: 700_000 }, show)).toBe('700 g on the pan');
    expect(cardWordsFor('it-is-vessel').sub({ vessel: 'cup', gross: 110_000, more: 50_000 }, show)).toBe(
      '110 g on the pan: 50 g more than known, not counted',
    );
  });
});

describe('what a page keeps', () => {
  it('reads preferences whatever was left there', () => {
    const defaults = readPreferences(null);
    for (const text of ['', '{', '[]', 'null', '{"mass":"stone","locale":"!!","muted":"yes"}'])
      expect(readPreferences(text)).toEqual(defaults);
    expect(readPreferences('{"mass":"lb","temperature":"F","locale":"de-DE","muted":true,"voice":false}')).toEqual({
      mass: 'lb',
      temperature: 'F',
      locale: 'de-DE',
      muted: true,
      voice: false,
      pass: null,
    });
  });

  it('B17: holds a fixed number of temperatures, holes included', () => {
    const ring = createRing(4);
    for (let at = 0; at < 10; at += 1) ring.push(at, at, at === 8 ? NaN : at);
    const [seconds, lye, oils] = ring.read().map((column) => [...column]);
    expect(seconds).toEqual([6, 7, 8, 9]);
    expect(lye).toEqual([6, 7, 8, 9]);
    expect(oils).toEqual([6, 7, NaN, 9]);
  });

  it('makes ids without a secure context', () => {
    const ids = new Set(Array.from({ length: 1_000 }, () => freshId()));
    expect(ids.size).toBe(1_000);
    for (const id of ids) expect(id).toMatch(/^[A-Za-z0-9_-]{22}$/);
  });
});
