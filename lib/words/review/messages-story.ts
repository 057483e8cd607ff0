import type { AlarmCode, LotDespite, StoryCode } from '#lib/work/batch/index';
import type { BatterWrong, PhotoSubject } from '#lib/work/batch/pouring/types';
import { planStep } from '../quantities';
import type { Show } from '../quantities';
import { reasonWords } from '../reason-messages';
import { measured, t, together, worked } from '../sentence';
import type { Piece, Sentence } from '../sentence';
import { capital, counted } from '../words';
import { messages } from './messages';
import { remedyStory, wrongStory } from './messages-remedy';

/** What a sentence of the story is made from. `step`: of the scale of the line it speaks of, mg. */
export interface Facts {
  readonly params: Readonly<Record<string, string | number>>;
  readonly show: Show;
  readonly step: number | null;
  /** The name of an instrument by its id. */
  readonly instrument: (id: string) => string;
  /** The weight the story speaks of was typed by a person. */
  readonly typed: boolean;
  /** Which of the two temperatures at joining a person typed. */
  readonly byHand: readonly ('lye' | 'oils')[];
  /** Code of the answer to an over-pour. */
  readonly answer: StoryCode | null;
  /** How many of its tolerances the line was over. */
  readonly away: string | null;
}

/** What is said first, in bold for a departure, and what follows. */
export interface Said {
  readonly head: Sentence;
  readonly rest: Sentence;
}
type Tell = (facts: Facts) => Said;

/** What a record does not say is said so: an entry of another program version may lack it. */
const UNSAID = 'not stated';
const has = ({ params }: Facts, key: string): boolean => params[key] !== undefined && params[key] !== '';
const text = (facts: Facts, key: string, unsaid = UNSAID): string => (has(facts, key) ? String(facts.params[key]) : unsaid);
/** What was typed in pounds and ounces has its units in it. */
const typedAs = (typed: string, unit: string): string => (typed.endsWith(unit) ? typed : `${typed} ${unit}`);
const vessel = (facts: Facts, key = 'vessel'): string => text(facts, key, 'vessel');
const number = ({ params }: Facts, key: string): number | null => (typeof params[key] === 'number' ? params[key] : null);
/** A quantity, or the word that there is none. */
const quantity = (facts: Facts, key: string, write: (value: number) => string, unsaid = UNSAID): string => {
  const value = number(facts, key);
  return value === null ? unsaid : write(value);
};
/** A weight in the voice of its source: a scale's, unless a person typed it. */
const mass = (facts: Facts, key: string): Piece => {
  const shown = plainMass(facts, key);
  return facts.typed ? shown : measured(shown);
};
const plainMass = (facts: Facts, key: string): string =>
  quantity(facts, key, (value) => facts.show.mass(value, facts.step), 'a weight not stated');
/** A mass that no scale gave; lines older than the key do not say who did. */
const statedMass = (facts: Facts): string => `${plainMass(facts, 'mass')}${text(facts, 'source') === 'by-hand' ? ' by hand' : ''}`;
const workedMass = (facts: Facts, key: string): Piece => worked(plainMass(facts, key));
const plainTemperature = (facts: Facts, key: string): string => quantity(facts, key, facts.show.temperature, 'a temperature not stated');
const temperature = (facts: Facts, key: string): Piece => measured(plainTemperature(facts, key));
const count = (facts: Facts, key: string, one: string): string => quantity(facts, key, (value) => counted(value, one));
const begun = ([first, ...more]: Sentence): Sentence => {
  if (first === undefined) return [];
  return [typeof first === 'string' ? capital(first) : { ...first, text: capital(first.text) }, ...more];
};
const says = (head: Sentence, rest: Sentence = []): Said => ({ head: begun(head), rest: begun(rest) });
const note = (facts: Facts): Sentence => (has(facts, 'note') ? t`“${text(facts, 'note')}”` : []);
const stop = (sentence: string): string => (/[.!?]$/.test(sentence) ? sentence : `${sentence}.`);
const material = (facts: Facts): string => (has(facts, 'material') ? text(facts, 'material') : 'A line');
const instrument = (facts: Facts): string => (has(facts, 'instrument') ? facts.instrument(text(facts, 'instrument')) : 'instrument');
const worded = (words: Readonly<Record<string, string>>, key: string): string => (Object.hasOwn(words, key) ? (words[key] ?? key) : key);
/** The words for one of a few; `otherwise` when it is none of them. */
const one = (words: Readonly<Record<string, string>>, key: string, otherwise: string): string =>
  Object.hasOwn(words, key) ? (words[key] ?? otherwise) : otherwise;

const ANSWERED: Readonly<Partial<Record<StoryCode, string>>> = {
  'over-carried-on': 'Left as it was.',
  'over-crossed-out': 'Crossed out and weighed again.',
  'remedy-chosen': 'A way out was chosen.',
};
const overPour =
  (limits: string): Tell =>
  (facts) =>
    says(
      t`${material(facts)}, ${workedMass(facts, 'over')} over.`,
      together(
        facts.away === null ? t`${capital(limits)}.` : t`${worked(facts.away)} tolerances past its target, ${limits}.`,
        t`${facts.answer === null ? 'Not answered yet.' : (ANSWERED[facts.answer] ?? '')}`,
      ),
    );

const plainly = ({ head, rest }: { readonly head: string; readonly rest: string }): Said => says([head], rest === '' ? [] : [rest]);

/** Batter that went wrong, by its name. */
const batterWrongs = {
  'false-trace': 'False trace',
  ricing: 'Ricing',
  seizing: 'Seizing',
  separating: 'Separating',
} satisfies Record<BatterWrong, string>;
export const photoSubjects = {
  top: 'the top',
  pattern: 'the pattern',
  batter: 'the batter',
  wrong: 'what went wrong',
} satisfies Record<PhotoSubject, string>;
/** A pattern in words. */
export const patternText = (pattern: string): string => pattern.replaceAll('-', ' ');
const pattern = (facts: Facts, key: string): string => (has(facts, key) ? patternText(text(facts, key)) : 'pattern not stated');
const mouldNamed = (facts: Facts): string => {
  const mould = has(facts, 'mould') ? `, ${text(facts, 'mould')}` : '';
  return has(facts, 'mark') ? `${text(facts, 'mark')}${mould}` : 'A mould';
};
/** A mass in the voice of its source. */
const statedOrWeighed = (facts: Facts): Piece =>
  text(facts, 'source') === 'by-hand' ? `${plainMass(facts, 'mass')} by hand` : measured(plainMass(facts, 'mass'));

/** What was put right after the end, and a value of it in the words of its kind. */
const amendedWhat = (facts: Facts): string => {
  const what = text(facts, 'what');
  if (what === 'weight') return material(facts);
  if (what === 'lot') return `${material(facts)}, lot`;
  return what === 'temperature' ? `${text(facts, 'of')} at` : `${text(facts, 'of')},`;
};
const amendedFigure = (facts: Facts, key: 'was' | 'is'): string => {
  const what = text(facts, 'what');
  const stood = text(facts, key, 'not known');
  if (what === 'weight') return facts.show.mass(Number(stood), planStep(Number(stood)));
  return what === 'temperature' && stood !== 'not known' ? facts.show.temperature(Number(stood)) : stood;
};

const USES = { lye: 'Lye', oils: 'Oils', room: 'Room', batter: 'Batter', mould: 'Mould' };
const VIA = { bottle: 'back to the bottle', waste: 'to waste', 'other-vessel': 'to another vessel' };
const CAUSES = { spill: 'spilt', evaporation: 'evaporated', other: 'lost' };
const GATES = { hydroxide: 'Precautions for the hydroxide confirmed.', 'cold-liquid': 'The liquid was confirmed to be cold.' };
const CONTENTS = {
  'as-recorded': 'The vessel held what the record said.',
  'poured-more': 'More had been poured meanwhile.',
  emptied: 'The vessel had been emptied.',
  unsure: 'Nobody was sure what was in it.',
};
const JUMPS = {
  'wall-step': 'The clock was set by',
  suspend: 'The bench machine slept for',
  stall: 'The program stood still for',
};

const alarmWords: Readonly<Record<AlarmCode, string>> = {
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
/** Which line an alarm spoke of, when it did. */
const alarm = (facts: Facts): string => {
  const words = worded(alarmWords, text(facts, 'code'));
  return has(facts, 'material') ? `${material(facts).toLowerCase()}, ${words}` : words;
};
const seconds = (ms: number): string => (Math.abs(ms) < 90_000 ? `${Math.round(ms / 1000)} s` : `${Math.round(ms / 60_000)} min`);

const DESPITE: Record<LotDespite, string> = {
  expired: 'It was past its day;',
  quarantined: 'It was set apart;',
  'used-up': 'It was noted as used up;',
};
const SCALES = { main: 'big scale', fine: 'small scale' } as const;

/** A temperature at joining, in the voice of its source. */
const joinedAt = (facts: Facts, use: 'lye' | 'oils'): Piece =>
  facts.byHand.includes(use) ? `${plainTemperature(facts, use)} by hand` : temperature(facts, use);

const overrideFigures = (facts: Facts): Sentence => {
  if (has(facts, 'least') && has(facts, 'chance')) {
    return t`Superfat ${worked(quantity(facts, 'working', facts.show.share))}, perhaps as low as ${worked(quantity(facts, 'least', facts.show.share))}; chance of lye left over ${worked(quantity(facts, 'chance', facts.show.share))}.`;
  }
  if (!has(facts, 'value') || !has(facts, 'limit')) return [];
  const apart = text(facts, 'reason') === 'apart';
  const write = apart ? facts.show.difference : facts.show.temperature;
  const value = quantity(facts, 'value', write);
  return t`${apart ? value : measured(value)}, limit ${quantity(facts, 'limit', write)}.`;
};

/** The story of a batch in words. A new kind of event does not compile until it is told. */
export const storyWords: Readonly<Record<StoryCode, Tell>> = {
  started: (facts) =>
    says(
      t`Begun: ${text(facts, 'name')}, version ${text(facts, 'formulaVersion')}.`,
      has(facts, 'from') ? t`With ${statedOrWeighed(facts)} that batch ${text(facts, 'from')} set aside.` : [],
    ),
  'scale-never-checked': (facts) => says(t`The ${instrument(facts)} had never been checked against a known mass.`),
  'scale-stood-in': (facts) =>
    says(
      t`${material(facts)}: to be weighed on the ${one(SCALES, text(facts, 'scale'), 'other scale')}, as there was no ${one(SCALES, text(facts, 'meant'), 'other one')} here.`,
      t`Its tolerance there: ${worked(quantity(facts, 'tolerance', facts.show.tolerance))}.`,
    ),
  replanned: (facts) =>
    says(
      has(facts, 'to')
        ? t`${material(facts)}: target moved to ${worked(quantity(facts, 'to', (value) => facts.show.mass(value, planStep(value))))}.`
        : t`Targets moved.`,
      has(facts, 'reason') ? t`${stop(capital(text(facts, 'reason')))}` : [],
    ),
  'lot-chosen': (facts) =>
    says(
      t`${material(facts)}: lot ${text(facts, 'lot')} chosen.`,
      has(facts, 'despite') ? t`${one(DESPITE, text(facts, 'despite'), 'It was not to be used;')} a person held to use it.` : [],
    ),
  'gate-confirmed': (facts) => says(t`${one(GATES, text(facts, 'gate'), 'Precautions confirmed.')}`),
  'typed-by-hand': (facts) =>
    says(
      t`${material(facts)}, ${plainMass(facts, 'net')} by hand.`,
      t`${has(facts, 'text') ? `Typed as “${typedAs(text(facts, 'text'), text(facts, 'unit'))}” and read back.` : 'Read back.'}`,
    ),
  'weighed-back': (facts) => says(t`${mass(facts, 'net')} stayed in the ${vessel(facts)} and were weighed back.`),
  questioned: (facts) =>
    says(t`${material(facts)}: the accepted weight changed on the pan, from ${mass(facts, 'was')} to ${mass(facts, 'now')}.`),
  'question-kept': (facts) => says(t`${material(facts)}, ${mass(facts, 'net')} kept.`, t`A person said the first weight was right.`),
  'question-struck': (facts) =>
    says(t`${material(facts)}, ${mass(facts, 'net')} crossed out.`, t`A person said the first weight was wrong.`),
  'crossed-out': (facts) =>
    says(
      t`${material(facts)}, ${mass(facts, 'net')} crossed out.`,
      together(t`${capital(worded(reasonWords, text(facts, 'reason')))}.`, note(facts)),
    ),
  'over-pour': overPour('inside the limits'),
  'over-pour-red': overPour('outside the limits'),
  'over-carried-on': (facts) => says(t`${material(facts)}: the over-pour was left as it was.`),
  'over-crossed-out': (facts) => says(t`${material(facts)}: the over-pour was crossed out, to be weighed again.`),
  'remedy-chosen': (facts) => plainly(remedyStory(facts.params, facts.show)),
  'remedy-done': (facts) => says(t`${plainMass(facts, 'mass')} done at the ${vessel(facts)}.`, t`${plainMass(facts, 'asked')} were to be.`),
  'wrong-stated': (facts) => plainly(wrongStory(facts.params, facts.show)),
  'closed-short': (facts) => says(t`${material(facts)}, short.`, t`A person closed the line at ${workedMass(facts, 'actual')}.`),
  moved: (facts) => says(t`${statedMass(facts)} from the ${vessel(facts, 'from')} into the ${vessel(facts, 'to')}.`),
  withdrawn: (facts) =>
    says(
      t`${statedMass(facts)} taken out of the ${vessel(facts)}, ${one(VIA, text(facts, 'to'), 'to a place not stated')}.`,
      has(facts, 'begins') ? t`It is a batch of its own, ${text(facts, 'begins')}.` : [],
    ),
  lost: (facts) =>
    says(t`${statedMass(facts)} ${one(CAUSES, text(facts, 'cause'), 'lost')}.`, together(t`From the ${vessel(facts)}.`, note(facts))),
  split: (facts) =>
    says(
      t`Poured into ${has(facts, 'parts') ? count(facts, 'parts', 'mould') : 'moulds'}.`,
      text(facts, 'source') === 'by-hand'
        ? t`${facts.params['parts'] === 1 ? 'Its weight' : 'Their weights'} by hand.`
        : has(facts, 'net')
          ? t`${mass(facts, 'net')}, by the loss of the ${vessel(facts)}.`
          : [],
    ),
  'pattern-named': (facts) => says(t`${mouldNamed(facts)}: ${pattern(facts, 'pattern')}.`),
  'pattern-dropped': (facts) =>
    says(
      t`${mouldNamed(facts)}: dropped to a ${pattern(facts, 'pattern')}.`,
      has(facts, 'was') ? t`It was to be a ${pattern(facts, 'was')}.` : [],
    ),
  parted: (facts) => says(t`${statedOrWeighed(facts)} of the batter parted off${has(facts, 'name') ? `: ${text(facts, 'name')}` : ''}.`),
  'mould-poured': (facts) =>
    says(
      t`${mouldNamed(facts)}: ${statedOrWeighed(facts)} poured.`,
      has(facts, 'from') ? t`From ${text(facts, 'from')}${number(facts, 'jugs') === 1 ? '' : ', by turns'}.` : [],
    ),
  'left-over': (facts) => says(t`${statedOrWeighed(facts)} left over in ${has(facts, 'of') ? text(facts, 'of') : 'a jug'}.`),
  'batter-wrong': (facts) => says(t`${one(batterWrongs, text(facts, 'what'), 'Something went wrong with the batter')}.`),
  'photo-asked': (facts) =>
    says(
      t`A photograph was asked for${has(facts, 'of') ? ` of ${one(photoSubjects, text(facts, 'of'), 'it')}` : ''}.`,
      has(facts, 'mark') ? t`${mouldNamed(facts)}.` : [],
    ),
  temperature: (facts) =>
    text(facts, 'why') === 'peak'
      ? text(facts, 'use') === 'lye'
        ? says(t`The lye came to ${temperature(facts, 'value')} at most as it was made.`)
        : says(t`The soap in its mould warmed by itself to ${temperature(facts, 'value')} at most.`)
      : says(t`${one(USES, text(facts, 'use'), 'Something')} at ${temperature(facts, 'value')}.`),
  'temperature-by-hand': (facts) => says(t`${one(USES, text(facts, 'use'), 'Something')} at ${plainTemperature(facts, 'value')}, by hand.`),
  dissolved: (facts) =>
    says(
      t`Lye made: the ${vessel(facts)} into the ${vessel(facts, 'into')}.`,
      has(facts, 'foretold') ? t`It was foretold to come to ${plainTemperature(facts, 'foretold')}.` : [],
    ),
  override: (facts) =>
    says(
      t`Joining allowed although ${one(messages.joining.holds, text(facts, 'reason'), 'something held it')}.`,
      together(overrideFigures(facts), t`Held by a person.`, note(facts)),
    ),
  joined: (facts) =>
    says(
      t`Lye and oils joined.`,
      has(facts, 'lye') && has(facts, 'oils')
        ? t`Lye ${joinedAt(facts, 'lye')}, oils ${joinedAt(facts, 'oils')}.`
        : t`At a temperature nobody knows.`,
    ),
  trace: (facts) =>
    says(
      t`${one(messages.after.trace, text(facts, 'mark'), 'Trace')}.`,
      together(has(facts, 'batter') ? t`Batter at ${temperature(facts, 'batter')}.` : [], note(facts)),
    ),
  'went-away': () => says(t`The maker left for a moment.`),
  'came-back': () => says(t`Back; the weight was as it had been left.`),
  'came-back-unlike': (facts) =>
    says(
      has(facts, 'was') && has(facts, 'now')
        ? t`Back; the weight was ${mass(facts, 'now')} and no longer ${mass(facts, 'was')}.`
        : t`Back; the weight was another.`,
    ),
  resumed: (facts) => says(t`The program was started again.`, together(t`${one(CONTENTS, text(facts, 'contents'), '')}`, note(facts))),
  parked: (facts) => says(t`Parked.`, has(facts, 'reason') ? t`Reason: ${stop(text(facts, 'reason'))}` : []),
  'taken-up': (facts) =>
    says(t`Taken up again.`, together(has(facts, 'moulds') ? t`To be poured into: ${stop(text(facts, 'moulds'))}` : [], note(facts))),
  abandoned: (facts) => says(t`Stopped early.`, t`Reason: ${stop(text(facts, 'reason'))}`),
  closed: (facts) => says(t`Finished with ${workedMass(facts, 'actual')} in all.`),
  'scale-checked': (facts) =>
    says(t`The ${instrument(facts)} was checked.`, t`${plainMass(facts, 'nominal')} known, ${measured(plainMass(facts, 'shown'))} shown.`),
  alarm: (facts) => says(t`Alarm: ${alarm(facts)}.`),
  'alarm-silenced': (facts) => says(t`Alarm silenced: ${alarm(facts)}.`),
  'instrument-lost': (facts) =>
    says(t`The ${instrument(facts)} was lost.`, has(facts, 'last') ? t`It last showed ${measured(plainMass(facts, 'last'))}.` : []),
  'instrument-back': (facts) => says(t`The ${instrument(facts)} was back.`),
  'clock-jumped': (facts) => says(t`${one(JUMPS, text(facts, 'kind'), 'The clock jumped by')} ${quantity(facts, 'byMs', seconds)}.`),
  noted: (facts) => says(has(facts, 'deviation') ? t`Deviation: ${stop(text(facts, 'text'))}` : t`Note: ${stop(text(facts, 'text'))}`),
  cleaned: (facts) => says(t`Before the first line: ${stop(text(facts, 'items'))}`),
  amended: (facts) =>
    says(
      t`Put right: ${amendedWhat(facts)} ${amendedFigure(facts, 'is')}, not ${amendedFigure(facts, 'was')}.`,
      t`Reason: ${stop(text(facts, 'why'))}`,
    ),
  'photo-kept': (facts) =>
    says(
      t`A picture${has(facts, 'of') ? ` of ${one(photoSubjects, text(facts, 'of'), text(facts, 'of'))}` : ''}${has(facts, 'caption') ? `: ${stop(text(facts, 'caption'))}` : '.'}`,
    ),
};
