'use client';
import type { LiveScale } from '#lib/protocol/live';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { MeasuredQuantity } from '../../_ui/figures';
import { showIn } from '#lib/words/quantities';
import { workshop } from '../messages-workshop';
import { on } from './classes';

/** A weight that can be taken: fresh, in range, standing still, and more than nothing. */
const settled = ({ gross, freshness, motion, range, suspect }: LiveScale): boolean =>
  gross !== null && gross > 0 && freshness === 'fresh' && motion === 'stable' && range === 'in' && suspect === null;

interface Props {
  readonly acts: readonly { readonly name: string; readonly take: (milligrams: number) => void }[];
}

/** What each scale of the bench says now, to be taken by a press. */
export function BenchWeight({ acts }: Props) {
  const scales = useLive(see.scales);
  const stale = useLive(see.stale);
  const display = useDisplay();
  const { weigh } = workshop;
  const ready = stale || scales === null ? [] : scales.filter(settled);
  return (
    <>
      <h3 className={on('minor')}>{weigh.title}</h3>
      {ready.length === 0 ? <p className={on('dim')}>{weigh.none}</p> : null}
      {ready.map(({ id, name, gross, division }) => (
        <div key={id} className={on('acts')}>
          <span>
            {name} <MeasuredQuantity text={showIn(display).mass(gross ?? 0, division)} />
          </span>
          {acts.map((act) => (
            <button key={act.name} type="button" className={on('act')} onClick={() => act.take(gross ?? 0)}>
              {act.name}
            </button>
          ))}
        </div>
      ))}
    </>
  );
}
