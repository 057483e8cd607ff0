import { describe, expect, it } from 'vitest';
import { grams, mg } from '#lib/units/mass';
import type { Milligrams } from '#lib/units/mass';
import { MAIN, OLIVE, planOf, Rig } from './rig';

/** A scale of which a person said this division, or none. */
class Told extends Rig {
  readonly told: Milligrams | null;

  constructor(division: Milligrams | null) {
    super();
    this.told = division;
    this.pan(MAIN).speaking = false;
  }

  override view() {
    const all = super.view();
    const scales = all.scales.map((one) => ({ ...one, told: this.told, division: this.told ?? one.reading?.step ?? grams(1) }));
    return { ...all, scales };
  }

  /** Half a second of readings whose last digit is so many mg. */
  say(step: number): number | undefined {
    for (let n = 0; n < 5; n += 1) {
      this.now += 100;
      this.frame(MAIN, { step: mg(step) });
    }
    return this.memory.scales[MAIN]?.track.division;
  }
}

const told = (division: Milligrams | null): Told => {
  const rig = new Told(division);
  rig.start(planOf([OLIVE]));
  return rig;
};

describe('the division a scale is judged by', () => {
  it('is what it shows, where nobody said more: a first reading with a digit less is no word of a person', () => {
    const rig = told(null);
    expect([rig.say(1_000), rig.say(100), rig.say(1_000)]).toEqual([1_000, 100, 1_000]);
  });

  it('is what a person said, where it shows more', () => {
    const rig = told(mg(500));
    expect([rig.say(1_000), rig.say(100)]).toEqual([1_000, 500]);
  });
});
