import type { IntentAnswer } from '#lib/protocol/intent';
import type { BootId, EntryId, InstrumentId, IntentId, PersonId, BarsId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import type { Milligrams } from '#lib/units/mass';
import type { Clock } from '#lib/units/time';
import type { BarsCommand, BarsCommandHead, BarsState, BarsWant, WeighedFor } from '#lib/work/bars/index';
import type { BatchId } from '#lib/units/id';
import type { Refusal, Weighed } from '#lib/work/batch/index';
import { PROGRAM } from '../program';
import { expectedOf } from './expected';
import { lookAt, NEW_ROUND } from './step';
import type { Look, RoundMemory } from './step';
import type { BarsCue, Pan } from './types';

/** Where what is taken is entered: one command at a time, completed when its turn comes. */
export interface BarsBook {
  send(lot: BarsId, completed: (state: BarsState | null) => BarsCommand | Refusal): Promise<IntentAnswer>;
  state(lot: BarsId): Promise<BarsState | null>;
}

export interface RoundParts {
  readonly boot: BootId;
  readonly clock: Clock;
  readonly book: BarsBook;
  /** The scale a round is weighed on: the finer of the bench, where it has one. */
  readonly scale: () => InstrumentId | null;
  readonly pan: (scale: InstrumentId) => Pan | null;
  readonly weighed: (pan: Pan, zero: number) => Omit<Weighed, 'check'> | null;
  readonly check: (scale: InstrumentId) => EntryId | null;
  readonly capacity: (scale: InstrumentId) => Milligrams | null;
  readonly led: () => boolean;
  /** The leading page does not show the weight just now. */
  readonly unseen: () => boolean;
  /** The batch that is being weighed on this bench, and the highest settled weight it has used up. */
  readonly armed: () => BatchId | null;
  readonly spent: () => number;
  readonly changed: () => void;
}

export interface RoundAsked {
  readonly lot: BarsId;
  readonly bars: readonly number[];
  readonly count: number;
  readonly for: WeighedFor;
  /** Of a mass: what it is, mg. */
  readonly known?: number | undefined;
}

export interface Presser {
  readonly by: PersonId;
  readonly intent: IntentId;
}

/** A round of bars on the bench's scale. One at a time; volatile: what was taken stands in the record, the round itself nowhere. */
export interface BarsRound {
  cue(): BarsCue | null;
  look(): void;
  begin(asked: RoundAsked): Promise<Refusal | null>;
  press(key: 'go-on' | 'back', step: number, presser: Presser): Promise<IntentAnswer>;
  end(): null;
}

interface Running {
  readonly asked: RoundAsked;
  state: BarsState;
  memory: RoundMemory;
  look: Look;
  /** What was taken, newest last. */
  readonly taken: { readonly entry: EntryId; readonly bar: number | null; readonly net: number }[];
  underway: boolean;
  step: number;
}

const refused = (code: Refusal['code'], params: Refusal['params'] = {}): IntentAnswer => ({ ok: false, refusal: { code, params } });

export const createRound = (parts: RoundParts): BarsRound => {
  let running: Running | null = null;
  /** Settled weights used up by bars in this boot. */
  let spent = 0;

  const panNow = (): Pan | null => {
    const scale = parts.scale();
    return scale === null ? null : parts.pan(scale);
  };
  const nextBar = ({ asked, taken }: Running): number | null => asked.bars[taken.length] ?? null;
  const isOver = ({ asked, taken }: Running): boolean => taken.length >= asked.count;
  const spentNow = (): number => Math.max(spent, parts.spent());

  const look = (round: Running): Look =>
    lookAt(
      round.memory,
      panNow(),
      {
        led: parts.led(),
        unseen: parts.unseen(),
        busy: parts.armed() !== null,
        spent: spentNow(),
        expected: expectedOf(round.state, { ...round.asked, bar: nextBar(round) }, parts.clock.wall()),
        over: isOver(round),
      },
      parts.clock.now(),
    );

  /** What is shown for a press to act on; another number when it changed. */
  const show = (round: Running): void => {
    const before = round.look;
    round.look = look(round);
    round.memory = round.look.memory;
    if (before.phase === round.look.phase && before.why === round.look.why) return;
    round.step += 1;
    parts.changed();
  };

  const head = (round: Running, presser: Presser | null): BarsCommandHead => {
    const pan = panNow();
    const most = pan === null ? null : parts.capacity(pan.instrument);
    return {
      lot: round.asked.lot,
      expectedVersion: null,
      by: presser?.by ?? PROGRAM,
      via: presser === null ? 'bench' : 'screen',
      role: presser === null ? 'program' : 'maker',
      intent: presser?.intent ?? null,
      boot: parts.boot,
      mono: Math.round(parts.clock.now()),
      wall: Math.round(parts.clock.wall()),
      offsetMin: Math.round(parts.clock.offsetMinutes()),
      observation: {
        settled:
          pan?.settled == null || pan.why !== null
            ? null
            : { instrument: pan.instrument, gross: pan.settled.gross as Milligrams, episode: pan.settled.episode },
        ...(pan === null || most === null ? {} : { capacity: { [pan.instrument]: most } }),
        armed: parts.armed(),
        spent: spentNow(),
      },
    };
  };

  const enter = async (round: Running, presser: Presser | null, want: () => BarsWant | Refusal): Promise<IntentAnswer> => {
    round.underway = true;
    const answer = await parts.book.send(round.asked.lot, () => {
      const wanted = want();
      return 'code' in wanted ? wanted : { ...head(round, presser), ...wanted };
    });
    round.state = (await parts.book.state(round.asked.lot)) ?? round.state;
    round.underway = false;
    return answer;
  };

  const take = async (round: Running, presser: Presser | null): Promise<IntentAnswer> => {
    const bar = nextBar(round);
    const tried = round.memory.offer?.episode ?? panNow()?.settled?.episode ?? null;
    const answer = await enter(round, presser, () => {
      const pan = panNow();
      const weighed = pan === null || round.memory.zero === null ? null : parts.weighed(pan, round.memory.zero);
      // Nothing is taken by itself once nobody leads the bench, however late the record comes to it.
      if (presser === null && !parts.led()) return { code: 'not-in-control', params: {} };
      if (pan === null || weighed === null) return { code: 'not-settled', params: {} };
      const how = presser === null ? 'by-itself' : 'go-on';
      const { for: purpose, known } = round.asked;
      const body = { bar, for: purpose, how, weighed: { ...weighed, check: parts.check(pan.instrument) } } as const;
      return { kind: 'weigh', body: known === undefined ? body : { ...body, known: mg(known) } };
    });
    const newest = round.state.weights.at(-1);
    if (answer.ok && newest !== undefined) {
      spent = Math.max(spent, round.state.consumed.episode);
      round.taken.push({ entry: newest.entry, bar, net: newest.net });
      round.memory = { ...round.memory, offer: null, taken: { net: newest.net } };
    } else round.memory = { ...round.memory, offer: null, refused: tried };
    show(round);
    parts.changed();
    return answer;
  };

  /** The newest of the round is crossed out; that bar is asked for again. */
  const undo = async (round: Running, presser: Presser, reason: 'undone' | 'something-on-the-pan'): Promise<IntentAnswer> => {
    const last = round.taken.at(-1);
    if (last === undefined) return refused('no-such', { what: 'weight' });
    const answer = await enter(round, presser, () => ({ kind: 'correct', body: { entry: last.entry, reason, note: '' } }));
    if (answer.ok) {
      round.taken.pop();
      round.memory = { ...round.memory, offer: null, taken: null };
    }
    show(round);
    parts.changed();
    return answer;
  };

  const nothing = (round: Running): IntentAnswer => {
    show(round);
    parts.changed();
    return { ok: true, seq: 0, version: round.state.version, repeated: false };
  };

  const goOn = async (round: Running, presser: Presser): Promise<IntentAnswer> => {
    const { phase, why, net } = round.look;
    const settled = panNow()?.settled ?? null;
    if (phase === 'offer' || (phase === 'ask' && why !== 'used-up')) return take(round, presser);
    if (phase === 'changed') return undo(round, presser, 'something-on-the-pan');
    // A dish stays on the pan: a person says that this is its zero.
    if (phase === 'empty' && why === null && settled !== null && net === null) {
      round.memory = { ...round.memory, zero: settled.gross };
      return nothing(round);
    }
    return refused('wrong-state', { status: phase });
  };

  const back = async (round: Running, presser: Presser): Promise<IntentAnswer> => {
    const { phase, net } = round.look;
    if (phase === 'offer' || phase === 'ask') {
      round.memory = { ...round.memory, offer: null, refused: panNow()?.settled?.episode ?? null };
      return nothing(round);
    }
    if (phase !== 'changed' || net === null) return undo(round, presser, 'undone');
    round.memory = { ...round.memory, taken: { net } };
    return nothing(round);
  };

  return {
    cue: () =>
      running === null
        ? null
        : cueOf(running, parts.scale(), expectedOf(running.state, { ...running.asked, bar: nextBar(running) }, parts.clock.wall())),
    look() {
      if (running === null || running.underway) return;
      show(running);
      if (running.look.take) void take(running, null);
    },
    async begin(asked) {
      const state = await parts.book.state(asked.lot);
      if (state === null) return { code: 'no-such', params: { what: 'bars' } };
      if (state.cut === null) return { code: 'wrong-order', params: { before: 'cut' } };
      if ((asked.for === 'mass') !== (asked.known !== undefined)) return { code: 'bad-number', params: { what: 'known' } };
      if (parts.armed() !== null) return { code: 'wrong-state', params: { status: 'weighing' } };
      const idle: Look = { memory: NEW_ROUND, phase: 'empty', why: null, net: null, acceptsIn: null, take: false };
      running = { asked, state, memory: NEW_ROUND, look: idle, taken: [], underway: false, step: (running?.step ?? 0) + 1 };
      show(running);
      parts.changed();
      return null;
    },
    async press(key, step, presser) {
      if (running === null || running.underway || running.step !== step) return refused('moved-on');
      return key === 'go-on' ? goOn(running, presser) : back(running, presser);
    },
    end() {
      running = null;
      parts.changed();
      return null;
    },
  };
};

const cueOf = (round: Running, scale: InstrumentId | null, expected: BarsCue['expected']): BarsCue => {
  const { asked, state, memory, look, taken, step } = round;
  const onPan = look.phase === 'taken' || look.phase === 'changed';
  const last = taken.at(-1) ?? null;
  return {
    lot: asked.lot,
    mark: state.mark,
    name: state.of.formula.name,
    for: asked.for,
    phase: look.phase,
    why: look.why,
    scale,
    bar: onPan ? (last?.bar ?? null) : (asked.bars[taken.length] ?? null),
    done: taken.length,
    of: asked.count,
    zero: memory.zero,
    net: look.net,
    expected,
    last: last === null ? null : { bar: last.bar, net: last.net },
    acceptsIn: look.acceptsIn,
    step,
  };
};
