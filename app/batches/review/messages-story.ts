import type { AlarmCode, StoryCode } from '#lib/work/batch/index';
import type { Show } from '../../_ui/quantities';
import { counted } from '../../_ui/words';
import { messages } from './messages';

/** What a sentence of the story is made from. `step`: of the scale of the line it speaks of, mg. */
export interface Facts {
  readonly params: Readonly<Record<string, string | number>>;
  readonly show: Show;
  readonly step: number | null;
  /** The name of an instrument by its id. */
  readonly instrument: (id: string) => string;
  /** Code of the answer to an over-pour. */
  readonly answer: StoryCode | null;
  /** How many of its tolerances the line was over. */
  readonly away: string | null;
}

/** What is said first, in bold for a departure, and what follows. */
export interface Said {
  readonly head: string;
  readonly rest?: string;
}
type Tell = (facts: Facts) => Said;

const text = ({ params }: Facts, key: string): string => String(params[key] ?? '');
const has = ({ params }: Facts, key: string): boolean => params[key] !== undefined && params[key] !== '';
const number = ({ params }: Facts, key: string): number => (typeof params[key] === 'number' ? params[key] : NaN);
const mass = (facts: Facts, key: string): string => facts.show.mass(number(facts, key), facts.step);
const temperature = (facts: Facts, key: string): string => facts.show.temperature(number(facts, key));
const says = (head: string, rest?: string): Said => (rest === undefined || rest === '' ? { head } : { head, rest });
const note = (facts: Facts): string => (has(facts, 'note') ? `“${text(facts, 'note')}”` : '');
const stop = (sentence: string): string => (/[.!?]$/.test(sentence) ? sentence : `${sentence}.`);

const ANSWERED: Readonly<Partial<Record<StoryCode, string>>> = {
  'over-carried-on': 'Left as it was.',
  'over-crossed-out': 'Crossed out and weighed again.',
};
const overPour =
  (limits: string): Tell =>
  (facts) =>
    says(
      `${text(facts, 'material')}, ${mass(facts, 'over')} over.`,
      `${facts.away === null ? '' : `${facts.away} tolerances past its target, `}${limits}. ${facts.answer === null ? 'Not answered yet.' : (ANSWERED[facts.answer] ?? '')}`,
    );

const USES: Readonly<Record<string, string>> = { lye: 'Lye', oils: 'Oils', room: 'Room', batter: 'Batter', mould: 'Mould' };
const VIA: Readonly<Record<string, string>> = { bottle: 'back to the bottle', waste: 'to waste', 'other-vessel': 'to another vessel' };
const CAUSES: Readonly<Record<string, string>> = { spill: 'spilt', evaporation: 'evaporated', other: 'lost' };
const GATES: Readonly<Record<string, string>> = {
  hydroxide: 'Precautions for the hydroxide confirmed.',
  'cold-liquid': 'The liquid was confirmed to be cold.',
};
const CONTENTS: Readonly<Record<string, string>> = {
  'as-recorded': 'The vessel held what the record said.',
  'poured-more': 'More had been poured meanwhile.',
  emptied: 'The vessel had been emptied.',
  unsure: 'Nobody was sure what was in it.',
};
const JUMPS: Readonly<Record<string, string>> = {
  'wall-step': 'The clock was set by',
  suspend: 'The bench machine slept for',
  stall: 'The program stood still for',
};

export const alarmWords: Readonly<Record<AlarmCode, string>> = {
  'over-pour': 'poured over',
  'over-pour-red': 'poured over the limit',
  'vessel-changed': 'a vessel changed on the pan',
  'scale-lost': 'a scale was lost',
  'probe-lost': 'a probe was lost',
  'unit-changed': 'the scale’s unit was changed',
  'tare-pressed': 'the scale’s own zero key was pressed',
  'lye-too-hot': 'lye too hot',
  'oils-near-setting': 'oils near setting',
  'milk-too-hot': 'milk too hot',
  apart: 'lye and oils too far apart',
  'clock-jumped': 'the clock jumped',
  'mass-on-return': 'a vessel came back unlike it left',
};
const alarm = (facts: Facts, key = 'code'): string =>
  (alarmWords as Readonly<Record<string, string>>)[text(facts, key)] ?? text(facts, key);
const hold = (facts: Facts): string =>
  (messages.joining.holds as Readonly<Record<string, string>>)[text(facts, 'reason')] ?? text(facts, 'reason');

const seconds = (ms: number): string => (Math.abs(ms) < 90_000 ? `${Math.round(ms / 1000)} s` : `${Math.round(ms / 60_000)} min`);

/** The story of a batch in words. A new kind of event does not compile until it is told. */
export const storyWords: Readonly<Record<StoryCode, Tell>> = {
  started: (facts) => says(`Begun: ${text(facts, 'name')}, version ${text(facts, 'formulaVersion')}.`),
  'scale-never-checked': (facts) => says(`The ${facts.instrument(text(facts, 'instrument'))} had never been checked against a known mass.`),
  replanned: (facts) => says(`${counted(number(facts, 'lines'), 'target')} moved.`, stop(text(facts, 'reason'))),
  'lot-chosen': (facts) => says(`${text(facts, 'material')}: lot ${text(facts, 'lot')} chosen.`),
  'gate-confirmed': (facts) => says(GATES[text(facts, 'gate')] ?? 'Precautions confirmed.'),
  'typed-by-hand': (facts) =>
    says(
      `${text(facts, 'material')}, ${mass(facts, 'net')} by hand.`,
      `Typed as “${text(facts, 'text')} ${text(facts, 'unit')}” and read back.`,
    ),
  'weighed-back': (facts) => says(`${mass(facts, 'net')} stayed in the ${text(facts, 'vessel')} and were weighed back.`),
  questioned: (facts) =>
    says(`${text(facts, 'material')}: the accepted weight changed on the pan, from ${mass(facts, 'was')} to ${mass(facts, 'now')}.`),
  'question-kept': (facts) => says(`${text(facts, 'material')}, ${mass(facts, 'net')} kept.`, 'A person said the first weight was right.'),
  'question-struck': (facts) =>
    says(`${text(facts, 'material')}, ${mass(facts, 'net')} crossed out.`, 'A person said the first weight was wrong.'),
  'crossed-out': (facts) =>
    says(
      `${text(facts, 'material')}, ${mass(facts, 'net')} crossed out.`,
      [
        `${messages.reasons[text(facts, 'reason')] ?? text(facts, 'reason')}.`.replace(/^./, (letter) => letter.toUpperCase()),
        note(facts),
      ].join(' '),
    ),
  'over-pour': overPour('inside the limits'),
  'over-pour-red': overPour('outside the limits'),
  'over-carried-on': (facts) => says(`${text(facts, 'material')}: the over-pour was left as it was.`),
  'over-crossed-out': (facts) => says(`${text(facts, 'material')}: the over-pour was crossed out, to be weighed again.`),
  'closed-short': (facts) => says(`${text(facts, 'material')}, short.`, `A person closed the line at ${mass(facts, 'actual')}.`),
  moved: (facts) => says(`${mass(facts, 'mass')} from the ${text(facts, 'from')} into the ${text(facts, 'to')}.`),
  withdrawn: (facts) =>
    says(`${mass(facts, 'mass')} taken out of the ${text(facts, 'vessel')}, ${VIA[text(facts, 'to')] ?? text(facts, 'to')}.`),
  lost: (facts) =>
    says(
      `${mass(facts, 'mass')} ${CAUSES[text(facts, 'cause')] ?? 'lost'}.`,
      [`From the ${text(facts, 'vessel')}.`, note(facts)].join(' '),
    ),
  split: (facts) => says(`Poured into ${counted(number(facts, 'parts'), 'mould')}.`),
  temperature: (facts) => says(`${USES[text(facts, 'use')] ?? text(facts, 'use')} at ${temperature(facts, 'value')}.`),
  'temperature-by-hand': (facts) => says(`${USES[text(facts, 'use')] ?? text(facts, 'use')} at ${temperature(facts, 'value')}, by hand.`),
  dissolved: (facts) => says(`Lye made: the ${text(facts, 'vessel')} into the ${text(facts, 'into')}.`),
  override(facts) {
    const write = text(facts, 'reason') === 'apart' ? facts.show.difference : facts.show.temperature;
    const figures =
      has(facts, 'value') && has(facts, 'limit') ? `${write(number(facts, 'value'))}, limit ${write(number(facts, 'limit'))}. ` : '';
    return says(`Joining allowed although ${hold(facts)}.`, `${figures}Held by a person. ${note(facts)}`.trim());
  },
  joined: (facts) =>
    says(
      'Lye and oils joined.',
      has(facts, 'lye') && has(facts, 'oils')
        ? `Lye ${temperature(facts, 'lye')}, oils ${temperature(facts, 'oils')}.`
        : 'At temperatures nobody knows.',
    ),
  trace: (facts) =>
    says(
      `${(messages.after.trace as Readonly<Record<string, string>>)[text(facts, 'mark')] ?? text(facts, 'mark')}.`,
      [has(facts, 'batter') ? `Batter at ${temperature(facts, 'batter')}.` : '', note(facts)].join(' ').trim(),
    ),
  'went-away': () => says('The maker left for a moment.'),
  'came-back': () => says('Back; the weight was as it had been left.'),
  'came-back-unlike': (facts) =>
    says(
      has(facts, 'was') && has(facts, 'now')
        ? `Back; the weight was ${mass(facts, 'now')} and no longer ${mass(facts, 'was')}.`
        : 'Back; the weight was another.',
    ),
  resumed: (facts) => says('The program was started again.', [CONTENTS[text(facts, 'contents')] ?? '', note(facts)].join(' ').trim()),
  parked: (facts) => says('Parked.', has(facts, 'reason') ? stop(text(facts, 'reason')) : ''),
  'taken-up': (facts) => says('Taken up again.', note(facts)),
  abandoned: (facts) => says('Stopped early.', `Reason: ${stop(text(facts, 'reason'))}`),
  closed: (facts) => says(`Finished with ${mass(facts, 'actual')} in all.`),
  'scale-checked': (facts) =>
    says(
      `The ${facts.instrument(text(facts, 'instrument'))} was checked.`,
      `${mass(facts, 'nominal')} known, ${mass(facts, 'shown')} shown: ${facts.show.mass(number(facts, 'difference'), facts.step, 'both')}.`,
    ),
  alarm: (facts) => says(`Alarm: ${alarm(facts)}.`),
  'alarm-silenced': (facts) => says(`Alarm silenced: ${alarm(facts)}.`),
  'instrument-lost': (facts) =>
    says(
      `The ${facts.instrument(text(facts, 'instrument'))} was lost.`,
      has(facts, 'last') ? `It last showed ${mass(facts, 'last')}.` : '',
    ),
  'instrument-back': (facts) => says(`The ${facts.instrument(text(facts, 'instrument'))} was back.`),
  'clock-jumped': (facts) => says(`${JUMPS[text(facts, 'kind')] ?? 'The clock jumped by'} ${seconds(number(facts, 'byMs'))}.`),
  noted: (facts) => says(`Note: ${stop(text(facts, 'text'))}`),
};
