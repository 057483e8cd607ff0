import type { BatterPart, Entry } from '#lib/work/formula/index';
import { TextField } from '../../_ui/fields';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { freshId } from './fresh';
import { useSheet } from './use-sheet';

const { moulds: words } = messages;

/** An entry without a part it was to go into. */
const freed = (entry: Entry, part: string): Entry => {
  if (entry.intoPart !== part) return entry;
  const { intoPart: _gone, ...rest } = entry;
  return rest;
};

/** What of the batter leaves the pot for jugs of its own. */
export function BatterParts() {
  const { formula, change, wrongAt } = useSheet();
  const parts = formula.batterParts ?? [];
  const put = (next: readonly BatterPart[], field: string, entries = formula.entries): void =>
    change({ ...formula, entries, batterParts: next }, `batterParts.${field}`);
  const set = (at: number, next: Partial<BatterPart>, field: string): void =>
    put(
      parts.map((one, index) => (index === at ? { ...one, ...next } : one)),
      `${at}.${field}`,
    );
  const remove = ({ id }: BatterPart): void =>
    put(
      parts.filter((one) => one.id !== id),
      'remove',
      formula.entries.map((entry) => freed(entry, id)),
    );
  const add = (): void => put([...parts, { id: freshId('part'), name: words.newPart(parts.length + 1), percent: '50' }], 'add');
  return (
    <>
      <h3 className={on('minor gap')}>{words.partsTitle}</h3>
      <p className={on('dim')}>{words.partsNote}</p>
      {parts.map((one, at) => (
        <div key={one.id} className={on('form')}>
          <TextField id={`part-${one.id}`} label={words.partName} value={one.name} onChange={(name) => set(at, { name }, 'name')} />
          <TextField
            id={`part-${one.id}-percent`}
            label={words.partPercent}
            value={one.percent}
            error={wrongAt(`batterParts[${at}].percent`)}
            numeric
            onChange={(percent) => set(at, { percent }, 'percent')}
          />
          <button type="button" className={on('link')} aria-label={words.removePart(one.name)} onClick={() => remove(one)}>
            {messages.heads.remove}
          </button>
        </div>
      ))}
      <div className={on('acts')}>
        <button type="button" className={on('act')} onClick={add}>
          {words.addPart}
        </button>
      </div>
    </>
  );
}
