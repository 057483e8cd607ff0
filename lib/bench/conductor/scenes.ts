import type { InstrumentId } from '#lib/units/id';
import type { VesselPlan } from '#lib/work/batch/index';
import { openOverScene, questionScene, wrongScene } from './answers';
import { awayScene } from './away';
import { joinedScene, joiningScene } from './joining';
import { watchStand } from './lift';
import { lineScene } from './line';
import { followProbes } from './probe';
import { needsResume } from './record';
import { resumeScene } from './resume';
import type { Scene, Scenery, Words } from './stage';
import { takeOutScene } from './take-out';

/** What the bench is about now. A jug weighed by its loss is not followed meanwhile: it is looked at anew. */
export const sceneNow = (stage: Scenery): Scene => {
  const scene = sceneOf(stage);
  const { job } = stage.memory;
  if (scene.phase === 'pouring-moulds') return scene;
  stage.memory.closing = false;
  if (job !== null && job.zero !== null && !job.off) stage.memory.job = { ...job, off: true };
  return scene;
};

/** First what only a person can answer, then the work. */
const sceneOf = (stage: Scenery): Scene => {
  const { batch } = stage;
  if (batch.status === 'closed') return { phase: 'done', say: endedWords(stage, 'closed') };
  if (batch.status === 'parked') return { phase: 'idle', say: endedWords(stage, 'parked') };
  if (batch.status === 'abandoned') return { phase: 'idle', say: endedWords(stage, 'stopped') };
  if (needsResume(stage)) return resumeScene(stage);
  if (batch.away !== null) return awayScene(stage, batch.away);
  if (batch.question !== null) return questionScene(stage, batch.question);
  if (batch.over !== null) return openOverScene(stage, batch.over);
  const [act] = batch.toDo;
  if (act !== undefined) return takeOutScene(stage, act);
  const wrong = batch.wrong === null ? null : wrongScene(stage, batch.wrong);
  if (wrong !== null) return wrong;
  if (batch.status === 'joined') return joinedScene(stage, (line) => lineScene(stage, line));
  const line = batch.open === null ? undefined : batch.lines[batch.open];
  if (line !== undefined) return lineScene(stage, line);
  return joiningScene(stage);
};

/** Told where it was led to its end here: a start that finds it ended has nothing to tell. */
const endedWords = ({ batch, memory }: Scenery, code: 'closed' | 'parked' | 'stopped'): Words | null =>
  memory.said === '' ? null : { key: `${code} ${batch.id}`, code, params: { mark: batch.mark } };

/** Keeps an eye on what stands on the pans already, whatever is being weighed now. */
export const watch = (stage: Scenery): void => {
  const { batch } = stage;
  const working = batch.status === 'weighing' || batch.status === 'joined';
  if (!working || needsResume(stage)) return;
  followProbes(stage, standingVessels(stage));
  // What is being taken out lightens what stands there: no question.
  if (batch.away !== null || batch.question !== null || batch.toDo.length > 0) return;
  if (stage.heard !== null) watchStand(stage, stage.heard);
};

const standingVessels = ({ batch }: Scenery): readonly VesselPlan[] =>
  (Object.keys(batch.pans) as InstrumentId[]).flatMap((id) => {
    const pan = batch.pans[id];
    const vessel = pan === undefined || batch.lines[pan.line]?.plan.mode === 'loss' ? undefined : batch.vessels[pan.vessel];
    return vessel === undefined ? [] : [vessel.plan];
  });
