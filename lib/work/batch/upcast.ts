import { upcasting } from '../stored';
import type { Entry } from './entries';
import { BODIES } from './upcast/bodies';

/** A stored value to the entry of a batch that it is, in the newest version; the lines of one batch to its entries. See `upcasting`. */
export const { upcast, upcastLines } = upcasting<Entry>(BODIES);
