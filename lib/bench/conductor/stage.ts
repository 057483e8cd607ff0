import type { InstrumentId, VesselId } from '#lib/units/id';
import { gapAfter, span } from '#lib/measure/readings/settle';
import { RECOGNISED_WITHIN } from '#lib/work/batch/alike';
import type { BatchState, LineState, Want } from '#lib/work/batch/index';
import type { BenchView, ScaleView } from '../conductor-types';
import type { BlockReason, Card, CuePhase, DoubtReason, JoiningCue, PortionCue } from '../cue';
import type { CardCode, GoOnCode, PourCardCode, SayCode } from '../codes';
import type { RemedyKind } from '#lib/work/batch/remedy/types';
import type { ConductorMemory, ScaleMemory, Working } from './memory';

/** One step under way: the copy of the memory it works on, and what it has come to want. */
export interface Stage {
  readonly memory: Working<ConductorMemory>;
  readonly view: BenchView;
  readonly now: number;
  readonly wants: Want[];
  /** The scale that has just spoken; `null` on any other event. */
  readonly heard: InstrumentId | null;
}

/** A stage with an armed batch. */
export interface Scenery extends Stage {
  readonly batch: BatchState;
}

/** A card with what taking it does. */
export interface Choice {
  readonly card: Card & { readonly code: CardCode | PourCardCode | RemedyKind };
  take(): void;
}

/** A sentence for the voice; said once for each `key`. */
export interface Words {
  readonly key: string;
  readonly code: SayCode;
  readonly params: Readonly<Record<string, string | number>>;
}

/** What the bench shows and what a press would do now. A press acts on this and on nothing else. */
export interface Scene {
  readonly phase: CuePhase;
  readonly block?: BlockReason | null;
  readonly doubts?: readonly DoubtReason[];
  readonly choices?: readonly Choice[];
  readonly goOn?: { readonly code: GoOnCode; readonly hold: boolean; act(): void } | null;
  readonly back?: () => void;
  readonly gate?: { readonly gate: 'hydroxide' | 'cold-liquid'; readonly items: readonly string[] } | null;
  readonly joining?: JoiningCue;
  readonly portion?: PortionCue;
  readonly line?: LineState | null;
  readonly vessel?: VesselId | null;
  readonly instrument?: InstrumentId | null;
  readonly offerSince?: number | null;
  /** What is to be taken out of the vessel, and how much is: mg. */
  readonly takeOut?: { readonly target: number; readonly tolerance: number; readonly taken: number | null };
  readonly say?: Words | null;
}

export const scaleOf = (view: BenchView, line: LineState): ScaleView | null =>
  view.scales.find((scale) => scale.role === line.plan.scale) ?? null;

export const scaleMemory = (stage: Stage, id: InstrumentId): ScaleMemory | null => stage.memory.scales[id] ?? null;

export const setScale = (stage: Stage, id: InstrumentId, change: Partial<ScaleMemory>): void => {
  const before = stage.memory.scales[id];
  if (before !== undefined) stage.memory.scales = { ...stage.memory.scales, [id]: { ...before, ...change } };
};

/** How closely this scale tells two settled weights apart, mg. */
export const within = (scale: ScaleMemory): number => Math.max(2 * scale.track.division, span(scale.track));

/** How closely a vessel or bottle set down again must read what it is known by, mg. */
export const recognisedWithin = ({ track }: ScaleMemory): number => Math.max(RECOGNISED_WITHIN, 3 * track.division);

/** Silence beyond the scale's usual rhythm: nothing is accepted, and a pour is told to hold. */
export const isLate = (scale: ScaleMemory, now: number): boolean => {
  const last = scale.track.times.at(-1);
  return last === undefined || now - last > gapAfter(scale.track);
};

const ASK_AGAIN = 1000;

/** Wants something once: not again with every frame while the record has not answered. */
export const wantOnce = (stage: Scenery, key: string, want: Want): void => {
  const { asked } = stage.memory;
  if (asked !== null && asked.key === key && asked.version === stage.batch.version && stage.now - asked.at < ASK_AGAIN) return;
  stage.memory.asked = { key, version: stage.batch.version, at: stage.now };
  stage.wants.push(want);
};
