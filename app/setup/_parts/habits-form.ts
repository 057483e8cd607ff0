import { NO_HABITS } from '#lib/work/shelf/documents';
import type { Habits } from '#lib/work/shelf/documents';
import type { Spec } from '../../_ui/kept/fields';
import type { Reading } from '../../_ui/kept/kind';
import { at, gather } from '../../_ui/kept/typed';
import type { Gather, Typed } from '../../_ui/kept/typed';
import { workshop } from '../messages-workshop';

const { habits: words, optional } = workshop;
const PACE = ['perLine', 'melting', 'meeting', 'pouring'] as const;
/** As the shelf takes seconds. */
const LONGEST_MINUTES = 16_000;

const minutes = (seconds: number | undefined): string => (seconds === undefined ? '' : String(Number((seconds / 60).toFixed(2))));

export const typedHabits = (habits: Habits | null): Typed => {
  const { losses, room, pace, superfat, lye } = habits ?? NO_HABITS;
  return {
    'losses.residue': losses.residue?.grams ?? '',
    'losses.pour': losses.pour?.percent ?? '',
    room: room ?? '',
    ...Object.fromEntries(PACE.map((one) => [`pace.${one}`, minutes(pace?.[one])])),
    superfat: superfat ?? '',
    lye: lye?.kind ?? '',
    'lye.percent': lye?.kind === 'concentration' ? lye.percent : '',
    'lye.water': lye?.kind === 'ratio' ? lye.water : '',
  };
};

const number = (key: string, label: string): Spec => ({ kind: 'number', key, label, hint: optional });

export const habitSpecs = (typed: Typed): readonly Spec[] => {
  const kind = at(typed, 'lye');
  return [
    number('losses.residue', words.residue),
    number('losses.pour', words.pour),
    number('room', words.room),
    { kind: 'heading', key: 'pace', label: words.pace },
    ...PACE.map((one) => number(`pace.${one}`, words[one])),
    { kind: 'heading', key: 'usual', label: words.usual },
    number('superfat', words.superfat),
    { kind: 'choice', key: 'lye', label: words.lye, options: Object.entries<string>(words.lyes) },
    ...(kind === 'concentration' ? [{ kind: 'number', key: 'lye.percent', label: words.percent } as const] : []),
    ...(kind === 'ratio' ? [{ kind: 'number', key: 'lye.water', label: words.water } as const] : []),
  ];
};

/** All four or none: half a pace tells no time. */
const paceOf = (typed: Typed, read: Gather): Record<(typeof PACE)[number], number> | null => {
  const said = PACE.filter((one) => at(typed, `pace.${one}`) !== '');
  if (said.length === 0) return null;
  const seconds = PACE.map((one) => {
    const text = read.number(`pace.${one}`, { from: 0, to: LONGEST_MINUTES });
    if (text === null) read.note(`pace.${one}`, words.all);
    return [one, Math.round(60 * Number(text))] as const;
  });
  return Object.fromEntries(seconds) as Record<(typeof PACE)[number], number>;
};

const lyeOf = (typed: Typed, read: Gather): Habits['lye'] => {
  const kind = at(typed, 'lye');
  if (kind === 'concentration') return { kind, percent: read.must('lye.percent', { above: 0, to: 50 }) };
  return kind === 'ratio' ? { kind, water: read.must('lye.water', { above: 0, to: 20 }) } : null;
};

/** What was measured stays so while its figure is not changed by hand. */
const sameHow = (before: { readonly how: 'typed' | 'measured' } | null, same: boolean): 'typed' | 'measured' =>
  before !== null && same ? before.how : 'typed';

/** The bounds are those a plan reads these with. */
export const readHabits = (typed: Typed, before: Habits | null): Reading & { readonly document: Habits } => {
  const read = gather(typed);
  const { losses, pace: paceBefore } = before ?? NO_HABITS;
  const residue = read.number('losses.residue', { from: 0, to: 1_000_000 });
  const pour = read.number('losses.pour', { from: 0, to: 50 });
  const pace = paceOf(typed, read);
  const samePace = pace !== null && paceBefore !== null && PACE.every((one) => minutes(paceBefore[one]) === minutes(pace[one]));
  const document: Habits = {
    id: 'maker',
    losses: {
      residue: residue === null ? null : { grams: residue, how: sameHow(losses.residue, losses.residue?.grams === residue) },
      pour: pour === null ? null : { percent: pour, how: sameHow(losses.pour, losses.pour?.percent === pour) },
    },
    room: read.number('room', { from: 0, to: 45 }),
    pace: pace === null ? null : { ...pace, how: sameHow(paceBefore, samePace) },
    superfat: read.number('superfat', { from: 0, to: 90 }),
    lye: lyeOf(typed, read),
  };
  return { document, errors: read.errors, minds: {} };
};

/** One version in a line. */
export const saidHabits = ({ losses, room, pace, superfat, lye }: Habits): string => {
  const { said } = words;
  const parts = [
    losses.residue === null ? '' : said.residue(losses.residue.grams),
    losses.pour === null ? '' : said.pour(losses.pour.percent),
    room === null ? '' : said.room(room),
    pace === null ? '' : said.pace,
    superfat === null ? '' : said.superfat(superfat),
    lye === null ? '' : lye.kind === 'ratio' ? said.ratio(lye.water) : said.concentration(lye.percent),
  ].filter((text) => text !== '');
  return parts.length === 0 ? said.none : parts.join('; ');
};
