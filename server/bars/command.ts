import type { BarsAsk, BarsWantAsk } from '#lib/protocol/bars';
import type { LiveFrame } from '#lib/protocol/live';
import type { BarsCommand, BarsCommandHead, BarsWant, PiecesUsed } from '#lib/work/bars/index';
import type { Goods } from '#lib/work/orders/documents';
import type { BatchId, BootId, IntentId, PersonId } from '#lib/units/id';
import { as } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { milliCelsius } from '#lib/units/temperature';
import type { Clock } from '#lib/units/time';

export interface Asker {
  readonly by: PersonId;
  readonly boot: BootId;
  readonly clock: Clock;
  readonly armed: BatchId | null;
}

/** Who and when, put to what a page asks. It has no scale: what it weighs is typed. */
export const headOf = (lot: BarsCommand['lot'], { intent, expectedVersion }: Omit<BarsAsk, 'want'>, asker: Asker): BarsCommandHead => ({
  lot,
  expectedVersion,
  by: asker.by,
  via: 'screen',
  role: 'maker',
  intent: as<IntentId>(intent),
  boot: asker.boot,
  mono: Math.round(asker.clock.now()),
  wall: Math.round(asker.clock.wall()),
  offsetMin: Math.round(asker.clock.offsetMinutes()),
  observation: { settled: null, armed: asker.armed, spent: 0 },
});

/** What a page wants, as the rules hear it. */
const wantOf = (ask: BarsWantAsk): BarsWant => {
  if (ask.kind === 'type-weight') {
    const { kind, bar, for: purpose, net, text, unit } = ask;
    return { kind, body: { bar, for: purpose, typed: { net: mg(net), text, unit } } };
  }
  const { kind, ...body } = ask;
  // The schema has looked at each body; ids and masses are plain strings and numbers until here.
  return { kind, body } as unknown as BarsWant;
};

/**
 * A wrapping with its pieces as the workshop calls them; `null` where it names a wrap, or a lot of one, that is not kept here. Everything
 * else as it is.
 */
export const inWraps = (want: BarsWantAsk, goods: readonly Goods[]): BarsWant | null => {
  if (want.kind !== 'wrap') return wantOf(want);
  const used = want.used.flatMap((one): readonly PiecesUsed[] => {
    const found = goods.find(({ id, kind }) => kind === 'wrap' && id === one.goods);
    const isThere = found !== undefined && (one.lot === null || found.lots?.some(({ mark }) => mark === one.lot) === true);
    return isThere ? [{ ...one, name: found.name }] : [];
  });
  return used.length === want.used.length ? { kind: 'wrap', body: { bars: want.bars, used, note: want.note } } : null;
};

/** Where nobody typed how warm the room is, its probe says it, while it is fresh: that is the server's word, and the entry says so. */
export const inRoom = (want: BarsWant, { probes }: Pick<LiveFrame, 'probes'>): BarsWant => {
  if (want.kind !== 'note-unmould' || want.body.room !== null) return want;
  const probe = probes.find(({ use, value }) => use === 'room' && value !== null);
  return probe?.value == null ? want : { ...want, body: { ...want.body, room: milliCelsius(probe.value), probe: probe.name } };
};
