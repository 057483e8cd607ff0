import type { BarsDue } from '#lib/protocol/bars';
import type { Clock } from '#lib/units/time';
import type { UnmouldKept } from '#lib/work/bars/documents';
import { cutBefore, hoursSince, isOut } from '#lib/work/bars/due';
import { windowOf } from '#lib/work/bars/unmould';
import { documentsOf } from '#lib/work/shelf/context';
import type { Store } from '../store/store';

/** So many of the newest lots teach how long the next take, as on the pages. */
const TELLING = 200;

/** Logs that can leave their mould, and those that wait to be cut. In the freezer one waits for a person. */
export const barsDue = async ({ bars, shelf }: Pick<Store, 'bars' | 'shelf'>, clock: Pick<Clock, 'wall'>): Promise<BarsDue> => {
  const logs = (await bars.open()).filter(({ cut }) => cut === null);
  if (logs.length === 0) return { logs: [] };
  const known = (await bars.list({ before: null, limit: TELLING })).bars;
  const kept = documentsOf<UnmouldKept>(shelf.now(), 'unmould');
  return {
    logs: logs.flatMap((row): BarsDue['logs'] => {
      const { id, mark, formula, unmould, poured } = row;
      const said = kept.find((one) => one.id === formula.id) ?? null;
      const log = { id, mark, name: formula.name, before: cutBefore(row, said) };
      if (isOut(row)) return [{ ...log, what: 'cut' }];
      const opened = unmould?.state !== 'freezer' && hoursSince(poured, clock.wall()) >= windowOf(row, known, said).from;
      return opened ? [{ ...log, what: 'unmould' }] : [];
    }),
  };
};
