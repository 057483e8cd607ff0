import type { UnmouldKept } from './documents';
import type { BarsSummary } from './summary';

/** Coldest and warmest room they stood in, thousandths of a degree; of those lots alone of which somebody or a probe said it. */
export interface Rooms {
  readonly lots: number;
  readonly least: number;
  readonly most: number;
}

/** Hours from pouring between which a log is expected to come out clean. */
export interface UnmouldWindow {
  readonly from: number;
  readonly to: number;
  /** `answers`: earlier lots of this formula in moulds that give the same. `said`: set for the formula. `practice`: a day or two. */
  readonly by: 'answers' | 'said' | 'practice';
  /** Earlier lots that came out clean, with the hours the first and last of them took. */
  readonly clean: { readonly lots: number; readonly least: number; readonly most: number; readonly room: Rooms | null } | null;
  /** It has been found too soft, stuck or torn later than the usual beginning: it takes longer than others. */
  readonly slow: boolean;
  /** By when it has to be cut, as set for its formula: it is looked at no later than that. */
  readonly latest: number | null;
}

type Row = Pick<BarsSummary, 'id' | 'formula' | 'mould' | 'answers'>;

/** Common practice, no source: a day or two, longer when soft. */
const PRACTICE = { from: 24, to: 48 };
/** Fewer teach nothing: one lot may have been left over a weekend. */
const ENOUGH = 2;
const HOUR = 60;

const hours = (minutes: number): number => Math.round(minutes / HOUR);

/** Lots of one formula in the same mould; while there are too few, in any mould that gives logs, or bars, as it does. */
const alike = (lot: Row, earlier: readonly Row[]): readonly Row[] => {
  const same = earlier.filter(
    ({ id, formula, mould }) => id !== lot.id && formula.id === lot.formula.id && mould.gives === lot.mould.gives,
  );
  const inIt = same.filter(({ mould }) => mould.id !== null && mould.id === lot.mould.id);
  return cleanOf(inIt).length >= ENOUGH ? inIt : same;
};

/** Minutes after which each came out clean. */
const cleanOf = (lots: readonly Row[]): readonly number[] =>
  lots.flatMap(({ answers }) => answers.find(({ state }) => state === 'out')?.minutes ?? []);

/** Rooms they came out in. */
const roomsOf = (lots: readonly Row[]): Rooms | null => {
  const rooms = lots.flatMap(({ answers }) => answers.find(({ state }) => state === 'out')?.room ?? []);
  return rooms.length === 0 ? null : { lots: rooms.length, least: Math.min(...rooms), most: Math.max(...rooms) };
};

/** The latest that any was found not to be ready at, before it was. */
const tooSoon = (lots: readonly Row[]): number | null => {
  const all = lots.flatMap(({ answers }) =>
    answers.flatMap(({ state, minutes }) => (state === 'too-soft' || state === 'stuck' || state === 'torn' ? [minutes] : [])),
  );
  return all.length === 0 ? null : Math.max(...all);
};

/**
 * When a log can come out: learned from earlier answers, else as set for its formula, else as is common practice. What has to be cut by an
 * hour is looked at by then, however long others took.
 */
export const windowOf = (lot: Row, earlier: readonly Row[], said: UnmouldKept | null): UnmouldWindow => {
  const latest = said?.latestCut ?? null;
  const window = expected(lot, earlier, said);
  return latest === null
    ? { ...window, latest }
    : { ...window, from: Math.min(window.from, latest), to: Math.min(window.to, latest), latest };
};

const expected = (lot: Row, earlier: readonly Row[], said: UnmouldKept | null): Omit<UnmouldWindow, 'latest'> => {
  const lots = alike(lot, earlier);
  const clean = cleanOf(lots);
  const soon = tooSoon([...lots, lot]);
  const known =
    clean.length === 0
      ? null
      : { lots: clean.length, least: hours(Math.min(...clean)), most: hours(Math.max(...clean)), room: roomsOf(lots) };
  const slow = soon !== null && soon > PRACTICE.from * HOUR;
  if (clean.length >= ENOUGH && known !== null) {
    const from = Math.min(known.most, Math.max(known.least, soon === null ? 0 : hours(soon)));
    return { from, to: known.most, by: 'answers', clean: known, slow };
  }
  const usual = { from: said?.from ?? PRACTICE.from, to: said?.to ?? PRACTICE.to };
  const from = Math.max(usual.from, slow && soon !== null ? hours(soon) : 0);
  const by = said !== null && (said.from !== null || said.to !== null) ? 'said' : 'practice';
  return { from, to: Math.max(usual.to, from), by, clean: known, slow };
};
