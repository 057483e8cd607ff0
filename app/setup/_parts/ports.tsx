'use client';
import type { InstrumentsPage } from '#lib/protocol/http';
import { PaperSection } from '../../_ui/paper';
import { messages } from '../messages';

interface Props {
  readonly page: InstrumentsPage;
  readonly onTake: (port: string) => void;
}

/** The serial ports of the bench machine, by the names to bind them by. */
export function Ports({ page, onTake }: Props) {
  const { ports } = messages;
  const bound = new Map(
    [...page.instruments.map(({ config }) => config), ...(page.waiting ?? [])].map(({ path, name }) => [path, name] as const),
  );
  const fixed = page.instruments.some(({ from }) => from === 'command line');
  return (
    <PaperSection name={ports.title} note={<p>{ports.note}</p>}>
      {page.ports.length === 0 ? (
        <>
          <p>{ports.none}</p>
          <p className="dim">{ports.noneTodo}</p>
        </>
      ) : (
        <table>
          <caption className="unseen">{ports.caption}</caption>
          <thead>
            <tr>
              <th scope="col">{ports.heads.stable}</th>
              <th scope="col" className="wide">
                {ports.heads.device}
              </th>
              <th scope="col" className="wide">
                {ports.heads.maker}
              </th>
              <th scope="col">{ports.heads.bound}</th>
            </tr>
          </thead>
          <tbody>
            {page.ports.map(({ stable, device, maker, ambiguous }) => (
              <tr key={device}>
                <th scope="row">
                  <span className="bytes">{stable}</span>
                  {ambiguous ? <p className="dim">{ports.ambiguous}</p> : null}
                </th>
                <td className="bytes wide">{device}</td>
                <td className="wide">{maker ?? ports.unknownMaker}</td>
                <td>
                  {bound.get(stable) ??
                    (fixed ? null : (
                      <button type="button" className="link" onClick={() => onTake(stable)}>
                        {ports.use}
                      </button>
                    ))}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </PaperSection>
  );
}
