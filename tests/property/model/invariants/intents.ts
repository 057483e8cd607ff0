import type { Entry } from '#lib/work/batch/index';
import { notLeased } from '../evidence';
import { accepts } from './look';
import type { Invariant } from './look';

/** Of who may want what, when, and what comes of it. */
export const OF_INTENTS: readonly Invariant[] = [
  {
    name: 'nothing is taken while no page holds the bench',
    check: ({ play, fresh }) =>
      accepts(fresh).flatMap((entry) => {
        const no = notLeased(play.happened, entry);
        return no === null ? [] : [`${entry.id}: ${no}`];
      }),
  },
  {
    name: 'after a crash nothing is weighed, joined or changed before a person has said what is in the vessel',
    check: ({ fresh }) =>
      fresh.flatMap(({ entry, before }) =>
        before === null || before.resumedInBoot === entry.boot || BEFORE_RESUMING.has(entry.kind) ? [] : [`${entry.kind} ${entry.id}`],
      ),
  },
  {
    name: 'one intent is done once: its entries are of one commit',
    check: ({ play, fresh }) => {
      const commits = new Map<string, number>();
      for (const { intent } of play.disk.appends) if (intent !== null) commits.set(intent, (commits.get(intent) ?? 0) + 1);
      return fresh.flatMap(({ entry }) =>
        entry.intent !== null && commits.get(entry.intent) !== 1 ? [`${entry.intent} of ${entry.id}`] : [],
      );
    },
  },
  {
    name: 'an intent is decided only for the page that holds the bench, in the boot, the time and the picture it was meant for',
    check: ({ play, fresh }) =>
      fresh.flatMap(({ entry, before, commit }) => {
        const sent = entry.intent === null ? undefined : play.happened.sent.get(entry.intent);
        if (sent === undefined || entry.kind === 'alarm-silenced') return [];
        const { want, seen, expires, expectedVersion } = sent.intent;
        // By what was so when it was decided: until then the page may lose the bench, and afterwards nobody can take it back.
        const decided = play.happened.decided.get(sent.intent.id);
        const meantNow = want.kind === 'press' || want.kind === 'take-card';
        return [
          seen.boot === entry.boot ? null : 'of another boot',
          decided !== undefined && decided.mono <= expires ? null : 'too late',
          sent.role === 'maker' ? null : 'of a watcher',
          decided?.holder?.screen === sent.by ? null : 'of a page without control',
          !meantNow || commit !== 0 || before?.version === expectedVersion ? null : `seen ${expectedVersion}, was ${before?.version}`,
        ].flatMap((no) => (no === null ? [] : [`${entry.kind} by ${entry.intent}: ${no}`]));
      }),
  },
  {
    name: 'what was answered as done is in the journal, and what was refused is not',
    check: ({ play, record }) => {
      const written = new Set<string>(record.entries.flatMap(({ intent }) => intent ?? []));
      return [...play.happened.sent.values()].flatMap(({ intent, answers }) => {
        const refused = answers.find((answer) => !answer.ok);
        return refused !== undefined && written.has(intent.id) && !answers.some(({ ok }) => ok)
          ? [`${intent.id} (${intent.want.kind}) was refused and is written`]
          : [];
      });
    },
  },
  {
    name: 'no frame shows a number without a fresh reading of that number, the rules never throw, and nothing fails that was not made to fail',
    check: ({ play }) => [...play.happened.broken.splice(0), ...(play.disk.overrun ? ['it writes without end'] : [])],
  },
];

/** What may be entered in a boot before anybody has spoken. */
const BEFORE_RESUMING: ReadonlySet<Entry['kind']> = new Set([
  'resumed',
  'noted',
  'photo-kept',
  'parked',
  'taken-up',
  'abandoned',
  'temperature-noted',
  'scale-checked',
  'alarm-raised',
  'alarm-ended',
  'alarm-silenced',
  'instrument-lost',
  'instrument-back',
  'clock-jumped',
]);
