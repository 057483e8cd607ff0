import type { Page } from 'playwright-core';
import type { BenchCue } from '#lib/bench/cue';
import type { ScreenRig } from '#tests/support/server-rig';
import { afterQuiet, drawn } from './on-page';

/** Longer than a hold must last, shorter than something lying on the key. */
export const HELD_MS = 2_150;
/** Frames after which a press that changed nothing counts as swallowed: about a second. */
const SWALLOWED = 10;

/** A pedal is a keyboard with one key: a short press, or kept down. A hold is a length of time, so there is nothing else to wait for. */
export interface Pedal {
  press(): Promise<void>;
  hold(): Promise<void>;
  /** Steps through the bench's cards to this one; `false` when it is gone. */
  stepTo(code: string): Promise<boolean>;
  /** Steps to this card and holds until the bench has taken it. */
  choose(code: string): Promise<void>;
  /** Holds until the bench has gone on from what it asks to be held for. */
  confirm(): Promise<void>;
  /** Takes a card of the page's own (its plans and lots) whose code begins so, and returns the code. */
  take(code?: string): Promise<string>;
}

/** `watcher` only looks at what the bench shows; every act goes through the page's one key. */
export const pedalOf = (page: Page, watcher: ScreenRig): Pedal => {
  const press = (): Promise<void> => page.keyboard.press('Enter');
  const hold = (): Promise<void> => page.keyboard.press('Enter', { delay: HELD_MS });
  const cue = (): BenchCue => watcher.frames.at(-1)?.cue ?? noFrame();
  const offers = (code: string): boolean => cue().cards.some((card) => card.code === code);
  /** Whether it came true before a press counts as swallowed. */
  const soon = async (fits: (cue: BenchCue) => boolean): Promise<boolean> => {
    let looks = 0;
    const { cue } = await watcher.frame((frame) => fits(frame.cue) || (looks += 1) > SWALLOWED);
    return fits(cue);
  };
  const stepTo = async (code: string): Promise<boolean> => {
    const isOn = (cue: BenchCue): boolean => cue.cards[cue.selected]?.code === code;
    while (offers(code) && !isOn(cue())) {
      const from = cue().selected;
      const moved = soon((cue) => cue.selected !== from);
      await press();
      await moved;
    }
    return offers(code);
  };
  const selected = (): Promise<string | null> =>
    page.evaluate(() => document.querySelector<HTMLElement>('[data-card][aria-current]')?.dataset['card'] ?? null);
  return {
    press,
    hold,
    stepTo,
    async choose(code) {
      while (await stepTo(code)) {
        await hold();
        if (await soon(({ cards }) => !cards.some((card) => card.code === code))) return;
      }
    },
    async confirm() {
      const { goOn, phase, line } = cue();
      do await hold();
      while (!(await soon((now) => now.phase !== phase || now.line !== line || now.goOn?.code !== goOn?.code)));
    },
    async take(code = '') {
      await afterQuiet(page);
      let on: string | null = null;
      while (on?.startsWith(code) !== true) {
        await press();
        await drawn(page);
        on = await selected();
      }
      await hold();
      return on;
    },
  };
};

const noFrame = (): never => {
  throw new Error('no frame yet');
};

/** Chooses a plan and the first lot of each material, and starts. */
export const startBatch = async (page: Page, pedal: Pedal, plan: string): Promise<void> => {
  await page.waitForSelector('[data-lease="mine"]');
  await pedal.take(`plan ${plan}`);
  while ((await pedal.take()) !== 'start');
  await page.waitForSelector('main:not([data-phase="idle"])');
};
