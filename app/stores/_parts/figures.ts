import { fattyAcidName } from '#lib/soap/fatty-acid';
import type { Figure, Material } from '#lib/work/formula/index';
import { messages } from '../messages';

/** One row: what it is, and its figure; `null`: not known, and asked for. */
export type Row = readonly [name: string, figure: Figure | null];

const known = (name: string, figure: Figure | null): readonly Row[] => (figure === null ? [] : [[name, figure]]);

/** The figures of a material that something is computed from, most telling first. */
export const figuresOf = (material: Material): readonly Row[] => {
  const { figures } = messages;
  switch (material.kind) {
    case 'fat':
    case 'wax':
      return [
        [figures.sv, material.sv],
        [figures.densityAt(material.density.celsius), material.density],
        ...known(figures.iodine, material.iodine),
        ...known(figures.melting, material.melting),
        ...known(figures.acidValue, material.acidValue),
        ...known(figures.unsaponifiable, material.unsaponifiable),
      ];
    case 'alkali':
      return [
        [figures.purity, material.purity],
        [figures.restIsWater, material.restIsWater],
      ];
    case 'liquid':
      return [
        [figures.water, material.water],
        [figures.fat, material.fat],
        [figures.sugar, material.sugar],
        [figures.acid, material.acid],
        ...known(figures.fatSv, material.fatSv),
      ];
    case 'acid':
      return [[figures.strength, material.strength]];
    case 'fragrance':
      return [[figures.density, material.density], ...known(figures.vanillin, material.vanillin)];
    case 'additive':
    case 'colourant':
      break;
  }
  return [[figures.density, material.density]];
};

/** The fatty acids of a fat, strongest first; empty for anything else. */
export const acidsOf = (material: Material): readonly Row[] =>
  material.kind === 'fat' || material.kind === 'wax'
    ? material.fattyAcids
        .toSorted((a, b) => Number(b.percent.value) - Number(a.percent.value))
        .map(({ acid, percent }) => [fattyAcidName(acid), percent] as const)
    : [];

export const rangeText = ({ low, high }: Figure): string =>
  low === undefined || high === undefined ? '' : low === high ? low : `${low}–${high}`;
