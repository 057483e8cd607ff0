import type { CuredFit } from '#lib/soap/cut';
import { numberText } from '#lib/units/format';
import { on } from '../../_ui/classes';
import { lotMessages } from '../messages-lot';
import { insteadOf, verdictOf } from './cut-model';

interface Props {
  readonly fit: CuredFit;
  readonly fits: readonly CuredFit[];
  readonly label: string;
  readonly locale: string;
}

/** Bars that would come to weigh less than their label are told before they are cut, with the fit that would do. */
export function LabelWarning({ fit, fits, label, locale }: Props) {
  const { cut } = lotMessages;
  const verdict = verdictOf(fit, label);
  if (verdict === 'not-known') return <p className={on('dim gap')}>{cut.notKnown(fit.bars, label)}</p>;
  if (verdict !== 'under' && verdict !== 'doubtful') return null;
  const instead = insteadOf(fits, label);
  const forecast = fits.some(({ cured }) => cured !== null);
  return (
    <p role="alert" className={on('warn gap')}>
      {verdict === 'under' ? cut.under(fit.bars, label) : cut.doubtful(fit.bars, label)}{' '}
      {instead === null ? forecast && cut.noneCarries : cut.instead(instead.bars, numberText(instead.thickness, locale, 2))}
    </p>
  );
}
