'use client';
import { numberText } from '#lib/units/format';
import type { Limits } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { on } from '../classes';
import { messages } from '../messages-more';
import { BandFields } from './band-fields';
import { useSheet } from './use-sheet';

const { limits: words } = messages;
const LIMITS = ['superfat', 'lye'] as const satisfies readonly (keyof Limits)[];

/** What superfat and lye have to stay inside; what the plan goes by stands below, said or not. */
export function LimitFields() {
  const { formula, change, plan } = useSheet();
  const { locale } = useDisplay();
  const used = (what: string): string | null => {
    const one = plan?.plan.basis?.limits.find((limit) => limit.what === what);
    if (one === undefined || one.low === null || one.high === null) return null;
    return words.band(numberText(Number(one.low), locale, 1), numberText(Number(one.high), locale, 1), one.source);
  };
  const [superfat, lye] = [used('superfat'), used('lye concentration')];
  return (
    <>
      <h3 className={on('minor gap')}>{words.title}</h3>
      <div className={on('form')}>
        {LIMITS.map((limit) => (
          <BandFields
            key={limit}
            id={`limit-${limit}`}
            path={`limits.${limit}`}
            words={words[limit]}
            band={formula.limits[limit]}
            onChange={(band, end) => change({ ...formula, limits: { ...formula.limits, [limit]: band } }, `limits.${limit}.${end}`)}
          />
        ))}
      </div>
      {superfat === null || lye === null ? null : <p className={on('dim gap')}>{words.uses(superfat, lye)}</p>}
    </>
  );
}
