import { upcasting } from '../stored';
import type { BarsEntry } from './entries';
import { BODIES } from './upcast/bodies';

/** A stored value to the entry of a bar lot that it is; the lines of one lot to its entries. */
export const { upcast, upcastLines } = upcasting<BarsEntry>(BODIES);
