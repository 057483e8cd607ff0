import { settledFrame } from '#lib/measure/readings/settle';
import { hadIn, leftIn, massOf } from '#lib/work/batch/pouring/amounts';
import { emptyOf, potOf } from '#lib/work/batch/pouring/places';
import { standing as notStruck, type Source } from '#lib/work/batch/pouring/types';
import { jugOnPan } from './jugs';
import { at, change, countedFrom, isSettled, netNow, offer, shown, targetOf, type On } from './pouring-stage';
import { probeLeans } from './probe';
import { within, type Scene } from './stage';
import { threshold } from './zero';

/** It weighs about what the record has in it: a mould that stands there still must not be poured from. */
export const mayBeSource = ({ stage: { batch }, scale, from: [source = 'pot'] }: On): boolean => {
  const { level } = scale.track;
  const most = leftIn(batch, source);
  const empty = emptyOf(batch, source);
  if (empty === null) return source === 'pot' && level > most;
  const byTurns = notStruck(batch.pour.pours).filter(({ from }) => from.length > 1 && from.includes(source));
  const slack = 0.03 * hadIn(batch, source) + 20_000;
  return level > empty + most - massOf(byTurns) - slack && level < empty + most + slack;
};

/** A probe that leans in the pot is weighed with it. */
const leans = ({ stage }: On, source: Source | undefined): boolean => {
  const pot = source === 'pot' ? potOf(stage.batch) : null;
  return pot !== null && probeLeans(stage, pot.plan);
};

/**
 * Something came to rest on the pan that was free: the jug poured from, another that stands as it last did, or one that may be both, which a
 * person says. `null`: it is the one poured from.
 */
const otherJug = (on: On, zero: number): Scene | null => {
  const { stage, memory, view, scale, from, about } = on;
  const jug = jugOnPan(stage.batch, memory, from[0] ?? 'pot', zero, view.id, scale);
  // Which of two it is has just been said, and it stands there still.
  if (jug.is === 'same' || (jug.is === 'doubt' && !memory.freed)) {
    change(on, { off: false });
    return null;
  }
  if (jug.is === 'stranger') return netNow(on, zero, -1) < -within(scale) ? null : at(on, { at: 'strange', mass: null });
  const { source } = jug;
  if (leans(on, source)) return at(on, { at: 'probe', mass: null });
  const take = (): void =>
    change(on, { ...countedFrom(on, source, settledFrame(scale.track)?.gross ?? scale.track.level), from: [source] });
  const asIt: On = { ...on, from: [source], about: { ...about, from: [source] } };
  if (jug.is === 'doubt') return at(asIt, { at: 'which', mass: null }, { goOn: { code: 'count-from-here', hold: true, act: take } });
  take();
  return at(asIt, { at: 'stands', mass: null });
};

/** Out of the one jug that stands on the pan. */
export const lossScene = (on: On): Scene => {
  const { memory, scale, view, from } = on;
  if (leans(on, from[0])) return at(on, { at: 'probe', mass: null });
  const fromHere = (): void => change(on, countedFrom(on, from[0] ?? 'pot', settledFrame(scale.track)?.gross ?? scale.track.level));
  const { zero } = memory;
  if (zero === null || zero.instrument !== view.id) {
    if (isSettled(on)) fromHere();
    return at(on, { at: isSettled(on) ? 'stands' : 'settling', mass: null });
  }
  const net = netNow(on, zero.gross, -1);
  if (!isSettled(on)) return at(on, { at: 'moving', mass: shown(net) }, targetOf(on, net));
  const other = memory.off && on.job.kind === 'mould' ? otherJug(on, zero.gross) : null;
  if (other !== null) return other;
  if (net < -within(scale)) return at(on, { at: 'more', mass: null }, { goOn: { code: 'count-from-here', hold: false, act: fromHere } });
  return net <= threshold(scale, null) ? at(on, { at: 'stands', mass: null }, targetOf(on, net)) : offer(on, zero.gross, -1);
};
