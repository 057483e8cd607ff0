import type { Display } from '#lib/units/display';
import { differenceText, figureNumber, massText, numberText, shareText, temperatureText } from '#lib/units/format';
import { figure } from '#lib/units/format';
import type { CuePhase } from '#lib/bench/cue';
import type { LineState, MaterialClass } from '#lib/work/batch/index';
import { messages } from '../messages';
import type { Show } from '../messages';

/** The quantities of messages, in this screen's units. */
export const showIn = (display: Display, division: number | null): Show => ({
  mass: (milligrams) => massText(milligrams, display, division),
  temperature: (milliCelsius) => temperatureText(milliCelsius, display),
  difference: (milliKelvin) => differenceText(milliKelvin, display),
  share: (millionths) => shareText(millionths, display),
});

/** A space as wide as a digit of the figure face: digits that come and go leave the others where they are. */
export const FIGURE_SPACE = '\u2007';
/** An age keeps this many places: "12 s" stands where "0.1 s" stood. */
export const AGE_PLACES = 5;

/** Seconds with one digit under ten seconds, none above. */
export const secondsText = (milliseconds: number, locale: string): string => {
  const seconds = milliseconds / 1000;
  return seconds < 9.95 ? figureNumber(figure(seconds, 1, '', locale)) : numberText(Math.round(seconds), locale);
};

const POURED: ReadonlySet<MaterialClass> = new Set(['liquid-oil', 'liquid', 'fragrance']);
export const isPoured = (material: MaterialClass): boolean => POURED.has(material);

/** Whether a settled weight waits for a person: what leaves a vessel and hydroxide always, what no lot is stated for, and a pour in doubt. */
export const takenBy = (line: LineState | null, doubt: string | null, phase: CuePhase | null = null): 'yours' | 'itself' =>
  phase === 'take-out' || line?.plan.material.class === 'hydroxide' || line?.plan.lot === null || doubt !== null ? 'yours' : 'itself';

/** What to do now. Liquids are poured, solids added, a heavy bottle is poured from. */
export const actFor = (phase: CuePhase, material: MaterialClass | null, loss: boolean, easeOff: boolean, filled: boolean): string => {
  if (phase === 'waiting-vessel' && filled) return messages.acts.setDown;
  const poured = material === null || isPoured(material);
  if (phase === 'pouring' && easeOff) return messages.acts.easeOff;
  if (phase === 'ready') return loss ? messages.acts.pourOut : poured ? messages.phases.ready.act : messages.acts.addReady;
  if (phase === 'pouring') return poured ? messages.phases.pouring.act : messages.acts.adding;
  if (phase === 'no-weight') return poured ? messages.phases['no-weight'].act : messages.acts.stopAdding;
  return messages.phases[phase].act;
};

/** The mark of a lot is one word wherever a line ends: "26-" above "04" is read as two. */
export const unbroken = (mark: string): string => mark.replaceAll(' ', '\u00a0').replaceAll('-', '-\u2060');

/** The language of the words that are spoken: a voice of another one makes them unintelligible. */
export const SPOKEN_IN = 'en';
