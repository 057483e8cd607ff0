import type { CommandKind, Role } from '../commands';

const MAKER: readonly Role[] = ['maker'];
/** What the conductor does by itself too: noting what it sees, and accepting what needs no person. */
const NOTING: readonly Role[] = ['maker', 'program'];
const ALL: readonly Role[] = ['maker', 'program', 'watcher'];

/** What each role may do, for every kind of command: a new kind does not compile until it stands here. */
const ALLOWED: Readonly<Record<CommandKind, readonly Role[]>> = {
  start: MAKER,
  replan: MAKER,
  'choose-lot': MAKER,
  'confirm-gate': MAKER,
  'set-vessel': NOTING,
  accept: NOTING,
  'type-weight': MAKER,
  'weigh-back': NOTING,
  lift: NOTING,
  question: NOTING,
  'answer-question': MAKER,
  'answer-over': MAKER,
  'choose-remedy': MAKER,
  'do-remedy-act': MAKER,
  'state-wrong': MAKER,
  strike: MAKER,
  move: MAKER,
  withdraw: MAKER,
  lose: MAKER,
  split: MAKER,
  'name-pattern': MAKER,
  'set-container': NOTING,
  part: MAKER,
  'pour-mould': MAKER,
  'weigh-left': MAKER,
  'state-batter': MAKER,
  'ask-photo': MAKER,
  'note-temperature': NOTING,
  dissolve: MAKER,
  override: MAKER,
  join: MAKER,
  'stamp-trace': MAKER,
  'go-away': MAKER,
  'come-back': MAKER,
  resume: MAKER,
  park: MAKER,
  'take-up': MAKER,
  abandon: MAKER,
  close: MAKER,
  'check-scale': MAKER,
  'raise-alarm': NOTING,
  'end-alarm': NOTING,
  silence: ALL,
  'lose-instrument': NOTING,
  'regain-instrument': NOTING,
  'mark-clock-jump': NOTING,
  note: MAKER,
  amend: MAKER,
  'keep-photo': MAKER,
};

/** Whether a role may do this at all; a watcher may silence and nothing else. */
export const roleMay = (role: Role, kind: CommandKind): boolean => ALLOWED[kind].includes(role);
