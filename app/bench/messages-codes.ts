import type { CardCode, GoOnCode, SayCode } from '#lib/bench/codes';
import { messages, numberIn, textIn } from './messages';
import type { Params, Show, Word } from './messages';

/** A card says what to do, what follows, and is read aloud by `read`. */
export interface CardWords {
  readonly title: Word;
  readonly sub: Word;
}

const mass =
  (key: string): Word =>
  (params, show) =>
    Number.isNaN(numberIn(params, key)) ? 'unknown' : show.mass(numberIn(params, key));
const plain =
  (text: string): Word =>
  () =>
    text;
const withMass =
  (before: string, key: string, after = ''): Word =>
  (params, show) =>
    `${before}${show.mass(numberIn(params, key))}${after}`;
const wasNow: Word = (params, show) => `was ${mass('was')(params, show)}, now ${mass('now')(params, show)}`;
const name = (params: Params, key: string): string => textIn(params, key);
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Why something cannot be done, from its code. */
export const whyNot = (code: string): string => (messages.holds as Readonly<Record<string, string>>)[code] ?? code.replaceAll('-', ' ');
const holdOf = (params: Params): string => whyNot(textIn(params, 'reason'));

const overrideSub: Word = (params, show) => {
  const [value, limit] = [numberIn(params, 'value'), numberIn(params, 'limit')];
  if (Number.isNaN(value) || Number.isNaN(limit)) return 'goes on record';
  if (textIn(params, 'reason') === 'may-be-lye-heavy') return `superfat may be as low as ${show.share(value)}. Goes on record`;
  const write = textIn(params, 'reason') === 'apart' ? show.difference : show.temperature;
  return `${write(value)}, allowed ${write(limit)}. Goes on record`;
};

/** Of the vessel of the open line: how many lines lose what is in it. */
const emptiedSub: Word = (params) => {
  const lines = numberIn(params, 'lines');
  if (lines === 0) return 'nothing of it is crossed out';
  if (lines === 1) return 'crossed out: 1 line begins again';
  return `crossed out: ${Number.isNaN(lines) ? 'every line in it begins' : `${lines} lines begin`} again`;
};

export const cardWords: Readonly<Record<CardCode, CardWords>> = {
  'resume-as-recorded': { title: plain('As recorded'), sub: plain('the vessel was not touched') },
  'resume-poured-more': { title: plain('Poured more'), sub: plain('weigh what is in') },
  'resume-emptied': { title: plain('Emptied'), sub: emptiedSub },
  'resume-unsure': { title: plain('Not sure'), sub: plain('zero anew; a difference is asked') },
  'carry-on': {
    title: plain('Carry on'),
    sub: (params, show) => `${mass('over')(params, show)} over stays in${numberIn(params, 'red') === 1 ? ', outside the limits' : ''}`,
  },
  'cross-out': { title: plain('Cross out'), sub: withMass('take ', 'over', ' back out, weigh again') },
  stop: { title: plain('Stop'), sub: plain('keeps every weight; make it safe') },
  'keep-weight': { title: plain('Keep the first'), sub: wasNow },
  'strike-weight': { title: plain('Cross it out'), sub: wasNow },
  'it-is-vessel': { title: (params) => `It is the ${name(params, 'vessel')}`, sub: withMass('', 'gross', ' on the pan') },
  'poured-meanwhile': { title: plain('I poured on'), sub: wasNow },
  'put-right': { title: plain('I put it right'), sub: wasNow },
  'take-weight': { title: plain('Take it'), sub: mass('net') },
  'lift-check': { title: plain('Lift and look'), sub: plain('free it, lift it, set it down') },
  'part-pour': { title: plain('Keep this part'), sub: withMass('', 'net', ', more to follow') },
  'return-accept': { title: plain('That is right'), sub: wasNow },
  'return-put-right': { title: plain('I put it right'), sub: wasNow },
  dissolve: { title: plain('Lye is made'), sub: (params) => `into the ${name(params, 'into')}, cold, slowly` },
  override: { title: (params) => `Allow: ${holdOf(params).toLowerCase()}`, sub: overrideSub },
  join: { title: plain('Join them'), sub: plain('lye into oils') },
  'trace-thin': { title: plain(messages.trace.thin.name), sub: plain(messages.trace.thin.sub) },
  'trace-medium': { title: plain(messages.trace.medium.name), sub: plain(messages.trace.medium.sub) },
  'trace-thick': { title: plain(messages.trace.thick.name), sub: plain(messages.trace.thick.sub) },
  'trace-wrong': { title: plain(messages.trace.wrong.name), sub: plain(messages.trace.wrong.sub) },
};

/** What the "go on" target says under its name. */
export const goOnWords: Readonly<Record<GoOnCode, string>> = {
  'next-card': 'next card; hold: take',
  'confirm-gate': 'hold: all confirmed',
  accept: 'take it now',
  'accept-held': 'hold 2 s: take it',
  enough: 'hold: that is enough',
  'come-back': 'I am back',
  'after-replug': 'as it was: go on',
  'unit-noted': 'unit is right again',
  'scale-zeroed': 'pan empty, zeroed',
  'probe-out': 'probe is out',
  'take-portion': 'take this portion',
  'take-pour': 'hold: take it',
  'taken-out': 'hold: so much is out',
  'left-in': 'hold: leave it in',
  'done-by-hand': 'hold: done, by hand',
  'count-from-here': 'count from here',
};

const next: Word = (params, show) => {
  const lot = name(params, 'lot');
  return `Next: ${name(params, 'material')}, ${mass('target')(params, show)}${lot === '' ? ', no lot stated' : `, lot ${lot}`}`;
};

const gateWords: Readonly<Record<string, string>> = {
  hydroxide: 'Before the hydroxide: goggles, face shield, gloves, air, running water, nobody near, the lot read from the bag.',
  'cold-liquid': 'The liquid must be cold. Granules into liquid, slowly, never the reverse.',
};

/** The language of these words: a voice of another one makes them unintelligible. */
export const SPOKEN_IN = 'en';

/** Sentences for the voice and the live region. */
export const sayWords: Readonly<Record<SayCode, Word>> = {
  'next-line': (params, show) => `${next(params, show)}. ${capital(name(params, 'vessel'))}, on the ${name(params, 'scale')}.`,
  'same-vessel': (params, show) => `${next(params, show)}. Same vessel: pour.`,
  'set-down': (params) => `Set down the ${name(params, 'vessel')} on the ${name(params, 'scale')}.`,
  'other-scale': (params) => `The ${name(params, 'vessel')} belongs on the ${name(params, 'scale')}.`,
  'wrong-vessel': (params) => `That is the ${name(params, 'vessel')}. The ${name(params, 'wanted')} is wanted.`,
  'strange-vessel': (params) => `I do not know this vessel. The ${name(params, 'wanted')} is wanted.`,
  ready: (params, show) => `${name(params, 'material')}: ${mass('left')(params, show)}.`,
  'ease-off': plain('Ease off.'),
  short: withMass('', 'left', ' more.'),
  offer: (params, show) => `Within. ${mass('net')(params, show)}.`,
  'only-material': (params, show) => `Within, ${mass('net')(params, show)}. Only ${name(params, 'material').toLowerCase()} inside?`,
  ask: (params, show) => {
    const doubt = (messages.doubts as Readonly<Record<string, string>>)[textIn(params, 'reason')] ?? 'In doubt';
    return `${doubt}. ${mass('net')(params, show)}: is it right?`;
  },
  hold: (params, show) => `${name(params, 'material')}, ${mass('net')(params, show)}. Hold to take it.`,
  over: (params, show) =>
    `${mass('over')(params, show)} over, ${numberIn(params, 'red') === 1 ? 'outside the limits' : 'inside the limits'}.`,
  'ways-out': plain('Something is wrong. Choose a way out.'),
  'take-out': (params, show) => `${mass('mass')(params, show)} out of the ${name(params, 'vessel')}.`,
  accepted: (params, show) => `${name(params, 'material')} accepted, ${mass('net')(params, show)}.`,
  lift: (params) => `Lift the ${name(params, 'vessel')}.`,
  question: (params, show) => `The accepted weight changed: ${wasNow(params, show)}. Which is right?`,
  blocked: (params) => {
    const block = (messages.blocks as Readonly<Record<string, { big: string; act: string }>>)[textIn(params, 'reason')];
    return block === undefined ? 'Not yet.' : `${block.big}. ${block.act}.`;
  },
  gate: (params) => gateWords[textIn(params, 'gate')] ?? '',
  resume: plain('Started again. What is in the vessel?'),
  away: plain('Away. Everything is kept.'),
  returned: plain('Back. The weight is as you left it.'),
  card: (params, show) => {
    const words = cardWordsFor(textIn(params, 'card'));
    return `${words.title(params, show)}: ${words.sub(params, show)}.`.replace(': .', '.');
  },
  'all-weighed': plain('All weighed.'),
  portion: (params, show) => `Portion ${numberIn(params, 'number')}, ${mass('net')(params, show)}.`,
  poured: (params, show) => `${name(params, 'what')}, ${mass('net')(params, show)}.`,
  pattern: (params) => `${name(params, 'mark')}, ${name(params, 'mould')}: which pattern?`,
  'free-the-cable': plain('Take the probe and its cable off the vessel.'),
};

/** The words of a code that another version of the server may have sent: never blank, never a crash. */
export const cardWordsFor = (code: string): CardWords =>
  (cardWords as Readonly<Record<string, CardWords>>)[code] ?? { title: plain(code.replaceAll('-', ' ')), sub: plain('') };
export const goOnWordsFor = (code: string): string => (goOnWords as Readonly<Record<string, string>>)[code] ?? code.replaceAll('-', ' ');
export const sayText = (code: string, params: Params, show: Show): string =>
  (sayWords as Readonly<Record<string, Word>>)[code]?.(params, show) ?? '';
