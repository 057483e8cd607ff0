/** What stands on an empty bench: one part to fetch. */
export { HowItGoes } from './how-it-goes';
export { LotChoice, Start } from './start';
