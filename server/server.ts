import { existsSync, readFileSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Realm } from '#lib/work/batch/index';
import { startBackups } from './backup/backups';
import { reviewOf } from './bench/restore';
import { markSession } from './bench/session';
import { systemClock } from './bench/system';
import { openWorkshop } from './bench/workshop';
import { openDevPages } from './dev-pages';
import { isLoopbackHost } from './http/gate';
import { loadPages } from './http/static';
import { createPairing } from './live/pairing';
import type { Log } from './log';
import type { Options } from './options';
import { serve } from './serve';
import type { Serving } from './serve';

/** The checkout: one level above this file, and above the bundle as well. */
const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));

export interface RunningServer {
  readonly port: number;
  readonly realm: Realm;
  /** Why nothing can be recorded, with what to do; `null`: it can. */
  readonly readOnly: string | null;
  /** Address for a tablet, with the one-time code good now; `null` when only this machine may come. */
  tabletAddress(): string | null;
  /** Frees ports and sockets, decides what was asked, closes the record. Idempotent. */
  stop(): Promise<void>;
}

/** Called when a one-time code was used and there is another. */
export type OnCode = (code: string) => void;

/** The whole server, without the process around it: no signal is handled and nothing is printed. Rejects when it must not start. */
export const startServer = async (options: Options, log: Log, onCode: OnCode = () => {}): Promise<RunningServer> => {
  const workshop = await openWorkshop(options, log);
  const session = markSession(options.data, workshop.run().bench.boot, systemClock);
  if (session.brokenOff) log.warn('the last run ended without being stopped');
  const backups = startBackups({ dir: options.data, wall: () => systemClock.wall(), log });
  let serving: Serving;
  try {
    serving = await serve({
      options,
      api: {
        build: buildName(),
        setup: workshop.setup,
        log,
        running: () => workshop.run(),
        people: () => workshop.people,
        keeper: () => workshop.keeper(),
        backups,
        reviewOf: (batch) => reviewOf(workshop.run().store.bench, batch),
      },
      pages: loadPages(join(ROOT, 'out')),
      dev: options.dev ? await openDevPages(ROOT) : null,
      bench: workshop.run().bench,
      pairing: createPairing({ folder: options.data, clock: systemClock, onCode }),
      tabletHost: tabletHost(options),
      log,
    });
  } catch (error) {
    await backups.stop();
    await workshop.stop();
    session.stopped();
    throw error;
  }
  workshop.changed((run) => serving.hub.serve(run.bench));

  let stopping: Promise<void> | null = null;
  const stop = async (): Promise<void> => {
    await Promise.all([serving.close(), backups.stop(), workshop.stop()]);
    session.stopped();
  };
  return {
    port: serving.port,
    realm: workshop.run().bench.realm,
    readOnly: workshop.run().store.health().readOnly,
    tabletAddress: () => serving.tabletAddress(),
    stop: () => (stopping ??= stop()),
  };
};

/** Version and what it was built from: a page of another build asks to be loaded again. */
const buildName = (): string => {
  const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string };
  const stamp = join(ROOT, 'dist', 'built-from');
  return existsSync(stamp) ? `${version}+${readFileSync(stamp, 'utf8').slice(0, 8)}` : version;
};

/** What a tablet types to reach us: a name the person allowed, else the address listened on, else the first of this machine. */
const tabletHost = ({ host, allowHosts }: Options): string | null => {
  const [name] = allowHosts;
  // By that name this machine is asked for too, by a proxy on it: whoever comes so is elsewhere and needs the code.
  if (name !== undefined) return name;
  if (isLoopbackHost(host)) return null;
  if (host !== '0.0.0.0' && host !== '::') return host.includes(':') ? `[${host}]` : host;
  const addresses = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  return addresses.find((address) => !address.internal && address.family === 'IPv4')?.address ?? null;
};
