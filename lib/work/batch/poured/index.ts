export type * from './basis';
export type * from './types';
export { asPoured, lyeVerdict, POURED_METHOD } from './as-poured';
export { potOf } from './pot';
