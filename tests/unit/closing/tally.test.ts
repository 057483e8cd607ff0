import { describe, expect, it } from 'vitest';
import { another, type FileResult } from '#tests/closing/failures';
import { sumUp } from '#tests/closing/tally';

const test = (status: string, ...failureMessages: string[]) => ({ status, fullName: `does ${status}`, failureMessages });
const file = (place: string, ...tests: ReturnType<typeof test>[]): FileResult => ({
  name: `${process.cwd()}/${place}`,
  status: tests.some(({ status }) => status === 'failed') ? 'failed' : 'passed',
  assertionResults: tests,
});
const late = file('tests/browser/a.test.ts', test('passed'), test('failed', 'Error: nothing came\n  at x'));
const rule = file('tests/unit/b.test.ts', test('failed', 'AssertionError: 1 is not 2'));
const found = file('tests/server/store/c.test.ts', test('failed', 'Error: Property failed after 7 tests'));
const well = file('tests/unit/d.test.ts', test('passed'), test('passed'));
const suites = (...files: FileResult[]) => [{ report: 'core', exit: files.every(({ status }) => status === 'passed') ? 0 : 1, files }];

describe('what is run again', () => {
  it('is what waits for other programs, or timed out; never a rule, never a counterexample, never much', () => {
    const slow = file('tests/property/e.test.ts', test('failed', 'Error: Test timed out in 60000ms.'));
    expect(another([late, rule, well])).toEqual(['tests/browser/a.test.ts']);
    expect(another([found, slow])).toEqual(['tests/property/e.test.ts']);
    expect(another([late, late, late, late])).toEqual([]);
  });
});

describe('the closing line', () => {
  it('counts a second run where it went well, and says so', () => {
    const again = file('tests/browser/a.test.ts', test('passed'), test('passed'));
    expect(sumUp(suites(late, well), [again])).toEqual({
      lines: ['passed only when run again, alone: tests/browser/a.test.ts: does failed: Error: nothing came'],
      passed: 4,
      failed: 0,
      skipped: 0,
    });
  });

  it('keeps what failed twice, and what no second run may excuse', () => {
    expect(sumUp(suites(late, well), [late])).toMatchObject({ passed: 3, failed: 1 });
    expect(sumUp(suites(rule), [file('tests/unit/b.test.ts', test('passed'))])).toMatchObject({ passed: 0, failed: 1 });
    expect(sumUp(suites(late), [])).toMatchObject({ passed: 1, failed: 1 });
  });

  it('fails where nothing ran, where a file could not begin, and where the run failed beside its tests', () => {
    expect(sumUp([{ report: 'core', exit: 0, files: [] }], [])).toMatchObject({ passed: 0, failed: 1 });
    expect(sumUp([{ report: 'core', exit: 1, files: [well] }], [])).toMatchObject({ passed: 2, failed: 1 });
    expect(sumUp(suites({ ...file('tests/unit/f.test.ts'), status: 'failed', message: 'no such module' }), [])).toMatchObject({
      lines: ['FAILED: tests/unit/f.test.ts: no such module'],
      failed: 1,
    });
  });
});
