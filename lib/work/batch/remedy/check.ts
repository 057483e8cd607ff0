import type { LineId } from '#lib/units/id';
import { isHydroxide } from '../classes';
import { own } from '../own';
import { potOf } from '../poured/pot';
import { apportion, asShares } from '../shares';
import type { BatchState } from '../state';
import { takenOf } from './acts';
import { afterRemedy } from './after';
import { benchOf } from './bench';
import type { CheckRemedy } from './calls';
import type { RemedyFacts } from './facts';
import { figuresAfter, isBelievedHeavy } from './figures';
import { isUnsafe, leftBy } from './leaves';
import { isLyeHeavy } from '../lye-heavy';
import { asItStands } from './programme';
import type { RemedyAct, RemedyCard, RemedyLine, RemedyRefusal } from './types';

const refuse = (code: RemedyRefusal['code'], params: RemedyRefusal['params'] = {}): RemedyRefusal => ({ code, params });

/** Of one act: its vessel, its masses, and that a fraction of a mixture is one. */
const wrongAct = (state: BatchState, act: RemedyAct, facts: RemedyFacts): RemedyRefusal | null => {
  const vessel = own(state.vessels, act.vessel);
  if (vessel === undefined) return refuse('no-such', { what: 'vessel', id: act.vessel });
  const bad = refuse('bad-number', { vessel: act.vessel, mass: act.mass });
  if (!Number.isSafeInteger(act.mass) || act.mass <= 0) return bad;
  if ('shares' in act) {
    const mixture = asShares(vessel.holds).filter(({ line }) => act.shares.some((share) => share.line === line));
    return act.mass > vessel.contents || JSON.stringify(apportion(act.mass, mixture)) !== JSON.stringify(act.shares) ? bad : null;
  }
  const line = own(state.lines, act.line);
  if (line === undefined) return refuse('no-such', { what: 'line', id: act.line });
  if (act.kind === 'finish-pour') return facts.leftInJug.some((one) => one.line === act.line && one.mass === act.mass) ? null : bad;
  if (act.mass > (own(vessel.holds, act.line) ?? 0)) return bad;
  const back = act.kind !== 'leave' && isHydroxide(line.plan) && (act.to === 'bottle' || !act.caustic);
  return back ? refuse('not-offered', { line: act.line }) : null;
};

/** Of one line: nothing in it decreases but by an act, hydroxide never once joined, and what is poured is there. */
const wrongLine = (state: BatchState, one: RemedyLine, acts: readonly RemedyAct[], { stock }: RemedyFacts): RemedyRefusal | null => {
  const line = own(state.lines, one.line);
  if (line === undefined) return refuse('no-such', { what: 'line', id: one.line });
  const numbers = [one.target, one.tolerance, one.pour, ...(one.upper === null ? [] : [one.upper])];
  if (numbers.some((number) => !Number.isSafeInteger(number)) || one.target <= 0 || one.tolerance <= 0 || one.pour < 0)
    return refuse('bad-number', { line: one.line });
  if (one.upper !== null && one.upper < one.target) return refuse('bad-number', { line: one.line });
  if (one.target - one.pour !== line.actual - takenOf(acts, one.line)) return refuse('bad-number', { line: one.line, in: line.actual });
  if (one.pour > 0 && isHydroxide(line.plan) && state.joined !== null) return refuse('not-offered', { line: one.line });
  const left = own<LineId, number>(stock, one.line);
  return left !== undefined && one.pour > left ? refuse('no-stock', { line: one.line, pour: one.pour, stock: left }) : null;
};

const firstOf = <T>(items: readonly T[], wrong: (one: T) => RemedyRefusal | null): RemedyRefusal | null => {
  for (const one of items) {
    const no = wrong(one);
    if (no !== null) return no;
  }
  return null;
};

/** A plan that nobody computed: only what leaves every line at its target or as it is. */
const uncomputed = (state: BatchState, card: RemedyCard): RemedyRefusal | null => {
  if (card.figures !== null) return refuse('not-as-shown');
  if (card.kind === 'carry-on') return isLyeHeavy(state) ? refuse('lye-heavy') : null;
  return card.lines.every(({ line, target }) => own(state.lines, line)?.plan.target === target) ? null : refuse('outside-limit');
};

/**
 * Whether a card may be taken and does what it shows, by the batch alone: no solver. Its masses are applied to the batch, its figures
 * worked out again, and every limit looked at: none is left but those a card of carrying on names, and never one of safety.
 */
export const checkRemedy: CheckRemedy = (state, card, facts) => {
  if (!card.enabled) return refuse('not-offered', { kind: card.kind });
  if (card.kind === 'stop') return card.acts.length + card.lines.length === 0 ? null : refuse('not-as-shown');
  const ids = card.lines.map(({ line }) => line);
  if (new Set(ids).size !== ids.length) return refuse('bad-number', { lines: ids.length });
  const no =
    firstOf(card.acts, (act) => wrongAct(state, act, facts)) ?? firstOf(card.lines, (one) => wrongLine(state, one, card.acts, facts));
  if (no !== null) return no;
  const read = potOf(state);
  if (read.kind !== 'pot') return uncomputed(state, card);
  const after = afterRemedy(state, card);
  const bench = benchOf(after, read.pot, facts);
  const left = leftBy(bench, asItStands(bench));
  const unsafe = left.find(isUnsafe);
  if (unsafe !== undefined) return refuse(unsafe.limit === 'superfat-zero' ? 'lye-heavy' : 'outside-limit', { limit: unsafe.limit });
  if (isBelievedHeavy(after)) return refuse('lye-heavy', { limit: 'superfat-zero' });
  const may = new Set(card.kind === 'carry-on' || card.kind === 'finish-pour' ? card.leaves.map(clashKey) : []);
  const crossed = left.find((one) => !may.has(clashKey(one)));
  if (crossed !== undefined) return refuse('outside-limit', { limit: crossed.limit, by: crossed.by });
  return JSON.stringify(figuresAfter(after, bench)) === JSON.stringify(card.figures) ? null : refuse('not-as-shown');
};

const clashKey = ({ limit, line, vessel, by }: RemedyCard['leaves'][number]): string => JSON.stringify([limit, line, vessel, by]);
