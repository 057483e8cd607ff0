import { ACID_IDS, acidFacts } from '#lib/soap/acid';
import type { MaterialKind } from '#lib/work/formula/index';
import type { Spec } from '../../_ui/kept/fields';
import type { Typed } from '../../_ui/kept/typed';
import { messages } from '../messages';
import { own } from '../messages-own';
import { kindIn } from './own-form';

const { optional } = messages;
const pairs = (names: Readonly<Record<string, string>>): readonly (readonly [string, string])[] => Object.entries(names);
const must = (key: string, label: string): Spec => ({ kind: 'number', key, label });
const may = (key: string, label: string): Spec => ({ kind: 'number', key, label, hint: optional });
const choice = (key: string, label: string, options: readonly (readonly [string, string])[]): Spec => ({
  kind: 'choice',
  key,
  label,
  options,
});
const acids = ACID_IDS.map((id) => [id, acidFacts(id).name] as const);

const fat: readonly Spec[] = [
  choice('bound', own.bound, pairs(own.bounds)),
  { kind: 'group', key: 'sv-group', fields: [must('sv', own.sv), may('sv.low', own.svLow), may('sv.high', own.svHigh)] },
  { kind: 'group', key: 'density-group', fields: [must('density', own.density), must('density.celsius', own.celsius)] },
  may('iodine', own.iodine),
  may('acidValue', own.acidValue),
  may('unsaponifiable', own.unsaponifiable),
  may('melting', own.melting),
  { kind: 'lines', key: 'fattyAcids', label: own.fattyAcids, hint: own.fattyAcidsHint },
];

const OF_KIND: Readonly<Record<MaterialKind, readonly Spec[]>> = {
  fat,
  wax: fat,
  alkali: [
    choice('hydroxide', own.hydroxide, [
      ['NaOH', 'NaOH'],
      ['KOH', 'KOH'],
    ]),
    choice('form', own.form, pairs(own.forms)),
    may('purity', own.purity),
    must('restIsWater', own.restIsWater),
  ],
  liquid: [
    must('water', own.water),
    must('fat', own.fat),
    must('sugar', own.sugar),
    must('acid', own.acidShare),
    choice('acidAs', own.acidAs, acids),
    may('fatSv', own.fatSv),
    choice('scorches', own.scorches, pairs(own.scorch)),
  ],
  acid: [choice('acid', own.acid, acids), may('strength', own.strength)],
  additive: [
    must('density', own.density),
    choice('like', own.like, pairs(own.likes)),
    choice('dissolves', own.dissolves, pairs(own.dissolve)),
  ],
  fragrance: [must('density', own.density), may('vanillin', own.vanillin)],
  colourant: [must('density', own.density)],
};

const isFat = (kind: MaterialKind): boolean => kind === 'fat' || kind === 'wax';

/** The fields of a material of the chosen kind. */
export const ownSpecs = (typed: Typed): readonly Spec[] => [
  { kind: 'text', key: 'name', label: own.name },
  choice('kind', own.kind, pairs(messages.kinds)),
  { kind: 'text', key: 'source', label: own.source, hint: own.sourceHint },
  ...OF_KIND[kindIn(typed)],
  { kind: 'text', key: 'inci', label: own.inci, hint: optional },
  ...(isFat(kindIn(typed)) ? [{ kind: 'text', key: 'saponifiedAs', label: own.saponifiedAs, hint: optional } as const] : []),
  { kind: 'text', key: 'note', label: own.note1, hint: optional },
];
