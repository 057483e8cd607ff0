import { density, fat, HANDBOOKS, melting, MIDDLE, most, range, recalled, type Fat } from './fat';
import type { Source } from '../source';

const CANADA: Source = { text: 'Canada Food and Drug Regulations, C.R.C. c. 870, B.09.013 (version 2022-07-20 to 2024-03-06)', grade: 'A' };
const CODEX_211: Source = { text: 'Codex CXS 211-1999', grade: 'memory' };
const MALAYSIA: Source = { text: 'Malaysia Food Regulations 1985, reg. 181', grade: 'A' };

/** Fats of animals. */
export const ANIMAL: readonly Fat[] = [
  fat(
    'lard',
    'Lard',
    { value: 197, reason: MIDDLE },
    {
      sv: range(192, 203, CANADA),
      iodine: range(45, 70, CANADA),
      unsaponifiable: most(0.012, CANADA),
      fattyAcids: {
        source: CODEX_211,
        ranges: {
          '14:0': [1, 2.5],
          '16:0': [20, 30],
          '16:1': [2, 4],
          '18:0': [8, 22],
          '18:1': [35, 55],
          '18:2': [4, 12],
          '18:3': [0, 1.5],
        },
      },
      density: {
        value: 0.8984,
        celsius: 40,
        source: { text: 'Canada Food and Drug Regulations, B.09.013: 0.894–0.906 of water at 20 °C, its middle', grade: 'A' },
      },
      melting: melting(36, 45),
    },
  ),
  fat(
    'tallow',
    'Beef tallow',
    { value: 196, reason: MIDDLE },
    {
      sv: range(190, 202, CODEX_211),
      iodine: range(40, 53, CODEX_211),
      unsaponifiable: most(0.012, CODEX_211),
      fattyAcids: {
        source: CODEX_211,
        ranges: { '14:0': [2, 6], '16:0': [20, 30], '16:1': [1, 5], '18:0': [15, 30], '18:1': [30, 45], '18:2': [1, 6], '18:3': [0, 1.5] },
      },
      density: density(0.898, 40),
      melting: melting(40, 48),
    },
  ),
  fat(
    'suet',
    'Suet',
    { value: 195, reason: MIDDLE },
    {
      sv: range(190, 200, MALAYSIA),
      iodine: range(32, 47, MALAYSIA),
      unsaponifiable: most(0.01, MALAYSIA),
      density: density(0.896, 50),
      melting: melting(44, 50),
      fattyAcids: {
        source: HANDBOOKS,
        ranges: {
          '14:0': [3, 3],
          '16:0': [26, 26],
          '16:1': [2.5, 2.5],
          '17:0': [1.5, 1.5],
          '18:0': [25, 25],
          '18:1': [37, 37],
          '18:2': [2, 2],
          '18:3': [0.5, 0.5],
        },
      },
    },
  ),
  recalled(
    'butterfat',
    'Butterfat (ghee)',
    [210, 226, 235],
    {
      '4:0': 3.5,
      '6:0': 2.2,
      '8:0': 1.3,
      '10:0': 2.8,
      '12:0': 3.2,
      '14:0': 11,
      '14:1': 1,
      '16:0': 29,
      '16:1': 2,
      '17:0': 0.7,
      '18:0': 12,
      '18:1': 25,
      '18:2': 2.5,
      '18:3': 0.8,
    },
    { density: density(0.902, 40), melting: melting(28, 36), iodine: range(26, 40, HANDBOOKS), unsaponifiable: most(0.005, HANDBOOKS) },
  ),
  recalled(
    'goose',
    'Goose fat',
    [188, 194, 198],
    { '14:0': 0.5, '16:0': 21, '16:1': 3, '18:0': 6, '18:1': 56, '18:2': 11, '18:3': 0.7 },
    { density: density(0.902, 40), melting: melting(25, 37), iodine: range(59, 81, HANDBOOKS), unsaponifiable: most(0.01, HANDBOOKS) },
  ),
  recalled(
    'chicken',
    'Chicken fat',
    [192, 196, 204],
    { '14:0': 0.9, '16:0': 24, '16:1': 6, '18:0': 6, '18:1': 42, '18:2': 19, '18:3': 1 },
    { density: density(0.903, 40), melting: melting(23, 40), iodine: range(66, 90, HANDBOOKS), unsaponifiable: most(0.01, HANDBOOKS) },
  ),
  recalled(
    'emu',
    'Emu oil',
    [185, 194, 200],
    { '14:0': 0.4, '16:0': 22, '16:1': 3.5, '18:0': 9, '18:1': 48, '18:2': 14, '18:3': 1 },
    { density: density(0.902, 40), melting: melting(18, 30), iodine: range(60, 80, HANDBOOKS), unsaponifiable: most(0.01, HANDBOOKS) },
  ),
];
