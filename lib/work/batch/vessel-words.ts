import { oneOf } from '../words';
import type { VesselMaterial, VesselUse } from './plan';

/** What vessels are for and made of, as outside things are read. */
export const vesselUse = oneOf<VesselUse>({ oils: true, hydroxide: true, liquid: true, aside: true });
export const vesselMaterial = oneOf<VesselMaterial>({
  stainless: true,
  'plastic-pp': true,
  'plastic-hdpe': true,
  glass: true,
  ceramic: true,
  silicone: true,
  aluminium: true,
  zinc: true,
  tin: true,
  unstated: true,
});
