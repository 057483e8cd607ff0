import type { Derivation } from '../derivation';
import type { Believed } from '../interval';
import type { Planning } from '../warnings/index';
import { alkaliDerivations } from './alkali';
import { lineDerivations } from './lines';
import { wholeDerivations } from './whole';

/** How every figure of a plan came about. */
export const derivationsOf = (planning: Planning, belief: Believed): readonly Derivation[] => [
  ...alkaliDerivations(planning, belief),
  ...lineDerivations(planning),
  ...wholeDerivations(planning),
];
