import { expect, it } from 'vitest';
import { USUAL_CURE } from '#lib/work/bars/documents';
import type { BarsSummary } from '#lib/work/bars/index';
import { createForecasts } from '#server/orders/forecasts';

const DAY_MS = 86_400_000;

/** Weighed every so many days, grams each of one bar. */
const lot = (id: string, grams: readonly number[]): BarsSummary =>
  ({
    id,
    version: grams.length,
    cut: { wall: 0, mass: null },
    water: 260_000,
    weighings: grams.map((one, at) => ({ wall: 14 * at * DAY_MS, sum: 1000 * one, first: 1000 * (grams[0] ?? 0), bars: 1, step: 100 })),
  }) as unknown as BarsSummary;

/** The days of what could be worked out, once all of it is. */
const daysOf = async (rows: readonly BarsSummary[], taught = rows) => {
  const forecasts = createForecasts(() => Promise.resolve());
  forecasts.now(rows, taught, USUAL_CURE, 30 * DAY_MS);
  await forecasts.settled();
  const { found, working } = forecasts.now(rows, taught, USUAL_CURE, 30 * DAY_MS);
  expect(working).toBe(0);
  return [...found].map(([id, { forecast }]) => [id, forecast.ready]);
};

it('a bar typed far heavier than it was cut leaves its lot without a day, teaches nothing, and ends nothing', async () => {
  const good = lot('bars:a/1', [120, 110, 107]);
  const wrong = lot('bars:b/1', [100, 90, 190]);
  const alone = await daysOf([good]);
  expect(alone).toHaveLength(1);
  expect(await daysOf([wrong, good])).toEqual(alone);
});

it('lots that are gone teach how long the next takes, as they do on the pages of bars', async () => {
  const [now, gone] = [lot('bars:a/1', [120]), ['b', 'c', 'd'].map((id) => lot(`bars:${id}/1`, [120, 96, 95]))];
  const [alone, together, apart] = await Promise.all([daysOf([now]), daysOf([now, ...gone]), daysOf([now], [now, ...gone])]);
  expect(apart[0]).toEqual(together[0]);
  expect(apart[0]).not.toEqual(alone[0]);
});
