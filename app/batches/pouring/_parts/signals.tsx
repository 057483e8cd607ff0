import type { ControlChart } from '#lib/work/history/chart';
import { on } from '../../../_ui/classes';
import { messages } from '../messages';
import { signalText } from './model';

interface Props {
  readonly chart: ControlChart;
  readonly marks: readonly string[];
  /** Whether jumps from one batch to the next are told too. */
  readonly ranges: boolean;
}

/** What the rules of a chart say, in words, for whoever does not see the picture and whoever wonders at it. */
export function Signals({ chart, marks, ranges }: Props) {
  const told = chart.signals.filter(({ rule }) => ranges || rule !== 'range-beyond');
  if (told.length === 0) return <p className={on('reading gap')}>{messages.signals.none}</p>;
  return (
    <div className={on('reading gap')}>
      {told.map((signal) => (
        <p key={`${signal.rule} ${signal.at}`} data-signal={signal.rule}>
          {signalText(signal, marks)}
        </p>
      ))}
    </div>
  );
}
