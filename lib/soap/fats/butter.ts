import { density, fat, HANDBOOKS, melting, MIDDLE, most, range, recalled, type Fat } from './fat';
import type { Source } from '../source';

const CODEX_325R: Source = { text: 'Codex regional standard CXS 325R-2017, Table 2 (as reproduced in a national adoption)', grade: 'A' };
const CODEX_325R_MEMORY: Source = { text: 'Codex CXS 325R-2017', grade: 'memory' };

/** Butters: seed fats that are set at room temperature. */
export const BUTTER: readonly Fat[] = [
  fat(
    'shea',
    'Shea butter, unrefined',
    { value: 180, reason: 'usual of unrefined material; its range is wide on purpose' },
    {
      sv: range(160, 195, CODEX_325R),
      iodine: range(30, 75, CODEX_325R),
      unsaponifiable: most(0.19, CODEX_325R),
      fattyAcids: {
        source: CODEX_325R_MEMORY,
        ranges: { '16:0': [2, 10], '18:0': [25, 50], '18:1': [32, 62], '18:2': [1, 11], '20:0': [0, 3.5] },
      },
      density: density(0.9, 40),
      melting: range(35, 40, CODEX_325R),
      note: 'A wide range of unrefined material, with 1 to 19 % that takes no alkali: the lot’s certificate matters.',
    },
  ),
  fat(
    'shea-refined',
    'Shea butter, refined',
    { value: 188, reason: 'usual of refined shea, inside the range' },
    {
      sv: range(185, 195, { text: '21 CFR 184.1702(b)(1)', grade: 'A' }),
      iodine: range(28, 43, { text: '21 CFR 184.1702(b)(2)', grade: 'A' }),
      unsaponifiable: most(0.015, { text: '21 CFR 184.1702(b)(3)', grade: 'A' }),
      fattyAcids: {
        source: CODEX_325R_MEMORY,
        ranges: { '16:0': [2, 10], '18:0': [25, 50], '18:1': [32, 62], '18:2': [1, 11], '20:0': [0, 3.5] },
      },
      density: density(0.9, 40),
      melting: melting(32, 40),
      note: 'The acids are those of unrefined shea; its iodine range, of a fraction sold as food, is lower than they come to.',
    },
  ),
  fat(
    'cocoa',
    'Cocoa butter',
    { value: 194, reason: MIDDLE },
    {
      sv: range(188, 200, { text: 'handbook; only trade specifications (188-198) were seen', grade: 'memory' }),
      iodine: range(32, 42, { text: 'handbook; only trade specifications (32-42) were seen', grade: 'memory' }),
      unsaponifiable: most(0.007, { text: 'Codex CXS 86-1981, 2.1', grade: 'B' }),
      fattyAcids: {
        source: { text: 'handbook range', grade: 'memory' },
        ranges: { '16:0': [24, 30], '18:0': [30, 37], '18:1': [30, 39], '18:2': [2, 4] },
      },
      density: density(0.899, 40),
      melting: melting(32, 35),
    },
  ),
  recalled(
    'mango',
    'Mango butter',
    [183, 190, 198],
    { '16:0': 8, '18:0': 42, '18:1': 43, '18:2': 5, '20:0': 2 },
    { density: density(0.9, 40), melting: melting(32, 37), iodine: range(39, 60, HANDBOOKS), unsaponifiable: most(0.02, HANDBOOKS) },
  ),
  recalled(
    'kokum',
    'Kokum butter',
    [185, 189, 195],
    { '16:0': 3, '18:0': 57, '18:1': 38, '18:2': 1.5 },
    { density: density(0.897, 50), melting: melting(38, 43), iodine: range(32, 40, HANDBOOKS), unsaponifiable: most(0.015, HANDBOOKS) },
  ),
  recalled(
    'illipe',
    'Illipe butter',
    [188, 193, 200],
    { '16:0': 18, '18:0': 45, '18:1': 35, '18:2': 0.7, '20:0': 1.3 },
    { density: density(0.897, 45), melting: melting(34, 38), iodine: range(28, 38, HANDBOOKS), unsaponifiable: most(0.015, HANDBOOKS) },
  ),
  recalled(
    'sal',
    'Sal butter',
    [180, 189, 195],
    { '16:0': 5, '18:0': 44, '18:1': 41, '18:2': 2.5, '20:0': 7 },
    { density: density(0.897, 45), melting: melting(30, 38), iodine: range(31, 45, HANDBOOKS), unsaponifiable: most(0.02, HANDBOOKS) },
  ),
  recalled(
    'cupuacu',
    'Cupuaçu butter',
    [180, 188, 195],
    { '16:0': 7, '18:0': 33, '18:1': 43, '18:2': 4, '20:0': 11, '22:0': 1.5 },
    { density: density(0.9, 40), melting: melting(28, 35), iodine: range(35, 50, HANDBOOKS), unsaponifiable: most(0.02, HANDBOOKS) },
  ),
];
