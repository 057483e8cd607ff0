import { mg } from '#lib/units/mass';
import type { BatchState, Contribution, LineState } from '../state';

const wasPutRight = ({ contributions }: LineState): boolean =>
  contributions.some(({ amended, struck }) => amended !== undefined && struck === null);

/** What was put right is a person's word: it counts as typed by hand, to the gram's decimals they gave. */
const asTold = (one: Contribution): Contribution =>
  one.amended === undefined || one.struck !== null
    ? one
    : { ...one, net: one.amended, weighed: null, kind: 'typed', how: 'typed', typed: { text: String(one.amended / 1000), unit: 'g' } };

/** The batch with every weight as it was put right; `null` when none was. For working out only: the record stays as it is. */
export const asCorrected = (state: BatchState): BatchState | null => {
  if (!Object.values(state.lines).some(wasPutRight)) return null;
  const lines = Object.entries<LineState>(state.lines).map(([id, line]) => {
    const contributions = line.contributions.map(asTold);
    return [id, { ...line, contributions, actual: mg(contributions.reduce((sum, one) => (one.struck === null ? sum + one.net : sum), 0)) }];
  });
  return { ...state, lines: Object.fromEntries(lines) as BatchState['lines'] };
};
