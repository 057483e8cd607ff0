import { describe, expect, it } from 'vitest';
import { grams, mg } from '#lib/units/mass';
import { MAIN, started } from '#tests/support/batch';

const program = { role: 'program', via: 'bench' } as const;

describe('alarms and instruments', () => {
  it('an alarm is raised once, silenced without ending, ended once', () => {
    const rig = started();
    const alarm = { code: 'probe-lost', line: null, instrument: null, detail: 'oils' } as const;
    expect(rig.code('raise-alarm', alarm, program)).toBe('alarm-raised');
    expect(rig.code('raise-alarm', alarm, program)).toBe('already-done');
    expect(rig.code('silence', { code: 'probe-lost' }, { role: 'watcher', expectedVersion: 1 })).toBe('alarm-silenced');
    expect(rig.code('silence', { code: 'probe-lost' })).toBe('already-done');
    expect(rig.now.alarms['probe-lost']).toMatchObject({ silenced: true });
    expect(rig.code('end-alarm', { code: 'probe-lost' }, program)).toBe('alarm-ended');
    expect(rig.code('end-alarm', { code: 'probe-lost' }, program)).toBe('already-done');
    expect(rig.code('silence', { code: 'probe-lost' })).toBe('no-such');
  });

  it('an instrument is lost once and back once', () => {
    const rig = started();
    expect(rig.code('regain-instrument', { instrument: MAIN }, program)).toBe('already-done');
    expect(rig.code('lose-instrument', { instrument: MAIN, last: null }, program)).toBe('instrument-lost');
    expect(rig.code('lose-instrument', { instrument: MAIN, last: null }, program)).toBe('already-done');
    expect(rig.now.lostInstruments).toEqual([MAIN]);
    expect(rig.code('regain-instrument', { instrument: MAIN }, program)).toBe('instrument-back');
    expect(rig.now.lostInstruments).toEqual([]);
  });

  it('one known mass checks a scale', () => {
    const rig = started();
    const check = { instrument: MAIN, nominal: grams(500) };
    expect(rig.code('check-scale', check)).toBe('not-settled');
    rig.must('check-scale', check, { observation: rig.seen(rig.settle(MAIN, grams(500.2))) });
    expect(rig.now.checks[MAIN]).toMatchObject({ difference: 200 });
    expect(rig.code('check-scale', { ...check, nominal: mg(0) }, { observation: rig.seen(rig.settle(MAIN, grams(1))) })).toBe('bad-number');
  });
});
