import { waterOf } from '#lib/soap/batter';
import { M_GLYCEROL } from '#lib/soap/molar-mass';
import { sumOf } from '#lib/units/sum';
import type { Derivation } from '../derivation';
import { reacted } from '../figures';
import { numberOf } from '../figure';
import type { Formula } from '../formula';
import type { Planning } from '../warnings/index';
import { acidFrom, computedFrom, derivation, fromSource, n, typedFrom } from './shown';

/** What the batch as a whole comes to, before and after the reaction. */
export const wholeDerivations = (planning: Planning): readonly Derivation[] => [
  ...totals(planning),
  ...reaction(planning),
  ...iodine(planning),
  ...time(planning),
];

/** By what the batch was made as large as it is. */
const sizeFrom = ({ size }: Formula) => {
  if (size === null || size.kind === 'moulds') return [];
  const value = numberOf(size.value) ?? Number.NaN;
  return [
    typedFrom(
      size.kind === 'bars' ? `one of ${size.count} bars` : `size, by ${size.kind === 'fats' ? 'the oils' : 'the batter'}`,
      value,
      size.unit,
    ),
  ];
};

type Lines = Planning['lines'];
const summed = (of: Lines): string => of.map(({ figures }) => n(figures.grams)).join(' + ');
const linesFrom = (of: Lines): Derivation['inputs'] =>
  of.map(({ plan, figures }) => computedFrom(plan.material.name, figures.grams, 'g', `line:${plan.id}`));

const totals = ({ whole, lines, formula, sizing }: Planning): readonly Derivation[] => {
  const oils = lines.filter(({ item }) => item.part === 'fat');
  const byMoulds =
    formula.size?.kind === 'moulds' && sizing !== null
      ? [computedFrom('poured into the moulds', sizing.toPour.value, 'cm³', 'to-pour')]
      : [];
  return [
    derivation({
      id: 'fats',
      value: whole.fats,
      unit: 'g',
      formula: 'Σ weight of each oil',
      filled: `${summed(oils)} = ${n(whole.fats)} g`,
      inputs: [...linesFrom(oils), ...sizeFrom(formula), ...byMoulds],
    }),
    derivation({
      id: 'batter',
      value: whole.batter,
      unit: 'g',
      formula: 'Σ weight of every line',
      filled: `${summed(lines)} = ${n(whole.batter)} g`,
      inputs: linesFrom(lines),
    }),
  ];
};

const reaction = (planning: Planning): readonly Derivation[] => {
  const { figures, whole, balance } = planning;
  const after = reacted(whole);
  const bonds = (3 * figures.glycerol) / M_GLYCEROL;
  const formed = figures.waterAfter - figures.waterBefore;
  return [
    derivation({
      id: 'glycerol',
      value: figures.glycerol,
      unit: 'g',
      formula: 'glyceride bonds that the alkali opens ÷ 3 × M(glycerol)',
      filled: `${n(bonds)} mol ÷ 3 × ${n(M_GLYCEROL)} g/mol = ${n(figures.glycerol)} g`,
      inputs: [
        computedFrom('pure alkali', balance.supply, 'mol'),
        ...acidFrom(balance.acid, 'acid demand, met first'),
        computedFrom('fat demand', balance.demand, 'mol', 'fat-demand'),
        computedFrom('bonds opened, waxes and free fatty acids left out', bonds, 'mol'),
      ],
    }),
    derivation({
      id: 'soap',
      value: figures.soap,
      unit: 'g',
      formula: 'batter − water − glycerol − salts of acids − fat left − unsaponifiable − what takes no part',
      filled: `${n(after.total)} − ${n(after.water)} − ${n(after.glycerol)} − ${n(after.salts)} − ${n(after.freeFat)} − ${n(after.unsaponifiable)} − ${n(after.inert + after.freeAlkali)} = ${n(figures.soap)} g`,
      inputs: [
        computedFrom('batter', whole.batter, 'g', 'batter'),
        computedFrom('water after the reaction', figures.waterAfter, 'g', 'water-after'),
        computedFrom('glycerol', figures.glycerol, 'g', 'glycerol'),
        computedFrom('fat left', figures.freeFat, 'g', 'free-fat'),
      ],
    }),
    derivation({
      id: 'free-fat',
      value: figures.freeFat,
      unit: 'g',
      formula: 'what can be saponified × the part that finds no alkali',
      filled: `${n(sumOf(whole.all.fats, ({ mass }) => mass) - after.unsaponifiable)} g × ${n(Math.max(0, figures.superfat.working), 4)} = ${n(figures.freeFat)} g`,
      inputs: [
        computedFrom(
          'all fat',
          sumOf(whole.all.fats, ({ mass }) => mass),
          'g',
        ),
        computedFrom('superfat', 100 * figures.superfat.working, '%', 'superfat'),
      ],
    }),
    derivation({
      id: 'water-after',
      value: figures.waterAfter,
      unit: 'g',
      formula: 'water of liquids, alkali and acids + water that neutralising forms',
      filled: `${n(figures.waterBefore)} + ${n(formed)} = ${n(figures.waterAfter)} g`,
      inputs: [computedFrom('water before', figures.waterBefore, 'g', 'water-before'), computedFrom('water formed', formed, 'g')],
    }),
    waterBefore(planning),
  ];
};

const waterBefore = ({ figures, lines, whole }: Planning): Derivation => {
  const wet = lines.flatMap((line) => {
    const made = whole.each[line.at];
    const water = made === undefined ? 0 : waterOf(made);
    return water === 0 ? [] : [{ line, water }];
  });
  return derivation({
    id: 'water-before',
    value: figures.waterBefore,
    unit: 'g',
    formula: 'Σ water of each line: of liquids, of what is not pure in the hydroxide, of acids',
    filled: `${wet.map(({ water }) => n(water)).join(' + ')} = ${n(figures.waterBefore)} g`,
    inputs: wet.map(({ line, water }) => computedFrom(`water of ${line.plan.material.name}`, water, 'g', `line:${line.plan.id}`)),
  });
};

const iodine = ({ figures, whole }: Planning): readonly Derivation[] => {
  if (figures.iodine === null) return [];
  const known = whole.all.fats.flatMap(({ mass, iodine: value, name }) => (mass > 0 && value !== null ? [{ mass, value, name }] : []));
  const mass = sumOf(known, (one) => one.mass);
  return [
    derivation({
      id: 'iodine',
      value: figures.iodine,
      unit: 'g I₂/100 g',
      formula: 'Σ share of each oil × its iodine value',
      filled: `${known.map((one) => `${n(one.mass / mass, 3)} × ${n(one.value, 3)}`).join(' + ')} = ${n(figures.iodine, 3)}`,
      inputs: known.map((one) =>
        fromSource(`iodine value of ${one.name}`, one.value, 'g I₂/100 g', {
          text: 'from its profile, AOCS Cd 1c-85 (reapproved 2009), calculation 1',
          grade: 'B',
        }),
      ),
    }),
  ];
};

const SECONDS = 60;

const time = ({ lines, context: { pace } }: Planning): readonly Derivation[] => {
  if (pace === null) return [];
  const weighings = sumOf(lines, ({ figures }) => figures.pours.length);
  const melting = lines.some(({ plan }) => plan.material.class === 'hard-oil') ? pace.melting : 0;
  const seconds = weighings * pace.perLine + melting + pace.meeting + pace.pouring;
  const source = pace.how === 'typed' ? 'this workshop’s habits' : 'measured in this workshop';
  const part = (name: string, value: number) => typedFrom(name, value / SECONDS, 'min', source);
  return [
    derivation({
      id: 'time',
      value: seconds / SECONDS,
      unit: 'min',
      formula: 'weighings × one of them + melting + until lye and oils meet + pouring',
      filled: `${weighings} × ${n(pace.perLine / SECONDS, 3)} + ${n(melting / SECONDS)} + ${n(pace.meeting / SECONDS)} + ${n(pace.pouring / SECONDS)} = ${n(seconds / SECONDS, 4)} min`,
      inputs: [
        part('one weighing', pace.perLine),
        part('melting', pace.melting),
        part('until they meet', pace.meeting),
        part('pouring', pace.pouring),
      ],
    }),
  ];
};
