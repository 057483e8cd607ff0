/** Vitest's reports as one closing line: `tsx tests/closing/sum-up.ts REPORT=EXIT... --again REPORT...` */
import { filesOf } from './failures';
import { sumUp } from './tally';

const args = process.argv.slice(2);
const at = args.includes('--again') ? args.indexOf('--again') : args.length;
const first = args.slice(0, at).map((arg) => {
  const [report = '', exit = ''] = arg.split('=');
  return { report, exit: Number(exit), files: filesOf(report) };
});
const { lines, passed, failed, skipped } = sumUp(first, args.slice(at + 1).flatMap(filesOf));
for (const line of lines) console.log(line);
console.log(`\n${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);
