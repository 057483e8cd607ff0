import type { MilliCelsius } from '#lib/units/temperature';
import type { Monotonic } from '#lib/units/time';
import { seeLye, type LyeSeen } from '#lib/work/batch/heating';
import { seeFall, type LyeFall } from '../waiting';

/** What was heard of the lye of this boot since it was made, as a view of the bench has it. */
export interface LyeWatch {
  now(): { readonly lyeSeen: LyeSeen | null; readonly lyeFall: LyeFall | null };
  /** Hydroxide went into its liquid: what was heard before is of something else. */
  made(): void;
  saw(value: MilliCelsius, at: Monotonic): void;
}

export const createLyeWatch = (): LyeWatch => {
  let known: ReturnType<LyeWatch['now']> = UNHEARD;
  return {
    now: () => known,
    made() {
      known = UNHEARD;
    },
    saw(value, at) {
      known = { lyeSeen: seeLye(known.lyeSeen, value), lyeFall: seeFall(known.lyeFall, value, at) };
    },
  };
};

const UNHEARD = { lyeSeen: null, lyeFall: null };
