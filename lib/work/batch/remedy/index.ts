export type * from './types';
export type * from './facts';
export type * from './calls';
export { NO_FACTS, remedyQuestion } from './facts';
export { checkRemedy } from './check';
export { stockAtHand, stockByBooks } from './at-hand';
export { smallestOn } from './smallest';
