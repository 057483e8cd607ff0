'use client';
import type { CuredFit } from '#lib/soap/cut';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Blank } from '../../_ui/figures';
import { Head } from '../../_ui/head';
import { lotMessages } from '../messages-lot';
import { verdictOf } from './cut-model';
import { FitDrawing } from './fit-drawing';

interface Props {
  readonly fits: readonly CuredFit[];
  /** mm. */
  readonly length: number;
  readonly chosen: number | null;
  readonly label: string;
  readonly onChoose: (bars: number) => void;
}

/** The drawing stands beside its row, not on its line of writing. */
const MIDDLE = { verticalAlign: 'middle' };

/** Every fit side by side, drawn on one scale. */
export function Fits({ fits, length, chosen, label, onChoose }: Props) {
  const { heads, unit } = lotMessages.cut;
  const drawn = fits.find(({ bars }) => bars === chosen) ?? null;
  return (
    <>
      <table className={on('table')}>
        <caption className="unseen">{lotMessages.cut.title}</caption>
        <thead>
          <tr>
            <Head name={heads.bars} n />
            <Head name={heads.thick} unit={unit.mm} n />
            <Head name={heads.cut} unit={unit.g} n />
            <Head name={heads.cured} unit={unit.grams} n />
            <Head name={heads.label} unit={unit.g} n wide />
            <Head name={lotMessages.cut.title} wide unseen />
            <Head name={lotMessages.cut.choose} unseen />
          </tr>
        </thead>
        <tbody>
          {fits.map((fit) => (
            <Row key={fit.bars} fit={fit} length={length} chosen={fit.bars === chosen} label={label} onChoose={onChoose} />
          ))}
        </tbody>
      </table>
      {/* Where the table has no room for every drawing, the chosen one stands below it. */}
      {drawn === null ? null : (
        <div className={on('narrow')}>
          <FitDrawing fit={drawn} length={length} label={lotMessages.cut.chosen} />
        </div>
      )}
    </>
  );
}

interface RowProps extends Omit<Props, 'fits' | 'chosen'> {
  readonly fit: CuredFit;
  readonly chosen: boolean;
}

function Row({ fit, length, chosen, label, onChoose }: RowProps) {
  const { locale } = useDisplay();
  const { cut } = lotMessages;
  const mm = numberText(fit.thickness, locale, 2);
  const under = verdictOf(fit, label) === 'under';
  const cured = fit.cured === null ? null : `${numberText(fit.cured.low, locale)}–${numberText(fit.cured.high, locale)}`;
  return (
    <tr>
      <th scope="row" className={on('n')}>
        <b>{fit.bars}</b>
      </th>
      <td className={on('n')}>{mm}</td>
      {fit.cutMass === null ? <Blank className={on('n')} /> : <td className={on('n')}>{numberText(fit.cutMass, locale, 1)}</td>}
      {cured === null ? (
        <Blank className={on('n')} />
      ) : (
        <td className={on(under ? 'n warn' : 'n')}>
          {cured}
          {fit.label === null ? null : <small className={on('narrow')}>{cut.carries(numberText(fit.label, locale))}</small>}
        </td>
      )}
      {fit.label === null ? <Blank className={on('n wide')} /> : <td className={on('n wide')}>{numberText(fit.label, locale)}</td>}
      <td className={on('wide')} width="38%" style={MIDDLE}>
        <FitDrawing fit={fit} length={length} label={cut.fit(fit.bars, mm)} />
      </td>
      <td className={on('n')}>
        {chosen ? (
          <b>{cut.chosen}</b>
        ) : (
          <button
            type="button"
            className={on('link')}
            aria-label={`${cut.choose}: ${cut.fit(fit.bars, mm)}`}
            onClick={() => onChoose(fit.bars)}
          >
            {cut.choose}
          </button>
        )}
      </td>
    </tr>
  );
}
