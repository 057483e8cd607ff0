import { methodUncertainty, svDoubt } from '../superfat-interval';
import type { Named } from './named';
import type { Narrowing } from './types';

/** What a certificate states of a hydroxide, as a fraction: two standard uncertainties of half a point in all. A judgement. */
const CERTIFIED_PURITY = 0.002;
/** What a known mass leaves of a scale's gain, and weighing of a typed weight's doubt; a scale ten times as fine. Judgements. */
const LEFT = { gain: 0.2, typed: 0.2, reading: 0.1 } as const;
/** Less than a tenth off is not worth a word. Ours. */
const WORTH = 0.9;
const MOST = 4;

/** Which step helps, and what fraction of this cause's standard uncertainty it leaves; `null` when nothing is to be had. */
const stepOf = ({ belief, error }: Named): { readonly by: Narrowing['by']; readonly left: number } | null => {
  if (belief !== null) {
    if (belief.belief.kind === 'certificate') return null;
    const now = belief.of === 'sv' ? svDoubt(belief.value, belief.belief).u : belief.belief.u;
    const then = belief.of === 'sv' ? methodUncertainty('certificate', belief.value).u : CERTIFIED_PURITY;
    return then < now ? { by: 'certificate', left: then / now } : null;
  }
  switch (error?.cause) {
    case 'gain':
      return error.checked === true ? null : { by: 'check-scale', left: LEFT.gain };
    case 'typed':
      return { by: 'weigh', left: LEFT.typed };
    case 'reading':
    case 'tare':
      return { by: 'finer-scale', left: LEFT.reading };
    // What is still to come narrows by itself, and what a person stated cannot be weighed any more.
    case 'to-come':
    case 'stated':
    case undefined:
      break;
  }
  return null;
};

/** What would narrow the superfat most, each step alone. `half`: half the interval's width now. */
export const narrowingOf = (causes: readonly Named[], shares: readonly number[], half: number): readonly Narrowing[] => {
  const steps = new Map<string, { readonly by: Narrowing['by']; readonly of: string; readonly name: string; readonly off: number }>();
  for (const [at, cause] of causes.entries()) {
    const step = stepOf(cause);
    if (step === null) continue;
    const key = JSON.stringify([step.by, cause.of, cause.belief?.of ?? null, cause.belief?.lot ?? null]);
    const off = (shares[at] ?? 0) * (1 - step.left ** 2) + (steps.get(key)?.off ?? 0);
    steps.set(key, { by: step.by, of: cause.of, name: cause.name, off });
  }
  return [...steps.values()]
    .map(({ by, of, name, off }) => ({ by, of, name, from: half, to: half * Math.sqrt(Math.max(0, 1 - off)) }))
    .filter(({ from, to }) => to <= WORTH * from)
    .toSorted((a, b) => a.to - b.to)
    .slice(0, MOST);
};
