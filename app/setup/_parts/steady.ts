import { STILL } from '#lib/measure/probe/check';
import type { ProbeUse } from '#lib/measure/reading';
import { milliCelsius } from '#lib/units/temperature';
import type { MilliCelsius } from '#lib/units/temperature';
import { sumOfAll } from '#lib/units/sum';
import { liveStore } from '../../_live/use';

const LOOKS = 10;
const BETWEEN_MS = 1_000;

/** What a probe shows, uncorrected, once it has stood still for ten looks a second apart; why not, where it does not. */
export const steadyValue = async (use: ProbeUse): Promise<MilliCelsius | 'lost' | 'moving'> => {
  const seen: number[] = [];
  for (let look = 0; look < LOOKS; look += 1) {
    if (look > 0) await new Promise((resolve) => setTimeout(resolve, BETWEEN_MS));
    const { frame, stale } = liveStore.getState();
    const probe = stale ? undefined : frame?.probes.find((one) => one.use === use);
    if (probe === undefined || probe.value === null || probe.freshness !== 'fresh') return 'lost';
    seen.push(probe.value - (probe.correction ?? 0));
  }
  if (Math.max(...seen) - Math.min(...seen) > STILL) return 'moving';
  return milliCelsius(Math.round(sumOfAll(seen) / seen.length));
};
