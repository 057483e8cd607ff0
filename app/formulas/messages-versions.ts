import { messages as moreMessages } from './messages-more';
import { messages as sheet } from './messages-sheet';
import type { Amount, Band, BatterPart, MouldUse, Reference, Size, Temperatures, Wishes } from '#lib/work/formula/index';

const FIELDS: Readonly<Record<string, string>> = {
  name: 'name',
  note: 'in a few words',
  size: 'how large',
  moulds: 'moulds',
  batterParts: 'parts of the batter',
  intoPart: 'into which part',
  temperatures: 'temperatures',
  references: 'assessments and notifications',
  superfat: 'superfat',
  lye: 'strength of the lye',
  part: 'its part',
  material: 'material',
  lot: 'lot',
  amount: 'how much',
  lock: 'what is fixed',
  keep: 'kept within',
  goes: 'when it goes in',
  frozen: 'frozen',
  weighed: 'how it is weighed',
  entries: 'what is in it',
};

const KINDS = new Set(['share', 'mass', 'volume', 'rest', 'ounces-unclear', 'unweighed']);
const isAmount = (value: object): value is Amount => 'kind' in value && KINDS.has(String(value.kind)) && !('moulds' in value);

/** What an id stands for, in words. */
export interface Names {
  readonly material: (id: string) => string;
  readonly entry: (id: string) => string;
  readonly mould: (id: string) => string;
  readonly blend: (id: string) => string;
  readonly lot: (id: string) => string;
}

type Worded = Readonly<Record<string, string>>;
const { joining, more, references, limits } = moreMessages;
const WORDS: Readonly<Record<string, Worded>> = {
  lock: more.locks,
  goes: more.places,
  frozen: { true: more.states.frozen, false: more.states.liquid },
  weighed: { loss: more.byLoss },
  part: Object.fromEntries(Object.entries(sheet.parts).map(([part, { title }]) => [part, title.toLowerCase()])),
};

/** What a text stands for, by the field it stands in. */
const NAMED: Readonly<Record<string, (text: string, names: Names) => string>> = {
  material: (text, names) => names.material(text),
  lot: (text, names) => names.lot(text),
  superfat: (text) => `${text} %`,
};

const bandText = ({ low, high }: Band): string => `${low} to ${high} %`;

const temperatureText = ({ window, apart, apartLevel, setsAt, milkLimit, pourAt }: Temperatures): string =>
  [
    `${window.low} to ${window.high} °C`,
    `${joining.apart.toLowerCase()} ${apart} °C, ${joining.levels[apartLevel]}`,
    ...(setsAt === null ? [] : [`${joining.setsAt} ${setsAt} °C`]),
    ...(milkLimit === null ? [] : [`${joining.milkLimit} ${milkLimit} °C`]),
    ...(pourAt === null ? [] : [`${joining.pourAt} ${pourAt} °C`]),
  ].join('; ');

const sizeText = (size: Size): string => {
  const { kinds, each } = sheet.size;
  if (size.kind === 'moulds') return kinds.moulds;
  const value = `${size.value} ${size.unit}`;
  return size.kind === 'bars' ? `${size.count} bars, ${each.toLowerCase()} ${value}` : `${kinds[size.kind]}: ${value}`;
};

const referenceText = ({ kind, number, date, ranges, file }: Reference, names: Names): string =>
  [
    `${references.kinds[kind]} ${number} of ${date}`,
    ...ranges.map((range) => `${names.material(range.material)} ${bandText(range)}`),
    ...(file === null ? [] : ['with the paper']),
  ].join(', ');

const listText = (values: readonly unknown[], text: (one: never) => string): string =>
  values.length === 0 ? 'nothing' : values.map((one) => text(one as never)).join('; ');

/** One field's value by what stands there; the last step of its path says what it is. */
const fieldText = (field: string, value: object, names: Names): string => {
  switch (field) {
    case 'moulds':
      return listText(
        value as readonly MouldUse[],
        ({ mould, count, fill, pattern }: MouldUse) =>
          `${count} × ${names.mould(mould)}, ${fill} % full${pattern === undefined ? '' : `, ${sheet.moulds.patterns[pattern]}`}`,
      );
    case 'batterParts':
      return listText(value as readonly BatterPart[], ({ name, percent }: BatterPart) => `${name} ${percent} %`);
    case 'references':
      return listText(value as readonly Reference[], (one: Reference) => referenceText(one, names));
    case 'temperatures':
      return temperatureText(value as Temperatures);
    case 'size':
      return sizeText(value as Size);
    case 'lye':
      return 'low' in value ? bandText(value as Band) : lyeText(value as NonNullable<Wishes['lye']>);
    case 'entries':
      return listText(value as readonly string[], names.entry);
    default:
      return 'low' in value ? bandText(value as Band) : '';
  }
};

const lyeText = (lye: NonNullable<Wishes['lye']>): string =>
  lye.kind === 'ratio' ? `water ${sheet.lye.ratio(lye.water)}` : `${lye.percent} %`;

/** Words of the versions of a formula and of what changed between two. */
export const messages = {
  title: 'Versions',
  note: 'Nothing is written over: a batch made from version 1 finds version 1 for ever.',
  heads: { version: 'version', when: 'kept', why: 'why', what: 'what', before: 'before', after: 'after' },
  version: (version: number) => `version ${version}`,
  from: 'What changed from',
  to: 'to',
  same: 'Nothing differs between these two.',
  /** "entries[olive].amount" with names in it. */
  place(path: string, names: Names): string {
    const [, list, id, field] = /^(entries|blends)\[([^\]]*)\](?:\.(.+))?$/.exec(path) ?? [];
    const last = field ?? path.split('.').at(-1) ?? path;
    const what = FIELDS[last] ?? last;
    if (list === undefined || id === undefined) return path.startsWith('limits.') ? `${limits.title.toLowerCase()}: ${what}` : what;
    const name = list === 'entries' ? names.entry(id) : names.blend(id);
    return field === undefined ? name : `${name}: ${what}`;
  },
  /** A document's own value, in words. */
  value(path: string, value: unknown, names: Names): string {
    if (value === null || value === undefined || value === '') return 'nothing';
    const field =
      path
        .split('.')
        .at(-1)
        ?.replace(/\[[^\]]*\]$/, '') ?? '';
    if (typeof value !== 'object') {
      const text = String(value as string | number | boolean);
      return WORDS[field]?.[text] ?? NAMED[field]?.(text, names) ?? text;
    }
    if (isAmount(value)) return sheet.said(value);
    // A thing come or gone as a whole is told by how much of it.
    if (path.endsWith(']')) return 'amount' in value && value.amount !== null ? sheet.said(value.amount as Amount) : 'no amount yet';
    return fieldText(field, value, names);
  },
  bringBack: 'Bring back',
  bringBackSpoken: (version: number) => `Bring back version ${version}`,
  broughtBack: (version: number) => `as version ${version} was`,
  back: 'bring back',
  putAway: 'Put this formula away',
  putAwayNote: 'It leaves the list; batches made of it keep it, and it can be taken out again there.',
  putAwayTyped: 'What is typed here and not kept stays on this screen, under “Begun on this screen”.',
  putAwayLoses: 'This screen cannot hold what is typed: keep it first, or throw it away.',
} as const;
