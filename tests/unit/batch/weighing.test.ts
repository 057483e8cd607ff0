import { describe, expect, it } from 'vitest';
import { grams, mg } from '#lib/units/mass';
import { FINE, MAIN, changed, lineId, planOf, started, vesselId } from '#tests/support/batch';

const codeOf = (decision: ReturnType<ReturnType<typeof started>['accept']>) =>
  decision.ok ? decision.drafts.map(({ kind }) => kind).join(' ') : decision.refusal.code;

describe('weighing one line', () => {
  it('takes a settled weight within, closes the line and zeroes the next one in the same vessel', () => {
    const rig = started();
    rig.setVessel('coconut');
    const decision = rig.accept('coconut', 281);
    expect(codeOf(decision)).toBe('weight-accepted line-closed vessel-set');
    expect(rig.line('coconut')).toMatchObject({ status: 'closed', outcome: 'within', actual: 281_000 });
    expect(rig.now.open).toBe('shea');
    expect(rig.now.pans[MAIN]).toMatchObject({ vessel: 'oils-pot', line: 'shea', zero: 642_500 + 281_000 });
  });

  it('cumulative weighing into one pot: every line counts from the gross before it', () => {
    const rig = started().weighAll('alder-scent');
    expect(rig.vessel('oils-pot').contents).toBe(1_000_000);
    expect(rig.vessel('oils-pot').holds).toEqual({ coconut: 280_000, shea: 120_000, olive: 400_000, rapeseed: 200_000 });
    expect(rig.entries.filter(({ kind }) => kind === 'vessel-set')).toHaveLength(4);
  });

  it('another vessel is not zeroed before it stands there', () => {
    const rig = started().weighAll('rapeseed');
    expect(codeOf(rig.weigh('rapeseed'))).toBe('weight-accepted line-closed');
  });

  it.each([
    ['short of the band', 277.4, 'out-of-tolerance'],
    ['at its lower end', 277.5, 'weight-accepted line-closed vessel-set'],
    ['at its upper end', 282.5, 'weight-accepted line-closed vessel-set'],
    ['past it', 282.6, 'weight-accepted alarm-raised'],
  ])('%s', (_name, net, expected) => {
    const rig = started();
    rig.setVessel('coconut');
    expect(codeOf(rig.accept('coconut', net))).toBe(expected);
  });

  it('a person may say that short is fine', () => {
    const rig = started();
    rig.setVessel('coconut');
    expect(codeOf(rig.accept('coconut', 250, { shortIsFine: true }))).toBe('weight-accepted line-closed vessel-set');
    expect(rig.line('coconut').outcome).toBe('short');
  });

  it('a line in several pours: each counts from the gross of the one before', () => {
    const rig = started();
    rig.setVessel('coconut');
    expect(codeOf(rig.accept('coconut', 100, { part: true }))).toBe('weight-accepted vessel-set');
    expect(rig.now.open).toBe('coconut');
    expect(rig.now.pans[MAIN]?.zero).toBe(642_500 + 100_000);
    rig.accept('coconut', 180);
    expect(rig.line('coconut')).toMatchObject({ actual: 280_000, status: 'closed' });
    expect(rig.line('coconut').contributions.map(({ net }) => net)).toEqual([100_000, 180_000]);
  });

  it('loss in weight: what the bottle lost is what the pot gained', () => {
    const rig = started(changed(planOf('alder-and-oat'), 'coconut', { mode: 'loss' }));
    expect(rig.setVessel('coconut', 3_000).ok).toBe(true);
    const decision = rig.accept('coconut', 280);
    expect(codeOf(decision)).toBe('weight-accepted line-closed');
    expect(rig.entries.at(-2)).toMatchObject({ body: { weighed: { gross: 2_720_000, zero: 3_000_000, net: 280_000 } } });
    expect(rig.vessel('oils-pot')).toMatchObject({ contents: 280_000, standing: null });
  });

  it('loss in weight: the program cannot zero a bottle anew after it was poured from', () => {
    const rig = started(changed(planOf('alder-and-oat'), 'coconut', { mode: 'loss' }));
    rig.setVessel('coconut', 3_000);
    expect(codeOf(rig.setVessel('coconut', 2_900, undefined, { role: 'program' }))).toBe('wrong-vessel');
    expect(rig.accept('coconut', 280).ok).toBe(true);
  });

  it.each([
    ['net that is no difference', { net: grams(279) }],
    ['a zero that is not the pan’s', { zero: grams(600), net: mg(322_500) }],
    ['no pour at all', { gross: grams(642.5), net: mg(0) }],
  ])('refuses a weight with %s', (_name, change) => {
    const rig = started();
    rig.setVessel('coconut');
    const weighed = { ...rig.weighed('coconut', 280), ...change };
    expect(codeOf(rig.accept('coconut', 0, { weighed }))).toBe('bad-number');
  });

  it('refuses what the server’s own scale does not say, settled, now', () => {
    const rig = started();
    rig.setVessel('coconut');
    const weighed = rig.weighed('coconut', 280);
    const body = { line: lineId('coconut'), vessel: vesselId('oils-pot'), weighed, how: 'go-on', part: false, shortIsFine: false } as const;
    const settled = { instrument: MAIN, gross: weighed.gross, episode: weighed.episode };
    for (const seen of [
      null,
      { ...settled, instrument: FINE },
      { ...settled, episode: settled.episode + 1 },
      { ...settled, gross: mg(settled.gross + 300) },
    ]) {
      expect(rig.code('accept', body, { observation: rig.seen(seen) })).toBe('not-settled');
    }
    expect(rig.code('accept', body, { observation: rig.seen(settled) })).toContain('weight-accepted');
  });

  it('refuses a weight from another pan, another vessel, or before any vessel stands', () => {
    const rig = started();
    const bare = { ...rig.weighed('coconut', 280), zero: mg(642_500), gross: mg(922_500) };
    expect(codeOf(rig.accept('coconut', 0, { weighed: bare }))).toBe('wrong-vessel');
    rig.setVessel('coconut');
    expect(codeOf(rig.accept('coconut', 280, { vessel: vesselId('lye-jug') }))).toBe('wrong-vessel');
    const fine = { ...rig.weighed('coconut', 280), instrument: FINE };
    expect(codeOf(rig.accept('coconut', 0, { weighed: fine }))).toBe('wrong-vessel');
  });

  it('capacity limits the gross', () => {
    const rig = started();
    rig.more = { capacity: { [MAIN]: grams(900) } };
    rig.setVessel('coconut');
    expect(codeOf(rig.accept('coconut', 280))).toBe('over-capacity');
    expect(codeOf(rig.accept('coconut', 250, { part: true }))).toBe('weight-accepted vessel-set');
  });

  it('only the line whose turn it is', () => {
    const rig = started();
    expect(codeOf(rig.setVessel('olive'))).toBe('wrong-order');
    rig.setVessel('coconut');
    expect(codeOf(rig.accept('olive', 400))).toBe('wrong-order');
    expect(
      rig.code('type-weight', { line: lineId('olive'), typed: { net: grams(400), text: '400', unit: 'g' }, readBack: true, part: false }),
    ).toBe('wrong-order');
  });
});

describe('an episode is used up once', () => {
  it('A6: of two screens that take the same settled weight one is told already done, and one weight stands', () => {
    const rig = started();
    rig.setVessel('coconut');
    const weighed = rig.weighed('coconut', 280);
    const seen = rig.now.version;
    expect(codeOf(rig.accept('coconut', 0, { weighed }, { expectedVersion: seen }))).toContain('weight-accepted');
    expect(codeOf(rig.accept('coconut', 0, { weighed }, { expectedVersion: seen }))).toBe('already-done');
    expect(codeOf(rig.accept('shea', 0, { weighed }, { expectedVersion: rig.now.version }))).toBe('already-done');
    expect(rig.line('shea').contributions).toEqual([]);
  });

  it('A6: a tap that takes line 1 does not fill line 2 with the same settled pan', () => {
    const plan = changed(planOf('alder-and-oat'), 'shea', { target: grams(280), upper: null });
    const rig = started(plan);
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    const stale = { ...rig.weighed('shea', 280), episode: rig.now.consumed.episode };
    expect(codeOf(rig.accept('shea', 0, { weighed: stale }))).toBe('already-done');
    expect(rig.line('shea').actual).toBe(0);
  });

  it('the same settled vessel is set once', () => {
    const rig = started();
    const gross = grams(642.5);
    const settled = rig.settle(MAIN, gross);
    const body = { line: lineId('coconut'), vessel: vesselId('oils-pot'), instrument: MAIN, gross, episode: settled.episode };
    const head = { observation: rig.seen(settled) };
    expect(rig.code('set-vessel', body, head)).toBe('vessel-set');
    expect(rig.code('set-vessel', body, head)).toBe('already-done');
  });

  it('episodes count anew in another boot', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.boot = 'boot-2' as typeof rig.boot;
    rig.episode = 0;
    rig.must('resume', { contents: 'as-recorded', note: '', held: true });
    expect(codeOf(rig.accept('coconut', 280))).toContain('weight-accepted');
    expect(rig.now.consumed).toEqual({ boot: 'boot-2', episode: 1 });
  });

  it('A5: a tap of an older view of the batch does nothing', () => {
    const rig = started();
    const seen = rig.now.version;
    rig.must('note', { text: 'pot is warm' });
    expect(rig.code('park', { reason: 'lunch' }, { expectedVersion: seen })).toBe('moved-on');
    expect(rig.code('park', { reason: 'lunch' }, { expectedVersion: rig.now.version })).toBe('parked');
  });
});

describe('lots', () => {
  const lot = { id: 'lot-x', mark: 'CO 26-12' } as never;

  it('a lot is chosen for a line still to weigh, and stands with each weight from then on', () => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 100, { part: true });
    rig.must('choose-lot', { line: lineId('coconut'), lot });
    rig.accept('coconut', 180);
    const lots = rig.entries.flatMap((entry) => (entry.kind === 'weight-accepted' ? [entry.body.lot?.mark] : []));
    expect(lots).toEqual(['CO 26-07', 'CO 26-12']);
    expect(rig.code('choose-lot', { line: lineId('coconut'), lot })).toBe('wrong-order');
  });
});
