/** A thing that holds material. Masses are whole milligrams, so that what leaves one and reaches another can be counted exactly. */
export interface Vessel {
  readonly name: string;
  readonly empty: number;
  contents: number;
}

export const massOf = (vessel: Vessel): number => vessel.empty + vessel.contents;
