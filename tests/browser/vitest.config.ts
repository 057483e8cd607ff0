import { defineConfig } from 'vitest/config';
import { BaseSequencer } from 'vitest/node';
import type { TestSpecification } from 'vitest/node';

/** Files that mostly wait in real seconds, the longest first: begun last, one of them would hold up the end alone. */
const LONG = ['temperatures', 'remedy', 'handsfree', 'states', 'sheets'];

const rank = ({ moduleId }: TestSpecification): number => {
  const at = LONG.findIndex((name) => moduleId.endsWith(`/${name}.test.ts`));
  return at < 0 ? LONG.length : at;
};

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    // Not an array's own sort.
    // oxlint-disable-next-line unicorn/no-array-sort
    const usual = await super.sort(files);
    return usual.toSorted((a, b) => rank(a) - rank(b));
  }
}

/** Real Chromium on the production pages, built by `tests/run.sh` beforehand. Two files at a time: most of a file is waiting for simulated hands. */
export default defineConfig({
  test: {
    pool: 'forks',
    include: ['tests/browser/**/*.test.ts'],
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 60_000,
    sequence: { sequencer: LongFirst },
  },
});
