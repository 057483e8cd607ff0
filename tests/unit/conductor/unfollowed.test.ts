import { describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import { evolve, toEntry } from '#lib/work/batch/index';
import type { Draft } from '#lib/work/batch/index';
import type { RemedyAct } from '#lib/work/batch/remedy/types';
import { readyToJoin } from './joined';
import { line, lineId, MAIN, OLIVE, planOf, Rig, SHEA, SODA, vesselId, WATER } from './rig';

/** Matters most of all lines, so that its vessel may be lifted and looked at. */
const OIL = { ...OLIVE, superfatPerGram: 900 };

const taken = (rig: Rig, id: string) => rig.line(id).contributions.map(({ how, net }) => [how, Math.round(net / 1_000)]);

/** 120 g are in when the program starts again, and a person says that it is as it was. */
const resumed = (): Rig =>
  new Rig()
    .start(planOf([OIL, WATER]))
    .rest(500)
    .pour(620)
    .run(3)
    .restart()
    .run(1)
    .take('resume-as-recorded')
    .run(1);

/** The pot of a weight that was crossed out comes back at so much, and is poured into until it reads what it did. */
const back = (gross: number): Rig => {
  const rig = new Rig()
    .start(planOf([OLIVE, SHEA, WATER]))
    .rest(500)
    .pour(700)
    .run(6)
    .rest(0);
  const { entry } = rig.line('olive').contributions[0]!;
  rig.send({ kind: 'strike', body: { entry, reason: 'undone', note: '', held: true } }, 'maker');
  return rig.run(2).rest(gross).run(2).pour(700).run(8);
};

describe('a doubt about what a pour is counted from', () => {
  it('stays when the record takes something out of the vessel in the middle of the pour', () => {
    const rig = new Rig()
      .start(planOf([SHEA, OIL, WATER]))
      .rest(500)
      .pour(600)
      .run(6)
      .rest(0)
      .rest(600)
      .pour(700)
      .run(3)
      .restart()
      .run(1)
      .take('resume-as-recorded')
      .run(1);
    rig.send({ kind: 'lose', body: { vessel: vesselId('pot'), mass: grams(1), cause: 'spill', note: '' } }, 'maker');
    expect(rig.refusals).toEqual([]);
    rig.run(1).pour(799).run(8);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['after-replug'] });
    expect(taken(rig, 'olive')).toEqual([]);
  });

  it('is not answered by lifting the vessel and setting it down again', () => {
    const rig = resumed().pour(700).run(8);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['after-replug'] });
    rig.take('lift-check', false).rest(0, MAIN, 2).rest(700, MAIN, 8);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['after-replug'] });
    rig.press('go-on').run(1);
    expect(taken(rig, 'olive')).toEqual([['go-on', 200]]);
  });

  it('stands where a vessel comes back for a crossed-out weight and reads only about what it should: it may be another', () => {
    const near = back(501);
    expect(near.state.pans[MAIN]).toMatchObject({ line: 'olive', zero: 500_000 });
    expect(near.seen).toMatchObject({ phase: 'ask', doubts: ['return-unlike'] });
    expect(taken(near, 'olive')).toEqual([['by-itself', 200]]);
    expect(taken(back(500), 'olive')).toHaveLength(2);
  });
});

const LATE = line('late', { class: 'liquid-oil', target: 40, tolerance: 1, vessel: 'cup', more: { phase: 'trace' } });

/** The cup stands for what goes in at trace, a little is in, and then something is wrong with the batter. */
const inTrouble = (): Rig => {
  const rig = readyToJoin(planOf([OLIVE, WATER, SODA, LATE]));
  rig.send({ kind: 'join', body: { held: true } }, 'maker');
  rig.send({ kind: 'stamp-trace', body: { mark: 'thin', note: '' } }, 'maker');
  rig.rest(100).pour(120).run(3);
  expect(rig.state.pans[MAIN]).toMatchObject({ line: lineId('late') });
  rig.send({ kind: 'stamp-trace', body: { mark: 'wrong', note: '' } }, 'maker');
  rig.run(1);
  expect(rig.seen.phase).toBe('trouble');
  return rig;
};

const over = (rig: Rig): Rig => {
  rig.send({ kind: 'state-batter', body: { what: 'ricing' } }, 'maker');
  rig.send({ kind: 'stamp-trace', body: { mark: 'medium', note: '' } }, 'maker');
  return rig.run(2);
};

describe('what stands on the pan while the bench is about something else', () => {
  it('may go on being poured when nothing moved there', () => {
    const rig = over(inTrouble().run(3)).pour(140).run(8);
    expect(taken(rig, 'late')).toEqual([['by-itself', 40]]);
  });

  it('may be another vessel by now: its weight is a person’s to take', () => {
    const rig = over(inTrouble().rest(0).rest(132)).pour(140).run(8);
    expect(rig.seen).toMatchObject({ phase: 'ask', doubts: ['return-unlike'] });
    expect(taken(rig, 'late')).toEqual([]);
  });
});

/** A way out was chosen, and this is to be done for it; what its card showed does not matter here. */
const led = (rig: Rig, act: RemedyAct): Rig => {
  const { id: batch, version, boot } = rig.state;
  const head = {
    id: as(`entry-${version + 1}`),
    batch,
    version: version + 1,
    realm: 'test',
    v: 1,
    by: as('person-1'),
    via: 'bench',
  } as const;
  const draft = { kind: 'remedy-chosen', body: { over: null, others: [], solved: true, acts: [act] } } as unknown as Draft;
  rig.batch = evolve(rig.state, toEntry(draft, { ...head, intent: null, boot, mono: 0, wall: 0, offsetMin: 60 } as never));
  rig.run(1);
  expect(rig.seen.phase).toBe('take-out');
  return rig;
};

const LEFT = line('left', { class: 'liquid-oil', target: 50, tolerance: 1, vessel: 'cup', more: { into: vesselId('pot') } });
const FINISH = { kind: 'finish-pour', line: lineId('left'), vessel: vesselId('cup'), mass: grams(20) } as const;

/** The pot stands for the olive oil when 20 g are found in the cup of the line before. */
const found = (): Rig =>
  led(
    new Rig()
      .start(planOf([LEFT, OLIVE, WATER]))
      .rest(100)
      .pour(150)
      .run(6)
      .rest(0)
      .run(1)
      .rest(500),
    FINISH,
  );

describe('what stands on the pan while a way out is led', () => {
  it('has no more of its own line for what is poured over into it', () => {
    const rig = found().pour(520, 3).run(4).press('go-on', true).run(1).pour(700).run(8);
    expect(rig.seen).toMatchObject({ phase: 'ask', line: 'olive', doubts: ['return-unlike'] });
    expect(taken(rig, 'olive')).toEqual([]);
  });

  it('goes on without a word where nothing came in', () => {
    const rig = found().run(2).press('go-on', true).run(1).pour(700).run(8);
    expect(taken(rig, 'olive')).toEqual([['by-itself', 200]]);
  });

  it('is followed on without a word where what left was weighed there', () => {
    const rig = new Rig()
      .start(planOf([OLIVE, SHEA, WATER]))
      .rest(500)
      .pour(700)
      .run(6);
    led(rig, { kind: 'back-to-bottle', line: lineId('olive'), vessel: vesselId('pot'), mass: grams(20), to: 'bottle', caustic: false });
    rig.rest(680, MAIN, 5).press('go-on', true).run(1).pour(780).run(8);
    expect(taken(rig, 'shea')).toEqual([['by-itself', 100]]);
  });
});
