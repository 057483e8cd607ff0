import type { InstrumentConfig } from '#lib/measure/instrument';
import { as } from '#lib/units/id';

type ScaleConfig = Extract<InstrumentConfig, { kind: 'scale' }>;

/** A big scale at a path, as Setup stores one whose plate nobody has read. */
export const scaleAt = (path: string, more: Partial<ScaleConfig> = {}): ScaleConfig => ({
  kind: 'scale',
  id: as('scale-main'),
  role: 'main',
  name: 'big scale',
  path,
  shape: 'header-comma',
  serial: { baudRate: 9600, frame: '8N1' },
  capacity: null,
  division: null,
  ...more,
});
