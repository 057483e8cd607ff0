import type { CureForecast, CureWatch, ReadyRule } from '#lib/soap/shrink/index';
import type { Lesson } from '#lib/work/bars/cure';
import { beliefFrom, forecastOf, lessonsBut } from '#lib/work/bars/forecast';

/** What is asked of one lot. `today`: days since its day 0. `key`: another key is another question. */
export interface CureAsked {
  readonly id: string;
  readonly key: string;
  readonly watch: CureWatch;
  readonly today: number;
}
export interface CureQuestion {
  readonly rule: ReadyRule;
  /** Lots of this maker, oldest first; none teaches about itself. */
  readonly lessons: readonly Lesson[];
  readonly lots: readonly CureAsked[];
}
/** `null`: it cannot be worked out from these figures. */
export interface CureReply {
  readonly id: string;
  readonly key: string;
  readonly forecast: CureForecast | null;
}

// Off the page's own thread: a fit takes a fifth of a second for each lot.
addEventListener('message', ({ data: { rule, lessons, lots } }: MessageEvent<CureQuestion>) => {
  const taughtBut = (id: string) => beliefFrom(lessonsBut(lessons, id));
  const all = taughtBut('');
  for (const { id, key, watch, today } of lots) {
    const maker = lessons.some((one) => one.id === id) ? taughtBut(id) : all;
    const forecast = forecastOf({ id, watch, rule, today, maker });
    postMessage({ id, key, forecast } satisfies CureReply);
  }
});
