import type { Milligrams } from '#lib/units/mass';
import { grams, mg } from '#lib/units/mass';
import type { LinePlan } from './plan';

/** How closely two settled weights agree when nobody said what the scale can tell apart. Ours: two steps of a kitchen scale of 1 g. */
export const UNSTATED_WITHIN = grams(2);

/** A vessel is recognised by its empty mass within this. Ours: drops and a wiped film; keep two vessels further apart than twice this. */
export const RECOGNISED_WITHIN = grams(3);

/** So much of what a jug carried may cling to it when it was poured out, as a share. Ours; more is for a person to say. */
export const CLINGS = 0.1;

export const alike = (a: Milligrams, b: Milligrams, within: Milligrams): boolean => Math.abs(a - b) <= within;

/**
 * How far an accepted vessel may be from the mass it was accepted at: what the scale can tell apart, or three tenths of the
 * line's tolerance if that is more.
 */
export const shiftAllowed = (within: Milligrams | undefined, plan: LinePlan | undefined): Milligrams =>
  mg(Math.max(within ?? UNSTATED_WITHIN, Math.floor(((plan?.tolerance ?? 0) * 3) / 10)));
