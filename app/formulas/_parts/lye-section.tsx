'use client';
import { numberText } from '#lib/units/format';
import type { Wishes } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Blank } from '../../_ui/figures';
import { Choice, TextField } from '../../_ui/fields';
import { Head } from '../../_ui/head';
import { showIn } from '../../_ui/quantities';
import { PaperSection } from '../../_ui/section';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { LimitFields } from './limit-fields';
import { useSheet } from './use-sheet';
import { Figure, short, SlipRow } from './workings';

type Kind = keyof typeof messages.lye.kinds;

/** Superfat and strength of the lye: what was asked for, and what it comes to. */
export function LyeSection() {
  const { formula, change, wrongAt } = useSheet();
  const { lye: words } = messages;
  const { superfat, lye } = formula.wishes;
  const kind: Kind = lye === null ? 'none' : lye.kind;
  const put = (wishes: Partial<Wishes>, field: string): void =>
    change({ ...formula, wishes: { ...formula.wishes, ...wishes } }, `wishes.${field}`);
  const value = lye === null ? '' : lye.kind === 'ratio' ? lye.water : lye.percent;
  const lyeOf = (kind: Kind, text: string): Wishes['lye'] =>
    kind === 'none' ? null : kind === 'ratio' ? { kind, water: text } : { kind, percent: text };
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <div className={on('form unprinted')}>
        <TextField
          id="superfat"
          label={words.superfat}
          value={superfat ?? ''}
          numeric
          error={wrongAt('wishes.superfat')}
          onChange={(text) => put({ superfat: text === '' ? null : text }, 'superfat')}
        />
        <Choice
          id="lye-kind"
          label={words.kind}
          value={kind}
          options={Object.entries(words.kinds) as [Kind, string][]}
          onChange={(next) => put({ lye: lyeOf(next, '') }, 'lye-kind')}
          error={kind === 'none' ? wrongAt('wishes.lye') : ''}
        />
        {kind === 'none' ? null : (
          <TextField
            id="lye-value"
            label={words.value[kind]}
            value={value}
            numeric
            error={wrongAt('wishes.lye')}
            onChange={(text) => put({ lye: lyeOf(kind, text) }, 'lye')}
          />
        )}
      </div>
      <Results />
      <LimitFields />
    </PaperSection>
  );
}

function Results() {
  const { plan, formula, derivation } = useSheet();
  const display = useDisplay();
  const { locale } = display;
  if (plan === null) return null;
  const { rows, heads, interval, peakWhy, iodineWhy } = messages.lye;
  const { superfat, lyeConcentration, mixingPeak, iodine } = plan.figures;
  const asked = formula.wishes.lye?.kind === 'concentration' ? `${formula.wishes.lye.percent} %` : '';
  const percent = (value: number, digits = 1): string => numberText(100 * value, locale, digits);
  const show = showIn(display);
  const u = derivation('lye-concentration')?.u ?? null;
  return (
    <table className={on('table gap')}>
      <thead>
        <tr>
          <Head name={heads.what} />
          <Head name={heads.asked} n wide />
          <Head name={heads.worked} n />
          <Head name={heads.u} n wide />
          <Head name={heads.because} wide />
        </tr>
      </thead>
      <tbody>
        <tr>
          <th scope="row">{rows.superfat}</th>
          <td className={on('n wide')}>{formula.wishes.superfat === null ? '' : `${formula.wishes.superfat} %`}</td>
          <td className={on('n')}>
            <Figure of="superfat">{percent(superfat.working)} %</Figure>
          </td>
          <td className={on('n wide')}>{percent(superfat.u)} %</td>
          <td className={on('wide')}>{interval(percent(superfat.low), percent(superfat.high), chanceText(superfat.lyeHeavy, locale))}</td>
        </tr>
        <SlipRow ids={['superfat']} columns={5} />
        <tr>
          <th scope="row">{rows.concentration}</th>
          <td className={on('n wide')}>{asked}</td>
          <td className={on('n')}>
            <Figure of="lye-concentration">{percent(lyeConcentration, 2)} %</Figure>
          </td>
          <td className={on('n wide')}>{u === null ? '' : `${short(u, locale, 2)} %`}</td>
          <Blank className={on('wide')} />
        </tr>
        <SlipRow ids={['lye-concentration']} columns={5} />
        {mixingPeak === null ? null : (
          <>
            <tr>
              <th scope="row">{rows.peak}</th>
              <Blank className={on('n wide')} />
              <td className={on('n')}>
                <Figure of="mixing-peak">{show.temperature(Math.round(1000 * mixingPeak.value))}</Figure>
              </td>
              <td className={on('n wide')}>{show.difference(Math.round(1000 * mixingPeak.u))}</td>
              <td className={on('wide')}>{peakWhy}</td>
            </tr>
            <SlipRow ids={['mixing-peak']} columns={5} />
          </>
        )}
        {iodine === null ? null : (
          <>
            <tr>
              <th scope="row">{rows.iodine}</th>
              <Blank className={on('n wide')} />
              <td className={on('n')}>
                <Figure of="iodine">{short(iodine, locale, 3)}</Figure>
              </td>
              <Blank className={on('n wide')} />
              <td className={on('wide')}>{iodineWhy}</td>
            </tr>
            <SlipRow ids={['iodine']} columns={5} />
          </>
        )}
      </tbody>
    </table>
  );
}

const RARE = 1e-4;
const OFTEN = 0.05;
/** A chance as people say it. */
export const chanceText = (chance: number, locale: string): string => {
  const { none, some, more } = messages.lye.chance;
  if (chance < RARE) return none;
  return chance < OFTEN ? some(numberText(Number((1 / chance).toPrecision(2)), locale)) : more(numberText(100 * chance, locale));
};
