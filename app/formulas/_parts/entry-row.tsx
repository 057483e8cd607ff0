'use client';
import { useState } from 'react';
import { numberText } from '#lib/units/format';
import { materialOfLot } from '#lib/work/formula/index';
import type { Amount, Entry, Material } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Blank } from '../../_ui/figures';
import { massCell, massHead } from '#lib/words/quantities';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { AmountField } from './amount-field';
import { withEntry, withoutEntry, withWeighing } from './draft';
import { givenWay } from './give-way';
import { MoreRow, MoreToggle } from './entry-more';
import { plannedText, toleranceText } from './mass';
import { pours } from './materials';
import { useSheet } from './use-sheet';
import { Figure, SlipRow } from './workings';

interface Props {
  readonly entry: Entry;
  readonly at: number;
  readonly blended: boolean;
  /** The other oils make room while this one's share is typed. */
  readonly giveWay: boolean;
}

/** Columns a part's table has. */
export const COLUMNS = 6;

/** One thing of a formula: what, how much as typed, what it weighs, and what it is reckoned with. */
export function EntryRow({ entry, at, blended, giveWay }: Props) {
  const { formula, draft, change, rest, wrongAt, plan, materials } = useSheet();
  const display = useDisplay();
  const [more, setMore] = useState(false);
  const [asking, setAsking] = useState(false);
  const name = entry.material === null ? messages.parts[entry.part].thing : materials.nameOf(entry.material);
  const path = `entries[${at}]`;
  const ofMaterial = [
    ...(entry.material === null ? [] : [`materials[${entry.material}]`]),
    ...(entry.lot === null ? [] : [`lots[${entry.lot}]`]),
  ];
  const wrong = asking ? '' : [...new Set([wrongAt(path), ...ofMaterial.map(wrongAt)].filter((words) => words !== ''))].join(' ');
  const figures = plan?.lines.find((one) => one.entry === entry.id);
  const line = plan?.plan.lines.find(({ id }) => id === figures?.line);
  const put = (next: Partial<Entry>, field: string): void => change(withEntry(formula, entry.id, next), `entries.${entry.id}.${field}`);
  const putAmount = (amount: Amount | null): void => {
    const field = `entries.${entry.id}.amount`;
    const moved = giveWay ? givenWay(draft, entry, amount, field) : null;
    change(moved ?? withEntry(formula, entry.id, { amount }), field);
  };
  return (
    <>
      <tr data-entry={entry.id}>
        <th scope="row">
          <select
            className={on('field')}
            aria-label={messages.parts[entry.part].thing}
            value={entry.material ?? ''}
            onChange={(event) => put({ material: event.target.value === '' ? null : event.target.value, lot: null }, 'material')}
          >
            <option value="">{messages.choose}</option>
            {materials.forPart(entry.part).map(([id, words]) => (
              <option key={id} value={id}>
                {words}
              </option>
            ))}
            {entry.material === null || materials.forPart(entry.part).some(([id]) => id === entry.material) ? null : (
              <option value={entry.material}>{name}</option>
            )}
          </select>
          <LotField entry={entry} name={name} put={put} />
          <Source entry={entry} />
          <MoreToggle entry={entry} name={name} open={more} onToggle={() => setMore(!more)} />
          {wrong === '' ? null : (
            <p id={`amount-${entry.id}-wrong`} className={on('warn')}>
              {wrong}
            </p>
          )}
        </th>
        <td>
          <AmountField
            id={`amount-${entry.id}`}
            name={name}
            part={entry.part}
            amount={entry.amount}
            blended={blended}
            pours={pours(materials.of(entry.material))}
            wrong={wrong}
            onChange={putAmount}
            onLeave={rest}
            onAsk={setAsking}
          />
        </td>
        <td className={on('n')} data-weight={line?.target} data-head={`${messages.heads.weight} ${massHead(display)}`}>
          {line === undefined ? null : <Figure of={`line:${line.id}`}>{plannedText(line.target, line.tolerance, display)}</Figure>}
        </td>
        {entry.part === 'fat' ? (
          <FatCells entry={entry} />
        ) : (
          <>
            <td className={on('n wide')}>
              {figures === undefined ? null : (
                <Figure of={`share:${entry.id}`}>{numberText(100 * figures.shareOfBatter, display.locale, 2)} %</Figure>
              )}
            </td>
            <td className={on('n wide')}>
              {line === undefined ? null : <Figure of={`tolerance:${line.id}`}>{toleranceText(line.tolerance, display)}</Figure>}
            </td>
          </>
        )}
        <td className={on('n')}>
          <button
            type="button"
            className={on('link')}
            aria-label={messages.remove(name)}
            onClick={() => change(withoutEntry(formula, entry.id), `entries.${entry.id}`)}
          >
            {messages.heads.remove}
          </button>
        </td>
      </tr>
      {more ? (
        <MoreRow
          entry={entry}
          path={path}
          columns={COLUMNS}
          put={put}
          onWeighed={(byLoss) => change(withWeighing(formula, entry.id, byLoss), `entries.${entry.id}.weighed`)}
        />
      ) : null}
      <SlipRow ids={['line', 'share', 'tolerance', 'takes', 'sv'].map((what) => `${what}:${entry.id}`)} columns={COLUMNS} />
    </>
  );
}

function LotField({
  entry,
  name,
  put,
}: {
  readonly entry: Entry;
  readonly name: string;
  readonly put: (next: Partial<Entry>, field: string) => void;
}) {
  const { materials } = useSheet();
  const lots = materials.lotsOf(entry.material);
  if (lots.length === 0 && entry.lot === null) return null;
  return (
    <select
      className={on('field')}
      aria-label={messages.lotOf(name)}
      value={entry.lot ?? ''}
      onChange={(event) => put({ lot: event.target.value === '' ? null : event.target.value }, 'lot')}
    >
      <option value="">{messages.noLot}</option>
      {lots.map(({ id, mark, certificate }) => (
        <option key={id} value={id}>
          {certificate === null ? mark : `${mark}, ${certificate.date}`}
        </option>
      ))}
      {entry.lot === null || lots.some(({ id }) => id === entry.lot) ? null : <option value={entry.lot}>{entry.lot}</option>}
    </select>
  );
}

/** The entry's material as its lot's certificate says. */
const useMaterial = (entry: Entry): Material | undefined => {
  const { materials } = useSheet();
  const found = materials.of(entry.material);
  const lot = materials.lotsOf(entry.material).find(({ id }) => id === entry.lot) ?? null;
  return found === undefined ? undefined : materialOfLot(found, lot);
};

/** What an oil's working value rests on. */
function Source({ entry }: { readonly entry: Entry }) {
  const material = useMaterial(entry);
  if (material === undefined || (material.kind !== 'fat' && material.kind !== 'wax')) return null;
  const { source, grade } = material.sv;
  return (
    <p className={on('dim wide')}>
      {source}
      {grade === 'from memory' ? <b> · {messages.grades[grade]}</b> : null}
    </p>
  );
}

function FatCells({ entry }: { readonly entry: Entry }) {
  const { derivation } = useSheet();
  const display = useDisplay();
  const material = useMaterial(entry);
  const takes = derivation(`takes:${entry.id}`);
  const cell = takes === undefined ? null : <Figure of={takes.id}>{massCell(Math.round(1000 * takes.value), 10, display, 0).text}</Figure>;
  if (material === undefined || (material.kind !== 'fat' && material.kind !== 'wax'))
    return (
      <>
        <Blank />
        <td className={on('n wide')}>{cell}</td>
      </>
    );
  const { value, low, high } = material.sv;
  return (
    <>
      <td className={on('n')} data-head={messages.heads.value}>
        <Figure of={`sv:${entry.id}`}>{value}</Figure>
        {low === undefined || high === undefined ? null : <p className={on('dim')}>{messages.workings.range(low, high)}</p>}
      </td>
      <td className={on('n wide')}>{cell}</td>
    </>
  );
}
