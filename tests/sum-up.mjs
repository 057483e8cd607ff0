// Adds up vitest's JSON reports into one closing line. A report that is missing or ran nothing is a failure, not a zero.
import { existsSync, readFileSync } from 'node:fs';

let passed = 0;
let failed = 0;
let skipped = 0;
for (const file of process.argv.slice(2)) {
  const report = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null;
  if (report === null || report.numTotalTests === 0) {
    console.error(`no tests were run for ${file}`);
    failed += 1;
    continue;
  }
  passed += report.numPassedTests;
  failed += report.numFailedTests + (report.numFailedTestSuites > 0 && report.numFailedTests === 0 ? report.numFailedTestSuites : 0);
  skipped += report.numPendingTests + report.numTodoTests;
}
console.log(`\n${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);
