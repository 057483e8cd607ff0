import { describe, expect, it } from 'vitest';
import type { Draft, EntryHead } from '#lib/work/batch/index';
import { canonical, NotCanonical } from '#lib/record/canonical';
import type { Json } from '#lib/record/journal';
import { evolve, fold, toEntry } from '#lib/work/batch/index';
import { upcast, upcastLines } from '#lib/work/batch/upcast';
import { started } from '#tests/support/batch';

const rig = started().weighAll().makeLye().join();
const stored = (at: number): Record<string, unknown> => JSON.parse(JSON.stringify(rig.entries[at])) as Record<string, unknown>;
const failure = (value: unknown) => {
  const read = upcast(value);
  return read.ok ? 'read' : read.failure.code;
};

describe('reading what is stored', () => {
  it('gives back every entry of a batch as it was, without the salt the journal added', () => {
    const lines = rig.entries.map((entry) => JSON.stringify({ ...entry, salt: '00ff' }));
    expect(upcastLines(lines)).toEqual({ ok: true, entries: rig.entries });
  });

  it.each([
    ['a kind of a newer program', { kind: 'blessed' }, 'unknown-kind'],
    ['a kind that every object has', { kind: 'constructor' }, 'unknown-kind'],
    ['a newer version', { v: 2 }, 'unknown-version'],
    ['no version', { v: undefined }, 'unknown-version'],
    ['a key more', { colour: 'red' }, 'malformed'],
    ['a fraction', { mono: 1.5 }, 'malformed'],
    ['a realm of its own', { realm: 'dream' }, 'malformed'],
    ['no body', { body: null }, 'malformed'],
    ['version nought', { version: 0 }, 'malformed'],
  ])('%s is a failure, never a guess', (_name, change, code) => {
    expect(failure({ ...stored(0), ...change })).toBe(code);
  });

  it('the body is read as strictly: a key more, a text for a number, a word nobody knows', () => {
    const at = rig.entries.findIndex(({ kind }) => kind === 'weight-accepted');
    const whole = stored(at);
    const body = whole['body'] as Record<string, unknown>;
    const weighed = body['weighed'] as Record<string, unknown>;
    expect(failure({ ...whole, body: { ...body, extra: 1 } })).toBe('malformed');
    expect(failure({ ...whole, body: { ...body, how: 'somehow' } })).toBe('malformed');
    expect(failure({ ...whole, body: { ...body, weighed: { ...weighed, net: '280000' } } })).toBe('malformed');
    expect(failure({ ...whole, body: { ...body, weighed: { ...weighed, net: 280.5 } } })).toBe('malformed');
    expect(failure(whole)).toBe('read');
  });

  it('what is no entry at all says so', () => {
    for (const value of [null, undefined, 3, 'text', [], {}]) expect(failure(value)).toBe('malformed');
  });

  it('says which line cannot be read, and where in it', () => {
    const lines = rig.entries.slice(0, 3).map((entry) => JSON.stringify(entry));
    expect(upcastLines([...lines, '{"cut'])).toMatchObject({ ok: false, at: 3, failure: { code: 'malformed', kind: null } });
    const broken = { ...stored(1), body: { ...(stored(1)['body'] as object), gross: 'much' } };
    expect(upcastLines([lines[0]!, JSON.stringify(broken)])).toMatchObject({ ok: false, at: 1, failure: { kind: 'vessel-set' } });
    const read = upcast(broken);
    expect(read.ok ? '' : read.failure.detail).toContain('body.gross');
  });
});

const draft = (body: unknown): Draft => ({ kind: 'noted', body }) as Draft;

describe('completing a draft', () => {
  const { kind: _kind, body: _body, ...head } = rig.entries[0]!;
  const enter = (body: unknown, change: Partial<EntryHead> = {}) => toEntry(draft(body), { ...head, ...change });

  it('puts head and body together', () => {
    expect(enter({ text: 'warm' })).toEqual({ ...head, kind: 'noted', body: { text: 'warm' } });
  });

  it.each([
    ['a fraction', 0.5],
    ['not a number', Number.NaN],
    ['an unsafe whole number', 2 ** 53],
    ['undefined', undefined],
    ['a big integer', 1n],
    ['half a character', '\uD83D'],
    ['a date', new Date(0)],
  ])('refuses %s before it is written', (_name, text) => {
    expect(() => enter({ text })).toThrow(NotCanonical);
    expect(() => enter({ text: [{ deep: text }] })).toThrow(NotCanonical);
  });

  it('is at once what a replay will read', () => {
    const entry = enter({ text: [-0, { b: 1, a: 2 }] });
    expect(entry).toStrictEqual(JSON.parse(canonical(entry as unknown as Json)));
    expect(Object.keys(entry)).toEqual(Object.keys(entry).toSorted());
  });

  it('refuses a monotonic time with a fraction', () => {
    expect(() => enter({ text: 'warm' }, { mono: 12.25 })).toThrow(/mono/);
  });
});

describe('folding the same entries twice', () => {
  const [first, ...rest] = rig.entries;

  it('gives the very same states, since neither entry nor state can change', () => {
    const again = rest.reduce(evolve, fold([first!])!);
    expect(again).toBe(fold(rig.entries));
  });

  it('looks at the state before it: the same entry on another state gives another', () => {
    const before = fold([first!])!;
    const marked = { ...before, mark: 'another' };
    expect(evolve(before, rest[0]!).mark).toBe(before.mark);
    expect(evolve(marked, rest[0]!).mark).toBe('another');
  });

  it('keeps nothing of an entry that can still change', () => {
    const note = { ...toEntry(draft({ text: 'warm' }), { ...first!, version: 2 }) };
    const before = fold([first!])!;
    evolve(before, note);
    expect(() => evolve(before, Object.assign(note, { version: 3 }))).toThrow('version 3');
  });
});
