/** What failed in vitest's JSON reports, and which of it may have failed by the clock of a busy machine rather than by the code. */
import { existsSync, readFileSync } from 'node:fs';
import { relative } from 'node:path';

export type TestResult = { status: string; fullName: string; failureMessages: string[] };
export type FileResult = { name: string; status: string; message?: string; assertionResults: TestResult[] };

/** More than this many files failing is no accident of the machine. */
const MOST = 3;
/** Tests that wait for other programs: browsers, servers, kernel ttys. A pure rule that fails once has failed. */
const BESIDE_OTHERS = ['tests/browser/', 'tests/server/', 'tests/endure/'];

/** The files of a report; none where there is no report. */
export function filesOf(report: string): FileResult[] {
  return existsSync(report) ? (JSON.parse(readFileSync(report, 'utf8')) as { testResults: FileResult[] }).testResults : [];
}

const failedOf = (file: FileResult) => file.assertionResults.filter(({ status }) => status === 'failed');
const placeOf = (file: FileResult) => relative(process.cwd(), file.name);

const why = (message = '') => message.split('\n', 1)[0]?.slice(0, 300) ?? '';

/** One line for each failure of a file: where, which, and the first line of why. */
export function told(file: FileResult): string[] {
  if (file.status !== 'failed') return [];
  const failed = failedOf(file).map((test) => `${placeOf(file)}: ${test.fullName}: ${why(test.failureMessages[0])}`);
  return failed.length > 0 ? failed : [`${placeOf(file)}: ${why(file.message)}`];
}

/** Whether a failed file is worth another run, alone. Never a counterexample: that was found, whatever another run says. */
export function worthAnother(file: FileResult): boolean {
  if (file.status !== 'failed') return false;
  const said = [file.message ?? '', ...failedOf(file).flatMap(({ failureMessages }) => failureMessages)].filter(
    (message) => message !== '',
  );
  if (said.some((message) => message.includes('Property failed'))) return false;
  return (
    BESIDE_OTHERS.some((folder) => placeOf(file).startsWith(folder)) || (said.length > 0 && said.every((why) => /timed out/i.test(why)))
  );
}

/** The places of the files to run again; none where too many failed. */
export function another(files: readonly FileResult[]): string[] {
  return files.filter(({ status }) => status === 'failed').length > MOST ? [] : files.filter(worthAnother).map(placeOf);
}
