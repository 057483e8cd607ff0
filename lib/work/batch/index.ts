export type * from './plan';
export type * from './entries';
export type * from './commands';
export type * from './state';
export type * from './later/types';
export type * from './joining';
export { BATCH_STATUSES } from './state';
export { decide, roleMay, type Begins, type Decision } from './decide/index';
export { evolve, fold, BrokenHistory } from './evolve/index';
export { toEntry } from './complete';
export { joiningHolds, mayJoin, oilsLowest, withTyped } from './joining';
export { isRed } from './red';
export { verdictOf, type Verdict } from './verdict';
export { RECOGNISED_WITHIN, UNSTATED_WITHIN } from './alike';
export { PRECAUTIONS } from './precautions';
export type {
  BatchReview,
  ReviewCheck,
  ReviewContribution,
  ReviewJoining,
  ReviewLine,
  ReviewPoured,
  StoryCode,
  StoryEvent,
} from './review';
export type { BatchSummary } from './summary';
