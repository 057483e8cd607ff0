import type { SayCode } from '#lib/bench/codes';
import { messages, numberIn, textIn } from './messages';
import type { Params, Show, Word } from './messages';
import { wrongWords } from './messages-pour';

export const mass =
  (key: string): Word =>
  (params, show) =>
    Number.isNaN(numberIn(params, key)) ? 'unknown' : show.mass(numberIn(params, key));
export const plain =
  (text: string): Word =>
  () =>
    text;
export const withMass =
  (before: string, key: string, after = ''): Word =>
  (params, show) =>
    `${before}${show.mass(numberIn(params, key))}${after}`;
export const wasNow: Word = (params, show) => `was ${mass('was')(params, show)}, now ${mass('now')(params, show)}`;
const name = (params: Params, key: string): string => textIn(params, key);
/** With its full stop, but for a question. */
const ended = (text: string): string => (text.endsWith('?') ? text : `${text}.`);
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const next: Word = (params, show) => {
  const lot = name(params, 'lot');
  return `Next: ${name(params, 'material')}, ${mass('target')(params, show)}${lot === '' ? ', no lot stated' : `, lot ${lot}`}`;
};

const gateWords: Readonly<Record<string, string>> = {
  hydroxide: 'Before the hydroxide: goggles, face shield, gloves, air, running water, nobody near, the lot read from the bag.',
  'cold-liquid': 'The liquid must be cold. Granules into liquid, slowly, never the reverse.',
};

/** "42.0 g more coconut oil and 1 more". */
export const stockWanted: Word = (params, show) => {
  const others = numberIn(params, 'count') - 1;
  return `${mass('mass')(params, show)} more ${name(params, 'material').toLowerCase()}${others > 0 ? ` and ${others} more` : ''}`;
};

/** Sentences for the voice and the live region. */
export const sayWords: Readonly<Record<SayCode, Word>> = {
  'next-line': (params, show) => {
    const scale = name(params, 'scale');
    return `${next(params, show)}. ${capital(name(params, 'vessel'))}, ${scale === '' ? 'weighed by hand' : `on the ${scale}`}.`;
  },
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
    return `${ended(doubt)} ${mass('net')(params, show)}: is it right?`;
  },
  hold: (params, show) => `${name(params, 'material')}, ${mass('net')(params, show)}. Hold to take it.`,
  over: (params, show) =>
    `${mass('over')(params, show)} over, ${numberIn(params, 'red') === 1 ? 'outside the limits' : 'inside the limits'}.`,
  stock: (params, show) => `Is there enough? ${stockWanted(params, show)}.`,
  'ways-out': plain('Something is wrong. Choose a way out.'),
  'take-out': (params, show) => {
    const mark = name(params, 'mark');
    return `Take ${mass('mass')(params, show)} out of the ${name(params, 'vessel')}.${mark === '' ? '' : ` Label it ${mark}.`}`;
  },
  accepted: (params, show) => `${name(params, 'material')} accepted, ${mass('net')(params, show)}.`,
  lift: (params) => `Lift the ${name(params, 'vessel')}.`,
  question: (params, show) => {
    const vessel = name(params, 'vessel');
    return `The accepted weight${vessel === '' ? '' : ` of the ${vessel}`} changed: ${wasNow(params, show)}. Which is right?`;
  },
  blocked: (params) => {
    const block = (messages.blocks as Readonly<Record<string, { big: string; act: string }>>)[textIn(params, 'reason')];
    return block === undefined ? 'Not yet.' : `${block.big}. ${block.act}.`;
  },
  gate: (params) => gateWords[textIn(params, 'gate')] ?? '',
  resume: (params) => `Started again. What is in the ${name(params, 'vessel') || 'vessel'}?`,
  away: plain('Away. Everything is kept.'),
  returned: plain('Back. The weight is as you left it.'),
  // Read with the words of the card itself, see `messages-cards`.
  card: plain(''),
  'all-weighed': (params) =>
    numberIn(params, 'ready') === 1 ? 'All weighed. Lye and oils may be joined.' : 'All weighed. Do not join yet.',
  trace: plain('Joined. Stir to trace, then mark what you see: thin, medium, thick, or something wrong.'),
  trouble: (params) => {
    const wrong = (wrongWords as Readonly<Record<string, { name: string; todo: readonly string[] }>>)[textIn(params, 'trouble')];
    return wrong === undefined ? 'What is wrong with the batter?' : [`${wrong.name}.`, ...wrong.todo].join(' ');
  },
  closing: plain('All poured? Close the batch, or not yet.'),
  closed: (params) => `Batch ${name(params, 'mark')} is closed.`,
  parked: (params) => `Batch ${name(params, 'mark')} is parked.`,
  stopped: (params) => `Batch ${name(params, 'mark')} is stopped. Every weight is kept.`,
  portion: (params, show) => `Portion ${numberIn(params, 'number')}, ${mass('net')(params, show)}.`,
  poured: (params, show) => `${name(params, 'what')}, ${mass('net')(params, show)}.`,
  pattern: (params) => `${name(params, 'mark')}, ${name(params, 'mould')}: which pattern?`,
  'free-the-cable': (params, show) =>
    `${name(params, 'material')}: ${mass('left')(params, show)}. First take any probe or cable off the vessel.`,
};

/** Never blank, never a crash: another version of the server may have sent it. */
export const sayText = (code: string, params: Params, show: Show): string =>
  (sayWords as Readonly<Record<string, Word>>)[code]?.(params, show) ?? '';
