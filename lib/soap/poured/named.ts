import type { Cause } from '../superfat-spread';
import type { Belief, MassError, WidthPart } from './types';

/** A cause of doubt and whose it is: of a believed value or of an error of masses. */
export interface Named extends Cause, Pick<WidthPart, 'what' | 'of' | 'name'> {
  readonly belief: Belief | null;
  readonly error: MassError | null;
}
