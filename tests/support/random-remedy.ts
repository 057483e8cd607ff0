import type { Effect } from '#lib/soap/remedy/effect';
import { fragranceLimit, lyeLimits, roomLimit, shareLimits, superfatLimits } from '#lib/soap/remedy/limits';
import type { Programme, Quantity } from '#lib/soap/remedy/programme';

/** Numbers from 0 to 1 that follow from a seed (mulberry32). */
export const randomFrom = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
};

/** Molar masses, g/mol, typed here: the test shares none of the project's. */
const [KOH, NAOH] = [56.1053, 39.99676928];

const NOTHING: Effect = { demand: 0, acid: 0, supply: 0, sodium: 0, pure: 0, solution: 0, water: 0, fat: 0, dry: 1, strain: 0 };
const fat = (sv: number): Effect => ({ ...NOTHING, demand: sv / 1000 / KOH, fat: 1 });
const soda = (purity: number): Effect => {
  const moles = purity / NAOH;
  return { ...NOTHING, supply: moles, sodium: moles, pure: purity, solution: 1 };
};
const WATER: Effect = { ...NOTHING, solution: 1, water: 1, dry: 0 };
const scent = (limit: number): Effect => ({ ...NOTHING, strain: 1 / limit });

interface Drawn {
  readonly id: string;
  readonly effect: Effect;
  readonly target: number;
}

/** How far the work has come: everything before is in. */
type Stage = 'fats' | 'hydroxide-dry' | 'lye';

export interface RandomOverPour {
  readonly programme: Programme;
  readonly effects: readonly Effect[];
}

/**
 * An over-pour of one or two lines at some stage of a batch of two to seven fats, by a hair or by half, with bands narrow and wide, little
 * stock or none said, sometimes a pot that is nearly full and sometimes a mixture of which a fraction may leave.
 */
export const randomOverPour = (seed: number, division = 0.1): RandomOverPour => {
  const random = randomFrom(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const grid = (mass: number): number => Math.round(mass / division) * division;
  const fats: Drawn[] = Array.from({ length: 2 + Math.floor(random() * 6) }, (_, i) => ({
    id: `fat ${i}`,
    effect: fat(between(130, 262)),
    target: grid(between(40, 600)),
  }));
  const purity = between(0.96, 1);
  const superfat = between(0.03, 0.08);
  const demand = fats.reduce((sum, { effect, target }) => sum + effect.demand * target, 0);
  const alkali = (demand * (1 - superfat) * NAOH) / purity;
  const strength = between(0.28, 0.36);
  const lines: readonly Drawn[] = [
    ...fats,
    { id: 'scent', effect: scent(between(0.02, 0.2)), target: grid(between(5, 30)) },
    { id: 'water', effect: WATER, target: (alkali * purity) / strength - alkali },
    { id: 'soda', effect: soda(purity), target: alkali },
  ];
  const stage = (['fats', 'hydroxide-dry', 'lye'] as const)[Math.floor(random() * 3)] as Stage;
  const done = stage === 'fats' ? 1 + Math.floor(random() * fats.length) : lines.length;
  const first = Math.floor(random() * done);
  const over = new Set([first, ...(random() < 0.3 ? [Math.floor(random() * done)] : [])]);
  const masses = lines.map(({ target }, at) =>
    at >= done ? 0 : over.has(at) ? grid(target * (1 + between(0.002, 0.5) * random())) : target,
  );
  const stocked = random() < 0.5;
  const stock = lines.map(() => (stocked ? between(0, 80) : Number.POSITIVE_INFINITY));
  const mixed = random() < 0.25 && done >= 2;
  const inPot = (at: number): boolean => at < fats.length && at < done;
  const quantities = lines.map((line, at): Quantity =>
    quantity(line, masses[at] ?? 0, stage, at < done, mixed && inPot(at), stock[at] ?? 0, division),
  );
  const effects = lines.map(({ effect }) => effect);
  const [wide, share] = [between(0.005, 0.03), between(0.01, 0.08)];
  const total = fats.reduce((sum, { target }) => sum + target, 0);
  const batter = lines.reduce((sum, { target }) => sum + target, 0);
  return {
    effects,
    programme: {
      quantities,
      mixtures: mixed ? [{ id: 'pot', holds: masses.map((mass, at) => (inPot(at) ? mass : 0)), mostTaken: 0.5, division }] : [],
      limits: [
        ...superfatLimits(effects, [superfat - wide, superfat + wide]),
        ...lyeLimits(effects, [strength - 0.02, strength + 0.02]),
        ...shareLimits(
          effects,
          lines.map(({ id }) => id),
          Object.fromEntries(fats.map(({ id, target }) => [id, [Math.max(0, target / total - share), target / total + share] as const])),
        ),
        ...fragranceLimit(effects),
        roomLimit(
          'brim',
          'pot',
          lines.map(() => 1),
          batter * between(1, 1.4),
        ),
      ],
    },
  };
};

const quantity = (
  { id, target }: Drawn,
  mass: number,
  stage: Stage,
  isIn: boolean,
  mixed: boolean,
  stock: number,
  division: number,
): Quantity => {
  const bare = { id, weighing: { stays: mass, from: mass, division, smallest: division } };
  if (!isIn) {
    const weighing = { stays: Math.min(target, target + stock), from: 0, division, smallest: division };
    return { id, reference: target, least: division, most: target + stock, weighing };
  }
  if (mixed) return { ...bare, reference: mass, least: 0, most: stock, weighing: { stays: 0, from: 0, division, smallest: division } };
  const dry = stage === 'hydroxide-dry' && (id === 'soda' || id === 'water' || id === 'scent');
  return { ...bare, reference: dry ? target : mass, least: dry ? division : mass, most: mass + stock };
};
