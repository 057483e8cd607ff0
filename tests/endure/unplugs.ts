import { chance } from '#tests/support/model/chance';
import { serverProcess, tempFolder } from '#tests/support/server-rig';
import type { Endured } from './endured';
import { Pourer } from './pourer';
import { Seat } from './seat';
import { SpokenScale } from './spoken-scale';
import { watchValues } from './values';

/** From the cable being in again to a number on the screen. */
const BACK_MS = 3_000;

/** How long the cable is out at most: pours end before and after it is back. */
const OUT_MS = 1_500;

/** Resolves when the screen has a number of this scale again; gives how long that took, ms, or `null` when it took too long. */
const backIn = async (seat: Seat, scale: SpokenScale): Promise<number | null> => {
  const shows = seat.screen.frame(({ scales }) => {
    const shown = scales[0];
    return shown?.gross !== null && shown?.freshness === 'fresh';
  });
  const took = shows.then(() => performance.now() - scale.pluggedAt);
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<null>((resolve) => (timer = setTimeout(resolve, 2 * BACK_MS, null)));
  const ms = await Promise.race([took, late]);
  clearTimeout(timer);
  return ms;
};

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
      const gone = seat.screen.frame(({ scales }) => scales[0]?.gross === null);
      await scale.unplug(random());
      await gone;
      await pause(OUT_MS * random());
      await scale.replug();
      const back = await backIn(seat, scale);
      if (back !== null) took.push(back);
      const found = values.faults.splice(0);
      if (back === null || back > BACK_MS) found.push(`back after ${back === null ? 'more than twice that' : Math.round(back)} ms`);
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
