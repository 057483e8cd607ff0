import { grams, mg } from '#lib/units/mass';
import { sumOfAll } from '#lib/units/sum';
import type { BarsEntry } from '#lib/work/bars/index';
import { begunFrom, offeredOf } from '#lib/work/bars/offered';
import type { Random } from '../../world/random';
import { dryer } from './drying';
import { Lot } from './lot';
import { filledBy } from './orders';
import type { Life } from './lot';
import { workedAt } from './hours';
import { photographed } from './photographs';
import type { Event } from './photographs';
import { BAND, bandsOpenAt } from './bands';
import { CURE, CUTTER } from './workshop';

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;

const TRACKED = 3;
/** So many of the lots that have a label are checked against it. */
const CHECKED = 0.15;
/** Days after cutting on which somebody put bars on the scale. */
const WEIGHED_ON = [0, 7, 14, 28, 42] as const;
/** On the first of them, once the table is clean. */
const WEIGHED_AFTER = 20 * MINUTE_MS;

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

const live = (lot: Lot, ended: number, life: Life): void => {
  const { random } = life;
  const when = (due: number): number => workedAt(due, life.offsetMin);
  const room = Math.round(random.between(17, 22) * 1000) as never;
  let out = when(ended + random.between(20, 30) * HOUR_MS);
  if (random.next() < 0.18) {
    if (!lot.do(out, 'note-unmould', { state: random.next() < 0.6 ? 'too-soft' : 'stuck', note: '', room })) return;
    out = when(out + random.between(14, 26) * HOUR_MS);
  }
  if (!lot.do(out, 'note-unmould', { state: 'out', note: '', room })) return;
  const cut = when(out + random.between(1, 7) * HOUR_MS);
  if (!cutIt(lot, cut, random)) return;
  const mass = (lot.state.cut?.mass ?? grams(120)) - planed(lot, cut, random);
  const lost = dryer(random, (lot.state.water ?? 250_000) / 1e6);
  const diary = new Diary(photographed(lot, cut, life));
  const moved = when(cut + HOUR_MS);
  diary.add([moved, () => lot.do(moved, 'move', { place: CURE.places[Math.floor(random.next() * 2)] ?? 'Rack' })]);
  const bars = Array.from({ length: TRACKED }, () => mass * (1 + 0.012 * random.gauss()));
  for (const day of WEIGHED_ON) {
    const wall = day === 0 ? cut + WEIGHED_AFTER : when(cut + (day + random.between(-0.8, 1.5)) * DAY_MS);
    const weighAll = (): void => {
      for (const [at, weight] of bars.entries()) lot.weigh(wall + at * 20_000, at + 1, weight * (1 - lost((wall - cut) / DAY_MS)));
    };
    diary.add([wall, weighAll]);
  }
  const label = Math.floor((mass * (1 - lost(120)) * 0.97) / 5000) * 5000;
  const labelled = when(cut + random.between(26, 31) * DAY_MS);
  diary.add([labelled, () => lot.do(labelled, 'label', { net: mg(label) })]);
  const checked = when(cut + 35 * DAY_MS);
  if (random.next() < CHECKED) diary.add([checked, () => checkNet(lot, checked, mass * (1 - lost(35)), random)]);
  const dressed = when(cut + 35.6 * DAY_MS);
  diary.add([dressed, () => wrap(lot, dressed, life)]);
  sell(lot, cut + 36 * DAY_MS, life, diary);
  diary.until(life.now);
};

/** What is to happen to a lot, each in its turn. */
class Diary {
  #ahead: readonly Event[];

  constructor(events: readonly Event[]) {
    this.#ahead = events;
  }

  add(event: Event): void {
    this.#ahead = [...this.#ahead, event].toSorted(([a], [b]) => a - b);
  }

  /** Everything up to a moment happens. */
  until(wall: number): void {
    const due = this.#ahead.filter(([at]) => at <= wall);
    this.#ahead = this.#ahead.filter(([at]) => at > wall);
    for (const [, happen] of due) happen();
  }
}

/** So many logs are planed, five bars weighed together before and after, twice. */
const PLANED = 0.2;
const TOGETHER = 5;

/** What planing took off a bar, mg. */
const planed = (lot: Lot, cut: number, random: Random): number => {
  const { cut: made, mould } = lot.state;
  if (made?.mass == null || mould.gives === 'bars' || random.next() >= PLANED) return 0;
  const looks = [0, 1].map(() => Math.round((TOGETHER * (2.6 + 0.3 * random.gauss())) / 0.1) * 100);
  const before = Math.round((TOGETHER * made.mass) / 100) * 100;
  for (const [at, off] of looks.entries())
    lot.do(cut + (at + 1) * 4 * MINUTE_MS, 'trim', { how: 'planed', bars: TOGETHER, before: mg(before), after: mg(before - off) });
  return sumOfAll(looks) / looks.length / TOGETHER;
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

/** Every bar of it before the first is sold; of the lot of bands that was open then. */
const wrap = (lot: Lot, wall: number, { now }: Life): void => {
  const { made } = lot.state.counts;
  const used = [{ goods: BAND.id, name: BAND.name, lot: bandsOpenAt(wall, now), pieces: made }];
  lot.do(wall, 'wrap', { bars: made, used, note: '' });
};

/** Week by week some leave: to shops, to a market, a few as gifts, now and then a broken one. */
const sell = (lot: Lot, from: number, { random, buyers, offsetMin, now }: Life, diary: Diary): void => {
  const moved = { from: 'shelf' as const, note: '' };
  for (let due = from; lot.state.counts.shelf > 0; due += random.between(4, 12) * DAY_MS) {
    const wall = workedAt(due, offsetMin);
    if (wall > now) return;
    diary.until(wall);
    const count = Math.min(lot.state.counts.shelf, 1 + Math.floor(random.between(0, 5)));
    const chance = random.next();
    const to = buyers[Math.floor(random.next() * buyers.length)] ?? null;
    const at = (by: 'stall' | 'sale'): string | null => filledBy(by, to === buyers[0], wall, now);
    const done =
      chance < 0.55
        ? lot.do(wall, 'sell', { ...moved, count, to, at: at('sale') })
        : chance < 0.9
          ? lot.do(wall, 'count-market', { took: count, home: 0, gave: count > 3 ? 1 : 0, at: at('stall'), note: '' })
          : chance < 0.96
            ? lot.do(wall, 'give', { ...moved, count: 1, to: null, at: null })
            : lot.do(wall, 'spoil', { ...moved, count: 1, to: null, at: null });
    if (!done) return;
  }
};
