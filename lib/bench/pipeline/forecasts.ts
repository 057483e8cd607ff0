import type { TemperatureReading } from '#lib/measure/reading';
import type { ForecastLane, VesselLane } from '#lib/protocol/forecast';
import { fill, type Filling } from '#lib/soap/cooling/blocks';
import { follow, moved } from '#lib/soap/cooling/follow';
import { newVessel, type CoolingMemory } from '#lib/soap/cooling/memory';
import { outlook } from '#lib/soap/cooling/outlook';
import { roomCelsius } from '#lib/soap/cooling/rooms';
import type { Outlook, Room } from '#lib/soap/cooling/types';
import { meetingOf } from '#lib/soap/meeting/meeting';
import type { BootId, InstrumentId } from '#lib/units/id';
import type { Monotonic } from '#lib/units/time';
import type { BatchState, Want } from '#lib/work/batch/index';
import { meetingLane, outlookLane } from './forecast-lane';
import { oilsOf, toMeet } from './forecast-terms';
import { createMakingWatch } from './making';
import { createSwapWatch } from './swapped';

/** Follows the temperatures of one bench. Volatile: after a restart it begins anew, and says "not enough yet" for three minutes. */
export interface Forecasts {
  /** A believed reading; one without a value says nothing. */
  heard(reading: TemperatureReading): void;
  /** Hydroxide went into the liquid: what stood there before says nothing of the lye. */
  lyeMade(now: Monotonic): void;
  /** A person says that the vessel was moved, covered or stirred. */
  moved(vessel: Vessel, now: Monotonic): void;
  /** Nobody knows how long the clock stood still. */
  forgetAll(): void;
  /** Tells what was not told yet: once for each block of readings, and when a forecast comes or goes. Called as often as one likes. */
  look(batch: BatchState | null, now: Monotonic): void;
  /** The newest that was told. */
  newest(): ForecastLane | null;
  /** What the record should know of how the lye was made. */
  wants(batch: BatchState | null): readonly Want[];
}

/** How often it is looked whether there is something to say, ms. */
const LOOK_MS = 1_000;
/** A probe that stands in for another is heard once that has been silent for so long, ms. */
const STANDS_IN_MS = 10_000;
/** What the room's probe said, and what a person typed of it, counts for so long, s: a room changes slowly. */
const ROOM_LASTS_S = 1_800;
const ROOM_SAID_LASTS_S = 10_800;
/** Older than this nothing is known of the liquid, s. */
const SILENT_S = 90;

type Vessel = 'lye' | 'oils';

export interface ForecastsParts {
  readonly boot: BootId;
  readonly tell: (lane: ForecastLane) => void;
  /** A forecast that cannot be worked out holds up nothing else. */
  readonly trouble: (what: string, error: unknown) => void;
}

export const createForecasts = ({ boot, tell, trouble }: ForecastsParts): Forecasts => {
  let batchId: string | null = null;
  let memory: Readonly<Record<Vessel, CoolingMemory>> = both(null);
  let room: { readonly filling: Filling | null; readonly known: { readonly celsius: number; readonly at: number } | null } = UNKNOWN_ROOM;
  let sources: Partial<Record<Vessel | 'room', { readonly instrument: InstrumentId; readonly at: number }>> = {};
  const making = createMakingWatch();
  const swap = createSwapWatch();
  let said: { readonly celsius: number; readonly at: number } | null = null;
  let lookedAt = -Infinity;
  let newest: ForecastLane | null = null;
  let told = '';

  /** One probe for each place: another is heard when the first has fallen silent, and its vessel then begins anew. */
  const isSource = ({ instrument, at }: TemperatureReading, use: Vessel | 'room'): boolean => {
    const known = sources[use];
    if (known !== undefined && known.instrument !== instrument) {
      if (at - known.at < STANDS_IN_MS) return false;
      if (use !== 'room') memory = { ...memory, [use]: newVessel(memory[use].contents) };
    }
    sources = { ...sources, [use]: { instrument, at } };
    return true;
  };

  /** By its probe, else by what a person typed of it in this boot. */
  const roomAt = (seconds: number): Room => {
    if (room.known !== null && seconds - room.known.at <= ROOM_LASTS_S) return { kind: 'probe', celsius: room.known.celsius };
    return said !== null && seconds - said.at <= ROOM_SAID_LASTS_S ? { kind: 'said', celsius: said.celsius } : null;
  };

  const forgetAll = (): void => {
    memory = { lye: newVessel(memory.lye.contents), oils: newVessel(memory.oils.contents) };
    room = UNKNOWN_ROOM;
    sources = {};
    making.forget();
    swap.forget();
  };
  const guarded = (run: () => void): void => {
    try {
      run();
    } catch (error) {
      forgetAll();
      trouble('a forecast could not be worked out', error);
    }
  };

  const hear = (reading: TemperatureReading): void => {
    const { use, value } = reading;
    if ((use !== 'lye' && use !== 'oils' && use !== 'room') || value === null || !isSource(reading, use)) return;
    const sample = { at: reading.at / 1000, celsius: value / 1000 };
    if (use === 'room') {
      const { filling, block } = fill(room.filling, sample);
      room = { filling, known: block ?? room.known };
    } else {
      if (use === 'lye') making.heard(reading);
      swap.heard(use, sample.at, sample.celsius);
      memory = { ...memory, [use]: follow(memory[use], sample, roomAt(sample.at)) };
    }
  };

  const lookNow = (batch: BatchState | null, now: Monotonic): void => {
    const seconds = now / 1000;
    const air = roomAt(seconds);
    const [lye, oils] = [outlook(memory.lye, air, seconds), outlook(memory.oils, air, seconds)];
    const meets = toMeet(batch, roomCelsius(air));
    const liquid = memory.lye.blocks.at(-1);
    const made = making.look(batch, liquid !== undefined && seconds - liquid.at <= SILENT_S ? liquid.celsius : null);
    swap.expects(made === null ? null : { start: made.start / 1000, peak: made.likely.value / 1000 });
    const mark = JSON.stringify([batchId, gist(memory.lye, lye), gist(memory.oils, oils), meets, made, swap.suspected()]);
    if (mark === told) return;
    told = mark;
    newest = {
      boot,
      at: Math.round(now),
      batch: batchId,
      lye: vesselLane(memory.lye, lye),
      oils: vesselLane(memory.oils, oils),
      making: made,
      swapped: swap.suspected(),
      meeting: meets === null ? null : meetingLane(meetingOf(lye, oils, meets.terms, meets.toCome)),
    };
    tell(newest);
  };

  return {
    heard: (reading) => guarded(() => hear(reading)),
    lyeMade(now) {
      swap.made(now / 1000);
      memory = { ...memory, lye: newVessel(memory.lye.contents) };
      making.made();
    },
    moved(vessel, now) {
      memory = { ...memory, [vessel]: moved(memory[vessel], now / 1000) };
      // Told at the next look, not with the next block: the person waits for it.
      lookedAt = -Infinity;
    },
    forgetAll,
    look(batch, now) {
      if ((batch?.id ?? null) !== batchId) {
        batchId = batch?.id ?? null;
        memory = both(batch);
        making.forget();
        swap.forget();
      }
      said = roomSaid(batch, boot);
      if (now - lookedAt < LOOK_MS) return;
      lookedAt = now;
      guarded(() => lookNow(batch, now));
    },
    newest: () => newest,
    wants: (batch) => making.wants(batch),
  };
};

/** Of another boot its clock says nothing. */
const roomSaid = (batch: BatchState | null, boot: BootId): { readonly celsius: number; readonly at: number } | null => {
  const typed = batch?.typedTemperatures.room;
  return typed === undefined || typed.boot !== boot ? null : { celsius: typed.value / 1000, at: typed.mono / 1000 };
};

const UNKNOWN_ROOM = { filling: null, known: null };

const both = (batch: BatchState | null): Readonly<Record<Vessel, CoolingMemory>> => ({
  lye: newVessel({ kind: 'lye', setsBelow: null }),
  oils: newVessel(oilsOf(batch)),
});

const vesselLane = ({ marks }: CoolingMemory, one: Outlook): VesselLane => ({ outlook: outlookLane(one), marks });

/** What a screen would miss: another block, another kind of answer. */
const gist = ({ fit, blocks, marks }: CoolingMemory, one: Outlook): readonly unknown[] => [
  one.kind === 'none' ? one.why : one.kind,
  fit?.at ?? null,
  blocks.length,
  marks.length,
];
