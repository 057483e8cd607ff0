import { MODEL_REALM } from '#tests/support/model/boot';
import { portionedOf, same, sumOf } from '../record';
import type { Invariant } from './look';

/** Of what the journal, the server and the pages hold. */
export const OF_THE_RECORD: readonly Invariant[] = [
  {
    name: 'what the server remembers is the fold of what the journal has',
    check: ({ play, record, quiet }) => {
      const { batch } = play;
      if (!quiet || batch === null) return [];
      const told = record.batches.get(batch.id);
      return told !== undefined && same(told.state, batch) ? [] : [`batch ${batch.id} is not what its lines fold to`];
    },
  },
  {
    name: 'a page has what the server has, whether it followed, joined late or resumed',
    check: ({ play, quiet }) =>
      Object.entries(play.screens).flatMap(([name, screen]) => {
        if (!quiet || !screen.connected || !screen.greeted()) return [];
        const { batch, unreadable } = screen.state();
        if (unreadable !== null) return [`${name} cannot read: ${unreadable}`];
        return same(batch, play.batch) ? [] : [`${name} has version ${batch?.version} of ${batch?.id}, the server ${play.batch?.version}`];
      }),
  },
  {
    name: 'no page is told what is not in the journal: whatever it shows outlives a crash',
    check: ({ play, record }) =>
      Object.entries(play.screens).flatMap(([name, screen]) => {
        const { batch } = screen.state();
        if (batch === null) return [];
        const kept = record.batches.get(batch.id)?.state.version ?? 0;
        return batch.version <= kept ? [] : [`${name} was told version ${batch.version}, the journal ends at ${kept}`];
      }),
  },
  {
    name: 'a line has the sum of what was not crossed out, and a crossed-out part never counts',
    check: ({ record }) =>
      [...record.batches.values()].flatMap((told) =>
        Object.values(told.state.lines).flatMap(({ plan, actual, contributions }) => [
          ...(actual === sumOf(told, plan.id) ? [] : [`${plan.id} has ${actual}, its entries sum to ${sumOf(told, plan.id)}`]),
          ...contributions
            .filter((one) => (one.struck !== null) !== told.struck.has(one.entry))
            .map((one) => `${one.entry} of ${plan.id} is ${one.struck === null ? 'not ' : ''}crossed out`),
        ]),
      ),
  },
  {
    name: 'what the vessels hold of a line, and what was portioned, is what the line has',
    check: ({ record }) =>
      [...record.batches.values()].flatMap((told) =>
        Object.values(told.state.lines).flatMap(({ plan, actual }) => {
          const held = Object.values(told.state.vessels).reduce((sum, { holds }) => sum + (holds[plan.id] ?? 0), 0);
          const all = held + portionedOf(told, plan.id);
          return all === actual ? [] : [`${plan.id} has ${actual}, its vessels ${held}, portions ${all - held}`];
        }),
      ),
  },
  {
    name: 'versions and sequence numbers have no gaps',
    check: ({ fresh }) =>
      fresh.flatMap(({ entry, before }) => {
        const next = (before?.version ?? 0) + 1;
        return entry.version === next ? [] : [`version ${entry.version} of ${entry.batch} follows ${next - 1}`];
      }),
  },
  {
    name: 'every entry is practice',
    check: ({ fresh }) => fresh.flatMap(({ entry }) => (entry.realm === MODEL_REALM ? [] : [`${entry.id} is ${entry.realm}`])),
  },
];
