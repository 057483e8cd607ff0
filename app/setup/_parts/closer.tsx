'use client';
import { useState } from 'react';
import type { InstrumentConfig, WireFault } from '#lib/measure/instrument';
import { FAULT_WORDS } from '#lib/measure/link/words';
import type { HttpProblem } from '#lib/protocol/http';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { api } from '../../_ui/api';
import { Problem } from '../../_ui/problem';
import { showIn } from '#lib/words/quantities';
import { messages } from '../messages';
import { Check } from './check';
import { ProbeCheckForm } from './probe-check';
import { RawBytes } from './raw-bytes';
import type { Instrument, Put } from './instrument';
import { on } from './classes';

interface Props {
  readonly one: Instrument;
  readonly put: Put;
  readonly onChange: (config: InstrumentConfig) => void;
}

/** Everything that is known of one instrument, and what can be done about it. */
export function Closer({ one, put, onChange }: Props) {
  const { config } = one;
  const display = useDisplay();
  return (
    <>
      <dl className={on('facts')}>
        {factsOf(one, display).map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <Faults faults={one.status.faults} />
      <RawBytes id={config.id} />
      {config.kind === 'scale' ? <Check config={config} /> : <ProbeCheckForm config={config} />}
      {one.from === 'setup' ? <Bound config={config} put={put} onChange={onChange} /> : null}
    </>
  );
}

const factsOf = ({ config, status, from }: Instrument, display: ReturnType<typeof useDisplay>): readonly (readonly [string, string])[] => {
  const { facts, natures } = messages.closer;
  const show = showIn(display);
  const shape = status.shape === null ? facts.notYet : `${status.shape}, ${config.shape === null ? facts.byFrame : facts.told}`;
  const scale =
    config.kind === 'scale'
      ? ([
          [facts.role, messages.roles[config.role]],
          [facts.capacity, config.capacity === null ? facts.unstated : show.mass(config.capacity, config.division)],
          [facts.division, config.division === null ? facts.unstated : show.mass(config.division, config.division)],
        ] as const)
      : ([[facts.role, config.use === null ? messages.bind.whereByFrame : messages.uses[config.use]]] as const);
  return [
    [facts.port, config.path],
    [facts.bound, messages.closer.from[from]],
    [facts.serial, `${config.serial.baudRate} ${config.serial.frame}`],
    [facts.shape, shape],
    ...scale,
    [facts.nature, status.nature === null ? messages.instruments.notKnown : natures[status.nature]],
    [facts.readings, numberText(status.readings, display.locale)],
    ...(status.detail === '' ? [] : [[facts.detail, status.detail] as const]),
  ];
};

function Faults({ faults }: { readonly faults: Readonly<Partial<Record<WireFault, number>>> }) {
  const { locale } = useDisplay();
  const { closer } = messages;
  const counted = Object.entries(faults) as readonly (readonly [WireFault, number])[];
  if (counted.length === 0) return <p className={on('gap')}>{closer.noFaults}</p>;
  return (
    <>
      <h3 className={on('minor gap')}>{closer.faults}</h3>
      <table className={on('table')}>
        <tbody>
          {counted.map(([fault, count]) => (
            <tr key={fault}>
              <td className={on('n')}>{numberText(count, locale)}</td>
              <td>{FAULT_WORDS[fault]}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

/** Changing and unbinding; unbinding is asked about first. */
function Bound({ config, put, onChange }: { readonly config: InstrumentConfig } & Omit<Props, 'one'>) {
  const [sure, setSure] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const { closer } = messages;
  const unbind = async (): Promise<void> => {
    const answer = await api.unbind(config.id);
    if (answer.ok) put(answer.value);
    else setProblem(answer.problem);
  };
  return (
    <>
      {sure ? <p className={on('gap')}>{closer.unbindSure(config.name)}</p> : null}
      <div className={on('acts')}>
        {sure ? (
          <>
            <button type="button" className={on('act first')} onClick={() => void unbind()}>
              {closer.unbindYes}
            </button>
            <button type="button" className={on('act')} onClick={() => setSure(false)}>
              {closer.keep}
            </button>
          </>
        ) : (
          <>
            <button type="button" className={on('act')} onClick={() => onChange(config)}>
              {closer.change}
            </button>
            <button type="button" className={on('act')} onClick={() => setSure(true)}>
              {closer.unbind}
            </button>
          </>
        )}
      </div>
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
