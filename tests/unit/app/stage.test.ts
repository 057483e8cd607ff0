import { expect, it } from 'vitest';
import { USUAL_CURE } from '#lib/work/bars/documents';
import { summaryOf } from '#lib/work/bars/index';
import { barsRig, BEGUN, DAY, POURED } from '#tests/support/bars';
import { stageOf } from '../../../app/bars/_parts/stage';

it('a rule of days alone makes a lot ready of which nothing can be forecast; a loss a week asks for weights', () => {
  const rig = barsRig();
  rig.send('begin', BEGUN);
  rig.send('note-unmould', { state: 'out', note: '', room: null }, POURED + DAY);
  const cutter = { id: null, name: '', kind: 'adjustable' } as const;
  rig.send('cut', { cutter, count: 10, ends: 0, testers: 0, thickness: null, log: null, mass: null }, POURED + DAY);
  const row = summaryOf(rig.state());
  const at = (day: number, perWeek: string | null) => stageOf(row, 'no-weight', POURED + day * DAY, { ...USUAL_CURE, days: 28, perWeek });
  expect([at(28, null), at(29, null), at(60, '0.5')]).toEqual(['curing', 'ready', 'curing']);
});
