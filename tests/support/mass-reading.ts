import type { MassReading } from '#lib/measure/reading';
import { as } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { monotonic } from '#lib/units/time';

/** A reading of `mass` mg, gross, at `at` ms, of a scale of this division, mg, that states no motion. */
export const massReading = (division: number, seq: number, at: number, mass: number): MassReading => ({
  kind: 'mass',
  instrument: as('scale'),
  seq,
  at: monotonic(at),
  raw: new Uint8Array(),
  text: '',
  unit: 'g',
  mass: mg(mass),
  step: mg(division),
  motion: 'unstated',
  range: 'in',
  weighing: 'gross',
});
