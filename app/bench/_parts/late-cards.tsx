/** Everything that is chosen by card, and what is said: one part to fetch. */
export { aloud } from './aloud';
export { ByHand } from './by-hand';
export { Cards } from './cards';
export { Ways } from './ways';
export { Whither } from './whither';
