import { as } from '#lib/units/id';
import type { BarsId, EntryId } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import { barsIdOf, decide, evolve } from '#lib/work/bars/index';
import type { BarsCommand, BarsCommandBodies, BarsCommandKind, BarsEntry, BarsObservation, BarsState } from '#lib/work/bars/index';
import { toEntry } from '#lib/work/bars/complete';
import type { Refusal } from '#lib/work/batch/index';

export const HOUR = 3_600_000;
export const DAY = 24 * HOUR;
/** 12 April 2026, 09:00 UTC. */
export const POURED = Date.UTC(2026, 3, 12, 9);

/** A log of the invented workshop: 254 mm long, one of a batch of two. */
export const BEGUN: BarsCommandBodies['begin'] = {
  of: { batch: as('b1'), mark: '26-11', formula: { id: 'f1', name: 'Alder & oat', version: 3 } },
  n: 1,
  moulds: [1],
  mark: '26-11/1',
  mould: { id: 'long', name: 'Long log', gives: 'log', cavities: 1, length: 254_000, width: 70_000, depth: 60_000 },
  poured: POURED,
  batter: grams(1243),
  water: 240_000,
  pattern: 'drop-swirl',
  traits: { salt: false, wax: false, vanillin: true },
  realm: 'practice',
};

/** Bars led by commands, each at a moment of one's own choosing. */
export const barsRig = (lot: BarsId = barsIdOf(as('b1'), 1)) => {
  let state: BarsState | null = null;
  let spent = 0;
  const entries: BarsEntry[] = [];
  const send = <K extends BarsCommandKind>(
    kind: K,
    body: BarsCommandBodies[K],
    at = POURED,
    over: Omit<Partial<BarsCommand>, 'observation'> & { observation?: Partial<BarsObservation> } = {},
  ): Refusal | null => {
    const { observation = {}, ...rest } = over;
    const command = {
      lot,
      expectedVersion: null,
      by: as('maker'),
      via: 'screen',
      role: 'maker',
      intent: null,
      boot: as('boot'),
      mono: 0,
      wall: at,
      offsetMin: 0,
      observation: { settled: null, armed: null, spent, ...observation },
      ...rest,
      kind,
      body,
    } as unknown as BarsCommand;
    const decision = decide(state, command);
    if (!decision.ok) return decision.refusal;
    const version = state?.version ?? 0;
    const made = decision.drafts.map((draft, i) =>
      toEntry(draft, {
        id: as<EntryId>(`e${entries.length + i + 1}`),
        batch: lot,
        version: version + i + 1,
        realm: 'practice',
        v: 1,
        by: command.by,
        via: command.via,
        intent: null,
        boot: command.boot,
        mono: 0,
        wall: at,
        offsetMin: 0,
      }),
    );
    state = made.reduce<BarsState | null>(evolve, state);
    entries.push(...made);
    return null;
  };
  return {
    entries,
    send,
    state: (): BarsState => {
      if (state === null) throw new Error('the bars have not begun');
      return state;
    },
    spend: (episode: number) => void (spent = episode),
  };
};
