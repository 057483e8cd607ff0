import type { Card, Say } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import { textIn } from '../messages';
import type { Show } from '../messages';
import { cardText } from '../messages-cards';
import { sayText } from '../messages-codes';
import { wayText } from './way-words';

/** A sentence as it is read aloud; of a card as it stands on it, a way out with what comes of it. Empty: nobody knows its words. */
export const aloud = (
  { code, params }: Pick<Say, 'code' | 'params'>,
  cards: readonly Card[],
  batch: BatchState | null,
  show: Show,
): string => {
  if (code !== 'card') return sayText(code, params, show);
  const name = textIn(params, 'card');
  const way = cards.find((one) => one.code === name && one.remedy !== undefined);
  return way === undefined ? cardText(name, params, show) : wayText(way, batch, show);
};
