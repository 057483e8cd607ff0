import type { Milligrams } from '#lib/units/mass';
import type { Realm } from '#lib/work/batch/index';
import type { IngredientList } from '#lib/work/label/ingredients';
import type { LabelText } from '#lib/work/label/placed';
import { netStatement } from '#lib/work/label/net-statement';
import type { LabelSettings } from '#lib/work/label/settings';

/** Words printed on a bar's label; where another tongue is asked for by law, the maker's own paragraphs say it. */
export const labelWords = {
  ingredients: (names: string) => `Ingredients: ${names}.`,
  batch: (mark: string) => `Batch ${mark}`,
  /** What no real scale has weighed can pass for no real bar, cut out of its sheet either. */
  realm: { real: null, practice: 'Practice: not for sale.', test: 'A test: not for sale.' } satisfies Record<Realm, string | null>,
  head: (words: string) => `Record: ${words}.`,
  /** As Regulation (EC) No 1223/2009 Art. 19(1)(c) words it (from memory). */
  bestBefore: (month: string) => `Best used before the end of ${month}.`,
  origin: (country: string) => `Made in ${country}.`,
  noRoom: 'Not drawn: not everything has room at this size.',
  customary: (amount: string) => `Net Wt ${amount}`,
  /** The file's title, and what is told of its drawings where nobody sees them. */
  file: (title: string, mark: string) => `Label of ${title}, batch ${mark}`,
  alt: {
    code: (mark: string) => `Code of batch ${mark}, for a phone to read`,
    estimated: 'Estimated sign',
    opened: (months: string) => `Open jar, ${months}: good for so many months after it was opened`,
  },
};

export interface LabelContent {
  readonly settings: LabelSettings;
  /** Name of the formula, where the settings have no title. */
  readonly formula: string;
  readonly list: IngredientList;
  readonly mark: string;
  readonly realm: Realm;
  readonly net: Milligrams | null;
  /** Wall time of the pour. */
  readonly poured: number;
  /** First signed head of the record that has the batch in it, in words; left out while there is none. */
  readonly head?: string | undefined;
}

/** "06/2027": a month as a label has it, so many after another. */
const monthAfter = (wall: number, months: number): string => {
  const day = new Date(wall);
  const all = day.getUTCFullYear() * 12 + day.getUTCMonth() + months;
  return `${String((all % 12) + 1).padStart(2, '0')}/${Math.floor(all / 12)}`;
};

const durabilityText = ({ durability }: LabelSettings, poured: number): string | null => {
  switch (durability.kind) {
    case 'none':
    case 'opened':
      return null;
    case 'best-before':
      break;
  }
  return labelWords.bestBefore(monthAfter(poured, durability.months));
};

/** Control characters come along with what is pasted; no XML holds them and no face draws them. */
const printable = (text: string): string => text.replaceAll(/[\p{Cc}\uFFFE\uFFFF]/gu, ' ');

const said = (text: string | null): readonly string[] => (text === null || text.trim() === '' ? [] : [text.trim()]);

/** What it is called on the front. */
export const labelTitle = ({ title }: LabelSettings, formula: string): string => (title.trim() === '' ? formula : title.trim());

/** Everything a label says, whole. */
export const labelText = ({ settings, formula, list, mark, realm, net, poured, head }: LabelContent): LabelText => {
  const { purpose, cautions, responsible, origin } = settings;
  const stated = net === null ? null : netStatement(net);
  return {
    title: printable(labelTitle(settings, formula)),
    purpose: purpose === null || purpose.trim() === '' ? null : printable(purpose.trim()),
    net:
      stated === null || net === null
        ? null
        : { metric: stated.metric, customary: labelWords.customary(stated.customary), mass: net, estimated: settings.estimated },
    noRoom: labelWords.noRoom,
    openedMonths: settings.durability.kind === 'opened' ? settings.durability.months : null,
    paragraphs: [
      ...(list.items.length === 0 ? [] : [labelWords.ingredients(list.items.map(({ name }) => name).join(', '))]),
      ...said(cautions.map((one) => one.trim()).join(' ')),
      ...said(durabilityText(settings, poured)),
      ...said([responsible.name, responsible.address.replaceAll(/\s*\n\s*/g, ', ')].filter((one) => one.trim() !== '').join(', ')),
      ...said(origin === null || origin.trim() === '' ? null : labelWords.origin(origin.trim())),
      labelWords.batch(mark),
      ...said(labelWords.realm[realm]),
      ...said(head === undefined ? null : labelWords.head(head)),
    ].map(printable),
  };
};
