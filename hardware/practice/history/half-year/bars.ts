import { as } from '#lib/units/id';
import type { BootId, EntryId, PersonId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { barsIdOf, decide, evolve } from '#lib/work/bars/index';
import type { BarsCommand, BarsCommandBodies, BarsCommandKind, BarsEntry, BarsState } from '#lib/work/bars/index';
import { toEntry } from '#lib/work/bars/complete';
import { begunFrom, offeredOf } from '#lib/work/bars/offered';
import type { Workshop } from '#lib/work/bars/offered';
import type { BatchState } from '#lib/work/batch/index';
import type { Random } from '../../world/random';
import { SCALES } from '../recorder';
import { dryer } from './drying';
import { CURE, CUTTER } from './workshop';

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;

/** What happens to bars, and until when: nothing of it lies in the future. */
export interface Life {
  readonly batch: BatchState;
  readonly workshop: Workshop;
  readonly now: number;
  readonly offsetMin: number;
  readonly person: PersonId;
  readonly buyers: readonly PersonId[];
  readonly random: Random;
  readonly check: EntryId | null;
}

/** A bar lot of the invented past, decided entry by entry. */
class Lot {
  readonly entries: BarsEntry[] = [];
  #state: BarsState | null = null;
  #episode = 0;
  readonly #life: Life;
  readonly #id;

  constructor(life: Life, n: number) {
    this.#life = life;
    this.#id = barsIdOf(life.batch.id, n);
  }

  get state(): BarsState {
    if (this.#state === null) throw new Error('the bars have not begun');
    return this.#state;
  }

  /** At a moment that has been; `false`: it lies ahead, and nothing happened. Throws with the code of a refusal. */
  do<K extends BarsCommandKind>(
    wall: number,
    kind: K,
    body: BarsCommandBodies[K],
    settled: BarsCommand['observation']['settled'] = null,
  ): boolean {
    const { now, offsetMin, person } = this.#life;
    if (wall > now) return false;
    const via = kind === 'weigh' ? ('bench' as const) : ('screen' as const);
    const head = { by: person, via, intent: null, boot: as<BootId>(`boot-${this.#id}`), mono: 0, wall: Math.round(wall), offsetMin };
    const observation = { settled, armed: null, spent: 0 };
    const command = { ...head, lot: this.#id, expectedVersion: null, role: 'maker', observation, kind, body } as unknown as BarsCommand;
    const decision = decide(this.#state, command);
    if (!decision.ok) throw new Error(`${kind}: ${decision.refusal.code} ${JSON.stringify(decision.refusal.params)}`);
    for (const one of decision.drafts) {
      const version = (this.#state?.version ?? 0) + 1;
      const entry = toEntry(one, {
        ...head,
        id: as<EntryId>(`${this.#id}-${version}`),
        batch: this.#id,
        version,
        realm: this.#life.batch.realm,
        v: 1,
      });
      this.entries.push(entry);
      this.#state = evolve(this.#state, entry);
    }
    return true;
  }

  /** One bar on the big scale; against its label no bar has a number. */
  weigh(wall: number, bar: number | null, weight: number): boolean {
    const [{ id: instrument, step }] = SCALES;
    const net = mg(Math.round(weight / step) * step);
    this.#episode += 1;
    const episode = this.#episode;
    const text = (net / 1000).toFixed(1);
    const weighed = {
      gross: net,
      zero: mg(0),
      net,
      text,
      unit: 'g' as const,
      step,
      raw: btoa(`ST,GS,${text.padStart(9)} g\r\n`),
      instrument,
      check: this.#life.check,
      episode,
      strip: null,
    };
    return this.do(
      wall,
      'weigh',
      { bar, for: bar === null ? 'net' : 'cure', weighed, how: 'by-itself' },
      { instrument, gross: net, episode },
    );
  }
}

const TRACKED = 3;
/** So many of the lots that have a label are checked against it. */
const CHECKED = 0.15;
/** Days after cutting on which somebody put bars on the scale. */
const WEIGHED_ON = [0, 7, 14, 28, 42] as const;

/** Every bar lot of a closed batch, as far as its life has come. */
export const barsOf = (life: Life): readonly (readonly BarsEntry[])[] =>
  offeredOf(life.batch, life.workshop).flatMap((offered) => {
    const begun = begunFrom(life.batch, life.workshop, [offered]);
    const ended = life.batch.endedWall ?? life.batch.startedWall;
    if (begun === null || ended + HOUR_MS > life.now) return [];
    const lot = new Lot(life, offered.n);
    lot.do(ended + HOUR_MS, 'begin', { ...begun, realm: life.batch.realm });
    live(lot, ended, life);
    return [lot.entries];
  });

const live = (lot: Lot, ended: number, { random, buyers }: Life): void => {
  const room = Math.round(random.between(17, 22) * 1000) as never;
  let out = ended + random.between(20, 30) * HOUR_MS;
  if (random.next() < 0.18) {
    if (!lot.do(out, 'note-unmould', { state: random.next() < 0.6 ? 'too-soft' : 'stuck', note: '', room })) return;
    out += random.between(14, 26) * HOUR_MS;
  }
  if (!lot.do(out, 'note-unmould', { state: 'out', note: '', room })) return;
  const cut = out + random.between(1, 7) * HOUR_MS;
  if (!cutIt(lot, cut, random)) return;
  const { state } = lot;
  const mass = state.cut?.mass ?? grams(120);
  lot.do(cut + HOUR_MS, 'move', { place: CURE.places[Math.floor(random.next() * 2)] ?? 'Rack' });
  const lost = dryer(random, (state.water ?? 250_000) / 1e6);
  const bars = Array.from({ length: TRACKED }, () => mass * (1 + 0.012 * random.gauss()));
  for (const day of WEIGHED_ON) {
    const wall = cut + (day + (day === 0 ? 0 : random.between(-0.8, 1.5))) * DAY_MS;
    for (const [at, weight] of bars.entries()) lot.weigh(wall + at * 20_000, at + 1, weight * (1 - lost((wall - cut) / DAY_MS)));
  }
  const label = Math.floor((mass * (1 - lost(60)) * 0.97) / 5000) * 5000;
  if (!lot.do(cut + random.between(26, 31) * DAY_MS, 'label', { net: mg(label) })) return;
  if (random.next() < CHECKED) checkNet(lot, cut + 35 * DAY_MS, mass * (1 - lost(35)), random);
  sell(lot, cut + 36 * DAY_MS, random, buyers);
};

const cutIt = (lot: Lot, wall: number, random: Random): boolean => {
  const { mould, batter, moulds } = lot.state;
  if (mould.gives === 'bars') {
    const count = mould.cavities * moulds.length - (random.next() < 0.2 ? 1 : 0);
    const mass = batter === null ? null : mg(Math.round(batter / (mould.cavities * moulds.length)));
    const cutter = { id: null, name: '', kind: 'none' } as const;
    return lot.do(wall, 'cut', { cutter, count, ends: 0, testers: 0, thickness: null, log: null, mass });
  }
  const length = mould.length ?? 250_000;
  const [trim, kerf] = [3_000, 500];
  const testers = random.next() < 0.5 ? 1 : 0;
  const whole = 10;
  const thickness = Math.floor((length - 2 * trim - (whole + 1) * kerf) / whole);
  const mass = batter === null ? null : mg(Math.round((batter * thickness) / length));
  const cutter = { id: CUTTER.id, name: CUTTER.name, kind: 'adjustable' } as const;
  return lot.do(wall, 'cut', { cutter, count: whole - testers, ends: 2, testers, thickness, log: { length, trim, kerf }, mass });
};

/** Every bar of the lot against its label, as a whole lot of fewer than 100 asks for. */
const checkNet = (lot: Lot, wall: number, weight: number, random: Random): void => {
  for (let at = 0; at < lot.state.counts.shelf; at += 1) lot.weigh(wall + at * 9_000, null, weight * (1 + 0.012 * random.gauss()));
};

/** Week by week some leave: to shops, to a market, a few as gifts, now and then a broken one. */
const sell = (lot: Lot, from: number, random: Random, buyers: readonly PersonId[]): void => {
  const moved = { at: null, from: 'shelf' as const, note: '' };
  for (let wall = from; lot.state.counts.shelf > 0; wall += random.between(4, 12) * DAY_MS) {
    const count = Math.min(lot.state.counts.shelf, 1 + Math.floor(random.between(0, 5)));
    const chance = random.next();
    const to = buyers[Math.floor(random.next() * buyers.length)] ?? null;
    const done =
      chance < 0.55
        ? lot.do(wall, 'sell', { ...moved, count, to })
        : chance < 0.9
          ? lot.do(wall, 'count-market', { took: count, home: 0, gave: count > 3 ? 1 : 0, at: null, note: '' })
          : chance < 0.96
            ? lot.do(wall, 'give', { ...moved, count: 1, to: null })
            : lot.do(wall, 'spoil', { ...moved, count: 1, to: null });
    if (!done) return;
  }
};
