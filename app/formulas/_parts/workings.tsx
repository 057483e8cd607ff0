'use client';
import { useState } from 'react';
import type { ReactNode } from 'react';
import { numberText } from '#lib/units/format';
import type { Derivation } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Worked } from '../../_ui/figures';
import { Head } from '../../_ui/head';
import { messages as shared } from '../../_ui/messages';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { useSheet } from './use-sheet';

const DIGITS = 5;
/** As many digits as a calculator would be typed. */
export const short = (value: number, locale: string, digits = DIGITS): string => {
  if (!Number.isFinite(value)) return '';
  const decimals = value === 0 ? 0 : Math.min(DIGITS, Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value)))));
  const trimmed = String(Number(value.toFixed(decimals)));
  return numberText(Number(trimmed), locale, trimmed.split('.')[1]?.length ?? 0);
};

const slipId = (slips: string, id: string): string =>
  `workings-${`${slips}${slips === '' ? '' : ' '}${id}`.replaceAll(/[^a-z0-9]+/gi, '-')}`;

/** A worked-out figure that opens to its workings, where it has some. */
export function Figure({
  of,
  children,
  label,
}: {
  readonly of: string;
  readonly children: ReactNode;
  readonly label?: string | undefined;
}) {
  const { derivation, open, toggle, slips } = useSheet();
  if (derivation(of) === undefined) return children;
  return (
    <Worked open={open === of} onOpen={() => toggle(of)} controls={slipId(slips, of)} label={label}>
      {children}
    </Worked>
  );
}

/** The slip under a row of a table, when one of its figures is open. */
export function SlipRow({ ids, columns, more }: { readonly ids: readonly string[]; readonly columns: number; readonly more?: ReactNode }) {
  const { open, derivation, slips } = useSheet();
  const one = open !== null && ids.includes(open) ? derivation(open) : undefined;
  return one === undefined ? null : (
    <tr className={on('slip unprinted')}>
      <td colSpan={columns} id={slipId(slips, one.id)}>
        {more}
        <Workings key={one.id} first={one} />
      </td>
    </tr>
  );
}

/** The slip under a paragraph. */
export function Slip({ ids }: { readonly ids: readonly string[] }) {
  const { open, derivation, slips } = useSheet();
  const one = open !== null && ids.includes(open) ? derivation(open) : undefined;
  return one === undefined ? null : (
    <div className={on('slip unprinted')} id={slipId(slips, one.id)}>
      <Workings key={one.id} first={one} />
    </div>
  );
}

/** The formula, the same with its numbers, what they rest on, and how sure it is. An input worked out itself opens in its place. */
function Workings({ first }: { readonly first: Derivation }) {
  const { derivation, toggle } = useSheet();
  const { locale } = useDisplay();
  const [path, setPath] = useState<readonly string[]>([first.id]);
  const one = derivation(path.at(-1) ?? first.id) ?? first;
  const { workings, grades } = messages;
  return (
    <>
      <p>
        <b>{one.formula}</b>
      </p>
      <p>{one.filled}</p>
      <table className={on('table')}>
        <thead>
          <tr>
            <Head name={workings.from} />
            <Head name={workings.value} n />
            <Head name={workings.source} />
          </tr>
        </thead>
        <tbody>
          {one.inputs.map((input, at) => {
            const { derivation: of, name, low, high } = input;
            const text = `${short(input.value, locale)} ${input.unit === '1' ? '' : input.unit}`.trim();
            return (
              // One source may stand twice with the same figure.
              // oxlint-disable-next-line react/no-array-index-key
              <tr key={`${name} ${at}`}>
                <td>{name}</td>
                <td className={on('n')}>
                  {of === undefined || derivation(of) === undefined ? (
                    text
                  ) : (
                    <button type="button" className={on('worked')} onClick={() => setPath([...path, of])}>
                      {text}
                    </button>
                  )}
                  {low === undefined || high === undefined ? null : (
                    <span className={on('dim')}> ({workings.range(short(low, locale), short(high, locale))})</span>
                  )}
                </td>
                <td>
                  {input.source}
                  {input.grade === 'computed' ? null : <span className={on('dim')}> · {grades[input.grade]}</span>}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {one.u === null ? null : (
        <p>
          {workings.u(short(2 * one.u, locale, 2), one.unit === '1' ? '' : one.unit)}{' '}
          {one.parts.length === 0
            ? null
            : workings.madeOf(one.parts.map(({ what, share }) => `${what} ${numberText(100 * share, locale)} %`).join(', '))}
        </p>
      )}
      <p>
        {path.length === 1 ? null : (
          <>
            <button type="button" className={on('link')} onClick={() => setPath(path.slice(0, -1))}>
              {workings.back}
            </button>{' '}
          </>
        )}
        <button type="button" className={on('link')} onClick={() => toggle(first.id)}>
          {shared.close}
        </button>
      </p>
    </>
  );
}
