'use client';
import { numberText } from '#lib/units/format';
import { PATTERNS, type Pattern } from '#lib/work/batch/pouring/types';
import type { MouldUse } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Head } from '../../_ui/head';
import { massHead } from '#lib/words/quantities';
import { PaperSection } from '../../_ui/section';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { BatterParts } from './batter-parts';
import { BatterVolume } from './batter-volume';
import { CountCell } from './count-field';
import { gramsText } from './mass';
import { MouldDrawing } from './mould-drawing';
import { SizeFields } from './size-fields';
import { useSheet } from './use-sheet';
import { Figure, short, SlipRow } from './workings';

const COLUMNS = 8;
const patternIn = (value: string): Pattern | undefined => PATTERNS.find((one) => one === value);

/** How large the batch is, the moulds it goes into, and how full each will be. */
export function MouldsSection() {
  const { formula, change, wrongIn, workshop } = useSheet();
  const display = useDisplay();
  const { moulds: words, size } = messages;
  const all = workshop.context.moulds;
  const put = (moulds: readonly MouldUse[], field: string): void => change({ ...formula, moulds }, `moulds.${field}`);
  const free = all.find(({ id }) => !formula.moulds.some(({ mould }) => mould === id)) ?? all[0];
  const wrong = wrongIn('moulds');
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <h3 className={on('minor')}>{size.title}</h3>
      <div className={on('form unprinted')}>
        <SizeFields
          id="size"
          size={formula.size}
          wrong={wrongIn}
          onChange={(next, field) => change({ ...formula, size: next }, `size.${field}`)}
        />
      </div>
      <MouldDrawing />
      {formula.moulds.length === 0 ? null : (
        <table className={on('table entries')}>
          <thead>
            <tr>
              <Head name={words.heads.mould} />
              <Head name={words.heads.count} />
              <Head name={words.heads.fill} unit="%" />
              <Head name={words.heads.brim} unit="mL" n wide />
              <Head name={words.heads.batter} unit={massHead(display)} n wide />
              <Head name={words.heads.full} unit="%" n />
              <Head name={words.heads.left} unit="mm" n wide />
              <Head name={messages.heads.remove} unseen />
            </tr>
          </thead>
          <tbody>
            {formula.moulds.map((use, at) => (
              // A mould may stand here twice while it is being chosen.
              // oxlint-disable-next-line react/no-array-index-key
              <MouldRow key={at} use={use} at={at} put={put} />
            ))}
          </tbody>
        </table>
      )}
      {wrong === '' ? null : <p className={on('warn')}>{wrong}</p>}
      {free === undefined ? (
        <p>{words.none}</p>
      ) : (
        <div className={on('acts')}>
          <button
            type="button"
            className={on('act')}
            onClick={() => put([...formula.moulds, { mould: free.id, count: 1, fill: '' }], 'add')}
          >
            {words.add}
          </button>
        </div>
      )}
      <BatterParts />
      <BatterVolume />
    </PaperSection>
  );
}

interface RowProps {
  readonly use: MouldUse;
  readonly at: number;
  readonly put: (moulds: readonly MouldUse[], field: string) => void;
}

function MouldRow({ use, at, put }: RowProps) {
  const { formula, workshop, wrongAt, plan } = useSheet();
  const display = useDisplay();
  const all = workshop.context.moulds;
  const planned = plan?.sizing?.moulds[at];
  // While another plan is worked out the rows may have moved.
  const fill = planned?.mould === use.mould ? planned : undefined;
  const name = all.find(({ id }) => id === use.mould)?.name ?? use.mould;
  const wrong = wrongAt(`moulds[${at}]`);
  const { heads } = messages.moulds;
  const set = (next: Partial<MouldUse>, field: string): void =>
    put(
      formula.moulds.map((one, index) => (index === at ? { ...one, ...next } : one)),
      `${at}.${field}`,
    );
  return (
    <>
      <tr data-mould={use.mould}>
        <th scope="row">
          <select
            className={on('field')}
            aria-label={heads.mould}
            value={use.mould}
            onChange={(event) => set({ mould: event.target.value }, 'mould')}
          >
            {all.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
            {all.some(({ id }) => id === use.mould) ? null : <option value={use.mould}>{use.mould}</option>}
          </select>
          <select
            className={on('field')}
            aria-label={`${messages.moulds.pattern}: ${name}`}
            value={use.pattern ?? ''}
            onChange={(event) => set({ pattern: patternIn(event.target.value) } as Partial<MouldUse>, 'pattern')}
          >
            <option value="">{messages.moulds.unnamed}</option>
            {PATTERNS.map((one) => (
              <option key={one} value={one}>
                {messages.moulds.patterns[one]}
              </option>
            ))}
          </select>
          {wrong === '' ? null : <p className={on('warn')}>{wrong}</p>}
        </th>
        <td data-head={heads.count}>
          <CountCell
            id={`mould-${at}-count`}
            label={`${heads.count}: ${name}`}
            count={use.count}
            onChange={(count) => set({ count }, 'count')}
          />
        </td>
        <td data-head={`${heads.fill}, %`}>
          <input
            className={on('field')}
            aria-label={`${heads.fill}: ${name}`}
            inputMode="decimal"
            value={use.fill}
            onChange={(event) => set({ fill: event.target.value }, 'fill')}
          />
        </td>
        <td className={on('n wide')}>
          {fill === undefined ? null : <Figure of={`brim:${at}`}>{short(fill.brim.value, display.locale, 4)}</Figure>}
        </td>
        <td className={on('n wide')}>
          {fill === undefined ? null : <Figure of={`in-mould:${at}`}>{gramsText(fill.grams, display)}</Figure>}
        </td>
        <td className={on('n')} data-head={`${heads.full}, %`}>
          {fill === undefined ? null : <Figure of={`mould:${at}`}>{numberText(100 * fill.full, display.locale, 0)}</Figure>}
        </td>
        <td className={on('n wide')}>
          {fill?.leftAbove == null ? null : <Figure of={`left:${at}`}>{numberText(fill.leftAbove, display.locale, 1)}</Figure>}
        </td>
        <td className={on('n')}>
          <button
            type="button"
            className={on('link')}
            aria-label={messages.remove(name)}
            onClick={() =>
              put(
                formula.moulds.filter((_, index) => index !== at),
                'remove',
              )
            }
          >
            {messages.heads.remove}
          </button>
        </td>
      </tr>
      <SlipRow ids={['mould', 'brim', 'in-mould', 'left'].map((what) => `${what}:${at}`)} columns={COLUMNS} />
    </>
  );
}
