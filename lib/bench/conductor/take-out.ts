import type { InstrumentId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import type { BatchState, Weighed } from '#lib/work/batch/index';
import { asideMark } from '#lib/work/batch/remedy/aside-mark';
import type { RemedyAct } from '#lib/work/batch/remedy/types';
import { weighedFrom } from './accept';
import { hindrance } from './hinder';
import { scaleMemory, within, type Scene, type Scenery } from './stage';

/** Where the vessel stood when its weight was last known. */
interface Stood {
  readonly instrument: InstrumentId;
  readonly gross: number;
}

const stoodOf = (batch: BatchState, act: RemedyAct): Stood | null => {
  const standing = batch.vessels[act.vessel]?.standing ?? null;
  if (standing === null || batch.pans[standing.instrument]?.vessel !== act.vessel) return null;
  return standing;
};

/**
 * The chosen way out is done by hand: what leaves is measured by what its vessel loses on the pan, and taken with a hold. A vessel that
 * stands on no scale, or one that is not heard, leaves a person's word. The tolerance is that of the scale alone: less or more is told
 * by the record, not refused.
 */
export const takeOutScene = (stage: Scenery, act: RemedyAct): Scene => {
  const name = stage.batch.vessels[act.vessel]?.plan.name ?? '';
  const say = {
    key: `take-out ${stage.batch.version}`,
    code: 'take-out',
    params: { vessel: name, mass: act.mass, kind: act.kind, ...(act.kind === 'split-off' ? { mark: asideMark(stage.batch) } : {}) },
  } as const;
  const scene = { phase: 'take-out', vessel: act.vessel, line: 'line' in act ? (stage.batch.lines[act.line] ?? null) : null, say } as const;
  const byWord = { ...scene, goOn: { code: 'done-by-hand', hold: true, act: () => done(stage, null) } } as const;
  // What is poured on, or never was in, shows on no scale.
  const stood = act.kind === 'finish-pour' || act.kind === 'leave' ? null : stoodOf(stage.batch, act);
  const view = stood === null ? undefined : stage.view.scales.find(({ id }) => id === stood.instrument);
  const scale = stood === null ? null : scaleMemory(stage, stood.instrument);
  if (stood === null || view === undefined || scale === null || hindrance(stage, view, scale) !== null) return byWord;
  const newest = scale.track.masses.at(-1);
  const tolerance = within(scale);
  const takeOut = { target: act.mass, tolerance, taken: newest === undefined ? null : stood.gross - newest };
  const weighed = weighedFrom(stage.batch, stood.instrument, scale, mg(stood.gross), -1);
  const on = { ...scene, instrument: stood.instrument, takeOut } as const;
  if (weighed === null) return on;
  if (weighed.net <= tolerance) return { ...on, goOn: { code: 'left-in', hold: true, act: () => done(stage, null, true) } };
  return { ...on, goOn: { code: 'taken-out', hold: true, act: () => done(stage, weighed) } };
};

const done = (stage: Scenery, weighed: Weighed | null, leave = false): void =>
  void stage.wants.push({ kind: 'do-remedy-act', body: { weighed, held: true, ...(leave ? { leave } : {}) } });
