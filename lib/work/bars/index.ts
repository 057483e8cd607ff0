export type * from './entries';
export type * from './commands';
export type * from './state';
export type { BarsSummary } from './summary';
export { barsIdOf, isAboutBars, isBarsId } from './ids';
export { decide, type BarsDecision } from './decide/index';
export { evolve, fold } from './evolve/index';
export { summaryOf } from './summary';
