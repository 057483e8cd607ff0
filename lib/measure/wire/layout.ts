import type { MassUnit } from '#lib/units/mass';

/** Frames in a row that must agree before a new layout is believed. */
const AGREE = 3;

/**
 * How one scale lays out its frames: where the last digit stands (in `stx-status`: how many decimals it has) and which unit it
 * states. All line shapes are right-justified or zero-padded, so the place is constant for one instrument, though manuals differ in
 * which column it is: it is learnt from the stream. A frame that lost or gained bytes (`192.21 kg` come in as `92.21 kg`, or as
 * `192.21 g`) is whole by every other rule and betrayed only by this one.
 */
export class Layout {
  private place = -1;
  private unit: MassUnit | null = null;
  private rivalPlace = -1;
  private rivalUnit: MassUnit | null = null;
  private agreeing = 0;

  /** Whether a frame laid out so may be believed: the first one only shows the layout (`first`). */
  check(place: number, unit: MassUnit): 'yes' | 'no' | 'first' {
    if (place === this.place && unit === this.unit) {
      this.agreeing = 0;
      return 'yes';
    }
    if (this.unit === null) {
      this.settle(place, unit);
      return 'first';
    }
    this.agreeing = place === this.rivalPlace && unit === this.rivalUnit ? this.agreeing + 1 : 1;
    this.rivalPlace = place;
    this.rivalUnit = unit;
    if (this.agreeing < AGREE) return 'no';
    this.settle(place, unit);
    return 'yes';
  }

  private settle(place: number, unit: MassUnit): void {
    this.place = place;
    this.unit = unit;
    this.agreeing = 0;
  }
}
