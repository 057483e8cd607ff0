'use client';
import type { Reference } from '#lib/work/formula/index';
import { TextField } from '../../_ui/fields';
import { KeptFile } from '../../_ui/kept-file';
import { PaperSection } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { on } from '../classes';
import { messages } from '../messages-more';
import { ReferenceRange } from './reference-range';
import { useSheet } from './use-sheet';

const { references: words } = messages;
const KINDS = ['safety-assessment', 'notification'] as const satisfies readonly Reference['kind'][];
const DATE = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/;

/** What a safety assessment or a notification allows of each material. */
export function ReferencesSection() {
  const { formula, change } = useSheet();
  const put = (references: readonly Reference[], field: string): void => change({ ...formula, references }, `references.${field}`);
  const { references } = formula;
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {references.map((reference, at) => (
        <ReferenceFields
          // Two papers may be alike while they are typed.
          // oxlint-disable-next-line react/no-array-index-key
          key={at}
          reference={reference}
          at={at}
          put={(next, field) =>
            put(
              references.flatMap((one, index) => (index === at ? (next === null ? [] : [next]) : [one])),
              `${at}.${field}`,
            )
          }
        />
      ))}
      <div className={on('acts')}>
        {KINDS.map((kind) => (
          <button
            key={kind}
            type="button"
            className={on('act')}
            onClick={() => put([...references, { kind, number: '', date: '', ranges: [], file: null }], 'add')}
          >
            {words.add[kind]}
          </button>
        ))}
      </div>
    </PaperSection>
  );
}

interface Props {
  readonly reference: Reference;
  readonly at: number;
  /** `null`: taken out. */
  readonly put: (next: Reference | null, field: string) => void;
}

function ReferenceFields({ reference, at, put }: Props) {
  const { formula, rest } = useSheet();
  const { kind, number, date, ranges, file } = reference;
  const id = `reference-${at}`;
  const free = formula.entries.find(({ material }) => material !== null && !ranges.some((range) => range.material === material));
  const material = free?.material ?? null;
  return (
    <div data-reference={kind}>
      <h3 className={on('minor')}>{words.kinds[kind]}</h3>
      <div className={on('form')} onBlur={rest}>
        <TextField
          id={`${id}-number`}
          label={words.number}
          value={number}
          onChange={(next) => put({ ...reference, number: next }, 'number')}
        />
        <TextField
          id={`${id}-date`}
          label={words.date}
          value={date}
          error={DATE.test(date) ? '' : words.noDate}
          onChange={(next) => put({ ...reference, date: next }, 'date')}
        />
      </div>
      <div className={on('gap')}>
        <KeptFile id={`${id}-file`} label={words.file} onKept={({ sha256 }) => put({ ...reference, file: sha256 }, 'file')} />
        {file === null ? null : (
          <p>
            <a href={shelfApi.fileAddress(file)} download={number === '' ? words.kinds[kind] : number}>
              {words.saveFile}
            </a>{' '}
            <button type="button" className={on('link')} onClick={() => put({ ...reference, file: null }, 'file')}>
              {words.removeFile}
            </button>
          </p>
        )}
      </div>
      {ranges.map((range, index) => (
        <ReferenceRange
          // oxlint-disable-next-line react/no-array-index-key
          key={index}
          id={`${id}-range-${index}`}
          path={`references[${at}].ranges[${index}]`}
          range={range}
          put={(next, field) =>
            put(
              { ...reference, ranges: ranges.flatMap((one, where) => (where === index ? (next === null ? [] : [next]) : [one])) },
              `ranges.${index}.${field}`,
            )
          }
        />
      ))}
      <div className={on('acts')}>
        <button
          type="button"
          className={on('act')}
          disabled={material === null}
          onClick={() =>
            material === null ? undefined : put({ ...reference, ranges: [...ranges, { material, low: '', high: '' }] }, 'ranges.add')
          }
        >
          {words.addRange}
        </button>
        <button type="button" className={on('act')} onClick={() => put(null, 'remove')}>
          {words.remove}
        </button>
      </div>
    </div>
  );
}
