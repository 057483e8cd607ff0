import type { Display } from '#lib/units/display';
import { shareText } from '#lib/units/format';
import type { BatchReview } from '#lib/work/batch/index';
import { pouredWords } from './messages-poured';

/** What the batch comes to with what was put right, in sentences; none where nothing was, or where it cannot be worked out. */
export const correctedWords = (
  poured: BatchReview['poured'],
  display: Display,
): { readonly now: string; readonly heavy: string | null } | null => {
  const superfat = poured.kind === 'figures' ? poured.corrected?.superfat : undefined;
  if (poured.kind !== 'figures' || superfat == null) return null;
  const share = (millionths: number): string => shareText(millionths, display);
  // The value the table of results shows, not the mean.
  const { working, low, high } = superfat;
  const before = poured.result.superfat;
  return {
    now: pouredWords.corrected(share(working), share(low), share(high), before === null ? pouredWords.unknown : share(before.working)),
    heavy: low < 0 ? pouredWords.heavy : null,
  };
};
