import type { HoldReason } from './entries';

/** Every reason for which joining can be held and overridden: a new one does not compile until it stands here. */
export const HOLD_REASONS: Readonly<Record<HoldReason, true>> = {
  'lye-too-hot': true,
  'lye-too-cold': true,
  'oils-too-hot': true,
  'oils-near-setting': true,
  'milk-too-hot': true,
  apart: true,
  'temperature-unknown': true,
  'may-be-lye-heavy': true,
};

export const isHoldReason = (text: string): text is HoldReason => Object.hasOwn(HOLD_REASONS, text);
