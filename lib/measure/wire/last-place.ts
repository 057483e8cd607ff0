/** Frames in a row that must agree before a new layout is believed. */
const AGREE = 3;

/**
 * Where the last digit stands in a scale's frame. All line shapes are right-justified or zero-padded, so the place is constant for
 * one instrument, though manuals differ in which column it is: it is learnt from the stream. A frame that lost or gained bytes
 * (`192.21 g` come in as `92.21 g`) is whole by every other rule and betrayed only by this one. The first frame only shows the place.
 */
export class LastPlace {
  private known = -1;
  private rival = -1;
  private agreeing = 0;

  /** Whether a number ending at `place` may be believed: `learning` once, then `yes` or `no`. */
  check(place: number): 'yes' | 'no' | 'learning' {
    if (place === this.known) {
      this.agreeing = 0;
      return 'yes';
    }
    if (this.known < 0) {
      this.known = place;
      return 'learning';
    }
    this.agreeing = place === this.rival ? this.agreeing + 1 : 1;
    this.rival = place;
    if (this.agreeing < AGREE) return 'no';
    this.known = place;
    this.agreeing = 0;
    return 'yes';
  }
}
