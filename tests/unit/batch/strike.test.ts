import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import type { StrikeReason } from '#lib/work/batch/index';
import { MAIN, lineId, started } from '#tests/support/batch';

const strike = (
  rig: ReturnType<typeof started>,
  id: string,
  at = 0,
  body: { reason?: StrikeReason; note?: string; held?: boolean } = {},
) => {
  const entry = rig.line(id).contributions[at]?.entry;
  return rig.code('strike', { entry: entry!, reason: 'undone', note: '', held: false, ...body });
};

describe('crossing out', () => {
  it('until the next pour it is an undo: the pour goes on from its own zero', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    expect(strike(rig, 'coconut')).toBe('struck line-reopened vessel-set');
    expect(rig.now.open).toBe('coconut');
    expect(rig.now.pans[MAIN]).toMatchObject({ line: 'coconut', zero: 642_500 });
    expect(rig.vessel('oils-pot').contents).toBe(0);
  });

  it.each([
    ['lifted', null],
    ['another vessel in its place', { instrument: MAIN, gross: grams(58.4), episode: 99 }],
  ] as const)('with its vessel off the pan (%s) nothing is counted from what the scale shows', (_name, stands) => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    rig.stands = stands;
    expect(strike(rig, 'coconut')).toBe('struck line-reopened');
    expect(rig.now.pans).toEqual({});
    expect(rig.vessel('oils-pot').recount).toEqual({ line: 'coconut', zero: 642_500 });
  });

  it('after the next pour it amends the record: held, and the pan counts anew', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    rig.accept('shea', 120);
    expect(strike(rig, 'coconut')).toBe('needs-hold');
    expect(strike(rig, 'coconut', 0, { held: true })).toBe('struck line-reopened');
    expect(rig.now.open).toBe('coconut');
    expect(rig.now.pans).toEqual({});
    expect(rig.line('shea').actual).toBe(120_000);
  });

  it.each(['wrong-material', 'wrong-vessel'] as const)('%s: nothing in the vessel counts for the line any more', (reason) => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    expect(strike(rig, 'coconut', 0, { reason })).toBe('struck line-reopened');
    expect(rig.now.pans).toEqual({});
  });

  it('once; another time it is done already; what is not there cannot be', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    strike(rig, 'coconut');
    expect(strike(rig, 'coconut')).toBe('already-done');
    expect(rig.code('strike', { entry: 'entry-1' as never, reason: 'undone', note: '', held: true })).toBe('no-such');
    expect(rig.code('strike', { entry: 'constructor' as never, reason: 'undone', note: '', held: true })).toBe('no-such');
  });

  it('"other" wants its reason in words', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    expect(strike(rig, 'coconut', 0, { reason: 'other', note: '  ' })).toBe('no-such');
    expect(strike(rig, 'coconut', 0, { reason: 'other', note: 'cat on the table' })).toContain('struck');
  });

  it('after joining an oil may be amended, held; its mass leaves the batter', () => {
    const rig = started().weighAll().makeLye().join();
    const before = rig.vessel('oils-pot').contents;
    expect(strike(rig, 'olive', 0, { reason: 'mistyped' })).toBe('needs-hold');
    expect(strike(rig, 'olive', 0, { reason: 'mistyped', held: true })).toContain('struck line-reopened');
    expect(rig.vessel('oils-pot').contents).toBe(before - 400_000);
    const typed = { net: 402_000 as never, text: '402', unit: 'g' } as const;
    rig.must('type-weight', { line: lineId('olive'), typed, readBack: true, part: false });
    expect(rig.vessel('oils-pot').contents).toBe(before + 2_000);
  });

  it('a crossed-out withdrawal comes back', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    rig.must('withdraw', { vessel: 'oils-pot' as never, mass: 30_000 as never, to: 'bottle' });
    expect(rig.line('coconut').actual).toBe(250_000);
    expect(rig.now.pans[MAIN]?.zero).toBe(892_500);
    expect(strike(rig, 'coconut', 1)).toBe('struck line-closed');
    expect(rig.line('coconut')).toMatchObject({ actual: 280_000, status: 'closed' });
    expect(rig.vessel('oils-pot').contents).toBe(280_000);
  });
});

/** Hard fats and one liquid oil in the pot, and another one over. */
const mixed = (over: number) => {
  const rig = started();
  rig.weighAll('rapeseed');
  rig.weigh('rapeseed', rig.line('rapeseed').plan.target / 1000 + over);
  return rig;
};

describe('what lies in a mixture', () => {
  it.each(['over-poured', 'wrong-material', 'undone'] as const)(
    'comes back out of nothing: an over-pour is not crossed out as %s',
    (reason) => {
      const rig = mixed(60);
      const { version } = rig.now;
      expect(rig.now.over?.line).toBe('rapeseed');
      expect(strike(rig, 'rapeseed', 0, { reason, held: true })).toBe('mixed');
      expect(rig.code('answer-over', { line: lineId('rapeseed'), choice: 'cross-out', held: true })).toBe('mixed');
      expect(rig.now.version).toBe(version);
      // A slip of the record is mended whatever lies where.
      expect(strike(rig, 'rapeseed', 0, { reason: 'mistyped', held: true })).toContain('struck');
    },
  );

  it('may be weighed on from where it began while it is the newest, and not once another oil lies over it', () => {
    const rig = mixed(0);
    expect(strike(rig, 'olive', 0, { held: true })).toBe('mixed');
    expect(strike(rig, 'rapeseed', 0, { held: true })).toContain('struck');
  });
});
