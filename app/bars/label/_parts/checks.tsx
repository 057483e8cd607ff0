import type { LabelPage } from '#lib/protocol/label';
import type { Asked } from '#lib/work/label/checklist';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';

/** What is asked of a label here and there, and whether this one has it. */
export function Checks({ label }: { readonly label: LabelPage }) {
  const { checks: words } = messages;
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <Rows title={words.eu} rows={label.eu} />
      <Rows title={words.us} rows={label.us} />
      <p className={on('gap')}>{words.exemption}</p>
    </PaperSection>
  );
}

const stateWords = ({ what, state }: Asked): string => {
  const { checks: words } = messages;
  return what === 'soap-exemption' ? words.exempt[state] : words.states[state];
};

/** An article is not parted from its number. */
const unbroken = (source: string): string => source.replaceAll('Art. ', 'Art.\u00A0');

function Rows({ title, rows }: { readonly title: string; readonly rows: readonly Asked[] }) {
  const { checks: words } = messages;
  return (
    <>
      <h3 className={on('gap')}>{title}</h3>
      <table className={on('table gap')}>
        <thead>
          <tr>
            <Head name={words.heads.what} />
            <Head name={words.heads.state} />
            <Head name={words.heads.source} wide />
          </tr>
        </thead>
        <tbody>
          {rows.map((one) => (
            <tr key={one.what} data-asked={one.what} data-state={one.state}>
              <td>{words.asked[one.what]}</td>
              <td>{one.state === 'missing' ? <b>{stateWords(one)}</b> : stateWords(one)}</td>
              <td className={on('wide')}>{unbroken(one.source.grade === 'memory' ? words.memory(one.source.text) : one.source.text)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
