import type { ScaleRole } from '#lib/measure/instrument';
import { sumOfAll } from '#lib/units/sum';
import { createHands } from './hands';
import type { Hands } from './hands';
import { carried, emptyPan, forceOn } from './pan';
import type { Weighing } from './pan';
import { random } from './random';
import type { Random } from './random';
import { createScale } from './scale';
import type { ScaleModel } from './scale-model';
import { STEP_MS } from './step';
import { massOf } from './vessel';
import type { Vessel } from './vessel';
import { createWarmth } from './warmth';
import type { Warmth } from './warmth';

/** The whole simulated workshop. It has no clock: it moves only when told to, and then always in the same way. */
export interface World {
  /** Milliseconds lived. */
  readonly now: number;
  readonly weighings: Readonly<Partial<Record<ScaleRole, Weighing>>>;
  readonly hands: Hands;
  readonly warmth: Warmth;
  /** The hands' own chance, apart from every instrument's noise. */
  readonly chance: Random;
  /** The vessel of this name, fetched from the shelf with these masses (mg) when it was not about yet. */
  vessel(name: string, fetched: { readonly empty: number; readonly contents: number }): Vessel;
  readonly vessels: ReadonlyMap<string, Vessel>;
  /** More material from the store into a vessel. */
  fill(vessel: Vessel, mass: number): void;
  /** Where a vessel stands, `null` when on no pan. */
  whereIs(vessel: Vessel): ScaleRole | null;
  /** Everything off the pans, washed and put away, for another batch. Jugs keep nothing. */
  clearTable(): void;
  /** A few drops on the glass of a pan; returns their mass in mg. */
  splash(role: ScaleRole): number;
  /** `afterStep` runs after each step: instruments speak then. */
  advance(ms: number, afterStep?: () => void): void;
  /** What one pan truly carries, mg. */
  carried(role: ScaleRole): number;
  /** Everything there is, mg: what was brought in is for ever either in a vessel, in the air or on a glass. */
  ledger(): { readonly brought: number; readonly there: number };
}

export interface WorldOptions {
  readonly seed: number;
  readonly scales: Readonly<Partial<Record<ScaleRole, ScaleModel>>>;
}

/** Temperatures change slowly: they move every tenth step. */
const WARMTH_EVERY = 10;

export const createWorld = ({ seed, scales }: WorldOptions): World => {
  const weighings = weighingsOf(scales, seed);
  const all = Object.values(weighings);
  const hands = createHands();
  const warmth = createWarmth(seed);
  const chance = random(seed, 'hands');
  const vessels = new Map<string, Vessel>();
  let steps = 0;
  let owed = 0;
  let brought = 0;

  const step = (): void => {
    steps += 1;
    hands.step();
    for (const { pan, scale } of all) scale.step(forceOn(pan));
    if (steps % WARMTH_EVERY === 0) warmth.advance((WARMTH_EVERY * STEP_MS) / 1000);
  };

  return {
    get now() {
      return steps * STEP_MS;
    },
    weighings,
    hands,
    warmth,
    chance,
    vessels,
    vessel(name, { empty, contents }) {
      const known = vessels.get(name);
      if (known !== undefined) return known;
      const fetched = { name, empty, contents };
      brought += massOf(fetched);
      vessels.set(name, fetched);
      return fetched;
    },
    fill(vessel, mass) {
      vessel.contents += mass;
      brought += mass;
    },
    whereIs: (vessel) => ROLES.find((role) => weighings[role]?.pan.standing === vessel) ?? null,
    clearTable() {
      hands.drop();
      for (const { pan } of all) Object.assign(pan, emptyPan());
      vessels.clear();
      brought = 0;
    },
    splash(role) {
      const weighing = weighings[role];
      if (weighing === undefined) return 0;
      const drops = Array.from({ length: 1 + Math.floor(chance.next() * 4) }, () => Math.round(chance.between(30, 70)));
      const mass = sumOfAll(drops);
      weighing.pan.wet += mass;
      brought += mass;
      return mass;
    },
    advance(ms, afterStep) {
      for (owed += ms; owed >= STEP_MS; owed -= STEP_MS) {
        step();
        afterStep?.();
      }
    },
    carried: (role) => {
      const weighing = weighings[role];
      return weighing === undefined ? 0 : carried(weighing.pan);
    },
    ledger() {
      const held = [...vessels.values()].reduce((sum, vessel) => sum + massOf(vessel), 0);
      const wet = all.reduce((sum, { pan }) => sum + pan.wet, 0);
      return { brought, there: held + wet + hands.airborne };
    },
  };
};

const ROLES: readonly ScaleRole[] = ['main', 'fine'];

const weighingsOf = (scales: WorldOptions['scales'], seed: number): Partial<Record<ScaleRole, Weighing>> => {
  const weighings: Partial<Record<ScaleRole, Weighing>> = {};
  for (const role of ROLES) {
    const model = scales[role];
    if (model !== undefined) weighings[role] = { pan: emptyPan(), scale: createScale(model, random(seed, `scale ${role}`)) };
  }
  return weighings;
};
