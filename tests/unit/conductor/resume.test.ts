import { describe, expect, it } from 'vitest';
import { cardWordsFor } from '../../../app/bench/messages-cards';
import type { Show } from '../../../app/bench/messages';
import { line, MAIN, OLIVE, planOf, Rig, SHEA, WATER } from './rig';

const show: Show = { mass: String, temperature: String, difference: String, share: String };

/** Olive is in the pot and shea comes next, when the program starts again. */
const restarted = (): Rig =>
  new Rig()
    .start(planOf([OLIVE, SHEA, WATER]))
    .rest(500)
    .pour(700)
    .run(6)
    .restart()
    .run(1);

const said = (rig: Rig): string => {
  const { params } = rig.seen.cards.find(({ code }) => code === 'resume-emptied')!;
  return cardWordsFor('resume-emptied').sub(params, show);
};

describe('what is in the vessel after a restart', () => {
  it('“emptied” says how many lines begin again, and as many do', () => {
    const rig = restarted();
    expect(rig.line('olive').status).toBe('closed');
    const card = rig.seen.cards.find(({ code }) => code === 'resume-emptied')!;
    expect(cardWordsFor('resume-emptied').sub(card.params, show)).toBe('1 line begins again');
    rig.take('resume-emptied').run(0.2);
    expect(rig.line('olive')).toMatchObject({ status: 'open', actual: 0 });
  });

  it('“emptied” counts every line that was in it, and none where nothing was', () => {
    const COCO = line('coco', { class: 'hard-oil', target: 50, tolerance: 1, vessel: 'pot' });
    const begun = (): Rig => new Rig().start(planOf([OLIVE, SHEA, COCO])).rest(500);
    const two = begun().pour(700).run(6).pour(800).run(6).restart().run(1);
    expect(two.state.open).toBe('coco');
    expect(said(two)).toBe('2 lines begin again');
    two.take('resume-emptied').run(0.2);
    expect([two.line('olive').actual, two.line('shea').actual]).toEqual([0, 0]);
    expect(said(begun().restart().run(1))).toBe('nothing of it is crossed out');
  });

  it('“not sure” says that the zero is taken anew, and nothing is crossed out', () => {
    const rig = restarted();
    const words = cardWordsFor('resume-unsure').sub({}, show);
    expect(words).toContain('new zero');
    expect(words).not.toContain('crossed');
    const before = rig.kinds().length;
    rig.take('resume-unsure').run(3);
    expect(rig.kinds().slice(before)).toEqual(['resumed', 'vessel-set']);
    expect(rig.state.pans[MAIN]).toMatchObject({ line: 'shea', zero: 700_000 });
  });

  it('is what is asked aloud: what stands accepted there since before is not told again', () => {
    const stands = new Rig()
      .start(planOf([OLIVE, SHEA]))
      .rest(500)
      .pour(700)
      .run(6);
    expect(stands.seen.say).toMatchObject({ code: 'same-vessel' });
    stands.restart().run(3);
    expect(stands.seen.say).toMatchObject({ id: 1, code: 'resume' });
  });

  it('nor is it told again when a parked batch is taken up', () => {
    const rig = new Rig()
      .start(planOf([OLIVE, SHEA]))
      .rest(500)
      .pour(700)
      .run(6);
    rig.send({ kind: 'park', body: { reason: 'time is up' } }, 'maker');
    rig.run(2);
    const before = rig.seen.say?.id ?? 0;
    rig.send({ kind: 'take-up', body: { note: '' } }, 'maker');
    rig.run(3);
    expect(rig.state.status).toBe('weighing');
    expect(rig.seen.say?.code).not.toBe('accepted');
    expect(rig.seen.say?.id ?? 0).toBeLessThanOrEqual(before + 1);
  });

  it('holding “back” goes away: what the screen says under it', () => {
    const rig = new Rig().start(planOf([OLIVE])).rest(500);
    rig.press('back', true).run(0.2);
    expect(rig.state.away).not.toBeNull();
  });
});
