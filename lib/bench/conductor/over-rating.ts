import type { ProbeUse } from '#lib/measure/reading';
import { hottestSaid } from '#lib/work/batch/cooled';
import { overRating } from '#lib/work/batch/over-rating';
import { closedChoice } from './choices';
import type { Scene, Scenery } from './stage';

/** What a fresh probe says; `null`: none does. */
export const probeValue = ({ view }: Pick<Scenery, 'view'>, use: ProbeUse) =>
  view.probes.find((probe) => probe.use === use && probe.freshness === 'fresh')?.value ?? null;

/** Hydroxide that would heat the lye beyond what its jug is made for: a closed card with both figures. `null`: nothing locks it. */
export const overRatingScene = (stage: Scenery): Scene | null => {
  const { batch, view, now } = stage;
  const lye = probeValue(stage, 'lye');
  const over = overRating(batch, hottestSaid(batch, { lye, boot: view.boot ?? batch.boot, mono: now }));
  if (over === null) return null;
  const params = { peak: over.peak, rating: over.rating };
  const say = { key: 'over-rating', code: 'card', params: { ...params, card: 'over-rating' } } as const;
  return { phase: 'gate', choices: [closedChoice('over-rating', params, null)], say };
};
