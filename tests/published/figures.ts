import { outcome, type Check } from './checks/check';
import { ALL_CHECKS } from './checks/index';

/** `npm run figures`: every figure published elsewhere beside ours. Exits with 1 when one does not pass. */
const short = (value: number): string => (Number.isFinite(value) ? String(Number(value.toPrecision(7))) : 'unknown');

const published = ({ published: figure }: Check): string =>
  typeof figure === 'number' ? short(figure) : `${short(figure[0])} to ${short(figure[1])}`;

const rows = ALL_CHECKS.map((check) => {
  const { ours, difference, passes } = outcome(check);
  return [
    `${check.subject}: ${check.quantity}`,
    `${check.source} [${check.grade}]`,
    `${published(check)} ${check.unit}`,
    short(ours),
    short(Number(difference.toPrecision(2))),
    passes ? 'pass' : 'FAIL',
  ];
});

const head = ['subject', 'source', 'published', 'ours', 'difference', 'pass'];
const LONGEST = 78;
const cut = (text: string): string => (text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text);
const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => cut(row[i] ?? '').length)));
const line = (cells: readonly string[]): string =>
  cells
    .map((cell, i) => cut(cell).padEnd(widths[i] ?? 0))
    .join('  ')
    .trimEnd();

console.log([line(head), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)].join('\n'));
const failed = rows.filter((row) => row.at(-1) === 'FAIL').length;
const recalled = ALL_CHECKS.filter(({ grade }) => grade === 'memory').length;
console.log(
  `\n${rows.length} figures, ${rows.length - failed} pass, ${failed} fail; ${recalled} of them recalled from memory, not seen again.`,
);
process.exitCode = failed > 0 ? 1 : 0;
