import { createSerialOpener } from '#hardware/ports/serialport-opener';
import { listPorts } from '#hardware/ports/list-ports';
import { createPracticeBench } from '#hardware/practice/opener';
import { hintOf } from '#hardware/practice/hint';
import { clashOf } from '#lib/measure/clash';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { InstrumentsPage } from '#lib/protocol/http';
import { as } from '#lib/units/id';
import type { VesselId } from '#lib/units/id';
import type { Realm } from '#lib/work/batch/index';
import type { SetupAnswer, Setup } from '../http/deps';
import type { Log } from '../log';
import type { Options } from '../options';
import { lockDirectory } from '../store/lock';
import { makeFolder, openStore } from '../store/open';
import { startKeeper } from '../proof/keeper';
import type { Keeper } from '../proof/keeper';
import { createRemedyDesk } from '../remedy/desk';
import type { People } from '../store/people';
import type { Store } from '../store/store';
import { beginWithPast } from '../past/first-start';
import { withPractice } from '../people/with-practice';
import { carryOver } from './carry-over';
import { deviceOf, realmOf, refusePty } from './realm';
import { startRun } from './run';
import type { BenchRun, RunParts } from './run';
import { systemClock, systemTimers } from './system';

export interface Workshop {
  /** The bench that runs now. */
  run(): BenchRun;
  readonly setup: Setup;
  /** They lie in the real workshop's record too: leaving practice takes nobody's name. */
  readonly people: People;
  /** Of the record that the bench writes to. */
  keeper(): Keeper;
  /** Another bench runs from now on. */
  changed(listener: (run: BenchRun) => void): void;
  /** Frees the ports, lets what was asked be decided, closes the record and gives the folder free. */
  stop(): Promise<void>;
}

type Asked = Pick<Options, 'data' | 'instruments' | 'practice' | 'ptyIsReal' | 'seed' | 'past'>;

/** A settled over-pour waits for its cards no longer than this. */
const REMEDY_PATIENCE_MS = 2_000;

/**
 * Everything behind the web: the record in its folder, and the bench that its instruments make. What Setup stores lies in the real
 * workshop's record, whichever realm runs. Throws `StoreProblem` when the program must not start.
 */
export const openWorkshop = async (options: Asked, log: Log): Promise<Workshop> => {
  makeFolder(options.data);
  const lock = lockDirectory(options.data);
  const stores = new Map<Realm, Store>();
  const keepers = new Map<Store, Keeper>();
  const lost = new Set<Store['settings']>();
  /**
   * Practice until a person left it in Setup, unless the command line names instruments. Of a record that is damaged nobody knows whether that
   * was so: nothing invented takes its place then.
   */
  const isPractice = (settings: Store['settings']): boolean =>
    options.practice || (options.instruments.length === 0 && !lost.has(settings) && settings.practiceLeft() === null);
  const listeners: ((run: BenchRun) => void)[] = [];
  const warned = new Set<string>();
  const remedies = createRemedyDesk({ patienceMs: REMEDY_PATIENCE_MS, trouble: (what, why) => log.warn({ why }, what) });
  const common = { log, answerRemedy: remedies.answer };

  const storeOf = async (realm: Realm): Promise<Store> => {
    const known = stores.get(realm);
    if (known !== undefined) return known;
    const store = await openStore({ dir: options.data, realm, clock: systemClock, log, lock });
    stores.set(realm, store);
    if (!store.health().ok) lost.add(store.settings);
    keepers.set(store, await startKeeper({ store, dir: options.data, clock: systemClock, log }));
    return store;
  };
  const keeperOf = (store: Store): Keeper => {
    const keeper = keepers.get(store);
    if (keeper === undefined) throw new Error(`nobody keeps the heads of ${store.file}`);
    return keeper;
  };
  const close = async (): Promise<void> => {
    for (const keeper of keepers.values()) await keeper.stop();
    for (const store of stores.values()) await store.close();
    lock.release();
  };

  const begin = async (): Promise<BenchRun> => {
    const { settings } = await storeOf('real');
    if (isPractice(settings)) {
      if (options.past && !stores.has('practice')) await beginWithPast({ dir: options.data, clock: systemClock, log, seed: options.seed });
      const store = await storeOf('practice');
      return startRun({ ...practiceParts(options.seed), name: 'bench', store, ...common });
    }
    const configs = options.instruments.length > 0 ? options.instruments : settings.instruments();
    const realm = realmOf(configs, options.ptyIsReal);
    const serial = createSerialOpener({ now: () => systemClock.now() });
    const opener = realm === 'real' && !options.ptyIsReal ? refusePty(serial, ptyFound) : serial;
    const name = options.ptyIsReal ? 'bench (pseudo-terminals taken as real)' : 'bench';
    return startRun({ name, realm, store: await storeOf(realm), configs, opener, scene: null, leaning: () => [], ...common });
  };

  let run: BenchRun;
  let tail: Promise<void> = Promise.resolve();
  const replace = async (before: Promise<void>): Promise<void> => {
    await before.catch(() => undefined);
    await run.stop();
    run = await begin();
    log.info({ boot: run.bench.boot, realm: run.bench.realm }, 'another bench');
    for (const listener of listeners) listener(run);
  };
  const rebuild = (): Promise<void> => {
    tail = replace(tail);
    return tail;
  };

  /** A port that was not there at the start is a pseudo-terminal: this is no real bench, unless a real batch is under way on it. */
  const ptyFound = (path: string): void => {
    const status = run.bench.batch()?.status;
    if (!warned.has(path)) log.warn({ path }, 'a pseudo-terminal stands where a real instrument was expected');
    warned.add(path);
    if (status !== 'weighing' && status !== 'joined')
      rebuild().catch((error: unknown) => log.error({ err: error }, 'the bench could not be changed'));
  };

  const setup = (settings: Store['settings']): Setup => ({
    page: () => pageOf(run, options, settings),
    raw(id) {
      const frames = run.rawFrames(id);
      return frames === null
        ? null
        : { frames: frames.map(({ bytes, ageMs, took }) => ({ ...readable(bytes), ageMs: Math.round(ageMs), took })) };
    },
    async bind(config, by): Promise<SetupAnswer> {
      if (options.instruments.length > 0) return 'fixed';
      const clash = clashOf(settings.instruments(), config, deviceOf);
      if (clash !== null) return clash.what;
      await settings.bindInstrument(config, by);
      if (!isPractice(settings)) await rebuild();
      return 'done';
    },
    async unbind(id, by): Promise<SetupAnswer> {
      if (options.instruments.length > 0) return 'fixed';
      if (!settings.instruments().some((config) => config.id === id)) return 'missing';
      await settings.unbindInstrument(id, by);
      if (!isPractice(settings)) await rebuild();
      return 'done';
    },
    async leavePractice(by, along): Promise<SetupAnswer> {
      if (options.practice) return 'fixed';
      if (!isPractice(settings)) return 'missing';
      // First what comes along: should it fail, practice goes on as it was, and what is there already is left as it is.
      await carryOver(run.store, await storeOf('real'), along, by);
      await settings.leavePractice(by);
      await rebuild();
      return 'done';
    },
  });

  try {
    run = await begin();
  } catch (error) {
    await remedies.stop();
    await close();
    throw error;
  }
  const { settings } = await storeOf('real');
  return {
    run: () => run,
    setup: setup(settings),
    people: withPractice(settings, () => (run.bench.realm === 'practice' ? (stores.get('practice')?.settings ?? null) : null)),
    keeper: () => keeperOf(run.store),
    changed: (listener) => void listeners.push(listener),
    async stop() {
      await remedies.stop();
      await tail.catch(() => undefined);
      await run.stop();
      await close();
    },
  };
};

const practiceParts = (seed: number): Pick<RunParts, 'realm' | 'configs' | 'opener' | 'scene' | 'leaning'> => {
  const { opener, configs, scene } = createPracticeBench({ seed, clock: systemClock, timers: systemTimers });
  const scales = configs.flatMap((config) => (config.kind === 'scale' ? [{ id: config.id, role: config.role }] : []));
  return {
    realm: 'practice',
    configs,
    opener,
    scene: {
      act: (act, cue, batch, bars) => scene.act(act, hintOf(cue, batch, scales, bars)),
      look: (cue, batch, bars) => scene.hint(hintOf(cue, batch, scales, bars)),
    },
    leaning: () => scene.leaning().map((vessel) => as<VesselId>(vessel)),
  };
};

const pageOf = async (run: BenchRun, options: Asked, settings: Store['settings']): Promise<InstrumentsPage> => {
  const practice = run.bench.realm === 'practice';
  const from = practice ? 'practice' : options.instruments.length > 0 ? 'command line' : 'setup';
  const statuses = new Map(run.links().map((status) => [status.instrument, status]));
  return {
    instruments: run.configs.flatMap((config: InstrumentConfig) => {
      const status = statuses.get(config.id);
      return status === undefined ? [] : [{ config, status, from } as const];
    }),
    ports: await listPorts(),
    realm: run.bench.realm,
    leavePractice: practice && !options.practice && settings.practiceLeft() === null,
    ...(practice ? { waiting: settings.instruments() } : {}),
  };
};

/** Bytes for a person: as numbers, and as text with everything unprintable shown as its control picture. */
const readable = (bytes: Uint8Array): { hex: string; text: string } => ({
  hex: Buffer.from(bytes)
    .toString('hex')
    .replaceAll(/(..)(?=.)/g, '$1 '),
  text: Array.from(bytes, (byte) =>
    byte < 0x20 ? String.fromCodePoint(0x2400 + byte) : byte < 0x7f ? String.fromCodePoint(byte) : '\u{fffd}',
  ).join(''),
});
