'use client';
import type { InstrumentsPage } from '#lib/protocol/http';
import { PaperSection } from '../../_ui/section';
import { Head } from '../../_ui/head';
import { messages } from '../messages';
import { Bytes } from './bytes';
import { on } from './classes';

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
    <PaperSection id="ports" name={ports.title} note={<p>{ports.note}</p>}>
      {page.ports.length === 0 ? (
        <>
          <p>{ports.none}</p>
          <p className={on('dim')}>{ports.noneTodo}</p>
        </>
      ) : (
        <table className={on('table')}>
          <caption className="unseen">{ports.caption}</caption>
          <thead>
            <tr>
              <Head name={ports.heads.stable} />
              <Head name={ports.heads.device} wide />
              <Head name={ports.heads.maker} wide />
              <Head name={ports.heads.bound} />
            </tr>
          </thead>
          <tbody>
            {page.ports.map(({ stable, device, maker, ambiguous }) => (
              <tr key={device}>
                <th scope="row">
                  <Bytes text={stable} />
                  {ambiguous ? <p className={on('dim')}>{ports.ambiguous}</p> : null}
                </th>
                <td className={on('nw wide')}>
                  <code>{device}</code>
                </td>
                <td className={on('nw wide')}>{maker ?? ports.unknownMaker}</td>
                <td className={on('nw')}>
                  {bound.get(stable) ??
                    (fixed ? null : (
                      <button type="button" className={on('link')} onClick={() => onTake(stable)}>
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
