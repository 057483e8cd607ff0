import { beforeEach, describe, expect, it } from 'vitest';
import { as } from '#lib/units/id';
import { fold, summaryOf } from '#lib/work/bars/index';
import { review } from '#lib/work/bars/review';
import { upcastLines } from '#lib/work/bars/upcast';
import { barsRig, BEGUN, DAY, POURED } from '#tests/support/bars';

const BAND = { goods: 'band', name: 'Paper band', lot: 'PB 1' };
const BOX = { goods: 'box', name: 'Box for twelve', lot: null };
const used = (bands: number, boxes: number) => [
  { ...BAND, pieces: bands },
  { ...BOX, pieces: boxes },
];

describe('bars are wrapped', () => {
  let rig: ReturnType<typeof barsRig>;
  const wrap = (bars: number, what = used(bars, 1)) => rig.send('wrap', { bars, used: what, note: '' }, POURED + 40 * DAY);
  const cross = (entry: string) => rig.send('correct', { entry: as(entry), reason: 'mistyped', note: '' });
  beforeEach(() => {
    rig = barsRig();
    rig.send('begin', BEGUN);
    rig.send('note-unmould', { state: 'out', note: '', room: null });
    const cutter = { id: null, name: 'wire', kind: 'adjustable' } as const;
    rig.send('cut', { cutter, count: 10, ends: 0, testers: 0, thickness: null, log: null, mass: null });
  });

  it('in one entry that draws each piece from its lot, until all are', () => {
    expect(summaryOf(rig.state())).not.toHaveProperty('wrapped');
    const before = rig.entries.length;
    expect([wrap(6), wrap(4, used(5, 1))]).toEqual([null, null]);
    expect(rig.entries).toHaveLength(before + 2);
    expect(summaryOf(rig.state()).wrapped).toEqual({
      bars: 10,
      used: [
        { goods: 'band', lot: 'PB 1', pieces: 11 },
        { goods: 'box', lot: null, pieces: 2 },
      ],
    });
    expect(wrap(1)).toMatchObject({ code: 'no-stock', params: { left: 0, from: 'unwrapped' } });
    // A torn one is replaced: pieces go, no bar comes.
    expect(wrap(0, [{ ...BAND, pieces: 1 }])).toBeNull();
    expect(summaryOf(rig.state()).wrapped).toMatchObject({ bars: 10, used: [{ pieces: 12 }, { pieces: 2 }] });
    expect(rig.state().counts).toMatchObject({ made: 10, shelf: 10 });
  });

  it('only once they are cut, with pieces, and of no lot twice in one', () => {
    const log = barsRig();
    log.send('begin', BEGUN);
    expect(log.send('wrap', { bars: 1, used: used(1, 1), note: '' })).toMatchObject({ code: 'wrong-order' });
    expect(wrap(1, [])).toMatchObject({ code: 'bad-number' });
    expect(wrap(1, used(1, 0))).toMatchObject({ code: 'bad-number' });
    expect(wrap(-1, used(1, 1))).toMatchObject({ code: 'bad-number' });
    expect(wrap(1, used(1.5, 1))).toMatchObject({ code: 'bad-number' });
    expect(wrap(1, [...used(1, 1), { ...BAND, pieces: 1 }])).toMatchObject({ code: 'already-done' });
  });

  it('and what is crossed out goes back, once; a cut stays while something of it is wrapped', () => {
    wrap(6);
    const [first, cut] = [rig.entries.at(-1)?.id ?? '', rig.state().cut?.entry ?? ''];
    wrap(4);
    expect(cross(cut)).toMatchObject({ code: 'wrong-order', params: { before: 'wraps' } });
    expect(cross(first)).toBeNull();
    expect(summaryOf(rig.state()).wrapped).toMatchObject({ bars: 4, used: [{ pieces: 4 }, { pieces: 1 }] });
    expect(cross(first)).toMatchObject({ code: 'already-done' });
    expect(wrap(6)).toBeNull();
  });

  it('as it was called then, in a story read back from its lines', () => {
    wrap(6);
    const read = upcastLines(rig.entries.map((entry) => JSON.stringify(entry)));
    expect(read.ok && fold(read.entries)).toEqual(rig.state());
    expect(review(rig.entries).story.at(-1)).toMatchObject({
      code: 'wrapped',
      params: { bars: 6, used: '6 × Paper band PB 1, 1 × Box for twelve' },
    });
  });
});
