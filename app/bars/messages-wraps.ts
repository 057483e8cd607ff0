import { capital, counted } from '#lib/words/words';

const bars = (count: number): string => counted(count, 'bar', 'bars');

/** Words of wrapping bars. */
export const wraps = {
  title: 'Wrapping',
  note: 'Wraps, boxes and labels leave their lots as bars are wrapped, and what is crossed out goes back. What was torn counts too; where pieces are only replaced, no bar is wrapped.',
  none: 'Nothing that bars are sold in is written down for this soap.',
  where: 'Write it down under Orders, How things are bought',
  so: (wrapped: number, made: number) => `${capital(bars(wrapped))} of ${made} wrapped.`,
  count: 'Bars to wrap',
  pieces: (name: string, lot: string | null, left: number | null) =>
    `Pieces of ${name}${lot === null ? '' : `, lot ${lot}`}; ${left === null ? 'not counted' : `${left} on hand`}`,
  short: (name: string, missing: number) =>
    `${name}: ${counted(missing, 'piece', 'pieces')} short by the books. If they lie there, wrap on and count them under Orders.`,
  act: 'Enter as wrapped',
  cross: 'Cross out the last wrapping',
} as const;
