import { describe, expect, it } from 'vitest';
import { BLANK_AFTER_MS, createFreshness } from '../../../app/_live/freshness';

/** A page and a server whose clocks are set by hand; `lag` is what the network takes. */
const world = () => {
  const page = { monotonic: 50_000, wall: 1_700_000_000_000 };
  let server = 7_000;
  const freshness = createFreshness({ monotonic: () => page.monotonic, wall: () => page.wall });
  const pass = (ms: number): void => {
    page.monotonic += ms;
    page.wall += ms;
    server += ms;
  };
  return { freshness, page, pass, server: () => server, serverSleeps: (ms: number) => ((page.monotonic += ms), (page.wall += ms)) };
};

describe('A4: the page judges age on its own clock', () => {
  it('believes nothing before anything was heard', () => {
    expect(world().freshness.fresh()).toBe(false);
    expect(world().freshness.serverNow()).toBeNull();
  });

  it('is fresh for a moment after the last word, and not up to three seconds', () => {
    const { freshness, pass, server } = world();
    freshness.heard(server());
    pass(BLANK_AFTER_MS);
    expect(freshness.fresh()).toBe(true);
    pass(1);
    expect(freshness.fresh()).toBe(false);
    expect(BLANK_AFTER_MS).toBeLessThan(3_000);
  });

  it('is blank at once after a sleep in which the monotonic clock stood still', () => {
    const { freshness, page, server } = world();
    freshness.heard(server());
    page.wall += 600_000;
    expect(freshness.fresh()).toBe(false);
  });

  it('is not kept alive by a burst of what was said while the link was stuck', () => {
    const { freshness, pass, server } = world();
    const said: number[] = [];
    freshness.heard(server());
    for (let second = 0; second < 40; second += 1) {
      pass(1_000);
      said.push(server());
    }
    for (const at of said.slice(0, -2)) expect(freshness.heard(at)).toBe(false);
    expect(freshness.fresh()).toBe(false);
    expect(freshness.heard(server())).toBe(true);
    expect(freshness.fresh()).toBe(true);
  });

  it('takes a server back whose clock stood still in a suspend, once its words are steady', () => {
    const { freshness, pass, server, serverSleeps } = world();
    freshness.heard(server());
    serverSleeps(30_000);
    const taken: boolean[] = [];
    for (let tick = 0; tick < 12; tick += 1) {
      pass(250);
      taken.push(freshness.heard(server()));
    }
    expect(taken[0]).toBe(false);
    expect(taken.at(-1)).toBe(true);
    expect(freshness.fresh()).toBe(true);
  });

  it('follows two clocks that drift apart by seconds in a night', () => {
    const { freshness, page, pass, server } = world();
    for (let second = 0; second < 8 * 3_600; second += 1) {
      pass(1_000);
      page.monotonic += 0.1;
      expect(freshness.heard(server())).toBe(true);
    }
  });

  it('knows the server clock for the expiry of an intent, and forgets it with the boot', () => {
    const { freshness, pass, server } = world();
    freshness.heard(server());
    pass(1_500);
    expect(freshness.serverNow()).toBe(server());
    freshness.reset();
    expect(freshness.serverNow()).toBeNull();
    expect(freshness.fresh()).toBe(false);
  });
});
