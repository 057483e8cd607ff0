import type { Command, CommandKind, Refusal } from '../commands';
import { BATCH_STATUSES, type BatchState } from '../state';
import { refusal } from './decision';

type Status = BatchState['status'];

/** What must hold before a kind of command is looked at more closely. */
interface Before {
  readonly in: readonly Status[];
  /** A person has said, in this boot, what is in the vessels. */
  readonly resumed: boolean;
  /** Nobody is away. */
  readonly present: boolean;
  /** No over-pour and no question waits for its answer. */
  readonly answered: boolean;
  /** The sender saw the newest version. Harmless things are taken from an older view. */
  readonly current: boolean;
}

const working: readonly Status[] = ['weighing', 'joined'];
const unfinished: readonly Status[] = ['weighing', 'joined', 'parked'];

const weighing: Before = { in: working, resumed: true, present: true, answered: true, current: true };
const afterJoining: Before = { ...weighing, in: ['joined'] };
/** An answer, or something that may come before one. */
const answering: Before = { ...weighing, answered: false };
/** What happened, whoever is there: kept without conditions, or the record would lack it. */
const observed: Before = { in: unfinished, resumed: false, present: false, answered: false, current: false };
const turning: Before = { in: working, resumed: false, present: false, answered: false, current: true };

const BEFORE: Readonly<Record<Exclude<CommandKind, 'start'>, Before>> = {
  replan: answering,
  'choose-lot': answering,
  'confirm-gate': weighing,
  'set-vessel': weighing,
  accept: weighing,
  'type-weight': weighing,
  'weigh-back': weighing,
  lift: answering,
  question: answering,
  'answer-question': answering,
  'answer-over': answering,
  'choose-remedy': answering,
  'do-remedy-act': answering,
  'state-wrong': answering,
  strike: answering,
  move: weighing,
  withdraw: weighing,
  lose: answering,
  split: afterJoining,
  'name-pattern': weighing,
  'set-container': afterJoining,
  part: afterJoining,
  'pour-mould': afterJoining,
  'weigh-left': afterJoining,
  'state-batter': afterJoining,
  'ask-photo': afterJoining,
  /** Soap is hottest when its batch may be closed already; anything else is refused then, see there. */
  'note-temperature': { ...observed, current: true, in: [...unfinished, 'closed'] },
  dissolve: weighing,
  override: weighing,
  join: weighing,
  'stamp-trace': afterJoining,
  'go-away': { ...turning, resumed: true, present: true },
  'come-back': { ...turning, resumed: true },
  resume: turning,
  park: turning,
  'take-up': { ...turning, in: ['parked'] },
  abandon: { ...turning, in: unfinished },
  close: afterJoining,
  'check-scale': { ...turning, present: true },
  'raise-alarm': observed,
  'end-alarm': observed,
  silence: observed,
  'lose-instrument': observed,
  'regain-instrument': observed,
  'mark-clock-jump': observed,
  note: { ...observed, in: BATCH_STATUSES },
  /** While it is under way a weight is crossed out and weighed again instead. */
  amend: { ...observed, current: true, in: ['closed', 'abandoned'] },
  'keep-photo': { ...observed, in: BATCH_STATUSES },
};

const FINAL: ReadonlySet<CommandKind> = new Set(['join', 'close']);

/** Why a command cannot be looked at now; `null` when it can. */
export const notNow = (state: BatchState, command: Exclude<Command, { kind: 'start' }>): Refusal | null => {
  const before = BEFORE[command.kind];
  if (before.current && command.expectedVersion !== null && command.expectedVersion !== state.version) {
    return refusal('moved-on', { seen: command.expectedVersion, version: state.version });
  }
  if (!before.in.includes(state.status)) return refusal('wrong-state', { status: state.status });
  if (before.resumed && command.boot !== state.resumedInBoot) return refusal('needs-resume');
  if (before.present && state.away !== null) return refusal('away');
  if (before.answered && state.question !== null) return refusal('needs-answer', { to: 'question', entry: state.question.entry });
  // A stated wrong may be weighed on from, but nothing is joined or closed before a person has chosen.
  if (state.wrong !== null && FINAL.has(command.kind)) return refusal('needs-answer', { to: 'remedy' });
  if (before.answered && state.toDo.length > 0) return refusal('needs-answer', { to: 'remedy' });
  if (before.answered && state.over !== null) return refusal('needs-answer', { to: 'over', line: state.over.line, by: state.over.by });
  return null;
};
