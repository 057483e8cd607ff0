import type { InstrumentId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { settledFrame } from '#lib/measure/readings/settle';
import { choice } from './choices';
import { stopScene } from './stop';
import { within, scaleOf, type Scene, type Scenery } from './stage';

/** One press keeps line, weight and temperatures and blocks acceptance. */
export const goAway = (stage: Scenery): void => {
  stage.memory.returning = false;
  if (stage.batch.away === null) stage.wants.push({ kind: 'go-away', body: {} });
};

/** Nobody is there. One press comes back; the pan is compared with how it was left before anything goes on. */
export const awayScene = (stage: Scenery, away: { readonly gross: number | null }): Scene => {
  const line = stage.batch.open === null ? undefined : stage.batch.lines[stage.batch.open];
  const view = line === undefined ? null : scaleOf(stage.view, line);
  const at = { line: line ?? null, vessel: line?.plan.vessel ?? null, instrument: view?.id ?? null };
  const come = (): void => comeBack(stage, view?.id ?? null, away.gross);
  const goOn = { code: 'come-back', hold: false, act: come } as const;
  if (!stage.memory.returning) return { ...at, phase: 'away', goOn, say: { key: 'away', code: 'away', params: {} } };
  const scale = view === null ? undefined : stage.memory.scales[view.id];
  if (line !== undefined && view !== null && scale !== undefined && scale.stop !== null) {
    return { ...at, ...stopScene(stage, line, view, scale, scale.stop) };
  }
  const now = view === null ? null : settledGross(stage, view.id);
  const gone = view === null || view.freshness === 'lost';
  if (now === null && away.gross !== null && !gone) return { ...at, phase: 'returning' };
  if (isSame(stage, view?.id ?? null, away.gross, now)) return { ...at, phase: 'returning', goOn };
  const params = { was: away.gross ?? 0, now: now ?? 0 };
  const accept = (): void => void stage.wants.push({ kind: 'come-back', body: { gross: now === null ? null : mg(now), accept: true } });
  const putRight = (): void => {
    stage.memory.returning = false;
  };
  return {
    ...at,
    phase: 'returning',
    choices: [choice('return-accept', params, true, accept), choice('return-put-right', params, false, putRight)],
    say: { key: `returning ${params.was} ${params.now}`, code: 'question', params },
  };
};

const settledGross = (stage: Scenery, id: InstrumentId): number | null => {
  const scale = stage.memory.scales[id];
  return scale === undefined || scale.stop !== null ? null : (settledFrame(scale.track)?.gross ?? null);
};

const isSame = (stage: Scenery, id: InstrumentId | null, was: number | null, now: number | null): boolean => {
  const scale = id === null ? undefined : stage.memory.scales[id];
  if (was === null || now === null || scale === undefined) return was === null;
  return Math.abs(was - now) <= within(scale);
};

const comeBack = (stage: Scenery, id: InstrumentId | null, was: number | null): void => {
  stage.memory.returning = true;
  const now = id === null ? null : settledGross(stage, id);
  if (!isSame(stage, id, was, now)) return;
  const scale = id === null ? undefined : stage.memory.scales[id];
  const limit = scale === undefined ? {} : { within: mg(Math.round(within(scale))) };
  stage.wants.push({ kind: 'come-back', body: { gross: was === null || now === null ? null : mg(now), accept: was === null, ...limit } });
};
