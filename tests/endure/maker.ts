import type { CuePhase } from '#lib/bench/cue';
import type { ScaleRole } from '#lib/measure/instrument';
import type { LiveFrame } from '#lib/protocol/live';
import type { LineId } from '#lib/units/id';
import type { BatchState } from '#lib/work/batch/index';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { DIVISION, standingOn } from './scales';
import type { Scales } from './scales';
import type { Seat } from './seat';

type Cue = LiveFrame['cue'];

/** Frames after which the maker looks again although nothing changed. */
const LOOKS = 12;
const PLAN = 'meadowsweet';
/** What a person answers to cards, the first that is there. */
const ANSWERS = new Set([
  'resume-as-recorded',
  'poured-meanwhile',
  'keep-weight',
  'carry-on',
  'take-weight',
  'return-accept',
  'dissolve',
  'override',
  'join',
  'trace-medium',
]);

/** This line is weighed on a scale without a wire: typed, a little at a time, each part of it a weight of its own. */
const BY_HAND = 'water';
const BY_HAND_PART = 20_000;
const VESSELS: ReadonlySet<CuePhase> = new Set(['waiting-vessel', 'strange-vessel', 'lift']);
const POURS: ReadonlySet<CuePhase> = new Set(['ready', 'pouring', 'short']);

/** A line's true mass in its vessel, mg: when its pour began, and when the record closed it. */
export interface TrueLine {
  readonly batch: string;
  readonly line: LineId;
  readonly role: ScaleRole;
  readonly from: number;
  to: number | null;
}

/** Thrown inside a turn that the server did not outlive. */
class Dropped extends Error {}

/** Somebody who weighs batch after batch as the bench asks, with their own hands on the simulated scales and one screen. */
export class Maker {
  readonly truths = new Map<string, TrueLine>();
  notes = 0;
  batches = 0;
  readonly #seat: Seat;
  readonly #scales: Scales;
  readonly #chance: () => number;
  #last = '';
  #life = 0;
  /** What the hands are doing: they go on while the server is dead. */
  #hands: Promise<unknown> = Promise.resolve();

  constructor(seat: Seat, scales: Scales, chance: () => number) {
    this.#seat = seat;
    this.#scales = scales;
    this.#chance = chance;
  }

  /** One turn: looks, does one thing, and waits until something has changed. Its promise stays open when the server dies. */
  async turn(): Promise<void> {
    const life = this.#life;
    const still = (): void => {
      if (life !== this.#life) throw new Dropped();
    };
    await this.#hands;
    still();
    const seat = this.#seat;
    const { cue } = seat.frame ?? (await seat.screen.frame(({ boot }) => boot === seat.boot));
    const { batch } = seat;
    const changed = this.#changes(cue);
    if (batch !== null && batch.status === 'weighing') await this.#noteTruth(batch, cue, still);
    if (batch !== null && this.#chance() < 0.3) await this.#note();
    await this.#act(cue, batch, still);
    this.#last = cue.phase;
    await changed;
  }

  /** The server is dead: whatever turn was under way ends where it is. */
  drop(): void {
    this.#life += 1;
  }

  #changes({ phase, line }: Cue): Promise<unknown> {
    let looks = 0;
    return this.#seat.screen.frame(({ cue }) => cue.phase !== phase || cue.line !== line || (looks += 1) > LOOKS);
  }

  #note(): Promise<unknown> {
    this.notes += 1;
    return this.#seat.say({ kind: 'note', text: `note ${this.notes}` });
  }

  async #act(cue: Cue, batch: BatchState | null, still: () => void): Promise<unknown> {
    still();
    const seat = this.#seat;
    if (batch === null || batch.status === 'closed' || batch.status === 'abandoned') return this.#start();
    if (cue.line === BY_HAND && (VESSELS.has(cue.phase) || POURS.has(cue.phase)) && cue.phase !== 'lift')
      return this.#type(cue.line, batch);
    const at = cue.cards.findIndex(({ code, enabled }) => enabled && ANSWERS.has(code));
    const card = cue.cards[at];
    if (VESSELS.has(cue.phase)) return this.#vessel(cue, batch, still);
    if (POURS.has(cue.phase)) return this.#pour(cue, batch);
    if (cue.phase === 'pouring-moulds') return this.#finish(batch);
    if (cue.phase === 'temperatures' || cue.phase === 'joining') {
      if (cue.joining === null || cue.joining.lye === null) await seat.say({ kind: 'type-temperature', use: 'lye', value: 42_000 });
      if (cue.joining === null || cue.joining.oils === null) await seat.say({ kind: 'type-temperature', use: 'oils', value: 41_000 });
    }
    if (card !== undefined) return seat.say({ kind: 'take-card', card: at, code: card.code, hold: true });
    return cue.goOn === null || cue.goOn.code === 'next-card' ? undefined : seat.say({ kind: 'press', key: 'go-on', hold: cue.goOn.hold });
  }

  #type(line: LineId, batch: BatchState): Promise<unknown> {
    const { plan, actual } = batch.lines[line] as BatchState['lines'][LineId];
    const left = plan.target - actual;
    const net = Math.min(left, BY_HAND_PART);
    const text = (net / 1_000).toFixed(1);
    return this.#seat.say({ kind: 'type-weight', line, net, text, unit: 'g', readBack: true, part: net < left, held: true });
  }

  async #start(): Promise<void> {
    this.batches += 1;
    const lots = SAMPLE_PLANS.find(({ id }) => id === PLAN)?.lots ?? {};
    await this.#seat.say({
      kind: 'start',
      plan: PLAN,
      lots: Object.fromEntries(Object.entries(lots).flatMap(([line, [lot]]) => (lot === undefined ? [] : [[line, { ...lot }]]))),
    });
  }

  async #finish(batch: BatchState): Promise<unknown> {
    if (batch.parts.length > 0) return this.#seat.say({ kind: 'close' });
    const pot = Object.values(batch.vessels).toSorted((a, b) => b.contents - a.contents)[0];
    if (pot === undefined) return undefined;
    return this.#seat.say({ kind: 'split', vessel: pot.plan.id, parts: [{ name: 'Log', mass: Math.floor(pot.contents * 0.98) }] });
  }

  /** Each batch has vessels of its own, or the one before would still be in them. */
  #nameOf(vessel: string, batch: BatchState): string {
    return `${vessel} of ${batch.id}`;
  }

  async #vessel(cue: Cue, batch: BatchState, still: () => void): Promise<void> {
    const role = cue.line === null ? null : (batch.lines[cue.line]?.plan.scale ?? null);
    if (cue.phase === 'lift') {
      for (const scale of [this.#scales.main, this.#scales.fine]) {
        const { vessel } = await standingOn(scale);
        still();
        if (vessel !== null && (cue.vessel === null || vessel === this.#nameOf(cue.vessel, batch))) this.#do(scale.tell({ act: 'lift' }));
      }
      return;
    }
    if (role === null || cue.vessel === null) return;
    const scale = this.#scales[role];
    const name = this.#nameOf(cue.vessel, batch);
    const { vessel } = await standingOn(scale);
    still();
    const known = cue.cards.findIndex(({ code, enabled }) => enabled && code === 'it-is-vessel');
    if (vessel === null) this.#do(scale.tell({ act: 'set-down', name, grams: (batch.vessels[cue.vessel]?.plan.empty ?? 0) / 1_000 }));
    else if (vessel !== name) this.#do(scale.tell({ act: 'lift' }));
    else if (known >= 0) await this.#seat.say({ kind: 'take-card', card: known, code: 'it-is-vessel', hold: true });
  }

  async #pour({ line, left, phase, tolerance }: Cue, batch: BatchState): Promise<void> {
    const role = line === null ? null : (batch.lines[line]?.plan.scale ?? null);
    // A stream may still be running: whether it has ended the next look shows.
    if (phase === 'pouring' && this.#last !== 'pouring') return;
    if (role === null || left === null || left <= (tolerance ?? 0) / 2) return;
    const whim = this.#chance();
    const mass = whim < 0.25 ? left * (0.3 + this.#chance() / 2) : whim > 0.95 ? left + 4 * (tolerance ?? 0) : left;
    this.#do(this.#scales[role].tell({ act: 'pour', grams: Math.max(1, Math.round(mass)) / 1_000, seconds: 1 + 2 * this.#chance() }));
  }

  #do(act: Promise<unknown>): void {
    // What the hands refuse (something stands there already) the next look sees.
    this.#hands = act.catch(() => undefined);
  }

  /** What is truly in the vessel before the first drop of a line, and when its line is closed. The hands are still meanwhile. */
  async #noteTruth(batch: BatchState, { phase, line }: Cue, still: () => void): Promise<void> {
    for (const truth of this.truths.values()) {
      if (truth.to !== null || truth.batch !== batch.id || batch.lines[truth.line]?.status !== 'closed') continue;
      const { contents } = await standingOn(this.#scales[truth.role]);
      still();
      truth.to = contents;
    }
    const plan = line === null ? undefined : batch.lines[line]?.plan;
    if (plan === undefined || plan.id === BY_HAND || phase !== 'ready' || this.truths.has(`${batch.id} ${plan.id}`)) return;
    const { vessel, contents } = await standingOn(this.#scales[plan.scale]);
    still();
    if (vessel !== this.#nameOf(plan.vessel, batch)) return;
    this.truths.set(`${batch.id} ${plan.id}`, { batch: batch.id, line: plan.id, role: plan.scale, from: contents, to: null });
  }
}

/** How far each closed line is from what truly came in, in divisions of its scale. */
export const offBy = (maker: Maker, actualOf: (batch: string, line: LineId) => number): readonly { truth: TrueLine; divisions: number }[] =>
  [...maker.truths.values()].flatMap((truth) => {
    if (truth.to === null) return [];
    const off = Math.abs(actualOf(truth.batch, truth.line) - (truth.to - truth.from));
    return [{ truth, divisions: off / DIVISION[truth.role] }];
  });
