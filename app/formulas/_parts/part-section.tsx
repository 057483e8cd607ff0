'use client';
import { useState } from 'react';
import { M_NAOH } from '#lib/soap/molar-mass';
import type { Blend, Formula, Part } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Blank } from '../../_ui/figures';
import { Head } from '../../_ui/head';
import { massCell, massHead } from '#lib/words/quantities';
import { PaperSection } from '../../_ui/section';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { problemText } from '../../_ui/problem-messages';
import { firstAmount } from './amount';
import { BlendRow, MakeBlend } from './blend-row';
import { entryId, withEntry, withNewEntry } from './draft';
import { COLUMNS, EntryRow } from './entry-row';
import { FragranceLimits } from './fragrance-limits';
import { mayGiveWay } from './give-way';
import { gramsText } from './mass';
import { OtherMeasure } from './other-measure';
import { partOf } from './placed';
import { problemsOf, useSheet } from './use-sheet';
import { Figure, SlipRow } from './workings';

/** A thing added at the end of its part, with nothing said of it but the measure of its neighbours. */
const withAnother = (formula: Formula, part: Part): Formula => {
  const id = entryId(formula, part);
  return withEntry(withNewEntry(formula, part, id), id, { amount: firstAmount(formula.entries, part) });
};

/** All of one part, as a table that is typed into. */
export function PartSection({ part }: { readonly part: Part }) {
  const { formula, change, answer, plan } = useSheet();
  const display = useDisplay();
  const [giveWay, setGiveWay] = useState(false);
  const words = messages.parts[part];
  const { heads } = messages;
  const entries = formula.entries.flatMap((entry, at) => (entry.part === part ? [{ entry, at }] : []));
  const wrong = problemsOf(answer).filter((one) => partOf(one) === part);
  const blendOf = (id: string): Blend | undefined => formula.blends.find((blend) => blend.entries.includes(id));
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {entries.length === 0 ? null : (
        <table className={on('table entries')}>
          <thead>
            <tr>
              <Head name={words.thing} />
              <Head name={heads.amount} />
              <Head name={heads.weight} unit={massHead(display)} n />
              {part === 'fat' ? (
                <>
                  <Head name={heads.value} unit="mg KOH/g" n />
                  <Head name={heads.takes} unit={massHead(display)} n wide />
                </>
              ) : (
                <>
                  <Head name={heads.share} unit={messages.ofBatter} n wide />
                  <Head name={heads.tolerance} unit={`± ${massHead(display)}`} n wide />
                </>
              )}
              <Head name={heads.remove} unseen />
            </tr>
          </thead>
          <tbody>
            {part === 'fragrance' ? formula.blends.map((blend, at) => <BlendRow key={blend.id} blend={blend} at={at} />) : null}
            {entries.map(({ entry, at }) => (
              <EntryRow key={entry.id} entry={entry} at={at} blended={blendOf(entry.id) !== undefined} giveWay={giveWay} />
            ))}
          </tbody>
          {part === 'fat' && plan !== null ? (
            <tfoot>
              <tr>
                <th scope="row">{messages.all}</th>
                <Blank />
                <td className={on('n')}>
                  <Figure of="fats">{gramsText(plan.figures.fats, display)}</Figure>
                </td>
                <Blank />
                <td className={on('n wide')}>
                  <Figure of="fat-demand">{massCell(Math.round(1000 * M_NAOH * plan.figures.fatDemandMoles), 10, display, 0).text}</Figure>
                </td>
                <Blank />
              </tr>
              <SlipRow ids={['fats', 'fat-demand']} columns={COLUMNS} />
            </tfoot>
          ) : null}
        </table>
      )}
      {wrong.map((one) => (
        <p key={one.code} className={on('warn')}>
          {problemText(one)}
        </p>
      ))}
      {part === 'fragrance' ? <FragranceLimits /> : null}
      {part === 'fat' && mayGiveWay(formula) ? (
        <p className={on('gap')}>
          <label>
            <input type="checkbox" checked={giveWay} onChange={(event) => setGiveWay(event.target.checked)} /> {messages.giveWay}
          </label>
        </p>
      ) : null}
      <div className={on('acts')}>
        <button type="button" className={on('act')} onClick={() => change(withAnother(formula, part), `add.${part}`)}>
          {words.add}
        </button>
        {part === 'fragrance' ? <MakeBlend /> : null}
        {part === 'fat' && entries.length > 0 ? <OtherMeasure /> : null}
      </div>
    </PaperSection>
  );
}
