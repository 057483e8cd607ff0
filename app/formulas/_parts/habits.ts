import type { Formula } from '#lib/work/formula/index';
import { numberOf } from '#lib/work/formula/index';
import type { Habits } from '#lib/work/shelf/documents';
import { shelfApi } from '../../_ui/shelf-api';

/** What was asked once: the first superfat and strength of lye kept are remembered as this maker's own, for the next new formula. */
export const rememberWishes = async ({ wishes }: Formula, habits: Habits): Promise<void> => {
  const superfat = habits.superfat ?? (wishes.superfat !== null && numberOf(wishes.superfat) !== null ? wishes.superfat : null);
  const said = wishes.lye !== null && numberOf(wishes.lye.kind === 'ratio' ? wishes.lye.water : wishes.lye.percent) !== null;
  const lye = habits.lye ?? (said ? wishes.lye : null);
  if (superfat === habits.superfat && lye === habits.lye) return;
  const there = await shelfApi.list('habits');
  if (!there.ok) return;
  const version = there.value.items.find(({ id }) => id === 'maker')?.version ?? 0;
  // Changed elsewhere meanwhile: theirs counts, and nothing of the formula hangs on it.
  await shelfApi.put('habits', 'maker', version, { ...habits, superfat, lye });
};
