'use client';
import type { ReactNode } from 'react';
import { numberText } from '#lib/units/format';
import { numberOf } from '#lib/work/formula/index';
import type { Wishes } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Blank } from '../../_ui/figures';
import { Choice, TextField } from '../../_ui/fields';
import { Head } from '../../_ui/head';
import { showIn } from '#lib/words/quantities';
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

/** What came out, as plain numbers; how sure each is stands with its workings. */
function Results() {
  const { plan, formula } = useSheet();
  const display = useDisplay();
  const { locale } = display;
  if (plan === null) return null;
  const { rows, heads, interval, worst, unknown } = messages.lye;
  const { superfat, lyeConcentration, mixingPeak, iodine, soap, glycerol, waterAfter, freeFat } = plan.figures;
  const { lye } = formula.wishes;
  const asked = lye === null ? '' : lye.kind === 'concentration' ? percentAsked(lye.percent, locale) : messages.lye.ratio(lye.water);
  const percent = (value: number, digits = 1): string => numberText(100 * value, locale, digits);
  const show = showIn(display);
  const mass = (grams: number): string => show.mass(Math.round(1000 * grams), 100);
  const notKnown = plan.warnings.some(({ code }) => code === 'heat-unknown');
  return (
    <table className={on('table gap')}>
      <thead>
        <tr>
          <Head name={heads.what} />
          <Head name={heads.asked} n wide />
          <Head name={heads.worked} n />
          <Head name={heads.verdict} />
        </tr>
      </thead>
      <tbody>
        <Result
          name={rows.superfat}
          of="superfat"
          asked={formula.wishes.superfat === null ? '' : percentAsked(formula.wishes.superfat, locale)}
          judged
          more={
            <p>
              {interval(percent(superfat.low), percent(superfat.high), chanceText(superfat.lyeHeavy, locale))}{' '}
              {worst(percent(superfat.worst.low), percent(superfat.worst.high))}
            </p>
          }
        >
          {percent(superfat.working)} %
        </Result>
        <Result name={rows.concentration} of="lye-concentration" asked={asked} judged>
          {percent(lyeConcentration)} %
        </Result>
        {mixingPeak !== null ? (
          <Result name={rows.peak} of="mixing-peak" judged>
            {show.temperature(Math.round(1000 * mixingPeak.value))}
          </Result>
        ) : notKnown ? (
          <tr>
            <th scope="row">{rows.peak}</th>
            <Blank className={on('n wide')} />
            <td className={on('n')}>{unknown}</td>
            <td>
              <b>{messages.lye.verdicts.check}</b>
            </td>
          </tr>
        ) : null}
        {iodine === null ? null : (
          <Result name={rows.iodine} of="iodine" judged>
            {short(iodine, locale, 3)}
          </Result>
        )}
        <Result name={rows.soap} of="soap">
          {mass(soap)}
        </Result>
        <Result name={rows.glycerol} of="glycerol">
          {mass(glycerol)}
        </Result>
        <Result name={rows.freeFat} of="free-fat">
          {mass(freeFat)}
        </Result>
        <Result name={rows.water} of="water-after">
          {mass(waterAfter)}
        </Result>
      </tbody>
    </table>
  );
}

const percentAsked = (text: string, locale: string): string => {
  const value = numberOf(text);
  return value === null ? '' : `${short(value, locale)} %`;
};

interface ResultProps {
  readonly name: string;
  /** Its workings. */
  readonly of: string;
  readonly asked?: string;
  /** Whether anything could be said against it. */
  readonly judged?: boolean;
  readonly more?: ReactNode;
  readonly children: ReactNode;
}

function Result({ name, of, asked = '', judged = false, more, children }: ResultProps) {
  const { verdictOf } = useSheet();
  const verdict = verdictOf(of);
  const { verdicts } = messages.lye;
  return (
    <>
      <tr>
        <th scope="row">{name}</th>
        <td className={on('n wide')}>{asked}</td>
        <td className={on('n')}>
          <Figure of={of}>{children}</Figure>
        </td>
        <td>{!judged ? null : verdict === 'check' ? <b>{verdicts.check}</b> : verdicts.within}</td>
      </tr>
      <SlipRow ids={[of]} columns={4} more={more} />
    </>
  );
}

const RARE = 1e-4;
const OFTEN = 0.05;
/** A chance as people say it. */
const chanceText = (chance: number, locale: string): string => {
  const { none, some, more } = messages.lye.chance;
  if (chance < RARE) return none;
  return chance < OFTEN ? some(numberText(Number((1 / chance).toPrecision(2)), locale)) : more(numberText(100 * chance, locale));
};
