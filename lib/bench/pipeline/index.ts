import type { InstrumentId } from '#lib/units/id';
import type { LinkStatus } from '#lib/measure/instrument';
import type { Reading } from '#lib/measure/reading';
import type { SceneAct } from '#lib/protocol/intent';
import type { LeaseView, RecordLane } from '#lib/protocol/lanes';
import type { BatchState } from '#lib/work/batch/index';
import type { BarsCue } from '../bars/types';
import type { BenchCue } from '../cue';
import { hideLease, lostFor, partLease, releaseLease, renewLease, takeLease } from '../lease';
import type { Lease } from '../lease';
import { OF_ITSELF } from './complete';
import { createCore } from './core';
import type { CoreParts } from './core-types';
import { agesOf } from './frames';
import { createIntents } from './intents';
import type { IntentParts } from './intents';
import { laneAfter } from './lane';
import type { Bench } from './types';

/** The simulated scene, in practice only. */
export interface SceneParts {
  act(act: SceneAct, cue: BenchCue, batch: BatchState | null, bars: BarsCue | null): { readonly ok: boolean; readonly why: string | null };
  /** At each new cue. */
  look(cue: BenchCue, batch: BatchState | null, bars: BarsCue | null): void;
}

export interface BenchParts extends CoreParts, IntentParts {
  readonly scene: SceneParts | null;
}

/** The side of a bench that instruments and timers drive. */
export interface BenchInputs {
  reading(reading: Reading): void;
  status(status: LinkStatus): void;
  /** At least every `LOOP_TICK_MS`. */
  tick(): void;
  /** Readings of an instrument thrown away after a stall. */
  discarded(instrument: InstrumentId): number;
  /** Resolves when everything asked of the record so far is decided. */
  idle(): Promise<void>;
}

/** One bench over injected ports, clock and journal. Starts no timer and opens nothing: the server drives it. */
export const createBench = (parts: BenchParts): { bench: Bench; inputs: BenchInputs } => {
  const core = createCore(parts);
  const intent = createIntents(core, parts);
  const { clock, journal, scene } = parts;
  let wholeLane: { readonly batch: string | null; readonly seq: number; readonly read: Promise<RecordLane> } | null = null;

  if (scene !== null) core.listen({ frame: (frame) => scene.look(frame.cue, core.mailbox.batch(), frame.bars ?? null) });

  const bench: Bench = {
    boot: parts.boot,
    name: parts.name,
    realm: parts.realm,
    now: () => clock.now(),
    frame: () => core.frame(),
    forecast: () => core.forecast(),
    ages: () => agesOf(core.watch, clock.now()),
    batch: () => core.mailbox.batch(),
    lane(asked, after) {
      const batch = core.mailbox.batch();
      if (asked !== null && asked === batch?.id && after !== 0) return laneAfter(journal, batch, asked, after);
      const [id, seq] = [batch?.id ?? null, journal.seq()];
      // The whole lane is what every screen asks for after a restart: read once for all of them, those that ask meanwhile included.
      if (wholeLane?.batch === id && wholeLane.seq === seq) return wholeLane.read;
      const read = laneAfter(journal, batch, null, 0);
      wholeLane = { batch: id, seq, read };
      // What could not be read is read again for the next one who asks.
      read.catch(() => (wholeLane = null));
      return read;
    },
    leaseFor: (screen) => leaseView(core.lease(), screen, clock.now()),
    takeLease: (screen, label) => core.setLease(takeLease(screen, label, clock.now())),
    releaseLease: (screen) => core.setLease(releaseLease(core.lease(), screen, clock.now())),
    alive(screen, visible, person, covered = false) {
      const lease = visible ? renewLease(core.lease(), screen, clock.now()) : core.lease();
      core.setLease(hideLease(lease, screen, covered || !visible));
      if (core.lease().holder === screen) core.ledBy(person ?? parts.person);
    },
    parted: (screen) => core.setLease(partLease(core.lease(), screen)),
    intent,
    afterwards: (batch, want, by, id) =>
      core.sendAside(batch, () => parts.load(batch), want, { ...OF_ITSELF, by, via: 'screen', role: 'maker', intent: id }),
    async scene(act) {
      if (scene === null) return { ok: false, why: 'practice-only' };
      const { cue, bars = null } = core.frame();
      return scene.act(act, cue, core.mailbox.batch(), bars);
    },
    listen: (listener) => core.listen(listener),
  };
  const inputs: BenchInputs = {
    reading: (reading) => core.reading(reading),
    status: (status) => core.status(status),
    tick: () => core.tick(),
    discarded: (instrument) => core.discarded(instrument),
    idle: () => core.mailbox.idle(),
  };
  return { bench, inputs };
};

const leaseView = (lease: Lease, screen: string, now: number): LeaseView => ({
  holder: lease.holder,
  mine: lease.holder === screen,
  label: lease.label,
  lostForMs: lostFor(lease, now as Parameters<typeof lostFor>[1]),
});
