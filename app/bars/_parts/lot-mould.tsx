'use client';
import { shortMoment } from '#lib/words/times';
import { hoursSince, isOut } from '#lib/work/bars/due';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import type { BarsThere } from '../../_ui/cure/use-bars';
import { Head } from '../../_ui/head';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useNow } from '../../_ui/use-now';
import { messages } from '../messages';
import { lotMessages } from '../messages-lot';
import { conditionWords } from '../messages-unmould';
import { RoomThen } from './conditions';
import { Answers, windowFor, windowWords } from './in-moulds';
import { CrossLast } from './cross-last';
import type { LotProps } from './lot-props';
import { Latest } from './latest';
import { UnmouldRule } from './unmould-rule';
import { useWant } from './use-want';
import { WindowBar } from './window-bar';

/** No bar comes of a log that never set or was torn to pieces; without a word of it its mould would be full for ever. */
const LOST = {
  kind: 'cut',
  cutter: { id: null, name: '', kind: 'none' },
  count: 0,
  ends: 0,
  testers: 0,
  thickness: null,
  log: null,
  mass: null,
} as const;

/** How long it has stood, what was answered so far, and until it is cut the hours it is expected to take. */
export function LotMould({ page: { row, state }, there, again }: LotProps & { readonly there: BarsThere }) {
  const now = useNow();
  const display = useDisplay();
  const { locale } = display;
  const wanting = useWant(row, again);
  const { mould } = lotMessages;
  const { moulds } = messages;
  const window = windowFor(row, there);
  const waits = row.cut === null && !isOut(row);
  if (!waits && state.unmould.length === 0) return null;
  return (
    <PaperSection name={mould.title} note={waits ? <p>{moulds.note}</p> : undefined}>
      {waits ? (
        <>
          <p>{windowWords(window, display)}</p>
          {now === null ? null : <WindowBar window={window} hours={hoursSince(row.poured, now)} />}
          <Answers row={row} onSaid={again} />
        </>
      ) : null}
      <Latest row={row} there={there} />
      {row.cut === null ? <UnmouldRule formula={row.formula.id} /> : null}
      {state.unmould.length === 0 ? null : (
        <table className={on('table gap')}>
          <caption className="unseen">{mould.history}</caption>
          <thead>
            <tr>
              <Head name={mould.answer} />
              <Head name={mould.at} unit={mould.unit} n />
              <Head name={conditionWords.head} />
              <Head name={lotMessages.story.heads.when} />
            </tr>
          </thead>
          <tbody>
            {state.unmould.map((one) => (
              <tr key={one.entry}>
                <td>{one.struck === null ? moulds.state[one.state] : <s>{moulds.state[one.state]}</s>}</td>
                <td className={on('n')}>{hoursSince(row.poured, one.wall)}</td>
                <td>
                  <RoomThen noted={one} />
                </td>
                <td>{shortMoment(one.wall, { offsetMin: one.offsetMin, locale })}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {row.cut === null ? (
        <p>
          <button type="button" className={on('link')} disabled={wanting.busy} onClick={() => void wanting.want(LOST)}>
            {mould.lost}
          </button>
        </p>
      ) : null}
      {/* Once it is cut the cut stands on the answer: that goes first. */}
      {row.cut === null ? (
        <CrossLast last={state.unmould.findLast(({ struck }) => struck === null)} wanting={wanting} words={mould.cross} />
      ) : null}
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </PaperSection>
  );
}
