import { BaseSequencer } from 'vitest/node';
import type { TestSequencerConstructor, TestSpecification } from 'vitest/node';

/**
 * Runs the files named first, in that order, then the rest as usual: one that mostly waits in real seconds would hold up the end alone,
 * were it begun last. Names are ends of paths.
 */
export const longFirst = (...names: readonly string[]): TestSequencerConstructor => {
  const rank = ({ moduleId }: TestSpecification): number => {
    const at = names.findIndex((name) => moduleId.endsWith(`/${name}.test.ts`));
    return at < 0 ? names.length : at;
  };
  return class LongFirst extends BaseSequencer {
    override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
      // Not an array's own sort.
      // oxlint-disable-next-line unicorn/no-array-sort
      const usual = await super.sort(files);
      return usual.toSorted((a, b) => rank(a) - rank(b));
    }
  };
};
