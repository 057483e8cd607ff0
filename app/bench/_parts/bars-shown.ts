import type { BarsCue } from '#lib/bench/bars/types';
import { figureText, massFigure } from '#lib/units/format';
import type { LiveState } from '../../_live/store';
import { barsMessages } from '../messages-bars';
import type { Show } from './number-shown';

export const barsCue = ({ frame }: LiveState): BarsCue | null => frame?.bars ?? null;

/** The scale a round is weighed on. */
export const barsScale = (state: LiveState) => state.frame?.scales.find(({ id }) => id === barsCue(state)?.scale) ?? null;

/** What lies on the pan beyond what it reads free; none while it was not seen free, or nothing fresh stands there. */
export const shownBar: Show = (state, display) => {
  const [cue, scale] = [barsCue(state), barsScale(state)];
  if (cue === null || cue.zero === null || scale?.gross == null) return null;
  const figure = massFigure(scale.gross - cue.zero, display, scale.division);
  return { figure, room: 3, word: barsMessages.number.word, label: barsMessages.number.spoken(figureText(figure)) };
};

/** What the bar is called. */
export const barName = ({ for: purpose, bar, done }: Pick<BarsCue, 'for' | 'bar' | 'done'>): string =>
  purpose === 'mass' ? barsMessages.mass : barsMessages.bar(bar, done + 1);
