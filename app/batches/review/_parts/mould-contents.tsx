'use client';
import { massText } from '#lib/units/format';
import type { Bounded, MouldMade } from '#lib/work/batch/moulds';
import type { Display } from '#lib/units/display';
import { useDisplay } from '../../../_live/use';
import { Blank } from '../../../_ui/figures';
import { Head } from '../../../_ui/head';
import { messages as words } from '../messages-moulds';
import { on } from './classes';

const amountText = ({ mass, low, high }: Bounded, display: Display): string =>
  mass === null ? words.between(massText(low, display), massText(high, display)) : massText(mass, display);

/** Every material of a mould with its lot, as weighed; between bounds where a swirl's shares are not known. */
export function MouldContents({ mould: { parts, materials } }: { readonly mould: MouldMade }) {
  const display = useDisplay();
  return (
    <table className={on('table reading')}>
      <thead>
        <tr>
          <Head name={words.heads.material} />
          <Head name={words.heads.lot} />
          <Head name={words.heads.in} n />
        </tr>
      </thead>
      <tbody>
        {parts.length < 2
          ? null
          : parts.map((part) => (
              <tr key={part.source}>
                <th scope="row">{part.name}</th>
                <Blank />
                <td className={on('n')}>{amountText(part, display)}</td>
              </tr>
            ))}
        {materials.map((one) => (
          <tr key={`${one.line} ${one.lot?.id ?? ''}`}>
            <th scope="row">{one.material.name}</th>
            <td>{one.lot?.mark ?? words.noLot}</td>
            <td className={on('n')}>{amountText(one, display)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
