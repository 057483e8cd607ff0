import { waterDensity } from '#lib/soap/lye/density-model';
import type { Estimate, Source } from '#lib/soap/source';
import type { BoxShape, CylinderShape, Mould, WaterFillShape } from './mould';
import type { Reader } from './reader';

/** Millimetres: no mould of a bench is longer. */
const LONGEST = 2000;
const RULER = 0.5;
const MOST_CAVITIES = 1000;
/** A full cavity's meniscus and the drops left on it: 1 %, a judgement. */
const FILL_SPREAD = 0.01;
const HOTTEST_WATER = 60;

export interface Brim {
  /** cm³, all cavities of one mould. */
  readonly volume: Estimate;
  /** mm, where it has one depth and straight walls. */
  readonly depth: number | null;
  /** A rectangular loaf or slab: the trade's rule speaks of these only. */
  readonly rectangular: boolean;
  /** What was measured, filled into the formula of its volume. */
  readonly sides: string;
}

/** What a mould holds to the brim; `null` after noting why not. */
export const brimOf = (mould: Mould, reader: Reader): Brim | null => {
  const path = `moulds[${mould.id}].shape`;
  const { shape } = mould;
  const u = mould.lengthU === null ? RULER : reader.within(mould.lengthU, `moulds[${mould.id}].lengthU`, 0, LONGEST);
  if (u === null) return null;
  switch (shape.kind) {
    case 'box':
      return boxOf(shape, u, reader, path);
    case 'cylinder':
      return cylinderOf(shape, u, reader, path);
    case 'tray': {
      const count = reader.count(shape.cavities, `${path}.cavities`, MOST_CAVITIES);
      const one =
        shape.cavity.kind === 'box'
          ? boxOf(shape.cavity, u, reader, `${path}.cavity`)
          : cylinderOf(shape.cavity, u, reader, `${path}.cavity`);
      if (count === null || one === null) return null;
      const { value, u: uOne, source } = one.volume;
      // Equal cavities, measured once: their error is common.
      return { ...one, sides: `${count} × ${one.sides}`, volume: { value: count * value, u: count * uOne, source } };
    }
    case 'water-fill':
      break;
  }
  return waterFillOf(shape, reader, path);
};

const waterFillOf = (shape: WaterFillShape, reader: Reader, path: string): Brim | null => {
  const count = reader.count(shape.cavities, `${path}.cavities`, MOST_CAVITIES);
  const water = reader.mass(shape.water, shape.unit, `${path}.water`);
  const celsius = reader.within(shape.celsius, `${path}.celsius`, 1, HOTTEST_WATER);
  if (count === null || water === null || celsius === null) return null;
  const value = waterVolume(water, celsius);
  const source: Source = {
    text: 'mass of water it holds over the density of water; buoyancy of air, 0.1 %, ignored',
    grade: 'computed',
  };
  return {
    volume: { value, u: FILL_SPREAD * value, source },
    depth: null,
    rectangular: false,
    sides: `${shape.water} ${shape.unit} of water at ${shape.celsius} °C`,
  };
};

/** cm³ of so many grams of water at °C. */
const waterVolume = (grams: number, celsius: number): number => (1000 * grams) / waterDensity(celsius);

const LENGTHS: Source = { text: 'inner lengths as measured', grade: 'computed' };

const boxOf = ({ length, width, depth }: BoxShape, u: number, reader: Reader, path: string): Brim | null => {
  const sides = [
    reader.above(length, `${path}.length`, LONGEST),
    reader.above(width, `${path}.width`, LONGEST),
    reader.above(depth, `${path}.depth`, LONGEST),
  ] as const;
  const [l, w, d] = sides;
  if (l === null || w === null || d === null) return null;
  const value = (l * w * d) / 1000;
  return {
    volume: { value, u: value * Math.hypot(u / l, u / w, u / d), source: LENGTHS },
    depth: d,
    rectangular: true,
    sides: `${length} × ${width} × ${depth} mm³ ÷ 1000`,
  };
};

const cylinderOf = ({ diameter, length }: CylinderShape, u: number, reader: Reader, path: string): Brim | null => {
  const across = reader.above(diameter, `${path}.diameter`, LONGEST);
  const along = reader.above(length, `${path}.length`, LONGEST);
  if (across === null || along === null) return null;
  const value = (Math.PI * across * across * along) / 4000;
  return {
    volume: { value, u: value * Math.hypot((2 * u) / across, u / along), source: LENGTHS },
    depth: along,
    rectangular: false,
    sides: `π × (${diameter} ÷ 2)² × ${length} mm³ ÷ 1000`,
  };
};
