import { checkId } from '#lib/measure/probe/check';
import type { ProbeCheck } from '#lib/measure/probe/check';
import type { ProbeUse } from '#lib/measure/reading';
import type { InstrumentId } from '#lib/units/id';
import { calibrationFrom } from '../formula/index';
import type { Fill, Formula, Lot, Material, Mould, PlanContext, Preparation, Scale, WorkshopVessel } from '../formula/index';
import { NO_HABITS } from './documents';
import type { Habits, Prepared } from './documents';
import { lotFor } from './lot-for';
import { newest, standing, versionOf } from './shelf';
import type { Noun, Shelf } from './shelf';

/** What stands now of one kind. The documents were read by their schema before they were put. */
export const documentsOf = <T>(shelf: Shelf, noun: Noun): readonly T[] =>
  standing(shelf, noun).map(({ newest: { document } }) => document as unknown as T);

/** The one document of a kind that has no more than one; `null` until somebody has said something. */
export const makersOwn = <T>(shelf: Shelf, noun: Noun): T | null =>
  (newest(shelf, noun, 'maker')?.document as unknown as T | undefined) ?? null;

export const habitsOf = (shelf: Shelf): Habits => makersOwn<Habits>(shelf, 'habits') ?? NO_HABITS;

/** What is known of a probe in one place; `null`: it was never checked. */
export const probeCheckOf = (shelf: Shelf, instrument: InstrumentId, use: ProbeUse): ProbeCheck | null =>
  (newest(shelf, 'probe', checkId(instrument, use))?.document as unknown as ProbeCheck | undefined) ?? null;

/** Everything of this workshop that a plan is computed from, but the catalogue: of the materials the maker's own. */
export const contextOf = (shelf: Shelf, scales: readonly Scale[]): PlanContext => {
  const { pace, room, losses } = habitsOf(shelf);
  return {
    materials: documentsOf<Material>(shelf, 'material'),
    preparations: documentsOf<Preparation>(shelf, 'preparation'),
    lots: documentsOf<Lot>(shelf, 'lot'),
    moulds: documentsOf<Mould>(shelf, 'mould'),
    vessels: documentsOf<WorkshopVessel>(shelf, 'vessel'),
    scales,
    pace,
    room,
    losses,
    calibration: calibrationFrom(documentsOf<Fill>(shelf, 'fill')),
  };
};

/**
 * The formula a prepared batch asks for: the version named, in the size and from the lots chosen. `lots` chosen later, by entry, go before
 * those prepared. `null` when that version is not kept here.
 */
export const formulaFor = (shelf: Shelf, prepared: Prepared, lots: Readonly<Record<string, string>> = {}): Formula | null => {
  const kept = versionOf(shelf, 'formula', prepared.formula.id, prepared.formula.version);
  if (kept === null) return null;
  const formula = kept.document as unknown as Formula;
  const entries = formula.entries.map((entry) => ({ ...entry, lot: lots[entry.id] ?? lotFor(prepared.lots, entry) }));
  return { ...formula, version: kept.version, size: prepared.size ?? formula.size, entries };
};

/** Lots of a material that stand in the stores. */
export const lotsOf = (shelf: Shelf, material: string | null): readonly Lot[] =>
  documentsOf<Lot>(shelf, 'lot').filter((lot) => lot.material === material);
