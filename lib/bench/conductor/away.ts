import { mg } from '#lib/units/mass';
import { settledFrame } from '#lib/measure/readings/settle';
import type { ScaleView } from '../conductor-types';
import { choice } from './choices';
import { hindrance } from './hinder';
import { stopScene } from './stop';
import { within, scaleOf, type Choice, type Scene, type Scenery } from './stage';

/** One press keeps line, weight and temperatures and blocks acceptance. */
export const goAway = (stage: Scenery): void => {
  stage.memory.returning = false;
  if (stage.batch.away === null) stage.wants.push({ kind: 'go-away', body: {} });
};

/** Nobody is there. One press comes back; the pan is compared with how it was left before anything goes on. */
export const awayScene = (stage: Scenery, away: Away): Scene => {
  const line = stage.batch.open === null ? undefined : stage.batch.lines[stage.batch.open];
  const view = line === undefined || line.plan.mode === 'by-hand' ? null : scaleOf(stage.view, line);
  const at = { line: line ?? null, vessel: line?.plan.vessel ?? null, instrument: view?.id ?? null };
  const goOn = { code: 'come-back', hold: false, act: () => comeBack(stage, view, away) } as const;
  if (!stage.memory.returning) return { ...at, phase: 'away', goOn, say: { key: 'away', code: 'away', params: {} } };
  const scale = view === null ? undefined : stage.memory.scales[view.id];
  if (line !== undefined && view !== null && scale !== undefined && scale.stop !== null) {
    return { ...at, ...stopScene(stage, line, view, scale, scale.stop) };
  }
  const now = view === null ? null : settledGross(stage, view);
  if (isSame(stage, view, away, now)) return { ...at, phase: 'returning', goOn };
  const params = { ...(away.gross === null ? {} : { was: away.gross }), ...(now === null ? {} : { now }) };
  return {
    ...at,
    phase: 'returning',
    choices: returnChoices(stage, params, now),
    say: away.gross === null || now === null ? null : { key: `returning ${away.gross} ${now}`, code: 'question', params },
  };
};

type Away = NonNullable<Scenery['batch']['away']>;

const returnChoices = (stage: Scenery, params: Readonly<Record<string, number>>, now: number | null): readonly Choice[] => {
  const accept = (): void => {
    stage.wants.push({ kind: 'come-back', body: { gross: now === null ? null : mg(now), accept: true } });
    // Nothing stood still to be compared: what is weighed on from here is a person's to take.
    const { pour } = stage.memory;
    if (now === null && pour !== null) stage.memory.pour = { ...pour, doubts: [...new Set([...pour.doubts, 'return-unlike' as const])] };
  };
  const putRight = (): void => {
    stage.memory.returning = false;
  };
  return [choice('return-accept', params, true, accept), choice('return-put-right', params, false, putRight)];
};

/** What stands there now, believed: settled, and neither late nor lost. */
const settledGross = (stage: Scenery, view: ScaleView): number | null => {
  const scale = stage.memory.scales[view.id];
  if (scale === undefined || hindrance(stage, view, scale) !== null) return null;
  return settledFrame(scale.track)?.gross ?? null;
};

/** Where nothing is weighed there is nothing to compare. A pan that was left moving or unheard is never the same. */
const isSame = (stage: Scenery, view: ScaleView | null, { gross }: Away, now: number | null): boolean => {
  if (view === null) return true;
  const scale = stage.memory.scales[view.id];
  return gross !== null && now !== null && scale !== undefined && Math.abs(gross - now) <= within(scale);
};

const comeBack = (stage: Scenery, view: ScaleView | null, away: Away): void => {
  stage.memory.returning = true;
  const now = view === null ? null : settledGross(stage, view);
  if (!isSame(stage, view, away, now)) return;
  const scale = view === null ? undefined : stage.memory.scales[view.id];
  const limit = scale === undefined ? {} : { within: mg(Math.round(within(scale))) };
  const compared = view !== null && now !== null;
  stage.wants.push({ kind: 'come-back', body: { gross: compared ? mg(now) : null, accept: !compared, ...limit } });
};
