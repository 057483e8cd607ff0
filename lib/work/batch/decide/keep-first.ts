import type { LineId } from '#lib/units/id';
import type { Command, CommandKind, CommandOf } from '../commands';
import type { Draft } from '../entries';
import { own } from '../own';
import type { BatchState } from '../state';
import { refuse, type Decider } from './decision';

type MovesOn<K extends CommandKind> = (state: BatchState, drafts: readonly Draft[], command: CommandOf<K>) => boolean;

/** On another scale the vessel of the open line may stand where it is. */
const opensAnother = ({ open, lines }: BatchState, drafts: readonly Draft[]): boolean => {
  const scaleOf = (id: LineId | null) => (id === null ? undefined : own(lines, id)?.plan.scale);
  return drafts.some(({ kind, body }) => kind === 'line-reopened' && body.line !== open && scaleOf(body.line) === scaleOf(open));
};

/** Ways out are worked out from what is in, and open other lines; what the shelf has and how warm a fat is change nothing of that. */
export const changesWhatIsIn: MovesOn<'state-wrong'> = (_state, _drafts, { body }) => body.what !== 'stock' && body.what !== 'melted';

/** Of the open line, mg; less than half its tolerance is no pour. An open over-pour is in the record. */
const unentered = (state: BatchState, { observation: { poured } }: Pick<Command, 'observation'>): number => {
  if (poured == null || poured.line !== state.open || state.over !== null) return 0;
  return 2 * poured.net > (own(state.lines, poured.line)?.plan.tolerance ?? 0) ? poured.net : 0;
};

/**
 * What is poured for the open line and in no entry yet would be lost where another line is to be weighed first on its scale: its vessel makes way, and
 * when it comes back nobody knows what is in it, hydroxide perhaps. It is kept before that.
 */
export const keepingFirst =
  <K extends CommandKind>(decider: Decider<K>, movesOn: MovesOn<K> = opensAnother): Decider<K> =>
  (state, command) => {
    const decision = decider(state, command);
    const net = decision.ok && movesOn(state, decision.drafts, command) ? unentered(state, command) : 0;
    return net === 0 ? decision : refuse('keep-first', { line: state.open ?? '', net });
  };
