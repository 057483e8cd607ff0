import { readFile } from 'node:fs/promises';
import { userInfo } from 'node:os';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { meant } from '#lib/protocol/meant';
import { defaultData } from '../args';
import { checkClock, systemSynchronised } from './clock';
import type { Finding } from './finding';
import { checkFolder } from './folder';
import { checkInstruments } from './instruments';
import { checkPorts } from './ports';
import { checkNativeParts, checkNode, checkTestTools } from './program';
import { checkRecords } from './record';
import { report } from './report';

const USAGE = `npm run doctor -- [--data DIR]

Looks at everything weighing depends on and says in plain words what is wrong and what to do. Changes nothing, opens no port.
Ends with 1 when something stops the job.`;

const OPTIONS = { data: { type: 'string' }, help: { type: 'boolean' } } as const;

/** The folder to look at, or what to say instead and how to end. */
function read(argv: readonly string[]): { readonly dir: string } | { readonly say: string; readonly code: number } {
  try {
    const { values } = parseArgs({ args: [...argv], options: OPTIONS });
    return values.help === true ? { say: USAGE, code: 0 } : { dir: resolve(values.data ?? defaultData(process.env)) };
  } catch (error) {
    const flags = argv.filter((word) => word.startsWith('--')).map((word) => word.slice(2).split('=')[0] ?? '');
    const unknown = flags.find((flag) => !(flag in OPTIONS));
    const near = unknown === undefined ? null : meant(unknown, Object.keys(OPTIONS));
    const said = near === null ? (error as Error).message : `--${unknown} is not known; did you mean --${near}?`;
    return { say: `${said}\n\n${USAGE}`, code: 2 };
  }
}

async function examine(dir: string): Promise<[string, Finding[]][]> {
  const { engines } = JSON.parse(await readFile(resolve(import.meta.dirname, '../../package.json'), 'utf8')) as {
    engines: { node: string };
  };
  const native = await checkNativeParts([
    { name: 'better-sqlite3', load: async () => new (await import('better-sqlite3')).default(':memory:').close() },
    { name: 'serialport', load: () => import('#hardware/ports/serialport-opener') },
  ]);
  const user = userInfo().username;
  const lacking = native.some(({ level }) => level === 'stop');
  return [
    ['Program', [...checkNode(process.versions.node, engines.node), ...native]],
    ['Ports', await checkPorts({ root: '/', user, groups: process.getgroups?.() ?? [] })],
    ['Instruments stored in Setup', lacking ? [] : await checkInstruments(dir)],
    ['Data folder', await checkFolder(dir)],
    ['Record', lacking ? [] : await checkRecords(dir)],
    ['Clock', await checkClock({ now: Date.now(), offsetMinutes: -new Date().getTimezoneOffset(), dir, synchronised: systemSynchronised })],
    ['For trying and testing', await checkTestTools()],
  ];
}

const asked = read(process.argv.slice(2));
if ('say' in asked) {
  console.log(asked.say);
  process.exitCode = asked.code;
} else {
  const { text, stops } = report((await examine(asked.dir)).filter(([, findings]) => findings.length > 0));
  console.log(text);
  process.exitCode = stops ? 1 : 0;
}
