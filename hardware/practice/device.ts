import { fstatSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { actsHelp, readAct } from './device/acts';
import { BadFlag, readArgs, USAGE } from './device/args';
import type { DeviceOptions } from './device/args';
import { inTheWay } from './device/free-name';
import { createProbeDevice } from './device/probe-device';
import { createPtyLine } from './device/pty-line';
import { createScaleDevice } from './device/scale-device';

/** The stand-alone simulated instrument: `npm run device`. */

const TURN_MS = 10;
/** After a longer standstill of this process the instrument skips the rest. */
const LONGEST_TURN_MS = 5_000;

const report = (line: object): void => void process.stdout.write(`${JSON.stringify(line)}\n`);

const main = async (options: DeviceOptions): Promise<void> => {
  const parts = {
    say: (bytes: Uint8Array) => line.say(bytes),
    done: (act: string) => report({ after: act, truth: truth() }),
    refused: (act: string, why: string) => report({ refused: act, why }),
  };
  const device = options.kind === 'scale' ? createScaleDevice(options, parts) : createProbeDevice(options, parts);
  const truth = () => ({ ...device.truth(), plugged: line.plugged, open: line.open });
  const line = createPtyLine(options.pty, {
    opened() {
      device.joined();
      report({ event: 'opened' });
    },
    closed: () => report({ event: 'closed' }),
    data: (bytes) => device.hear(bytes),
    failed: (why) => void fail(why),
  });

  let last = performance.now();
  const turns = setInterval(() => {
    const now = performance.now();
    device.pass(Math.min(now - last, LONGEST_TURN_MS));
    last = now;
  }, TURN_MS);

  const stop = async (code: number): Promise<void> => {
    clearInterval(turns);
    process.exitCode = code;
    process.stdin.destroy();
    await line.unplug();
  };
  const fail = async (why: string): Promise<void> => {
    process.stderr.write(`${why}\n`);
    await stop(1);
  };

  const cable = async (plug: boolean): Promise<void> => {
    const act = plug ? 'plug' : 'unplug';
    if (line.plugged === plug) return parts.refused(act, 'already');
    await (plug ? line.plug() : line.unplug());
    parts.done(act);
  };
  const obey = (text: string): void => {
    if (text.trim() === '') return;
    const act = readAct(text.trim());
    if (act.act === null) report({ refused: text.trim(), why: act.why });
    else if (act.act === 'help') process.stdout.write(`${actsHelp()}\n`);
    else if (act.act === 'plug' || act.act === 'unplug') cable(act.act === 'plug').catch((error: unknown) => fail(String(error)));
    else device.tell(act);
  };
  const typed = createInterface({ input: process.stdin });
  typed.on('line', obey);
  // Whoever held the other end of a pipe is gone; a terminal or /dev/null is nobody's death.
  typed.on('close', () => {
    const input = fstatSync(0);
    if (input.isFIFO() || input.isSocket()) stop(0).catch((error: unknown) => fail(String(error)));
  });
  for (const signal of ['SIGTERM', 'SIGINT', 'SIGHUP'] as const) process.once(signal, () => void stop(0));

  await line.plug();
  report({ event: 'ready', pty: options.pty, truth: truth() });
};

const start = async (): Promise<void> => {
  const options = readArgs(process.argv.slice(2));
  if (options === 'help') process.stdout.write(`${USAGE}\nActs:\n${actsHelp()}\n`);
  else {
    const why = inTheWay(options.pty);
    if (why !== null) throw new BadFlag(why);
    await main(options);
  }
};

start().catch((error: unknown) => {
  process.stderr.write(`${error instanceof BadFlag ? error.message : String(error)}\n`);
  process.exitCode = error instanceof BadFlag ? 2 : 1;
});
