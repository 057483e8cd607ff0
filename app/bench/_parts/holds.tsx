'use client';
import type { JoiningCue } from '#lib/bench/cue';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { useFrame } from '../../_ui/frame';
import type { Frame } from '../../_ui/frame';
import { messages } from '../messages';
import { temperatureMessages } from '../messages-temperatures';
import styles from '../work.module.css';
import { firstAct, headline } from './expected';
import { PotLine } from './pot-line';
import { showIn } from './words';

/** Holds beside which there is room for the meeting. */
const ROOM: Readonly<Record<Frame, number>> = { wide: 4, small: 2, phone: 0 };

/** When they meet, and everything that holds joining, or advises against it, with its figure and its limit. */
export function Holds() {
  const holds = useLive(see.joining)?.holds ?? [];
  const computed = useLive(({ batch }) => batch?.plan.basis?.poured !== undefined);
  const display = useDisplay();
  const show = showIn(display, null);
  const frame = useFrame();
  const meeting = useLive((state) => see.forecast(state)?.meeting ?? null);
  const swapped = useLive((state) => see.forecast(state)?.swapped ?? false);
  const meets = meeting?.kind === 'meeting' && meeting.when.kind !== 'met' ? meeting : null;
  const figures = ({ reason, value, limit }: JoiningCue['holds'][number]): string => {
    if (value === null || limit === null) return '';
    if (reason === 'may-be-lye-heavy') return messages.joining.asLowAs(show.share(value));
    const write = reason === 'apart' ? show.difference : show.temperature;
    return temperatureMessages.holds.figures(write(value), write(limit));
  };
  const expected = meets === null || holds.length > ROOM[frame] ? null : meets;
  const above = (swapped ? 1 : 0) + (expected === null ? 0 : 1);
  const list = (
    <ul className={styles['holds']}>
      {swapped ? (
        <li data-expected="swapped" data-hold="hold">
          <b>{temperatureMessages.swapped.what}</b>
          <span>{temperatureMessages.swapped.so}</span>
        </li>
      ) : null}
      {expected === null ? null : (
        <li key={`meeting ${swapped}`} data-expected="meeting">
          <b>{headline(expected)}</b>
          <span>{firstAct(expected, display)}</span>
        </li>
      )}
      {holds.map((hold) => (
        // Below another row it is another element: nothing moves.
        <li key={`${above} ${hold.reason}`} data-hold={hold.overridden ? 'overridden' : hold.level}>
          <b>{hold.reason === 'lye-too-hot' && hold.limit === null ? messages.acts.lyeHeats : messages.holds[hold.reason]}</b>
          <span>{figures(hold)}</span>
          <span>
            {hold.overridden ? temperatureMessages.holds.overridden : hold.level === 'advise' ? temperatureMessages.holds.advice : ''}
          </span>
        </li>
      ))}
    </ul>
  );
  const room = frame === 'wide' && holds.length + (expected === null ? 0 : 1) < ROOM.wide;
  if (!computed || !room) return list;
  return (
    <>
      {list}
      <div className={styles['beside']}>
        <PotLine />
      </div>
    </>
  );
}
