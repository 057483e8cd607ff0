'use client';
import { numberText } from '#lib/units/format';
import { numberOf } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { showIn } from '#lib/words/quantities';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { useSheet } from './use-sheet';
import { Figure, short, Slip } from './workings';

/** How much room the batter takes, what that rests on, and the trade's rule beside it. */
export function BatterVolume() {
  const { plan, workshop } = useSheet();
  const display = useDisplay();
  if (plan?.sizing == null) return null;
  const { batter, density, calibration, loafRule } = plan.sizing;
  const { moulds: words } = messages;
  const show = showIn(display);
  const { residue, pour } = workshop.context.losses;
  return (
    <>
      <p className={on('dim gap')}>
        <Figure of="batter-volume">{`${short(batter.value, display.locale, 4)} mL`}</Figure> {words.batter}{' '}
        <Figure of="density">{`${numberText(density, display.locale, 3)} g/mL`}</Figure>,{' '}
        {calibration === null ? words.parts : <Figure of="calibration">{words.learnt(calibration.batches)}</Figure>}{' '}
        {words.lost(
          residue === null ? null : show.mass(Math.round(1000 * plan.sizing.residue), 100),
          pour === null ? null : short(numberOf(pour.percent) ?? 0, display.locale, 2),
        )}
      </p>
      <Slip ids={['batter-volume', 'density', 'calibration']} />
      {loafRule === null ? null : (
        <>
          <p className={on('dim')}>
            {words.ruleBefore} <Figure of="loaf-rule">{show.mass(Math.round(1000 * loafRule.fats), 100)}</Figure>{' '}
            {words.rule(numberText(100 * Math.abs(loafRule.against), display.locale, 1), loafRule.against < 0)}
          </p>
          <Slip ids={['loaf-rule']} />
        </>
      )}
    </>
  );
}
