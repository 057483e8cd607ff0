import type { LiveFrame } from '#lib/protocol/live';
import type { Happened } from './happened';

/** No value is fresh after this long, however slow its scale. */
const FRESH_AT_MOST_MS = 1_500;

/** What is wrong with one live frame: a number without a fresh reading of that very number behind it. */
export const frameFaults = (frame: LiveFrame, { happened }: { readonly happened: Happened }): readonly string[] => {
  const now = happened.timeOf(frame.boot, frame.at);
  const faults: string[] = [];
  for (const { role, gross } of frame.scales) {
    if (gross === null) continue;
    const fresh = happened.newest(role, frame.boot, now).filter((one) => now - one.at <= FRESH_AT_MOST_MS);
    if (!fresh.some(({ mass, suspect }) => mass === gross && !suspect))
      faults.push(`frame ${frame.n} shows ${gross} of ${role}; fresh from it: ${fresh.map(({ mass }) => mass).join(', ') || 'nothing'}`);
  }
  const { cue } = frame;
  const shown = frame.scales.find(({ id }) => id === cue.instrument)?.gross ?? null;
  if (cue.poured !== null && shown === null)
    faults.push(`frame ${frame.n} says ${cue.poured} poured while ${cue.instrument} shows nothing`);
  return faults;
};
