import { CATALOGUE, decimal, newEntry, planOf, typed } from '#lib/work/formula/index';
import type { Certificate, Entry, FatMaterial, Formula, Lot, Material, PlanContext, Scale } from '#lib/work/formula/index';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';
import type { Plan } from '#lib/work/batch/index';
import { mg } from '#lib/units/mass';
import type { Random } from '../random';
import { SPREADS, stated, titrated, underLabel } from './truth';

/** A batch to be weighed, and what is true of its lots: by line id, mg KOH/g and fractions. */
export interface Job {
  readonly plan: Plan;
  readonly sv: ReadonlyMap<string, number>;
  readonly purity: number;
}

const FATS = CATALOGUE.filter(
  (one): one is FatMaterial =>
    one.kind === 'fat' && one.sv.low !== undefined && one.sv.high !== undefined && Number(one.sv.low) < Number(one.sv.high),
) as [FatMaterial, ...FatMaterial[]];

const lotOf = (id: string, material: string, certificate: Certificate): Lot => ({ id, mark: id, material, certificate, files: [] });
const PAPER = { date: '2026-01-05', supplier: 'Fellside Supplies' } as const;

/** A fat of the catalogue, its lot's true value, and perhaps a paper. */
const fatOf = (random: Random, material: FatMaterial): { readonly sv: number; readonly lot: Lot | null } => {
  const [low, usual, high] = [Number(material.sv.low), Number(material.sv.value), Number(material.sv.high)];
  const sv = random.pick(SPREADS)(random, low, usual, high);
  if (!random.chance(0.35)) return { sv, lot: null };
  const u = random.chance(0.5) ? random.between(0.4, 1.5) : null;
  const shown = u === null ? titrated(random, sv) : stated(random, sv, u);
  // A paper outside its standard would be refused at the door.
  if (shown < low || shown > high) return { sv, lot: null };
  const certified = u === null ? { value: shown.toFixed(2) } : { value: shown.toFixed(2), u: decimal(u) };
  return { sv, lot: lotOf(`lot-${material.id}`, material.id, { ...PAPER, sv: certified }) };
};

const SODA = 'sodium-hydroxide';
const soda = CATALOGUE.find(({ id }) => id === SODA) as Material;

const scales = (random: Random): readonly Scale[] => {
  const scale = (role: Scale['role'], capacity: number, division: number): Scale => ({
    id: `scale-${role}`,
    role,
    name: role,
    capacity: mg(capacity),
    division: mg(division),
    repeatability: random.chance(0.4) ? { value: decimal(division * random.between(0.4, 1.2)), how: 'measured' } : null,
  });
  return [scale('main', 12_000_000, random.chance(0.3) ? 1000 : 100), scale('fine', 610_000, random.chance(0.5) ? 10 : 100)];
};

const entries = (
  fats: readonly { readonly material: FatMaterial; readonly grams: number; readonly lot: Lot | null }[],
  sodaLot: Lot | null,
): readonly Entry[] => [
  ...fats.map(({ material, grams, lot }) =>
    newEntry(material.id, 'fat', {
      material: material.id,
      amount: { kind: 'mass', value: grams.toFixed(0), unit: 'g' },
      lot: lot?.id ?? null,
    }),
  ),
  newEntry('water', 'liquid', { material: 'water', amount: { kind: 'rest' } }),
  newEntry('soda', 'alkali', { material: SODA, amount: { kind: 'rest' }, lot: sodaLot?.id ?? null }),
];

/** One formula of one maker, planned by the program from what its papers say. */
export const jobOf = (random: Random): Job => {
  const count = 1 + Math.floor(6 * random.unit());
  const chosen = new Map(Array.from({ length: count }, () => random.pick(FATS)).map((one) => [one.id, one] as const));
  const fats = [...chosen.values()].map((material) => ({ material, grams: random.logBetween(60, 900), ...fatOf(random, material) }));
  const label = Math.round(1000 * random.between(0.97, 0.985)) / 1000;
  const certified = random.chance(0.5);
  const purity = certified ? label + random.between(-0.006, 0.006) : underLabel(random, label);
  const shown = stated(random, purity, 0.002);
  const sodaLot = certified ? lotOf('lot-soda', SODA, { ...PAPER, purity: { value: (100 * shown).toFixed(2), u: '0.2' } }) : null;
  const context: PlanContext = {
    ...SAMPLE_WORKSHOP,
    materials: [...CATALOGUE, { ...soda, purity: typed((100 * label).toFixed(1), '%') } as Material],
    lots: [...fats.flatMap(({ lot }) => (lot === null ? [] : [lot])), ...(sodaLot === null ? [] : [sodaLot])],
    scales: scales(random),
  };
  const formula: Formula = {
    id: 'calibration',
    name: 'Calibration',
    version: 1,
    note: '',
    entries: entries(fats, sodaLot),
    blends: [],
    wishes: { superfat: random.between(0.2, 7).toFixed(1), lye: { kind: 'concentration', percent: random.between(28, 36).toFixed(1) } },
    size: null,
    moulds: [],
    limits: { superfat: { low: '-1', high: '12' }, lye: null },
    temperatures: null,
    references: [],
  };
  const answer = planOf(formula, context);
  if (answer.kind !== 'plan') throw new Error(JSON.stringify(answer.problems));
  const lots = { id: 'lot-any', mark: 'any' };
  const plan = {
    ...answer.plan,
    lines: answer.plan.lines.map((line) => (line.id === 'soda' && line.lot === null ? { ...line, lot: lots as never } : line)),
  };
  return { plan, sv: new Map(fats.map(({ material, sv }) => [material.id, sv])), purity };
};
