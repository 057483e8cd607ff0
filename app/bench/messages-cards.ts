import type { CardCode } from '#lib/bench/codes';
import type { TraceMark } from '#lib/work/batch/index';
import { limitOf, messages, numberIn, textIn } from './messages';
import type { Params, Show, Word } from './messages';
import { mass, plain, stockWanted, wasNow, withMass } from './messages-codes';

/** A card says what to do, what follows, and is read aloud by `read`. */
export interface CardWords {
  readonly title: Word;
  readonly sub: Word;
}

/** Of a card this page makes itself. */
export const byHandWords = { name: 'Type the weight', sub: 'read back, then taken' };

const trace = {
  thin: { name: 'Thin', sub: 'drips lie on top' },
  medium: { name: 'Medium', sub: 'a line stays' },
  thick: { name: 'Thick', sub: 'holds its shape' },
  wrong: { name: 'Something wrong', sub: 'seized, split, grainy' },
} satisfies Record<TraceMark, { name: string; sub: string }>;

/** Why something cannot be done, from its code. */
export const whyNot = (code: string): string => (messages.holds as Readonly<Record<string, string>>)[code] ?? code.replaceAll('-', ' ');
/** Lye that crosses no limit is held while it may still heat. */
const holdOf = (params: Params): string =>
  textIn(params, 'reason') === 'lye-too-hot' && Number.isNaN(numberIn(params, 'limit'))
    ? whyNot('lye-still-heating')
    : whyNot(textIn(params, 'reason'));

/** What leaves the superfat so unsure, most of all. */
const becauseOf = (cause: string, name: string): string => {
  if (cause === 'set-aside') return ': what was set aside was never weighed';
  if (cause === 'stated') return ': what was taken out or lost was not weighed';
  if (cause === 'sv') return `, mostly by the value of ${name}`;
  if (cause === 'purity') return `, mostly by the purity of ${name}`;
  return cause === 'gain' ? ', mostly by the scale' : '';
};

const overrideSub: Word = (params, show) => {
  const [value, limit] = [numberIn(params, 'value'), numberIn(params, 'limit')];
  if (Number.isNaN(value) || Number.isNaN(limit)) return 'goes on record';
  if (textIn(params, 'reason') === 'may-be-lye-heavy')
    return `superfat may be as low as ${show.share(value)}${becauseOf(textIn(params, 'because'), textIn(params, 'name'))}. Goes on record`;
  const write = textIn(params, 'reason') === 'apart' ? show.difference : show.temperature;
  // What it is now stands beside it in large: four cards on a small screen have room for no more.
  return `${limitOf(textIn(params, 'reason'), write(limit))}, recorded`;
};

/** Of the vessel of the open line: how many lines lose what is in it. */
const emptiedSub: Word = (params) => {
  const lines = numberIn(params, 'lines');
  if (lines === 0) return 'nothing of it is crossed out';
  if (lines === 1) return '1 line begins again';
  return `${Number.isNaN(lines) ? 'its' : lines} lines begin again`;
};

/** What it has too much becomes part of its zero, so that a person who is unsure of it lifts it instead. */
const standsSub: Word = (params, show) =>
  `${mass('gross')(params, show)} on the pan${Number.isNaN(numberIn(params, 'more')) ? '' : `: ${mass('more')(params, show)} more than known, not counted`}`;

export const cardWords: Readonly<Record<CardCode, CardWords>> = {
  'resume-as-recorded': { title: plain('As recorded'), sub: plain('the vessel was not touched') },
  'resume-poured-more': { title: plain('Poured more'), sub: plain('weigh what is in') },
  'resume-emptied': { title: plain('Emptied'), sub: emptiedSub },
  'resume-unsure': { title: plain('Not sure'), sub: plain('new zero; asks if it differs') },
  'carry-on': {
    title: plain('Carry on'),
    sub: (params, show) => `${mass('over')(params, show)} over stays in${numberIn(params, 'red') === 1 ? ', outside the limits' : ''}`,
  },
  'cross-out': { title: plain('Cross out'), sub: withMass('take ', 'over', ' back out, weigh again') },
  'stock-enough': { title: plain('There is enough'), sub: stockWanted },
  'stock-short': {
    title: (params) => `Not enough ${textIn(params, 'material').toLowerCase()}`,
    sub: plain('ways out without more of it'),
  },
  stop: { title: plain('Stop'), sub: plain('keeps every weight; make it safe') },
  'keep-weight': { title: plain('Keep the first'), sub: wasNow },
  'strike-weight': { title: plain('Cross it out'), sub: wasNow },
  'it-is-vessel': { title: (params) => `It is the ${textIn(params, 'vessel')}`, sub: standsSub },
  'poured-meanwhile': { title: plain('I poured on'), sub: (params, show) => `${wasNow(params, show)}: it counts` },
  'put-right': { title: plain('I put it right'), sub: withMass('when it shows ', 'was', ' again') },
  'take-weight': { title: plain('Take it'), sub: mass('net') },
  'lift-check': { title: plain('Lift and look'), sub: plain('nothing touching it: lift, set down') },
  'part-pour': { title: plain('Keep this part'), sub: withMass('', 'net', ', more to follow') },
  'return-accept': { title: plain('That is right'), sub: wasNow },
  'return-put-right': { title: plain('I put it right'), sub: wasNow },
  dissolve: { title: plain('Lye is made'), sub: (params) => `into the ${textIn(params, 'into')}, cold, slowly` },
  'over-rating': {
    title: (params, show) => `Locked: lye up to ${show.temperature(numberIn(params, 'peak'))}`,
    sub: (params, show) => `its jug bears ${show.temperature(numberIn(params, 'rating'))}`,
  },
  override: { title: (params) => `Allow: ${holdOf(params).toLowerCase()}`, sub: overrideSub },
  join: { title: plain('Join them'), sub: plain('lye into oils') },
  'trace-thin': { title: plain(trace.thin.name), sub: plain(trace.thin.sub) },
  'trace-medium': { title: plain(trace.medium.name), sub: plain(trace.medium.sub) },
  'trace-thick': { title: plain(trace.thick.name), sub: plain(trace.thick.sub) },
  'trace-wrong': { title: plain(trace.wrong.name), sub: plain(trace.wrong.sub) },
  'close-batch': { title: plain('Close the batch'), sub: plain('its weights are frozen') },
  'pour-on': { title: plain('Not yet'), sub: plain('go on pouring') },
};

/** The words of a code that another version of the server may have sent: never blank, never a crash. */
export const cardWordsFor = (code: string): CardWords =>
  (cardWords as Readonly<Record<string, CardWords>>)[code] ?? { title: plain(code.replaceAll('-', ' ')), sub: plain('') };

/** A card as it is read aloud; a closed one with its reason. */
export const cardText = (code: string, params: Params, show: Show): string => {
  const words = cardWordsFor(code);
  const why = textIn(params, 'why');
  return `${words.title(params, show)}: ${why === '' ? words.sub(params, show) : `not now, ${whyNot(why).toLowerCase()}`}.`.replace(
    ': .',
    '.',
  );
};
