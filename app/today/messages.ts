import type { LinkPhase } from '#lib/measure/instrument';
import type { Due } from '#lib/work/bars/due';
import type { Realm } from '#lib/work/batch/index';
import { capital, counted, inWords, listed } from '#lib/words/words';

const BENCH: Readonly<Record<Realm, string>> = { real: 'the bench', practice: 'the practice bench', test: 'the test bench' };

/** What is done with a lot, in the order it is done; to have become ready is no work. */
const ACTS = [
  ['unmould', 'to take out of its mould', 'to take out of their moulds'],
  ['cut', 'to cut', 'to cut'],
  ['weigh', 'to weigh', 'to weigh'],
  ['photo', 'to photograph', 'to photograph'],
] as const satisfies readonly (readonly [Due, string, string])[];

/** "One lot to cut and eleven to photograph." */
const workIn = (dues: readonly Due[]): string => {
  const acts = ACTS.flatMap(([act, one, many]) => {
    const count = dues.filter((what) => what === act).length;
    return count === 0 ? [] : [{ count, act: count === 1 ? one : many }];
  });
  return acts.length === 0
    ? ''
    : `${capital(listed(acts.map(({ count, act }, at) => `${at === 0 ? counted(count, 'lot') : inWords(count)} ${act}`)))}.`;
};

/** Words of Today. */
export const messages = {
  title: 'Today',
  realm: {
    real: '',
    practice: 'Practice: nothing weighed here can pass for a real record.',
    test: 'Test bench: nothing weighed here can pass for a real record.',
  } satisfies Record<Realm, string>,
  room: (temperature: string) => `Room ${temperature}`,
  now: 'read just now',
  nothingYet: 'Nothing made yet',
  lead: {
    looking: 'Looking for the bench.',
    unknown: 'What is on the bench is not known while its machine does not answer.',
    weighing: (name: string, realm: Realm, closed: number, of: number, next: string | null) =>
      `${name} is being weighed on ${BENCH[realm]}: ${closed === 0 ? `none of ${inWords(of)} lines is in yet` : `${inWords(closed)} of ${inWords(of)} lines ${closed === 1 ? 'is' : 'are'} in`}${next === null ? '' : `, ${next.toLowerCase()} is next`}.`,
    resume: (name: string, realm: Realm) =>
      `${name} waits on ${BENCH[realm]}: the program was started again, and someone has to say what is in the vessel.`,
    waiting: (name: string, realm: Realm) => `${name} is weighed; lye and oils on ${BENCH[realm]} wait to be joined.`,
    joined: (name: string, realm: Realm) => `${name} is joined on ${BENCH[realm]} and goes into its moulds.`,
    parked: (name: string, realm: Realm) => `${name} is parked; ${BENCH[realm]} is free for another batch.`,
    idle: (realm: Realm) => `Nothing is on ${BENCH[realm]}.`,
    noInstruments: 'No instrument is bound to it.',
    allFresh: (count: number) => `All ${inWords(count)} instruments answer.`,
    oneFresh: 'Its one instrument answers.',
    someNot: (names: readonly string[]) => `${capital(listed(names))} ${names.length === 1 ? 'does' : 'do'} not answer.`,
    empty: 'This page fills itself while you work: what is on the bench, what was made of late. Three things come first.',
  },
  readOnly: { title: 'Nothing can be recorded', todo: 'Run npm run doctor on the bench machine.' },
  codeRefused: {
    error: 'This screen only watches: its code was used already, or the program was started again since.',
    kept: 'A code opens one screen, once. What this screen shows is live, and it may silence alarms.',
    todo: 'On the bench machine open Setup, “A tablet at the bench”, and point the camera at the code there. Or type the newest code printed there: Bench, More, This screen.',
  },
  bench: {
    title: 'On the bench',
    next: (material: string, target: string, lot: string | null) =>
      `Next: ${material}, ${target}, ${lot === null ? 'no lot stated' : `lot ${lot}`}.`,
    meet: 'All weighed. Lye and oils have to meet.',
    joined: 'Joined. Trace, then the moulds.',
    resume: 'The program was started again. The record stands; say at the bench what is in the vessel, then it goes on.',
    parked: 'Parked: everything is kept, and it goes on where it stands.',
    away: 'Left for a moment: nothing is accepted until someone is back.',
    open: 'Go to the bench',
    review: 'See its weights',
    temperature: { vessel: 'vessel', now: 'now', lye: 'Lye', oils: 'Oils', room: 'Room', batter: 'Batter', mould: 'Mould' },
    lines: {
      picture: (closed: number, of: number, within: number) =>
        closed === 0
          ? 'Nothing weighed yet.'
          : `${capital(inWords(closed))} of ${inWords(of)} lines weighed, ${within === closed ? 'all' : inWords(within)} within tolerance.`,
      over: 'over',
      short: 'short',
      within: 'band: within tolerance',
      next: 'next',
      said: (away: string, over: boolean) => `${away} ${over ? 'over' : 'short'}`,
      crossed: 'crossed out',
    },
  },
  due: {
    title: 'Due',
    note: 'What bars want of somebody now.',
    before: (when: string) => `cut before ${when}`,
    late: (when: string) => `should have been cut before ${when}`,
    /** What each lot wants, as the sentence that opens the page. */
    lead: (dues: readonly Due[]) => workIn(dues),
    what: {
      unmould: 'see whether it comes out',
      cut: 'cut',
      weigh: 'weigh a few bars',
      photo: 'photograph',
      ready: 'has become ready',
    },
    more: (count: number) => `${count} more.`,
    all: 'All bars',
  },
  late: {
    title: 'Of late',
    note: 'What was begun, finished or not. Open one to see every weight beside its plan.',
    all: 'All batches',
    newest: (count: number) => `The newest ${inWords(count)}.`,
  },
  instruments: {
    title: 'Instruments',
    setup: 'Set up instruments',
    fresh: (names: readonly string[]) => `${capital(listed(names))} ${names.length === 1 ? 'is' : 'are'} fresh.`,
    not: (name: string, state: string) => `${capital(name)}: ${state}.`,
    lastMass: (value: string, age: string) => `last ${value}, ${age} ago`,
    none: 'None is bound. Weights can still be typed by hand.',
    unknown: 'What they say is not known while the bench machine does not answer.',
    late: 'late',
    lost: 'lost',
    suspect: 'not believed',
    links: {
      closed: 'closed',
      opening: 'being opened',
      identifying: 'being identified',
      live: 'lost',
      silent: 'silent',
      waiting: 'waiting to be tried again',
    } satisfies Record<LinkPhase, string>,
    age: (seconds: number) => (seconds < 90 ? `${seconds} s` : `${Math.round(seconds / 60)} min`),
  },
  begin: {
    title: 'To begin',
    again: 'To start a batch',
    steps: {
      practice: {
        name: 'Weigh in at the practice bench',
        sub: 'Two simulated scales, jugs and probes. The bench says what it waits for; nothing made there can pass for a real record.',
        act: 'Start practice',
      },
      start: {
        name: 'Choose what to make',
        sub: 'A plan, and the lot you hold of each material. Then the bench names the first vessel.',
        act: 'Open the bench',
      },
      scale: {
        name: 'Put a scale on the real bench',
        sub: 'By USB or serial. Nothing to hand? Type the weights; the record says so.',
        act: 'Find a scale',
      },
      tablet: {
        name: 'Bring a tablet to the bench',
        sub: 'A code opens it: it can lead the weigh-in, be heard, and stay awake.',
        act: 'Show the code',
      },
    },
  },
  lye: {
    title: 'Before any lye',
    text: 'Gloves, goggles and a face shield; air moving; nobody else near. Hydroxide goes into the liquid, never the liquid onto it. Nothing of aluminium. On skin or in an eye: water, plenty of it, and a doctor.',
    note: 'Potwatch does not replace the safety data sheet, local rules or a qualified person.',
  },
} as const;
