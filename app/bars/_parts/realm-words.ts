import type { Realm } from '#lib/work/batch/index';

/** Whose bars these are, beside the title. */
export const batchWords: Readonly<Record<Realm, string>> = {
  practice: 'Of practice batches: none of them can pass for real bars.',
  test: 'Of a test bench: no real bars.',
  real: 'Of batches weighed on the real bench.',
};
