import { pathToFileURL } from 'node:url';
import { toString as drawQr } from 'qrcode';
import { readArgs, USAGE } from './args';
import { createLog } from './log';
import type { Log } from './log';
import { BadOption } from './options';
import type { Options } from './options';
import { startServer } from './server';
import type { RunningServer } from './server';
import { StoreProblem } from './store/problem';
import { isFull } from './store/words';

/** Nothing that is asked to end may take longer; what was committed is on disk already. */
const LONGEST_STOP_MS = 2_500;

/** Reads the command line and runs until a signal ends it. */
export const run = async (argv: readonly string[]): Promise<void> => {
  try {
    const options = readArgs(argv, process.env);
    if (options === 'help') console.log(USAGE);
    else await main(options);
  } catch (error) {
    if (!(error instanceof BadOption)) throw error;
    // Alone: behind the whole list it would be scrolled away.
    console.error(`potwatch: ${error.message}\nEvery option: npm start -- --help`);
    process.exitCode = 2;
  }
};

/** Starts the server, says where it is, and ends it cleanly on a signal. Exits the process by itself when it cannot start. */
export const main = async (options: Options): Promise<void> => {
  const log = createLog(process.env['POTWATCH_LOG'] ?? 'warn');
  const holder: { server: RunningServer | null } = { server: null };
  endOnSignals(holder, log);
  try {
    holder.server = await startServer(options, log, (code) => console.log(`A screen was opened. Code for the next one: ${code}`));
  } catch (error) {
    console.error(`potwatch: ${whyNot(error, options)}`);
    process.exit(1);
  }
  await announce(holder.server, options);
};

const announce = async (server: RunningServer, options: Options): Promise<void> => {
  console.log(`Potwatch runs at http://localhost:${server.port}`);
  console.log(`Batches are kept in ${options.data}`);
  if (server.realm !== 'real')
    console.log(
      server.realm === 'practice'
        ? 'This is the practice bench.'
        : 'The instruments are pseudo-terminals: this is a test, not a real bench.',
    );
  if (server.readOnly !== null) console.log(`\n${server.readOnly}\n`);
  const address = server.tabletAddress();
  if (address === null) return;
  console.log(`\nOn a tablet open ${address}\nThe code is good for one screen.\n`);
  console.log(await drawQr(address, { type: 'terminal', small: true, errorCorrectionLevel: 'M' }));
};

const whyNot = (error: unknown, options: Options): string => {
  if (error instanceof StoreProblem) return `${error.happened}\n${error.kept}\n${error.todo}`;
  const { code, message, syscall } = error as NodeJS.ErrnoException;
  if (code === 'EADDRINUSE')
    return `port ${options.port} is in use: another Potwatch may be running. Start with --port N to use another one.`;
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND' || code === 'EAI_AGAIN')
    return `this machine has no address ${options.host}. Start with --host 0.0.0.0 to listen on all it has.`;
  if (code === 'EACCES' && syscall === 'listen')
    return `port ${options.port} may not be used by this user. Start with --port N, N from 1024 on.`;
  if (isFull(code ?? '')) return `the disk that holds ${options.data} is full. Make room on it and start again; what was recorded is kept.`;
  return `it cannot start: ${message}`;
};

const endOnSignals = (holder: { server: RunningServer | null }, log: Log): void => {
  let ending = false;
  const end = (code: number): void => {
    // A second signal means: now.
    if (ending) process.exit(code);
    ending = true;
    setTimeout(() => {
      log.error('stopping took too long; it is ended here');
      process.exit(1);
    }, LONGEST_STOP_MS).unref();
    (holder.server?.stop() ?? Promise.resolve()).then(
      () => process.exit(code),
      (error: unknown) => {
        log.error({ err: error }, 'stopping failed');
        process.exit(1);
      },
    );
  };
  for (const signal of ['SIGTERM', 'SIGINT', 'SIGHUP'] as const) {
    process.on(signal, () => {
      log.info({ signal }, 'stopping');
      end(0);
    });
  }
  // What state this process is in is unknown: the screens go blank with it, the record keeps what was committed.
  for (const event of ['uncaughtException', 'unhandledRejection'] as const) {
    process.on(event, (error: unknown) => {
      log.fatal({ thrown: error instanceof Error ? error.stack : String(error) }, event);
      end(1);
    });
  }
};

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) await run(process.argv.slice(2));
