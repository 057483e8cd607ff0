import type { BarCounts, StockMove } from './state';

/** Bars that a cut made and what became of them, by every move that stands. */
export const countsOf = (made: number, moves: readonly StockMove[]): BarCounts => {
  const standing = moves.filter(({ struck }) => struck === null);
  const sum = (of: (move: StockMove) => boolean): number => standing.filter(of).reduce((total, { count }) => total + count, 0);
  const left = (kind: StockMove['kind']): number => sum((move) => move.kind === kind);
  const returned = sum(({ kind, from }) => kind === 'brought-home' && from === 'buyer');
  const home = sum(({ kind, from }) => kind === 'brought-home' && from === 'away');
  const outOfAway = sum(({ kind, from }) => kind !== 'brought-home' && from === 'away');
  const sold = left('sold') - returned;
  const [given, spoiled, away] = [left('given'), left('spoiled'), left('taken') - home - outOfAway];
  return { made, sold, given, spoiled, away, shelf: made - sold - given - spoiled - away };
};

/** Nobody can have sold what was never made. */
export const areSound = ({ shelf, away, sold, given, spoiled }: BarCounts): boolean =>
  [shelf, away, sold, given, spoiled].every((count) => count >= 0);
