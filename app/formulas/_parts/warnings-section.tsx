'use client';
import type { Planned } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { PaperSection } from '../../_ui/section';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { warningText } from '../messages-warnings';
import { useSheet } from './use-sheet';
import { Figure, SlipRow } from './workings';

const ORDER = { must: 0, mind: 1, note: 2 } as const;

/** What a maker should know before anything is weighed, the gravest first, each with its reason. */
export function WarningsSection() {
  const { plan } = useSheet();
  return plan === null ? null : <WarningsOf plan={plan} name={messages.warnings.title} />;
}

/** The same of a plan in another size or of other lots. */
export function WarningsOf({ plan, name }: { readonly plan: Planned; readonly name: string }) {
  const display = useDisplay();
  const { warnings: words, grades } = messages;
  const all = plan.warnings.toSorted((a, b) => ORDER[a.level] - ORDER[b.level]);
  return (
    <div className={on('minded')}>
      <PaperSection name={name} note={<p>{plan.mayStart ? words.note.none : words.note.must}</p>}>
        {all.length === 0 ? (
          <p>{words.nothing}</p>
        ) : (
          <table className={on('table')}>
            <tbody>
              {all.map((one, at) => (
                // The same may be said of two things.
                // oxlint-disable-next-line react/no-array-index-key
                <Rows key={`${one.code} ${at}`} ids={one.derivation === null ? [] : [one.derivation]}>
                  <th scope="row" className={on('level')}>
                    <b className={one.level === 'must' ? on('warn') : undefined}>{words.levels[one.level]}</b>
                  </th>
                  <td>
                    {warningText(one, display)} {one.derivation === null ? null : <Figure of={one.derivation}>{words.workings}</Figure>}
                  </td>
                  <td className={on('dim wide')}>
                    {one.because.text} · {grades[one.because.grade]}
                  </td>
                </Rows>
              ))}
            </tbody>
          </table>
        )}
      </PaperSection>
    </div>
  );
}

function Rows({ ids, children }: { readonly ids: readonly string[]; readonly children: React.ReactNode }) {
  return (
    <>
      <tr>{children}</tr>
      <SlipRow ids={ids} columns={3} />
    </>
  );
}
