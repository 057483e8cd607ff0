import { CODEX_210_MEMORY, density, fat, HANDBOOKS, MERCK, MIDDLE, most, range, recalled, type Fat } from './fat';
import type { Source } from '../source';

const CODEX_33_APPENDIX: Source = { text: 'Codex CXS 33-1981, appendix', grade: 'memory' };
const MATERIALS_DATABASE: Source = { text: 'conservation-science materials database (secondary)', grade: 'C' };

/** Oils of fruits, nuts and stones. */
export const NUT: readonly Fat[] = [
  fat(
    'olive',
    'Olive oil',
    { value: 190, reason: MIDDLE },
    {
      sv: range(184, 196, CODEX_33_APPENDIX),
      iodine: range(75, 94, CODEX_33_APPENDIX),
      unsaponifiable: most(0.015, CODEX_33_APPENDIX),
      fattyAcids: {
        source: { text: 'Codex CXS 33-1981, section 3.9', grade: 'B' },
        ranges: {
          '14:0': [0, 0.05],
          '16:0': [7.5, 20],
          '16:1': [0.3, 3.5],
          '17:0': [0, 0.3],
          '17:1': [0, 0.3],
          '18:0': [0.5, 5],
          '18:1': [55, 83],
          '18:2': [3.5, 21],
          '20:0': [0, 0.6],
          '20:1': [0, 0.4],
        },
      },
      density: density(0.911, 20),
    },
  ),
  fat(
    'peanut',
    'Peanut oil',
    { value: 191, reason: MIDDLE },
    {
      sv: range(187, 196, CODEX_210_MEMORY),
      iodine: range(86, 107, CODEX_210_MEMORY),
      unsaponifiable: most(0.01, CODEX_210_MEMORY),
      fattyAcids: {
        source: CODEX_210_MEMORY,
        ranges: {
          '14:0': [0, 0.1],
          '16:0': [5, 14],
          '16:1': [0, 0.2],
          '18:0': [1, 4.5],
          '18:1': [35, 80],
          '18:2': [4, 43],
          '18:3': [0, 0.5],
          '20:0': [0.7, 2],
          '20:1': [0.7, 3.2],
          '22:0': [1.5, 4.5],
          '22:1': [0, 0.6],
          '24:0': [0.5, 2.5],
        },
      },
      density: density(0.914, 20),
    },
  ),
  fat(
    'almond',
    'Almond oil',
    { value: 191, reason: 'what its fatty acids allow (191.1–192.3), less what takes no alkali' },
    {
      sv: range(183, 207, CODEX_210_MEMORY),
      iodine: range(85, 109, CODEX_210_MEMORY),
      unsaponifiable: most(0.02, CODEX_210_MEMORY),
      fattyAcids: {
        source: CODEX_210_MEMORY,
        ranges: { '16:0': [4, 9], '16:1': [0.2, 0.8], '18:0': [0, 3], '18:1': [62, 76], '18:2': [20, 30], '18:3': [0, 0.5] },
      },
      density: density(0.915, 20),
      note: 'The standard’s range is wider than its fatty acids allow (191.1–192.3): its middle, 195, would be wrong.',
    },
  ),
  fat(
    'avocado',
    'Avocado oil',
    { value: 190, reason: 'what its usual fatty acids come to, less 2 % that takes no alkali' },
    {
      sv: range(177, 198, MATERIALS_DATABASE),
      iodine: range(71, 95, MATERIALS_DATABASE),
      density: density(0.913, 20),
      fattyAcids: {
        source: HANDBOOKS,
        ranges: { '16:0': [16, 16], '16:1': [6, 6], '18:0': [0.7, 0.7], '18:1': [62, 62], '18:2': [13.5, 13.5], '18:3': [1, 1] },
      },
    },
  ),
  fat(
    'grapeseed',
    'Grapeseed oil',
    { value: 191, reason: MIDDLE },
    {
      sv: range(188, 194, CODEX_210_MEMORY),
      iodine: range(128, 150, CODEX_210_MEMORY),
      unsaponifiable: most(0.02, CODEX_210_MEMORY),
      fattyAcids: {
        source: CODEX_210_MEMORY,
        ranges: {
          '16:0': [5.5, 11],
          '16:1': [0, 1.2],
          '18:0': [3, 6.5],
          '18:1': [12, 28],
          '18:2': [58, 78],
          '18:3': [0, 1],
          '20:0': [0, 1],
        },
      },
      density: density(0.921, 20),
    },
  ),
  fat(
    'castor',
    'Castor oil',
    { value: 181, reason: MIDDLE },
    {
      sv: range(176, 187, MERCK),
      iodine: range(81, 91, MERCK),
      unsaponifiable: most(0.008, { text: 'BP 2025 Virgin Castor Oil', grade: 'B' }),
      fattyAcids: {
        source: { text: 'Binder et al., JAOCS 39, 513 (1962) via Merck Index text', grade: 'B' },
        ranges: { '18:1-OH': [87, 87], '18:1': [7, 7], '18:2': [3, 3], '16:0': [2, 2], '18:0': [1, 1] },
      },
      density: density(0.959, 20),
    },
  ),
  recalled(
    'apricot-kernel',
    'Apricot kernel oil',
    [185, 190, 195],
    { '16:0': 5, '16:1': 0.7, '18:0': 1, '18:1': 65, '18:2': 28 },
    { density: density(0.915, 20), iodine: range(90, 115, HANDBOOKS), unsaponifiable: most(0.01, HANDBOOKS) },
  ),
  recalled(
    'peach-kernel',
    'Peach kernel oil',
    [186, 191, 195],
    { '16:0': 6, '18:0': 1.5, '18:1': 66, '18:2': 26 },
    { density: density(0.915, 20), iodine: range(94, 110, HANDBOOKS), unsaponifiable: most(0.01, HANDBOOKS) },
  ),
  recalled(
    'hazelnut',
    'Hazelnut oil',
    [188, 190, 198],
    { '16:0': 5.5, '16:1': 0.3, '18:0': 2.5, '18:1': 80, '18:2': 11 },
    { density: density(0.913, 20), iodine: range(81, 95, HANDBOOKS), unsaponifiable: most(0.015, HANDBOOKS) },
  ),
  recalled(
    'macadamia',
    'Macadamia oil',
    [190, 195, 200],
    { '14:0': 1, '16:0': 8.5, '16:1': 20, '18:0': 3.5, '18:1': 59, '18:2': 2.5, '20:0': 2.5, '20:1': 2.5 },
    { density: density(0.912, 20), iodine: range(70, 81, HANDBOOKS), unsaponifiable: most(0.015, HANDBOOKS) },
  ),
  recalled(
    'walnut',
    'Walnut oil',
    [189, 192, 198],
    { '16:0': 7, '18:0': 2.5, '18:1': 17, '18:2': 61, '18:3': 12 },
    { density: density(0.923, 20), iodine: range(132, 162, HANDBOOKS), unsaponifiable: most(0.02, HANDBOOKS) },
  ),
  recalled(
    'pistachio',
    'Pistachio oil',
    [187, 191, 197],
    { '16:0': 10, '16:1': 0.8, '18:0': 1.5, '18:1': 58, '18:2': 29, '18:3': 0.4 },
    { density: density(0.916, 20), iodine: range(86, 105, HANDBOOKS), unsaponifiable: most(0.02, HANDBOOKS) },
  ),
  recalled(
    'brazil-nut',
    'Brazil nut oil',
    [190, 194, 202],
    { '16:0': 15, '18:0': 10, '18:1': 33, '18:2': 41 },
    { density: density(0.916, 20), iodine: range(94, 110, HANDBOOKS), unsaponifiable: most(0.01, HANDBOOKS) },
  ),
  recalled(
    'argan',
    'Argan oil',
    [189, 191, 199],
    { '16:0': 13, '18:0': 5.5, '18:1': 47, '18:2': 33, '18:3': 0.1, '20:0': 0.4 },
    { density: density(0.913, 20), iodine: range(91, 110, HANDBOOKS), unsaponifiable: most(0.011, HANDBOOKS) },
  ),
  recalled(
    'camellia',
    'Camellia (tea seed) oil',
    [188, 192, 196],
    { '16:0': 9, '18:0': 2, '18:1': 80, '18:2': 8, '18:3': 0.3 },
    { density: density(0.912, 20), iodine: range(80, 95, HANDBOOKS), unsaponifiable: most(0.015, HANDBOOKS) },
  ),
];
