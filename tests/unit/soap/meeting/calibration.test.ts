import { expect, it } from 'vitest';
import { boundsOf } from '#tests/benchmark/calibration/forecast/bounds';
import { runPair } from '#tests/benchmark/calibration/forecast/run-pair';
import { newTally } from '#tests/benchmark/calibration/forecast/tally';

it('thirty simulated vessels of another make keep every bound of the calibration', { timeout: 240_000 }, () => {
  const tally = newTally();
  for (let pair = 0; pair < 15; pair += 1) runPair(11, pair, tally);
  const broken = boundsOf(tally).filter(({ holds }) => !holds);
  expect(broken).toEqual([]);
  expect(tally.vessels).toBe(30);
});
