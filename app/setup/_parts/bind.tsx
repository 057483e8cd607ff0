'use client';
import { useState } from 'react';
import type { SyntheticEvent } from 'react';
import { SCALE_SHAPES } from '#lib/measure/shape';
import type { HttpProblem, InstrumentsPage } from '#lib/protocol/http';
import { api } from '../../_ui/api';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { BAUDS, bindingOf, EMPTY, FRAMES, OTHER } from './binding';
import type { Errors, Typed } from './binding';
import { Choice, Radios, TextField } from '../../_ui/fields';
import type { Put } from './instrument';
import { on } from './classes';

interface Props {
  readonly page: InstrumentsPage;
  readonly start: Typed;
  readonly put: Put;
  /** A batch is under way. */
  readonly busy: boolean;
}

/** Binds an instrument to a port, or changes one that is bound. */
export function Bind({ page, start, put, busy }: Props) {
  const { bind } = messages;
  const fixed = page.instruments.some(({ from }) => from === 'command line');
  return (
    <div id="bind">
      <PaperSection
        name={start.id === null ? bind.title : bind.changing(start.name)}
        note={
          <>
            <p>{bind.note}</p>
            {page.realm === 'practice' ? <p>{bind.practice}</p> : busy ? <p>{bind.batch}</p> : null}
          </>
        }
      >
        {fixed ? <p className={on('reading')}>{bind.fixed}</p> : <Form page={page} start={start} put={put} />}
      </PaperSection>
    </div>
  );
}

function Form({ page, start, put }: Omit<Props, 'busy'>) {
  const [typed, setTyped] = useState(start);
  const [errors, setErrors] = useState<Errors>({});
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const [said, setSaid] = useState('');
  const [waits, setWaits] = useState(false);
  const { bind } = messages;
  const send = async (): Promise<void> => {
    const read = bindingOf(typed, page.waiting ?? page.instruments.map(({ config }) => config));
    setErrors(read.ok ? {} : read.errors);
    setProblem(null);
    setSaid('');
    if (!read.ok) return setSaid(bind.summary(Object.keys(read.errors).length));
    setWaits(true);
    const answer = await api.bind(read.config);
    setWaits(false);
    if (!answer.ok) return setProblem(answer.problem);
    put(answer.value);
    setTyped(EMPTY);
    return setSaid((page.realm === 'practice' ? bind.doneWaiting : bind.done)(read.config.name));
  };
  const submit = (event: SyntheticEvent): void => {
    event.preventDefault();
    void send();
  };
  return (
    <>
      <form className={on('form')} onSubmit={submit} noValidate>
        <Fields page={page} typed={typed} errors={errors} onTyped={setTyped} />
        <div className={on('acts whole')}>
          <button type="submit" className={on('act first')} disabled={waits}>
            {waits ? bind.busy : bind.act}
          </button>
          <output className={Object.keys(errors).length > 0 ? on('warn') : undefined}>{said}</output>
        </div>
      </form>
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}

interface FieldsProps {
  readonly page: InstrumentsPage;
  readonly typed: Typed;
  readonly errors: Errors;
  readonly onTyped: (typed: Typed) => void;
}

/** The name a place suggests; one that a person wrote is left alone. */
const suggested = ({ kind, role, use }: Pick<Typed, 'kind' | 'role' | 'use'>): string =>
  kind === 'scale' ? messages.roles[role] : `${use === '' ? '' : `${messages.uses[use]} `}probe`;

function Fields({ page, typed, errors, onTyped }: FieldsProps) {
  const { bind, roles, uses, shapes } = messages;
  const set = (change: Partial<Typed>): void => {
    const next = { ...typed, ...change };
    onTyped(typed.name === suggested(typed) && change.name === undefined ? { ...next, name: suggested(next) } : next);
  };
  const ports = page.ports.map(({ stable }) => [stable, stable] as const);
  const scale = typed.kind === 'scale';
  return (
    <>
      <div className={on('whole')}>
        <Radios
          name="bind-kind"
          legend={bind.kind}
          value={typed.kind}
          options={entriesOf(bind.kinds)}
          onChange={(kind) => set({ kind, shape: '' })}
        />
      </div>
      {scale ? (
        <Choice id="bind-role" label={bind.role} value={typed.role} options={entriesOf(roles)} onChange={(role) => set({ role })} />
      ) : (
        <Choice
          id="bind-use"
          label={bind.use}
          value={typed.use}
          options={[...entriesOf(uses), ['', bind.whereByFrame] as const]}
          onChange={(use) => set({ use })}
        />
      )}
      <TextField id="bind-name" label={bind.name} value={typed.name} error={errors.name} onChange={(name) => set({ name })} />
      <Choice
        id="bind-port"
        label={bind.port}
        value={typed.port}
        options={[['', bind.choosePort], ...ports, [OTHER, bind.otherPort]]}
        error={errors.port}
        onChange={(port) => set({ port })}
      />
      {typed.port === OTHER ? (
        <TextField id="bind-path" label={bind.path} value={typed.path} error={errors.path} onChange={(path) => set({ path })} />
      ) : null}
      <Choice
        id="bind-shape"
        label={bind.shape}
        value={typed.shape}
        options={[
          ['', bind.shapeByFrame],
          ...(scale ? SCALE_SHAPES.map((one) => [one, shapes[one]] as const) : [['probe-line', shapes['probe-line']] as const]),
        ]}
        onChange={(shape) => set({ shape })}
      />
      <Choice
        id="bind-baud"
        label={bind.baud}
        value={typed.baud}
        options={BAUDS.map((one) => [one, one] as const)}
        onChange={(baud) => set({ baud })}
      />
      <Choice
        id="bind-frame"
        label={bind.frame}
        value={typed.frame}
        options={FRAMES.map((one) => [one, one] as const)}
        onChange={(frame) => set({ frame })}
      />
      {scale ? (
        <>
          <TextField
            id="bind-capacity"
            label={bind.capacity}
            hint={bind.optional}
            value={typed.capacity}
            error={errors.capacity}
            numeric
            onChange={(capacity) => set({ capacity })}
          />
          <TextField
            id="bind-division"
            label={bind.division}
            hint={bind.optional}
            value={typed.division}
            error={errors.division}
            numeric
            onChange={(division) => set({ division })}
          />
        </>
      ) : null}
    </>
  );
}

const entriesOf = <K extends string>(names: Readonly<Record<K, string>>): readonly (readonly [K, string])[] =>
  Object.entries(names) as unknown as readonly (readonly [K, string])[];
