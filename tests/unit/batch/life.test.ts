import { describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import type { BatchId, BootId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import { BatchRig, MAIN, lineId, planOf, started } from '#tests/support/batch';

const program = { role: 'program', via: 'bench' } as const;

const restarted = (rig: BatchRig): BatchRig => {
  rig.boot = as<BootId>('boot-2');
  rig.episode = 0;
  return rig;
};

const halfway = (): BatchRig => {
  const rig = started();
  rig.setVessel('coconut');
  rig.accept('coconut', 280);
  rig.accept('shea', 50, { part: true });
  return rig;
};

describe('B9: after a restart a person says what is in the vessel', () => {
  it('B9: nothing that weighs, answers or joins goes on before', () => {
    const rig = restarted(halfway());
    const line = lineId('shea');
    const typed = { net: grams(70), text: '70', unit: 'g' } as const;
    expect(rig.setVessel('shea')).toMatchObject({ ok: false, refusal: { code: 'needs-resume' } });
    expect(rig.accept('shea', 70)).toMatchObject({ ok: false, refusal: { code: 'needs-resume' } });
    expect(rig.code('type-weight', { line, typed, readBack: true, part: false })).toBe('needs-resume');
    expect(rig.code('strike', { entry: rig.line('coconut').contributions[0]!.entry, reason: 'undone', note: '', held: true })).toBe(
      'needs-resume',
    );
    expect(rig.code('join', { held: true })).toBe('needs-resume');
    expect(rig.code('go-away', {})).toBe('needs-resume');
  });

  it('B9: what happens meanwhile is still kept', () => {
    const rig = restarted(halfway());
    expect(rig.code('lose-instrument', { instrument: MAIN, last: grams(900) }, program)).toBe('instrument-lost');
    expect(rig.code('raise-alarm', { code: 'scale-lost', line: null, instrument: MAIN, detail: '' }, program)).toBe('alarm-raised');
    expect(rig.code('silence', { code: 'scale-lost' }, { role: 'watcher' })).toBe('alarm-silenced');
    expect(rig.code('note', { text: 'power cut' })).toBe('noted');
    expect(rig.code('mark-clock-jump', { byMs: -7_200_000, kind: 'wall-step' }, program)).toBe('clock-jumped');
  });

  it('B9: it goes on at exactly that line, with the zero and the part that were in', () => {
    const rig = restarted(halfway());
    const { pans, open } = rig.now;
    expect(rig.code('resume', { contents: 'as-recorded', note: '', held: false })).toBe('needs-hold');
    rig.must('resume', { contents: 'as-recorded', note: '', held: true });
    expect(rig.now).toMatchObject({ pans, open, resumedInBoot: 'boot-2' });
    expect(rig.accept('shea', 70).ok).toBe(true);
    expect(rig.line('shea')).toMatchObject({ actual: 120_000, status: 'closed' });
    expect(rig.code('resume', { contents: 'as-recorded', note: '', held: true })).toBe('already-done');
  });

  it('B9: a program cannot say it', () => {
    const rig = restarted(halfway());
    expect(rig.code('resume', { contents: 'as-recorded', note: '', held: true }, program)).toBe('not-yours');
  });

  it('emptied: what the record had in that vessel is crossed out, and its lines are open again', () => {
    const rig = restarted(halfway());
    expect(rig.code('resume', { contents: 'emptied', note: '', held: true })).toBe('resumed struck struck line-reopened');
    expect(rig.now).toMatchObject({ open: 'coconut', pans: {} });
    expect(rig.vessel('oils-pot').contents).toBe(0);
    expect(rig.line('coconut').contributions[0]?.struck).not.toBeNull();
  });

  it('unsure: the zero is taken anew, and a vessel unlike the record is asked about', () => {
    const rig = restarted(halfway());
    rig.must('resume', { contents: 'unsure', note: '', held: true });
    expect(rig.now.pans).toEqual({});
    expect(rig.setVessel('shea', 1_000)).toMatchObject({ ok: true, drafts: [{ kind: 'weight-questioned' }, { kind: 'alarm-raised' }] });
  });
});

const away = (gross: number | null = 700) => {
  const rig = started();
  rig.setVessel('coconut');
  rig.lye = celsius(60);
  const settled = gross === null ? null : rig.settle(MAIN, grams(gross));
  rig.must('go-away', {}, { observation: rig.seen(settled) });
  return rig;
};

describe('away', () => {
  it('keeps line, weight and temperatures, and accepts nothing', () => {
    const rig = away();
    expect(rig.entries.at(-1)).toMatchObject({ kind: 'went-away', body: { line: 'coconut', gross: 700_000, lye: 60_000, oils: null } });
    expect(rig.accept('coconut', 280)).toMatchObject({ ok: false, refusal: { code: 'away' } });
    expect(rig.code('go-away', {})).toBe('away');
    expect(rig.code('raise-alarm', { code: 'milk-too-hot', line: null, instrument: null, detail: '' }, program)).toBe('alarm-raised');
  });

  it.each([
    ['the same weight goes on', 700, 700.4, false, 'came-back', true],
    ['another is asked about', 700, 730, false, 'needs-answer', null],
    ['another a person accepts goes on, and is told', 700, 730, true, 'came-back', false],
    ['an empty pan as before goes on', null, null, false, 'came-back', true],
    ['a vessel that left is asked about', 700, null, false, 'needs-answer', null],
    ['a vessel that came is asked about', null, 700, false, 'needs-answer', null],
  ])('%s', (_name, was, now, accept, expected, same) => {
    const rig = away(was);
    const gross = now === null ? null : grams(now);
    expect(rig.code('come-back', { gross, accept, within: mg(500) })).toBe(expected);
    if (same !== null) expect(rig.entries.at(-1)).toMatchObject({ body: { same } });
    expect(rig.now.away === null).toBe(expected === 'came-back');
  });

  it('a person who was not away cannot come back', () => {
    expect(started().code('come-back', { gross: null, accept: false })).toBe('already-done');
  });

  it('a restart ends it: the person who resumes is there', () => {
    const rig = restarted(away());
    rig.must('resume', { contents: 'as-recorded', note: '', held: true });
    expect(rig.now.away).toBeNull();
  });
});

describe('parked, taken up, abandoned, closed', () => {
  it('a parked batch only waits', () => {
    const rig = halfway();
    expect(rig.code('park', { reason: ' ' })).toBe('no-such');
    expect(rig.setVessel('shea').ok).toBe(true);
    expect(Object.keys(rig.now.pans)).toHaveLength(1);
    rig.must('park', { reason: 'out of shea butter' });
    expect(rig.now).toMatchObject({ status: 'parked', pans: {} });
    expect(Object.keys(rig.now.pans)).toHaveLength(0);
    expect(rig.accept('shea', 70)).toMatchObject({ ok: false, refusal: { code: 'wrong-state' } });
    rig.must('take-up', { note: '' });
    expect(rig.now).toMatchObject({ status: 'weighing', open: 'shea' });
    rig.setVessel('shea');
    expect(rig.accept('shea', 70).ok).toBe(true);
  });

  it('goes back to where it was, joined or not', () => {
    const rig = started().weighAll().makeLye().join();
    rig.must('park', { reason: 'doorbell' });
    rig.must('take-up', { note: '' });
    expect(rig.now.status).toBe('joined');
  });

  it('one batch is armed on a bench', () => {
    const other = as<BatchId>('batch-7');
    const rig = halfway();
    rig.must('park', { reason: 'rush order' });
    rig.more = { armed: other };
    expect(rig.code('take-up', { note: '' })).toBe('another-batch');
    const second = new BatchRig();
    second.more = { armed: other };
    expect(second.code('start', { mark: '2', plan: planOf('slate'), realm: 'test', bench: 'b' })).toBe('another-batch');
    rig.more = { armed: null };
    expect(rig.code('take-up', { note: '' })).toBe('taken-up');
  });

  it('an over-pour waits through a park', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 300);
    rig.must('park', { reason: 'fire drill' });
    rig.must('take-up', { note: '' });
    expect(rig.now.over).toMatchObject({ by: 20_000 });
    expect(rig.setVessel('coconut')).toMatchObject({ ok: false, refusal: { code: 'needs-answer' } });
  });

  it('abandoning is held and has its reason; then only notes', () => {
    const rig = halfway();
    expect(rig.code('abandon', { reason: 'glass in the pot', held: false })).toBe('needs-hold');
    expect(rig.code('abandon', { reason: '', held: true })).toBe('no-such');
    rig.must('abandon', { reason: 'glass in the pot', held: true });
    expect(rig.now).toMatchObject({ status: 'abandoned', open: null });
    expect(rig.now.endedWall).toBe(rig.entries.at(-1)?.wall);
    expect(rig.code('take-up', { note: '' })).toBe('wrong-state');
    expect(rig.code('note', { text: 'shards counted' })).toBe('noted');
  });

  it('closing needs the batch joined and everything weighed, and freezes the actual weights', () => {
    const rig = started().weighAll();
    expect(rig.code('close', {})).toBe('wrong-state');
    rig.makeLye().join();
    rig.must('close', {});
    const closed = rig.entries.at(-1);
    expect(closed).toMatchObject({ kind: 'closed', body: { actual: 1_470_100 } });
    expect(rig.code('strike', { entry: rig.line('coconut').contributions[0]!.entry, reason: 'undone', note: '', held: true })).toBe(
      'wrong-state',
    );
  });
});
