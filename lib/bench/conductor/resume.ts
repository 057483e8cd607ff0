import { choice } from './choices';
import { potOf } from '#lib/work/batch/pouring/places';
import type { BatchState, VesselState } from '#lib/work/batch/index';
import type { CardCode } from '../codes';
import type { Scene, Scenery } from './stage';

const CONTENTS = ['as-recorded', 'poured-more', 'emptied', 'unsure'] as const;

/** Between lines the pot is asked about: what holds the batter, before joining what holds most. */
const fullest = (batch: BatchState): VesselState | null =>
  potOf(batch) ?? Object.values(batch.vessels).toSorted((a, b) => b.contents - a.contents)[0] ?? null;

/** After a restart nobody but a person knows what is in the vessel: each answer is held, and none is chosen beforehand. */
export const resumeScene = (stage: Scenery): Scene => {
  const line = stage.batch.open === null ? null : (stage.batch.lines[stage.batch.open] ?? null);
  const asked = line === null ? fullest(stage.batch) : (stage.batch.vessels[line.plan.vessel] ?? null);
  const vessel = asked?.plan.id;
  // Emptied before joining, every one of these begins again; after it nothing in the batter can be told apart.
  const inside = Object.values(stage.batch.lines).filter(({ contributions }) =>
    contributions.some((one) => one.vessel === vessel && one.struck === null && one.net !== 0),
  );
  const params = {
    material: line?.plan.material.name ?? '',
    actual: line?.actual ?? 0,
    vessel: asked?.plan.name ?? '',
    lines: stage.batch.joined === null ? inside.length : 0,
  };
  const choices = CONTENTS.map((contents) =>
    choice(`resume-${contents}` satisfies CardCode, params, true, () => {
      stage.wants.push({ kind: 'resume', body: { contents, note: '', held: true } });
    }),
  );
  return {
    phase: 'resume',
    line,
    vessel: vessel ?? null,
    choices,
    say: { key: `resume ${stage.batch.resumedInBoot}`, code: 'resume', params },
  };
};
