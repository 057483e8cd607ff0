import { describe, expect, it } from 'vitest';
import { isTroubled, neverMeet } from '#lib/bench/waiting';
import { celsius } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';
import { lyeStillHeats, seeLye, type LyeSeen } from '#lib/work/batch/heating';
import { started } from '#tests/support/batch';

const MINUTE = 60_000;
const batch = started().weighAll().makeLye().now;
/** One value a minute. */
const heard = (values: readonly number[]): LyeSeen | null =>
  values.reduce<LyeSeen | null>((seen, value, minute) => seeLye(seen, celsius(value), monotonic(minute * MINUTE)), null);
const heats = (values: readonly number[]) => lyeStillHeats(heard(values), celsius(values.at(-1) ?? 0));
const troubled = (values: readonly number[], more: { readonly never?: 'lye' | 'oils'; readonly asked?: number } = {}) => {
  const now = monotonic((values.length - 1) * MINUTE);
  const wait = { batch, lyeSeen: heard(values), never: more.never ?? null, joinAsked: more.asked ?? null, now };
  return (['lye-too-hot', 'apart'] as const).filter((code) => isTroubled(code, wait));
};

const HEATS = [22, 40, 62, 80, 84];
const COOLS = [...HEATS, 80, 76, 73, 71, 69];

describe('whether hot lye is more than to be waited for', () => {
  it.each<readonly [string, readonly number[], readonly string[]]>([
    ['as it heats and cools', COOLS, []],
    ['hydroxide in portions: down a little, and up again', [22, 50, 46, 70, 66, 84, 80], []],
    ['not heard at all', [], []],
    ['warmer again, as on a hob', [...COOLS, 70, 71, 72.5], ['lye-too-hot']],
    ['warmer again than it ever was', [...COOLS, 85, 90], ['lye-too-hot']],
    ['warmed by a stir', [...COOLS, 70], []],
    ['no cooler for twenty minutes', [...COOLS, ...Array.from({ length: 21 }, () => 68.8)], ['lye-too-hot']],
    ['no cooler for nineteen', [...COOLS, ...Array.from({ length: 18 }, () => 68.8)], []],
    ['as slow as in a warm room', [...COOLS, ...Array.from({ length: 40 }, (_, at) => 68.8 - at * 0.06)], []],
  ])('%s', (_name, values, expected) => {
    expect(troubled(values)).toEqual(expected);
  });

  it('is told from lye that heats itself by the same memory', () => {
    // By steps of half a degree: what follows the top more closely is a probe's noise.
    const slowly = Array.from({ length: 100 }, (_, at) => 22 + at * 0.4);
    expect([heats(HEATS), heats(slowly), troubled(slowly), heats([...HEATS, 83.5]), heats([...HEATS, 82.4])]).toEqual([
      true,
      true,
      [],
      true,
      false,
    ]);
    expect([heats([...COOLS, 85, 90]), heats([...COOLS, 85, 90, 86]), heats(COOLS), heats([45])]).toEqual([true, false, false, false]);
  });

  it('sounds when a forecast says never, for the vessel that is to be acted on', () => {
    expect(troubled(COOLS, { never: 'oils' })).toEqual(['apart']);
    expect(troubled(COOLS, { never: 'lye' })).toEqual(['lye-too-hot', 'apart']);
  });

  it('sounds for whoever asked to join a moment ago', () => {
    const now = (COOLS.length - 1) * MINUTE;
    expect(troubled(COOLS, { asked: now - 59_000 })).toEqual(['lye-too-hot', 'apart']);
    expect(troubled(COOLS, { asked: now - 61_000 })).toEqual([]);
  });

  it('never is what a forecast says of what can be joined, not that nobody can say', () => {
    const meeting = { kind: 'meeting', when: { kind: 'never' }, against: [], acts: [], setting: null } as const;
    const acts = [{ vessel: 'oils', kind: 'warm', to: 45_000, start: 0, meets: { kind: 'met' } }] as const;
    expect(neverMeet({ ...meeting, joinable: { kind: 'never' } })).toBe('lye');
    expect(neverMeet({ ...meeting, joinable: { kind: 'never' }, acts })).toBe('oils');
    expect(neverMeet({ ...meeting, joinable: { kind: 'not-before', after: 60 } })).toBeNull();
    expect(neverMeet({ kind: 'none', lye: 'not-enough', oils: null } as never)).toBeNull();
    expect(neverMeet(null)).toBeNull();
  });
});
