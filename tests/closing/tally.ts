import { told, worthAnother, type FileResult } from './failures';

export type Suite = { report: string; exit: number; files: readonly FileResult[] };

const ended = (file: FileResult, ...statuses: string[]) => file.assertionResults.filter(({ status }) => statuses.includes(status)).length;

/**
 * The counts of all suites, and a line for everything that did not simply pass. A suite that ran nothing, or that ended badly without a failed
 * test (an error nobody caught), is a failure and not a zero. What failed by the clock and was run again alone counts as it went then.
 */
export function sumUp(
  suites: readonly Suite[],
  again: readonly FileResult[],
): { lines: string[]; passed: number; failed: number; skipped: number } {
  const sum = { lines: [] as string[], passed: 0, failed: 0, skipped: 0 };
  for (const { report, exit, files } of suites) {
    if (files.length === 0) sum.lines.push(`FAILED: no tests were run for ${report}`);
    else if (exit !== 0 && files.every(({ status }) => status === 'passed'))
      sum.lines.push(`FAILED: every test passed, and the run still failed: ${report}`);
  }
  sum.failed = sum.lines.length;
  for (const file of suites.flatMap(({ files }) => files)) {
    const second = worthAnother(file) ? again.find(({ name }) => name === file.name) : undefined;
    const counted = second ?? file;
    const how = counted.status === 'passed' ? 'passed only when run again, alone' : 'FAILED';
    sum.lines.push(...told(file).map((line) => `${how}: ${line}`));
    sum.passed += ended(counted, 'passed');
    // A file whose set-up failed has no failed test of its own.
    sum.failed += counted.status === 'failed' ? Math.max(1, ended(counted, 'failed')) : 0;
    sum.skipped += ended(counted, 'pending', 'skipped', 'todo', 'disabled');
  }
  return sum;
}
