import type { BarCounts, StockMove } from './state';

/** Bars that a cut made and what became of them, by every move that stands. */
export const countsOf = (made: number, moves: readonly StockMove[]): BarCounts => {
  const standing = moves.filter(({ struck }) => struck === null);
  const sum = (of: (move: StockMove) => boolean): number => standing.filter(of).reduce((total, { count }) => total + count, 0);
  const left = (kind: StockMove['kind']): number => sum((move) => move.kind === kind);
  const returned = (was: 'sold' | 'given'): number =>
    sum((move) => move.kind === 'brought-home' && move.from === 'buyer' && (move.was ?? 'sold') === was);
  const aside = sum(({ into }) => into === 'aside') - sum(({ from }) => from === 'aside');
  const home = sum(({ kind, from }) => kind === 'brought-home' && from === 'away');
  const outOfAway = sum(({ kind, from }) => kind !== 'brought-home' && from === 'away');
  const [sold, given] = [left('sold') - returned('sold'), left('given') - returned('given')];
  const [spoiled, away] = [left('spoiled'), left('taken') - home - outOfAway];
  return { made, sold, given, spoiled, away, aside, shelf: made - sold - given - spoiled - away - aside };
};

/** Nobody can have sold what was never made. */
export const areSound = ({ shelf, away, aside, sold, given, spoiled }: BarCounts): boolean =>
  [shelf, away, aside, sold, given, spoiled].every((count) => count >= 0);
