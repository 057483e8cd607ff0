import type { BenchCue, Card, PortionCue } from '#lib/bench/cue';
import { mg } from '#lib/units/mass';
import { BATTER_WRONGS, PATTERNS, type BatterWrong } from '#lib/work/batch/pouring/types';
import { BatchRig, MAIN } from '#tests/support/batch';
import { fill, nameAll, partOff, setDown, twoParts } from '#tests/support/pouring';

const card = (code: string, hold = false, params: Card['params'] = {}): Card => ({ code, params, hold, enabled: true, why: null });
type Job = NonNullable<PortionCue['job']>;
const GREEN: Job = { key: 'part:green', by: 'gain', name: 'Green', from: ['pot'] };
const LOG: Job = { key: 'mould:1', by: 'gain', name: '26-11/1 Log', from: [] };
const TRAY: Job = { key: 'mould:2', by: 'gain', name: '26-11/2 Tray of six', from: ['pot', 'part:green'] };
const NEXT = { code: 'next-card', hold: false };
const TAKE = { code: 'take-pour', hold: true };

export const PATTERNS_CUE: Partial<BenchCue> = {
  phase: 'patterns',
  cards: [...PATTERNS.slice(0, 3), 'more-patterns'].map((code) => card(code)),
  selected: 1,
  goOn: NEXT,
  portion: { at: 'name', mass: null, job: LOG },
};
export const WHICH_CUE: Partial<BenchCue> = { phase: 'trouble', cards: BATTER_WRONGS.map((code) => card(code)), goOn: NEXT };
export const SEIZING_CUE: Partial<BenchCue> = {
  phase: 'trouble',
  cards: [card('trace-thin'), card('trace-medium'), card('trace-thick'), card('to-plain-pour', true, { moulds: 1 })],
  goOn: NEXT,
};
/** Half of it is in the jug. */
export const PART_CUE: Partial<BenchCue> = {
  phase: 'pouring-moulds',
  instrument: MAIN,
  target: mg(362_500),
  tolerance: mg(7_250),
  total: mg(181_200),
  left: mg(181_300),
  poured: mg(181_200),
  portion: { at: 'moving', mass: null, job: GREEN },
};
export const MOULD_CUE: Partial<BenchCue> = {
  phase: 'pouring-moulds',
  instrument: MAIN,
  goOn: TAKE,
  portion: { at: 'offer', mass: mg(412_300), job: TRAY },
};

/** Joined and at trace, the patterns named. */
const joined = (): BatchRig => {
  const rig = new BatchRig().start(twoParts()).weighAll().makeLye();
  nameAll(rig);
  rig.join().must('stamp-trace', { mark: 'medium', note: '' });
  return rig;
};

export const wrongBatter = (what?: BatterWrong): BatchRig => {
  const rig = joined();
  rig.must('stamp-trace', { mark: 'wrong', note: '' });
  if (what !== undefined) rig.must('state-batter', { what });
  return rig;
};

/** With a green half to part off; `parted`: it is in its jug, the log is poured and the tray is next. */
export const swirled = (parted: boolean): BatchRig => {
  const rig = joined();
  if (!parted) return rig;
  setDown(rig, 'part:green', 210_000);
  partOff(rig, 'green', 330);
  rig.weigh('chlorella');
  setDown(rig, 'mould:1', 350_000);
  fill(rig, 1, 180, ['pot']);
  setDown(rig, 'mould:2', 260_000);
  return rig;
};
