'use client';
import type { UnmouldNoted } from '#lib/work/bars/index';
import { shareText, temperatureText } from '#lib/units/format';
import { milliCelsiusOf } from '#lib/units/temperature';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { on } from '../../_ui/classes';
import { TextField } from '../../_ui/fields';
import { MeasuredQuantity } from '../../_ui/figures';
import { conditionWords as words } from '../messages-unmould';
import { lotMessages } from '../messages-lot';
import { isUnread, numberIn } from './cut-model';

export interface RoomTyped {
  readonly room: string;
  readonly humidity: string;
}
export const NO_ROOM: RoomTyped = { room: '', humidity: '' };

const THOUSAND = 1000;
const PERCENT = 10_000;

/** As the record has it; what cannot be read is not said. */
export const roomOf = ({ room, humidity }: RoomTyped, unit: 'C' | 'F'): { readonly room: number | null; readonly humidity?: number } => {
  const [degrees, percent] = [numberIn(room), numberIn(humidity)];
  return {
    room: degrees === null ? null : milliCelsiusOf(Math.round(degrees * THOUSAND), unit),
    ...(percent === null ? {} : { humidity: Math.round(percent * PERCENT) }),
  };
};

interface Props {
  readonly id: string;
  readonly typed: RoomTyped;
  readonly onTyped: (typed: RoomTyped) => void;
}

/** The room beside an answer: from its probe while that is fresh, else by hand where somebody likes to. */
export function Conditions({ id, typed, onTyped }: Props) {
  const display = useDisplay();
  const probe = useLive((state) => see.room(state)?.value ?? null);
  const field = (key: keyof RoomTyped, label: string) => (
    <TextField
      id={`${key}-${id}`}
      label={label}
      value={typed[key]}
      error={isUnread(typed[key]) ? lotMessages.notes.number : ''}
      numeric
      onChange={(value) => onTyped({ ...typed, [key]: value })}
    />
  );
  return (
    <>
      {probe === null ? null : (
        <p className={on('dim')}>
          {words.probe.before} <MeasuredQuantity text={temperatureText(probe, display)} />
          {words.probe.after}
        </p>
      )}
      <details>
        <summary className={on('link')}>{probe === null ? words.ask : words.askHumidity}</summary>
        <div className={on('form gap')}>
          {probe === null ? field('room', words.room(display.temperature)) : null}
          {field('humidity', words.humidity)}
        </div>
      </details>
    </>
  );
}

/** The room as it was at an answer: an instrument's word in its own face. */
export function RoomThen({ noted }: { readonly noted: Pick<UnmouldNoted, 'room' | 'humidity' | 'probe'> }) {
  const display = useDisplay();
  const { room, humidity, probe } = noted;
  const degrees = room === null ? null : temperatureText(room, display);
  return (
    <>
      {degrees === null ? null : probe === undefined ? degrees : <MeasuredQuantity text={degrees} />}
      {humidity === undefined ? null : `${degrees === null ? '' : ', '}${words.damp(shareText(humidity, display, 0))}`}
    </>
  );
}
