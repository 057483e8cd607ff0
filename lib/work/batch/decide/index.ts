import type { Command, CommandKind } from '../commands';
import type { Weighed } from '../entries';
import type { BatchState } from '../state';
import * as answers from './answers';
import { notNow } from './before';
import { usedUp, wholeNumbers } from './checks';
import { deny, refuse, type Decider, type Decision } from './decision';
import * as gates from './gates';
import * as instruments from './instruments';
import * as joining from './joining';
import { changesWhatIsIn, keepingFirst } from './keep-first';
import * as later from './later';
import * as life from './life';
import * as pouring from './pouring';
import { setVessel, lift } from './pan';
import { roleMay } from './roles';
import { chooseLot, replan, start } from './start';
import { chooseRemedy, doRemedyAct } from './remedy';
import * as vessels from './vessels';
import { stateWrong } from './wrong';
import { accept, typeWeight } from './weigh';

export type { Begins, Decision } from './decision';
export { roleMay } from './roles';

const DECIDE: { readonly [K in Exclude<CommandKind, 'start'>]: Decider<K> } = {
  replan,
  'choose-lot': chooseLot,
  'confirm-gate': gates.confirmGate,
  'set-vessel': setVessel,
  accept,
  'type-weight': typeWeight,
  'weigh-back': keepingFirst(vessels.weighBack),
  lift,
  question: answers.question,
  'answer-question': answers.answerQuestion,
  'answer-over': answers.answerOver,
  'choose-remedy': keepingFirst(chooseRemedy),
  'do-remedy-act': doRemedyAct,
  'state-wrong': keepingFirst(stateWrong, changesWhatIsIn),
  strike: keepingFirst(answers.strike),
  move: vessels.move,
  withdraw: keepingFirst(vessels.withdraw),
  lose: keepingFirst(vessels.lose),
  split: vessels.split,
  'name-pattern': pouring.namePattern,
  'set-container': pouring.setContainer,
  part: pouring.part,
  'pour-mould': pouring.pourMould,
  'weigh-left': pouring.weighLeft,
  'state-batter': pouring.stateBatter,
  'ask-photo': pouring.askPhoto,
  'note-temperature': joining.noteTemperature,
  dissolve: gates.dissolve,
  override: joining.override,
  join: joining.join,
  'stamp-trace': joining.stampTrace,
  'go-away': life.goAway,
  'come-back': life.comeBack,
  resume: life.resume,
  park: life.park,
  'take-up': life.takeUp,
  abandon: life.abandon,
  close: life.close,
  'check-scale': instruments.checkScale,
  'raise-alarm': instruments.raiseAlarm,
  'end-alarm': instruments.endAlarm,
  silence: instruments.silence,
  'lose-instrument': instruments.loseInstrument,
  'regain-instrument': instruments.regainInstrument,
  'mark-clock-jump': instruments.markClockJump,
  note: life.note,
  amend: later.amend,
  'keep-photo': later.keepPhoto,
};

/** A weight already used up is told as such even from an old view: the second of two taps is late, not wrong. */
const lateTap = (state: BatchState, command: Command): Decision | null => {
  const { kind } = command;
  const episode = ((): number | undefined => {
    if (kind === 'set-vessel' || kind === 'set-container') return command.body.episode;
    const taken = ['accept', 'weigh-back', 'split', 'part', 'pour-mould', 'weigh-left'].includes(kind);
    return taken ? (command.body as { readonly weighed?: Weighed }).weighed?.episode : undefined;
  })();
  const spent = episode === undefined ? null : usedUp(state, command, episode);
  return spent === null ? null : deny(spent);
};

/**
 * What comes of a completed command: entries to commit in one transaction, or a refusal. Pure and total: every kind of command
 * in every state gives an answer, and nothing throws. `state` is `null` before the batch starts; then only `start` means anything.
 */
export const decide = (state: BatchState | null, command: Command): Decision => {
  if (!roleMay(command.role, command.kind)) return refuse('not-yours', { role: command.role });
  if (!wholeNumbers(command.body) || !wholeNumbers(command.observation)) return refuse('bad-number');
  if (command.kind === 'start') return start(state, command);
  if (state === null) return refuse('wrong-state', { status: 'none' });
  const late = lateTap(state, command);
  if (late !== null) return late;
  const no = notNow(state, command);
  if (no !== null) return deny(no);
  return (DECIDE[command.kind] as Decider<CommandKind>)(state, command);
};
