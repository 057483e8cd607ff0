/** What one kind of endurance came to. */
export interface Endured {
  readonly name: string;
  readonly passed: number;
  readonly failed: number;
  /** What went wrong, in words. */
  readonly faults: readonly string[];
  readonly figures: Readonly<Record<string, number | string>>;
}

export const tableOf = ({ name, passed, failed, faults, figures }: Endured): string =>
  [
    `${name}: ${passed} passed, ${failed} failed`,
    ...Object.entries(figures).map(([what, figure]) => `  ${what.padEnd(44)} ${String(figure).padStart(10)}`),
    ...faults.map((fault) => `  ! ${fault}`),
  ].join('\n');
