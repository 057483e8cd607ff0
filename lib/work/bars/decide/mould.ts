import { blank } from '../../batch/decide/checks';
import type { BarsCommandOf } from '../commands';
import type { BarsState } from '../state';
import { standingState } from '../standing';
import { allow, draft, refuse, type BarsDecider, type BarsDecision } from './decision';
import { isFraction } from './shelf';

/** No mould of a bench gives more. */
const MOST_BARS = 2000;
/** Ten metres in µm. */
const LONGEST = 10_000_000;

const isCount = (count: number, least = 0): boolean => count >= least && count <= MOST_BARS;

export const begin = ({ body: { realm: _realm, ...body } }: BarsCommandOf<'begin'>): BarsDecision => {
  const { n, moulds, mould } = body;
  if (!isCount(n, 1) || moulds[0] !== n || !moulds.every((one) => isCount(one, 1)) || new Set(moulds).size !== moulds.length)
    return refuse('bad-number', { what: 'mould' });
  if (!isCount(mould.cavities, 1)) return refuse('bad-number', { what: 'cavities' });
  if (blank(body.mark) || blank(mould.name)) return refuse('no-such', { what: 'mould' });
  return allow(draft('bars-begun', body));
};

export const noteUnmould: BarsDecider<'note-unmould'> = (state, { body }) => {
  if (!isFraction(body.humidity ?? null)) return refuse('bad-number', { what: 'humidity' });
  return state.cut === null ? allow(draft('bars-unmould-noted', body)) : refuse('wrong-order', { after: 'cut' });
};

/** Nothing comes of it: wherever it stands, it is thrown away whole. */
const isLost = ({ count, ends, testers, cutter }: BarsCommandOf<'cut'>['body']): boolean =>
  count === 0 && ends === 0 && testers === 0 && cutter.kind === 'none';

/** A log comes out of its mould before it is cut. */
export const cut: BarsDecider<'cut'> = (state, { body }) => {
  if (state.cut !== null) return refuse('already-done', { what: 'cut' });
  if (isLost(body)) return allow(draft('bars-cut', { ...body, thickness: null, log: null, mass: null }));
  const stands = standingState(state);
  if (stands !== 'out' && stands !== 'torn') return refuse('wrong-order', { before: 'out' });
  const wrong = wrongCut(body, state);
  return wrong === null ? allow(draft('bars-cut', body)) : refuse('bad-number', { what: wrong });
};

const wrongCut = (
  { count, ends, testers, thickness, log, mass, cutter }: BarsCommandOf<'cut'>['body'],
  state: BarsState,
): string | null => {
  if (!isCount(count, 1)) return 'count';
  if (!isCount(ends)) return 'ends';
  if (!isCount(testers)) return 'testers';
  if (mass !== null && mass <= 0) return 'mass';
  if (state.mould.gives === 'bars' && count + testers > state.mould.cavities * state.moulds.length) return 'count';
  if (cutter.kind === 'none') return null;
  if (thickness !== null && (thickness <= 0 || thickness > LONGEST)) return 'thickness';
  if (log === null) return null;
  const { length, trim, kerf } = log;
  // A thickness is rounded to a micrometre, either way.
  const used = count * ((thickness ?? 1) - 1);
  return length <= 0 || length > LONGEST || trim < 0 || kerf < 0 || used > length * state.moulds.length ? 'log' : null;
};

export const trim: BarsDecider<'trim'> = (state, { body }) => {
  if (state.cut === null) return refuse('wrong-order', { before: 'cut' });
  const sound = isCount(body.bars, 1) && body.after > 0 && body.before >= body.after;
  return sound ? allow(draft('bars-trimmed', body)) : refuse('bad-number', { what: 'before' });
};
