import type { LineId } from '#lib/units/id';
import { fold } from '#lib/work/batch/index';
import type { Entry } from '#lib/work/batch/index';
import type { Seat } from './seat';

/** What is wrong with a stored record by what its screen was told and answered: anything lost, doubled or changed. */
export const recordFaults = (lines: readonly string[], seat: Seat) => {
  const entries = lines.map((line) => JSON.parse(line) as Entry);
  const of = new Map<string, string[]>();
  for (const [i, { batch }] of entries.entries()) of.set(batch, [...(of.get(batch) ?? []), lines[i] as string]);
  const faults = [
    ...lost(of, seat),
    ...unkept(entries, seat),
    ...twice(
      'entry',
      entries.map(({ id }) => id),
    ),
    ...twice(
      'version',
      entries.map(({ batch, version }) => `${version} of ${batch}`),
    ),
    ...twice(
      'note',
      entries.flatMap((entry) => (entry.kind === 'noted' ? [entry.body.text] : [])),
    ),
    ...twice(
      'settled weight',
      entries.flatMap((one) => (one.kind === 'weight-accepted' ? [`${one.body.weighed.episode} of ${one.boot}`] : [])),
    ),
    ...twice(
      'strip',
      entries.flatMap((one) => (one.kind === 'weight-accepted' && one.body.weighed.strip ? [one.body.weighed.strip] : [])),
    ),
    ...twice('commit of intent', commitsOf(entries)),
  ];
  const states = new Map([...of].map(([batch, texts]) => [batch, fold(texts.map((text) => JSON.parse(text) as Entry))]));
  return { faults, entries, actualOf: (batch: string, line: LineId): number => states.get(batch)?.lines[line]?.actual ?? NaN };
};

const lost = (of: ReadonlyMap<string, readonly string[]>, seat: Seat): readonly string[] =>
  [...seat.told].flatMap(([batch, told]) => {
    const kept = of.get(batch) ?? [];
    const at = told.findIndex((line, i) => kept[i] !== line);
    return at < 0 ? [] : [`line ${at + 1} told of ${batch} is lost or changed: ${told[at]}`];
  });

/** What was answered as done stands at the place the answer named. */
const unkept = (entries: readonly Entry[], seat: Seat): readonly string[] =>
  seat.answered.flatMap(({ intent, answer }) => {
    const written = entries.some((entry) => entry.intent === intent.id);
    if (!answer.ok) return written ? [`${intent.id} was refused (${answer.refusal.code}) and stands`] : [];
    const last = entries[answer.seq - 1];
    const right = last !== undefined && (answer.version === null || last.version === answer.version);
    // A press may mean nothing to the record, a note always does.
    const silent = intent.want.kind === 'note' && !written;
    return right && !silent ? [] : [`${intent.id} (${intent.want.kind}) was answered ${answer.seq} and is not there`];
  });

const twice = (what: string, names: readonly string[]): readonly string[] => {
  const seen = new Set<string>();
  return names.flatMap((name) => (seen.size === seen.add(name).size ? [`${what} ${name} is there twice`] : []));
};

/** One name for each unbroken row of entries with the same intent. */
const commitsOf = (entries: readonly Entry[]): readonly string[] =>
  entries.flatMap(({ intent }, i) => (intent !== null && entries[i - 1]?.intent !== intent ? [intent] : []));
