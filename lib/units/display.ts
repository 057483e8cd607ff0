/** How a person wants quantities shown. A preference of a screen, never part of a record. */
export interface Display {
  /** BCP 47 tag; decides decimal mark and grouping. */
  readonly locale: string;
  /** `lb` is pounds and ounces; `oz` is ounces alone. Avoirdupois both. */
  readonly mass: MassDisplay;
  readonly temperature: TemperatureDisplay;
}
export type MassDisplay = 'g' | 'oz' | 'lb';
export type TemperatureDisplay = 'C' | 'F';
