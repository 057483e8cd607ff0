/**
 * `npm run guards [-- CODE ...]`: takes each guard away in a copy of what is committed and runs its test, which has to fail. Prints one
 * line for each; ends with 1 when a test passed without its guard. Some twenty minutes for all.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { GUARDED } from './list';
import type { Guarded } from './list';

const ROOT = join(import.meta.dirname, '../..');
const wanted = process.argv.slice(2);
const unknown = wanted.filter((code) => !GUARDED.some((one) => one.code === code));
if (unknown.length > 0) throw new Error(`no such failure: ${unknown.join(', ')}`);

const copy = mkdtempSync(join(tmpdir(), 'guards-'));
execFileSync('git', ['clone', '-q', ROOT, copy]);
// A link to the folder would do, but for the build of the pages, which must find its packages below its own root.
const copied = spawnSync('cp', ['-al', join(ROOT, 'node_modules'), copy]);
if (copied.status !== 0) execFileSync('cp', ['-a', join(ROOT, 'node_modules'), copy]);

const run = (command: string, args: readonly string[], env: Readonly<Record<string, string>> = {}) =>
  spawnSync(command, args, { cwd: copy, env: { ...process.env, ...env }, encoding: 'utf8' });

/** Seconds: several times what any of them takes. */
const LONGEST_S = 240;
/** What `timeout` ends with when it had to kill. */
const KILLED = 137;

interface Report {
  readonly testResults: readonly {
    readonly assertionResults: readonly { readonly status: string; readonly failureMessages: readonly string[] }[];
  }[];
}

/** How many tests passed and failed; `null`: none ran, which shows nothing. */
const tested = ({ test, env }: Guarded): { readonly passed: number; readonly failed: number; readonly why: string } | null => {
  const browser = test.file.startsWith('tests/browser/');
  if (browser) {
    const built = run(process.execPath, ['server/start.mjs', '--build-only']);
    if (built.status !== 0) throw new Error(built.stderr);
  }
  const said = join(copy, 'said.json');
  rmSync(said, { force: true });
  const beginning = test.title.split(/%s|\$\{/)[0] ?? '';
  const config = browser ? ['--config', 'tests/browser/vitest.config.ts'] : [];
  const name = beginning.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
  // Without its guard a program may stand still for good, and then no time limit inside it helps.
  const limit = ['-s', 'KILL', String(LONGEST_S), 'npx', 'vitest', 'run'];
  const ran = run('timeout', [...limit, ...config, test.file, '-t', name, '--reporter=json', `--outputFile=${said}`], env);
  if (ran.status === null || ran.status === KILLED) return { passed: 0, failed: 1, why: `stood still for ${LONGEST_S} s` };
  try {
    const report = JSON.parse(readFileSync(said, 'utf8')) as Report;
    const all = report.testResults.flatMap(({ assertionResults }) => assertionResults);
    const failed = all.filter(({ status }) => status === 'failed');
    const passed = all.filter(({ status }) => status === 'passed').length;
    const why = failed[0]?.failureMessages[0]?.split('\n')[0] ?? '';
    return passed + failed.length === 0 ? null : { passed, failed: failed.length, why: why.slice(0, 120) };
  } catch {
    return null;
  }
};

const judge = (guarded: Guarded): boolean => {
  const { guard } = guarded;
  const file = join(copy, guard.file);
  const whole = readFileSync(file, 'utf8');
  const broken = guard.without.reduce((text, [piece, instead]) => text.replace(piece, () => instead), whole);
  if (broken === whole) throw new Error(`${guarded.code}: the guard is not where the list says`);
  writeFileSync(file, broken);
  const result = tested(guarded);
  writeFileSync(file, whole);
  const failed = result !== null && result.failed > 0;
  const counts = result === null ? 'no test ran' : `${result.failed} failed, ${result.passed} passed; ${result.why}`;
  console.log(`${guarded.code.padEnd(4)} without ${guard.file}: ${counts}${failed ? '' : '  <- NOT NOTICED'}`);
  return failed;
};

try {
  const noticed = GUARDED.filter(({ code }) => wanted.length === 0 || wanted.includes(code)).map(judge);
  const missed = noticed.filter((one) => !one).length;
  console.log(missed === 0 ? `${noticed.length} guards, each missed by its test` : `${missed} of ${noticed.length} went unnoticed`);
  process.exitCode = missed === 0 ? 0 : 1;
} finally {
  rmSync(copy, { recursive: true, force: true });
}
