'use client';
import { on } from '../../_ui/classes';
import { Head } from '../../_ui/head';
import { messages } from '../messages';
import { rangeText } from './figures';
import type { Row } from './figures';

/** Figures with range, source and what they rest on. */
export function FigureTable({ caption, rows }: { readonly caption: string; readonly rows: readonly Row[] }) {
  const { heads, asked } = messages.catalogue;
  return (
    <table className={on('table')}>
      <caption className="unseen">{caption}</caption>
      <thead>
        <tr>
          <Head name={heads.figure} />
          <Head name={heads.value} n />
          <Head name={heads.range} n />
          <Head name={heads.rests} wide />
          <Head name={heads.source} wide />
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, figure]) => (
          <tr key={name}>
            <th scope="row">
              {name}
              {figure === null ? null : <small className={on('narrow')}>{messages.grades[figure.grade]}</small>}
            </th>
            {figure === null ? (
              <td colSpan={4}>{asked}</td>
            ) : (
              <>
                <td className={on('n')}>{`${figure.value} ${figure.unit}`}</td>
                <td className={on('n')}>{rangeText(figure)}</td>
                <td className={on('wide')}>{messages.grades[figure.grade]}</td>
                <td className={on('wide')}>{figure.source}</td>
              </>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
