import type { LiveFrame } from '#lib/protocol/live';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import type { Seat } from './seat';
import type { SpokenScale } from './spoken-scale';

const PLAN = 'alder-and-oat';
const POT = 'oils-pot';
/** Frames after which the maker looks again although nothing changed. */
const LOOKS = 8;
/** What is left of a line when it is poured to its end instead of being disturbed once more, of its target. */
const LAST_SHARE = 0.25;
/** No gram takes less than so many ms, no pour less than that. */
const PER_GRAM_MS = 8;
const LEAST_MS = 500;

/** Somebody who pours the oils of one batch after another into a pot on one scale, in many small pours. */
export class Pourer {
  readonly #seat: Seat;
  readonly #scale: SpokenScale;
  readonly #random: () => number;

  constructor(seat: Seat, scale: SpokenScale, random: () => number) {
    this.#seat = seat;
    this.#scale = scale;
    this.#random = random;
  }

  /** Begins a pour that leaves a good part of its line open; gives how long it takes, ms. */
  async pour(): Promise<number> {
    for (;;) {
      const cue = await this.#toPour();
      const left = cue.left ?? 0;
      if (left > LAST_SHARE * (cue.target ?? Infinity)) return this.#begin(left * (0.15 + 0.35 * this.#random()));
      this.#begin(left);
      await this.#changed(cue);
    }
  }

  /** Says what a person says when the scale is back: what was poured meanwhile is meant. */
  async answer(): Promise<void> {
    await this.#toPour();
  }

  #begin(mass: number): number {
    const ms = Math.max(LEAST_MS, (mass / 1_000) * PER_GRAM_MS);
    this.#scale.moveTo(this.#scale.load + Math.round(mass), ms);
    return ms;
  }

  /** Does what the bench asks until it waits for a pour and nothing moves. */
  async #toPour(): Promise<LiveFrame['cue']> {
    for (;;) {
      const { cue } = this.#seat.frame ?? (await this.#seat.screen.frame(() => true));
      const asks = cue.cards.length > 0 || (cue.goOn !== null && cue.goOn.code !== 'enough');
      const pours = ['ready', 'short', 'pouring'].includes(cue.phase) && !this.#scale.moves && cue.left !== null && cue.block === null;
      if (pours && !asks && (cue.left ?? 0) > (cue.tolerance ?? 0) && cue.vessel === POT) return cue;
      const changed = this.#changed(cue);
      await this.#turn(cue);
      await changed;
    }
  }

  #changed({ phase, line, left }: LiveFrame['cue']): Promise<unknown> {
    let looks = 0;
    return this.#seat.screen.frame(
      ({ cue }) => cue.phase !== phase || cue.line !== line || (looks += 1) > LOOKS || (left === null) !== (cue.left === null),
    );
  }

  async #turn(cue: LiveFrame['cue']): Promise<unknown> {
    const seat = this.#seat;
    const scale = this.#scale;
    const { batch } = seat;
    if (scale.moves) return undefined;
    if (batch === null || batch.status !== 'weighing') return this.#start();
    if (cue.line !== null && batch.lines[cue.line]?.plan.vessel !== POT)
      return seat.say({ kind: 'abandon', reason: 'all oils are in', held: true });
    if (cue.phase === 'waiting-vessel' && scale.load === 0)
      return scale.moveTo(Object.values(batch.vessels).find(({ plan }) => plan.id === POT)?.plan.empty ?? 0, 300);
    const card = cue.cards.findIndex(
      ({ code, enabled }) => enabled && ['poured-meanwhile', 'carry-on', 'take-weight', 'it-is-vessel', 'keep-weight'].includes(code),
    );
    if (card >= 0) return seat.say({ kind: 'take-card', card, code: cue.cards[card]?.code ?? '', hold: true });
    if (cue.goOn === null || cue.goOn.code === 'next-card' || cue.goOn.code === 'enough' || cue.phase === 'offer') return undefined;
    return seat.say({ kind: 'press', key: 'go-on', hold: cue.goOn.hold });
  }

  async #start(): Promise<void> {
    const before = this.#scale.load;
    this.#scale.moveTo(0, before === 0 ? 1 : 300);
    const lots = SAMPLE_PLANS.find(({ id }) => id === PLAN)?.lots ?? {};
    const chosen = Object.fromEntries(Object.entries(lots).flatMap(([line, [lot]]) => (lot === undefined ? [] : [[line, { ...lot }]])));
    await this.#seat.say({ kind: 'start', plan: PLAN, lots: chosen });
  }
}
