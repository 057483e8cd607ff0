import type { LiveFrame } from '#lib/protocol/live';
import { chance } from '#tests/support/model/chance';
import { serverProcess, tempFolder } from '#tests/support/server-rig';
import type { Endured } from './endured';
import { Pourer } from './pourer';
import { Seat } from './seat';
import { SpokenScale } from './spoken-scale';
import { watchValues } from './values';

/** From the cable being in again to a number on the screen, and from its being out to none. */
const BACK_MS = 3_000;

/** How long the cable is out at most: pours end before and after it is back. */
const OUT_MS = 1_500;

/** When something shows on the screen, by `performance.now()`; `null` when it does not within this. */
const shownWithin = async (ms: number, seat: Seat, fits: (frame: LiveFrame) => boolean): Promise<number | null> => {
  const shown = seat.screen.frame(fits).then(() => performance.now());
  let timer: NodeJS.Timeout | undefined;
  const never = new Promise<null>((resolve) => (timer = setTimeout(resolve, ms, null)));
  const at = await Promise.race([shown, never]);
  clearTimeout(timer);
  return at;
};

const hasNumber = ({ scales: [shown] }: LiveFrame): boolean => shown?.gross !== null && shown?.freshness === 'fresh';

/**
 * The cable of a scale pulled that many times in the middle of a pour and of a frame, and put back while the pour goes on or after it. No
 * frame shows a number the scale did not just say, none shows one while the cable is out, no weight is taken that is not on the pan, and
 * the number is back within three seconds.
 */
export const unplugs = async (times: number, seed: number, told: (line: string) => void = () => undefined): Promise<Endured> => {
  const random = chance(seed);
  const folder = tempFolder();
  const scale = await SpokenScale.plugIn();
  const server = await serverProcess(['--port', '0', '--data', folder.path, '--scale', `${scale.pty.path},header-comma`]);
  const seat = new Seat(server.port);
  const pourer = new Pourer(seat, scale, random);
  const values = watchValues(seat, scale);
  const faults: string[] = [];
  const took: number[] = [];
  let failed = 0;
  try {
    await seat.sitDown();
    for (let unplug = 1; unplug <= times; unplug += 1) {
      const ms = await pourer.pour();
      const at = ms * (0.1 + 0.8 * random());
      await pause(at);
      const gone = shownWithin(BACK_MS, seat, ({ scales }) => scales[0]?.gross === null);
      await scale.unplug(random());
      const blank = await gone;
      await pause(OUT_MS * random());
      await scale.replug();
      const shown = await shownWithin(2 * BACK_MS, seat, hasNumber);
      const back = shown === null ? Infinity : shown - scale.pluggedAt;
      took.push(back);
      const found = values.faults.splice(0);
      if (blank === null) found.push('the number stayed when the cable was out');
      if (back > BACK_MS) found.push(`back after ${Math.round(back)} ms`);
      await pourer.answer();
      found.push(...values.faults.splice(0));
      faults.push(...found.map((fault) => `unplug ${unplug}, ${Math.round(at)} ms into a pour of ${Math.round(ms)}: ${fault}`));
      if (found.length > 0) failed += 1;
      if (unplug % 10 === 0) told(`${unplug} unplugs, ${values.accepted()} weights accepted, ${failed} failed`);
    }
    const sorted = took.toSorted((a, b) => a - b);
    return {
      name: 'unplug mid-pour',
      passed: times - failed,
      failed,
      faults,
      figures: {
        'frames looked at': values.frames(),
        'numbers among them': values.numbers(),
        'weights accepted, all as on the pan': values.accepted(),
        'back after, ms, half of them': Math.round(sorted[sorted.length >> 1] ?? NaN),
        'back after, ms, the slowest': Math.round(sorted.at(-1) ?? NaN),
      },
    };
  } finally {
    values.stop();
    seat.leave();
    await server.end('SIGKILL');
    await scale.close();
    folder.remove();
  }
};

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
