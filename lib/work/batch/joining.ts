import type { BootId } from '#lib/units/id';
import type { MilliCelsius } from '#lib/units/temperature';
import { apart, milliCelsius, milliKelvin } from '#lib/units/temperature';
import type { HoldReason } from './entries';
import { lyeStillHeats, type LyeHeat } from './heating';
import { isLyeHeavy, superfatThen } from './lye-heavy';
import { dueBeforeJoining } from './order';
import { own } from './own';
import type { JoiningPlan } from './plan';
import { mouldsIn } from './pouring/places';
import type { BatchState } from './state';

/** One thing that stands against joining now, with the value that does it and the limit it crosses. */
export interface JoiningHold {
  readonly reason: HoldReason | 'line-open' | 'lye-not-made' | 'alarm' | 'lye-heavy' | 'pattern-unnamed';
  /** `advise`: said, but holds nothing. */
  readonly level: 'hold' | 'advise';
  /** Temperatures, and lye that only may be heavy, can be overridden by a person, held and recorded. */
  readonly overridable: boolean;
  readonly overridden: boolean;
  readonly value: number | null;
  readonly limit: number | null;
}

/** What is known of the two vessels now; `null` is unknown. `milk` only where it has a probe of its own. */
export interface JoiningTemperatures {
  readonly lye: MilliCelsius | null;
  readonly oils: MilliCelsius | null;
  readonly milk: MilliCelsius | null;
}

/** How long a temperature typed by hand stands for the present one. Ours: a pot of a few kilograms cools by 2–5 °C in it. */
export const TYPED_TEMPERATURE_LASTS_MS = 300_000;

/** Oils are kept this far above the point where they begin to set. Ours, no source: probe error and a cool rim. */
export const SETTING_MARGIN = milliKelvin(2_000);

/** An override covers the value it was given for and what a probe's noise adds to it, nothing worse. Ours. */
const OVERRIDE_SLACK = milliKelvin(1_000);
/** The same of superfat, millionths: a twentieth of a point. Ours. */
const SUPERFAT_SLACK = 500;

/** Temperatures as the probes say, and where one says nothing, as a person typed it a short while ago in this boot. */
export const withTyped = (
  state: BatchState,
  probes: JoiningTemperatures,
  boot: BootId,
  mono: number,
): JoiningTemperatures & { readonly byHand: readonly ('lye' | 'oils')[] } => {
  const typed = (use: 'lye' | 'oils'): MilliCelsius | null => {
    const one = state.typedTemperatures[use];
    const fresh = one !== undefined && one.boot === boot && mono - one.mono <= TYPED_TEMPERATURE_LASTS_MS;
    return fresh ? one.value : null;
  };
  const uses = ['lye', 'oils'] as const;
  return {
    lye: probes.lye ?? typed('lye'),
    oils: probes.oils ?? typed('oils'),
    milk: probes.milk,
    byHand: uses.filter((use) => probes[use] === null && typed(use) !== null),
  };
};

/** Lowest temperature of the oils at which joining is not false trace: the window's edge, or the setting point with its margin. */
export const oilsLowest = (plan: JoiningPlan): MilliCelsius =>
  plan.oilsSetAt === null ? plan.window.low : milliCelsius(Math.max(plan.window.low, plan.oilsSetAt + SETTING_MARGIN));

interface Crossing {
  readonly reason: HoldReason;
  readonly value: number | null;
  readonly limit: number | null;
}

/** What these temperatures cross of the plan's terms; empty: lye and oils have met. */
export const crossings = (plan: JoiningPlan, temps: JoiningTemperatures, lyeSeen: LyeHeat | null): readonly Crossing[] => {
  const { lye, oils } = temps;
  const { low, high } = plan.window;
  const lowest = oilsLowest(plan);
  // A milk is in the lye unless it has its own probe.
  const milk = temps.milk ?? lye;
  const found: Crossing[] = [];
  if (lye === null || oils === null) found.push({ reason: 'temperature-unknown', value: null, limit: null });
  if (lye !== null && (lye > high || lyeStillHeats(lyeSeen, lye)))
    found.push({ reason: 'lye-too-hot', value: lye, limit: lye > high ? high : null });
  if (lye !== null && lye < low) found.push({ reason: 'lye-too-cold', value: lye, limit: low });
  if (oils !== null && oils > high) found.push({ reason: 'oils-too-hot', value: oils, limit: high });
  if (oils !== null && oils < lowest) found.push({ reason: 'oils-near-setting', value: oils, limit: lowest });
  if (plan.milkLimit !== null && milk !== null && milk > plan.milkLimit) {
    found.push({ reason: 'milk-too-hot', value: milk, limit: plan.milkLimit });
  }
  if (lye !== null && oils !== null && apart(lye, oils) > plan.allowedApart) {
    found.push({ reason: 'apart', value: apart(lye, oils), limit: plan.allowedApart });
  }
  return found;
};

/** Lye that may be heavy by what its values and weights may be off by: a person must say that they go on. */
const mayBeHeavy = (state: BatchState): readonly Crossing[] => {
  const then = superfatThen(state);
  return then === null ? [] : [{ reason: 'may-be-lye-heavy', value: then.least, limit: 0 }];
};

/** Reasons that are worse the higher the value. */
const RISING: ReadonlySet<HoldReason> = new Set(['lye-too-hot', 'oils-too-hot', 'milk-too-hot', 'apart']);

/** The override given for this reason covers what is measured now: no worse than then. */
const covers = (state: BatchState, { reason, value }: Crossing): boolean => {
  if (own(state.overrides, reason) === undefined) return false;
  const then = own(state.overrideValues, reason) ?? null;
  if (value === null || then === null) return value === null && then === null;
  const slack = reason === 'may-be-lye-heavy' ? SUPERFAT_SLACK : OVERRIDE_SLACK;
  return RISING.has(reason) ? value <= then + slack : value >= then - slack;
};

/** Whether the lye is made: no hydroxide of the plan still stands dry in its cup. */
export const lyeMade = (state: BatchState): boolean =>
  Object.values(state.lines).every(({ plan, contributions }) => {
    if (plan.material.class !== 'hydroxide') return true;
    const inLye = Object.values(state.vessels).some((vessel) => vessel.state !== 'dry' && (own(vessel.holds, plan.id) ?? 0) > 0);
    const dry = Object.values(state.vessels).some((vessel) => vessel.state === 'dry' && (own(vessel.holds, plan.id) ?? 0) > 0);
    return contributions.some((one) => one.struck === null) && inLye && !dry;
  });

/** Some hydroxide of the plan dissolves at this bench, and heats as it does. A stock lye does not. */
const heatsItself = ({ lines }: BatchState): boolean =>
  Object.values(lines).some(({ plan }) => plan.material.class === 'hydroxide' && plan.inSolution !== true);

const firm = (reason: JoiningHold['reason'], value: number | null = null, limit: number | null = null): JoiningHold => ({
  reason,
  level: 'hold',
  overridable: false,
  overridden: false,
  value,
  limit,
});

/**
 * Everything that stands against joining now, what cannot be overridden first. An unknown temperature holds: unknown is not a
 * number. Lye-heavy is worked out from what was weighed. Lye that still heats holds as too hot, inside the window as well.
 */
export const joiningHolds = (state: BatchState, temps: JoiningTemperatures, lyeSeen: LyeHeat | null = null): readonly JoiningHold[] => {
  const open = Object.values(state.lines).filter((line) => line.status !== 'closed' && dueBeforeJoining(line.plan)).length;
  const made = lyeMade(state);
  const firmly: JoiningHold[] = [];
  if (isLyeHeavy(state)) firmly.push(firm('lye-heavy'));
  if (state.over !== null || state.question !== null) firmly.push(firm('alarm'));
  if (open > 0) firmly.push(firm('line-open', open, 0));
  if (!made) firmly.push(firm('lye-not-made'));
  const unnamed = mouldsIn(state).filter(({ pattern }) => pattern === null).length;
  if (unnamed > 0) firmly.push(firm('pattern-unnamed', unnamed, 0));
  const { joining } = state.plan;
  return [
    ...firmly,
    ...[...mayBeHeavy(state), ...crossings(joining, temps, heatsItself(state) ? lyeSeen : null)].map((crossing): JoiningHold => ({
      ...crossing,
      level: crossing.reason === 'apart' ? joining.apartLevel : 'hold',
      overridable: true,
      overridden: covers(state, crossing),
    })),
  ];
};

/** Nothing holds joining: what is left is advice or was overridden by a person. */
export const mayJoin = (holds: readonly JoiningHold[]): boolean => holds.every((hold) => hold.level === 'advise' || hold.overridden);
