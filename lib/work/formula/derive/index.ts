import type { Derivation } from '../derivation';
import type { Believed } from '../interval';
import type { Planning } from '../warnings/index';
import { alkaliDerivations } from './alkali';
import { fragranceDerivations } from './fragrance';
import { heatDerivations } from './heat';
import { lineDerivations } from './lines';
import { toleranceDerivations } from './scale';
import { volumeDerivations } from './volume';
import { wholeDerivations } from './whole';

/** How every figure of a plan came about. */
export const derivationsOf = (planning: Planning, belief: Believed): readonly Derivation[] => [
  ...alkaliDerivations(planning, belief),
  ...lineDerivations(planning),
  ...toleranceDerivations(planning),
  ...wholeDerivations(planning),
  ...volumeDerivations(planning),
  ...heatDerivations(planning),
  ...fragranceDerivations(planning),
];
