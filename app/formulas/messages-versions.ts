import { messages as sheet } from './messages-sheet';
import type { Amount } from '#lib/work/formula/index';

const FIELDS: Readonly<Record<string, string>> = {
  name: 'name',
  note: 'in a few words',
  size: 'how large',
  moulds: 'moulds',
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
  place(path: string, nameOf: (entry: string) => string): string {
    const [, list, id, field] = /^(entries|blends)\[([^\]]*)\](?:\.(.+))?$/.exec(path) ?? [];
    const last = field ?? path.split('.').at(-1) ?? path;
    const what = FIELDS[last] ?? last;
    if (list === undefined || id === undefined) return path.startsWith('limits.') ? `limits of the ${what}` : what;
    const name = list === 'entries' ? nameOf(id) : id;
    return field === undefined ? name : `${name}: ${what}`;
  },
  /** A document's own value, short. */
  value(value: unknown, nameOf: (material: string) => string): string {
    if (value === null || value === undefined || value === '') return 'nothing';
    if (typeof value === 'string') return nameOf(value);
    if (typeof value !== 'object') return String(value as number | boolean);
    if (isAmount(value)) return sheet.said(value);
    if ('amount' in value && value.amount !== null) return sheet.said(value.amount as Amount);
    return Object.values(value as Record<string, unknown>)
      .filter((one) => one !== null && typeof one !== 'object')
      .map(String)
      .join(' ');
  },
} as const;
