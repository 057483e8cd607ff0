import type { RecordLane } from '#lib/protocol/lanes';
import type { LiveFrame } from '#lib/protocol/live';
import type { Entry } from '#lib/work/batch/index';
import type { Seat } from './seat';
import { SPOKEN_DIVISION } from './spoken-scale';
import type { SpokenScale } from './spoken-scale';

/** A value is late at the latest after 1.5 s; the rest is the way to this process. */
const HEARD_WITHIN_MS = 2_500;

/** Looks at every frame and every accepted weight that reaches the screen, beside what the scale said and carries. */
export const watchValues = (seat: Seat, scale: SpokenScale) => {
  const faults: string[] = [];
  const counts = { frames: 0, numbers: 0, accepted: 0 };
  const frame = ({ scales, cue, n }: LiveFrame): void => {
    const now = performance.now();
    const gross = scales[0]?.gross ?? null;
    counts.frames += 1;
    if (gross === null) {
      if (cue.poured !== null) faults.push(`frame ${n} says ${cue.poured} was poured and shows no weight`);
      return;
    }
    counts.numbers += 1;
    const said = scale.said.findLast(({ at, mass }) => mass === gross && now - at <= HEARD_WITHIN_MS);
    if (said === undefined) faults.push(`frame ${n} shows ${gross}, which the scale did not say lately`);
    if (!scale.plugged && now - scale.pulledAt > HEARD_WITHIN_MS) faults.push(`frame ${n} shows ${gross} without a cable`);
  };
  const record = ({ from, lines }: RecordLane): void => {
    if (from === 0) return;
    for (const entry of lines.map((line) => JSON.parse(line) as Entry)) {
      if (entry.kind !== 'weight-accepted') continue;
      counts.accepted += 1;
      const { gross } = entry.body.weighed;
      if (!scale.plugged) faults.push(`${gross} was accepted without a cable`);
      if (Math.abs(gross - scale.load) > 2 * SPOKEN_DIVISION) faults.push(`${gross} was accepted, ${scale.load} is on the pan`);
    }
  };
  seat.screen.socket.on('live', frame);
  seat.screen.socket.on('record', record);
  return {
    faults,
    frames: () => counts.frames,
    numbers: () => counts.numbers,
    accepted: () => counts.accepted,
    stop() {
      seat.screen.socket.off('live', frame);
      seat.screen.socket.off('record', record);
    },
  };
};
