/** A clock that passes only when told to, with its own timers. */
export const time = () => {
  let now = 0;
  let timers: { at: number; run: () => void }[] = [];
  return {
    now: () => now,
    after: (ms: number, run: () => void): (() => void) => {
      const timer = { at: now + ms, run };
      timers.push(timer);
      return () => {
        timers = timers.filter((one) => one !== timer);
      };
    },
    pass: (ms: number): void => {
      const until = now + ms;
      for (;;) {
        const [next] = timers.filter((timer) => timer.at <= until).toSorted((a, b) => a.at - b.at);
        if (next === undefined) break;
        now = next.at;
        timers = timers.filter((timer) => timer !== next);
        next.run();
      }
      now = until;
    },
  };
};
