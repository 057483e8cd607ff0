import type { Finding } from './finding';

const MARK: Readonly<Record<Finding['level'], string>> = { fine: '  ok  ', note: ' note ', stop: ' STOP ' };

/** The findings by subject as plain text, and whether anything stops the job. */
export function report(sections: readonly (readonly [subject: string, findings: readonly Finding[]])[]): { text: string; stops: boolean } {
  const lines = sections.flatMap(([subject, findings]) => [
    subject,
    ...findings.flatMap(({ level, said, todo }) => [`${MARK[level]} ${said}`, ...(todo === undefined ? [] : [`       → ${todo}`])]),
    '',
  ]);
  const stops = sections.flatMap(([, findings]) => findings).filter(({ level }) => level === 'stop').length;
  const end = stops === 0 ? 'Nothing stops the job.' : stops === 1 ? 'One thing stops the job.' : `${stops} things stop the job.`;
  return { text: [...lines, end].join('\n'), stops: stops > 0 };
}
