import type { MassUnit } from '#lib/units/mass';
import type { Decimal } from './figure';

/** A mould of the workshop. Lengths in millimetres as typed, inside. */
export interface Mould {
  readonly id: string;
  readonly name: string;
  readonly shape: MouldShape;
  /** Standard uncertainty of each length, mm; `null`: 0.5 mm, a ruler by eye. Unused for a water fill. */
  readonly lengthU: Decimal | null;
}

export type MouldShape = BoxShape | CylinderShape | TrayShape | WaterFillShape;

/** A rectangular loaf or slab, filled to `depth`. */
export interface BoxShape {
  readonly kind: 'box';
  readonly length: Decimal;
  readonly width: Decimal;
  readonly depth: Decimal;
}

/** Standing or lying, filled whole. */
export interface CylinderShape {
  readonly kind: 'cylinder';
  readonly diameter: Decimal;
  readonly length: Decimal;
}

/** A tray of equal cavities. */
export interface TrayShape {
  readonly kind: 'tray';
  readonly cavities: number;
  readonly cavity: BoxShape | CylinderShape;
}

/** Any shape, by the water it holds: mass on the scale, all cavities together, and the water's temperature in °C. */
export interface WaterFillShape {
  readonly kind: 'water-fill';
  readonly water: Decimal;
  readonly unit: MassUnit;
  readonly celsius: Decimal;
  readonly cavities: number;
}
