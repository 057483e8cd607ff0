import { describe, expect, it } from 'vitest';
import { isTroubled, neverMeet, seeFall, type LyeFall } from '#lib/bench/waiting';
import { celsius } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';
import { started } from '#tests/support/batch';

const MINUTE = 60_000;
const batch = started().weighAll().makeLye().now;
/** One value a minute. */
const fallOf = (values: readonly number[]): LyeFall | null =>
  values.reduce<LyeFall | null>((fall, value, minute) => seeFall(fall, celsius(value), monotonic(minute * MINUTE)), null);
const troubled = (values: readonly number[], more: { readonly never?: 'lye' | 'oils'; readonly asked?: number } = {}) => {
  const now = monotonic((values.length - 1) * MINUTE);
  const wait = { batch, fall: fallOf(values), never: more.never ?? null, joinAsked: more.asked ?? null, now };
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
    ['warmed by a stir', [...COOLS, 70], []],
    ['no cooler for twenty minutes', [...COOLS, ...Array.from({ length: 21 }, () => 68.8)], ['lye-too-hot']],
    ['no cooler for nineteen', [...COOLS, ...Array.from({ length: 18 }, () => 68.8)], []],
    ['as slow as in a warm room', [...COOLS, ...Array.from({ length: 40 }, (_, at) => 68.8 - at * 0.06)], []],
  ])('%s', (_name, values, expected) => {
    expect(troubled(values)).toEqual(expected);
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
