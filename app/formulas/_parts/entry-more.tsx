'use client';
import type { Entry, Part } from '#lib/work/formula/index';
import { Choice } from '../../_ui/fields';
import { on } from '../classes';
import { messages } from '../messages-more';
import { BandFields } from './band-fields';
import { useSheet } from './use-sheet';

const { more: words } = messages;
type Lock = keyof typeof words.locks;
type Goes = keyof typeof words.places;
type State = keyof typeof words.states;
type Weighing = keyof typeof words.weighings;

/** What can be locked of a part. */
const LOCKS: Readonly<Record<Part, readonly Lock[]>> = {
  fat: ['free', 'share', 'mass'],
  alkali: [],
  liquid: [],
  acid: ['free', 'mass'],
  fragrance: ['free', 'mass'],
  extra: ['free', 'mass'],
};
/** Where a part may go. Fat does not dissolve in lye, hydroxide goes nowhere else. */
const PLACES: Readonly<Record<Part, readonly Goes[]>> = {
  fat: ['usual', 'oils', 'aside', 'trace'],
  alkali: [],
  liquid: ['usual', 'lye', 'oils', 'aside', 'trace'],
  acid: ['usual', 'lye', 'oils', 'aside', 'trace'],
  fragrance: ['usual', 'oils', 'aside', 'trace'],
  extra: ['usual', 'lye', 'oils', 'aside', 'trace'],
};

/** Those offered, and the one that stands there all the same: a file may have said it. */
const options = <T extends string>(offered: readonly T[], now: T, names: Readonly<Record<T, string>>): readonly (readonly [T, string])[] =>
  (offered.includes(now) ? offered : [...offered, now]).map((one) => [one, names[one]] as const);

/** What a closed row says of it: nothing but what differs from the usual. */
const saidOf = ({ lock, keep, goes, frozen, weighed }: Entry): readonly string[] => [
  ...(keep === null ? [] : [words.kept(keep.low, keep.high)]),
  ...(lock === null ? [] : [words.locks[lock]]),
  ...(goes === null ? [] : [words.places[goes]]),
  ...(frozen ? [words.states.frozen] : []),
  ...(weighed === 'loss' ? [words.byLoss] : []),
];

interface Toggle {
  readonly entry: Entry;
  readonly name: string;
  readonly open: boolean;
  readonly onToggle: () => void;
}

/** What can be stirred into joined batter. */
const LATE: ReadonlySet<Part> = new Set<Part>(['fat', 'fragrance', 'extra']);

const idOf = ({ id }: Entry): string => `more-${id}`;

/** Opens the rest of what can be said of an entry. */
export function MoreToggle({ entry, name, open, onToggle }: Toggle) {
  if (entry.part === 'alkali') return null;
  return (
    <p className={on('dim')}>
      <button
        type="button"
        className={on('link')}
        aria-expanded={open}
        aria-controls={open ? idOf(entry) : undefined}
        aria-label={words.of(name)}
        onClick={onToggle}
      >
        {words.more}
      </button>{' '}
      {saidOf(entry).join('; ')}
    </p>
  );
}

interface Props {
  readonly entry: Entry;
  readonly path: string;
  readonly columns: number;
  readonly put: (next: Partial<Entry>, field: string) => void;
  readonly onWeighed: (byLoss: boolean) => void;
}

/** What an entry is kept to, what of it stays, when it goes in, and how it is weighed. */
export function MoreRow({ entry, path, columns, put, onWeighed }: Props) {
  const { part, lock, goes, keep, frozen } = entry;
  const { formula, wrongAt } = useSheet();
  const parts = LATE.has(part) ? (formula.batterParts ?? []) : [];
  const id = idOf(entry);
  return (
    <tr className={on('slip')}>
      <td colSpan={columns} id={id}>
        <div className={on('form')}>
          {part === 'fat' || keep !== null ? (
            <BandFields
              id={`${id}-keep`}
              path={`${path}.keep`}
              words={words}
              band={keep}
              onChange={(next) => put({ keep: next }, 'keep')}
            />
          ) : null}
          {LOCKS[part].length === 0 && lock === null ? null : (
            <Choice
              id={`${id}-lock`}
              label={words.lock}
              value={lock ?? 'free'}
              options={options<Lock>(LOCKS[part], lock ?? 'free', words.locks)}
              onChange={(next) => put({ lock: next === 'free' ? null : next }, 'lock')}
            />
          )}
          <Choice
            id={`${id}-goes`}
            label={words.goes}
            value={goes ?? 'usual'}
            options={options<Goes>(PLACES[part], goes ?? 'usual', words.places)}
            onChange={(next) => put({ goes: next === 'usual' ? null : next }, 'goes')}
          />
          {parts.length === 0 && entry.intoPart === undefined ? null : (
            <Choice
              id={`${id}-into`}
              label={words.into}
              value={entry.intoPart ?? ''}
              options={[['', words.whole], ...parts.map(({ id: one, name }) => [one, name] as const)]}
              error={wrongAt(`${path}.intoPart`)}
              onChange={(next) => put({ intoPart: next === '' ? undefined : next } as Partial<Entry>, 'intoPart')}
            />
          )}
          {part === 'liquid' || frozen ? (
            <Choice<State>
              id={`${id}-frozen`}
              label={words.state}
              value={frozen ? 'frozen' : 'liquid'}
              options={Object.entries(words.states) as [State, string][]}
              onChange={(next) => put({ frozen: next === 'frozen' }, 'frozen')}
            />
          ) : null}
          <Choice
            id={`${id}-weighed`}
            label={words.weighed}
            value={entry.weighed === 'loss' ? 'loss' : 'vessel'}
            options={Object.entries(words.weighings) as [Weighing, string][]}
            onChange={(next) => onWeighed(next === 'loss')}
          />
        </div>
      </td>
    </tr>
  );
}
