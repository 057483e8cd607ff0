import type { Display } from '#lib/units/display';
import { differenceFigure, figure, figureText, massFigure } from '#lib/units/format';
import type { Figure } from '#lib/units/format';
import { see } from '../../_live/selectors';
import type { LiveState } from '../../_live/store';
import { messages } from '../messages';
import { roomFor } from './figure-slots';
import { isPoured } from './words';

/** The large number of one moment. */
export interface Shown {
  readonly figure: Figure;
  /** Whole digits to keep room for. */
  readonly room: number;
  /** What the number is, beside its unit. */
  readonly word: string;
  /** As it is read aloud. */
  readonly label: string;
}

/** `null`: no number may stand. */
export type Show = (state: LiveState, display: Display) => Shown | null;

const words = messages.number;

const left = (state: LiveState, display: Display, value: number | null, wordOf: (over: boolean) => string): Shown | null => {
  if (value === null) return null;
  const division = see.division(state);
  const over = value < 0;
  const shown = massFigure(-value, display, division, over ? 'both' : 'none');
  const bare = figureText({ ...shown, sign: '' });
  return {
    figure: shown,
    room: roomFor(massFigure((see.target(state) ?? 0) * 1.25, display, division, 'none')),
    word: wordOf(over),
    label: over ? words.spoken.over(bare) : words.spoken.left(bare),
  };
};

/** How much is left to pour, or how much too much is in. */
export const shownLeft: Show = (state, display) => left(state, display, see.left(state), (over) => (over ? words.over : words.left));

/** Before the zero is taken: how much the plan wants, which no instrument measured. */
export const shownPlanned: Show = (state, display) => {
  const line = see.line(state);
  if (line === null) return null;
  const word = isPoured(line.plan.material.class) ? words.toPour : words.toAdd;
  return left(state, display, (see.target(state) ?? 0) - line.actual, () => word);
};

/** After a restart: what the record says is in the vessel, to be compared with what is. */
export const shownRecorded: Show = (state, display) => {
  const shown = massFigure(see.vessel(state)?.contents ?? 0, display, see.division(state));
  return { figure: shown, room: 3, word: words.recorded, label: words.spoken.recorded(figureText(shown)) };
};

/** By how much an accepted weight has changed since. */
export const shownChanged: Show = (state, display) => {
  const question = state.batch?.question ?? null;
  if (question === null) return null;
  const change = question.now - question.was;
  const shown = massFigure(change, display, see.division(state), 'both');
  return { figure: shown, room: 3, word: change < 0 ? words.less : words.more, label: words.spoken.changed(figureText(shown)) };
};

/** Everything that stands on the scale. */
export const shownGross: Show = (state, display) => {
  const scale = see.scale(state);
  if (scale?.gross == null) return null;
  const shown = massFigure(scale.gross, display, scale.division);
  return { figure: shown, room: 4, word: '', label: words.spoken.onScale(figureText(shown)) };
};

/** What the pot of batter has lost since the portion before. */
export const shownPortion: Show = (state, display) => {
  const portion = see.portioned(state);
  if (portion === null) return null;
  const shown = massFigure(portion, display, see.division(state));
  const about = see.job(state);
  const word = about === null || about.by === 'loss' ? words.portion : about.key.startsWith('left') ? words.left : words.into;
  return { figure: shown, room: 4, word, label: words.spoken.portion(figureText(shown)) };
};

/** How much the chosen way out takes out, where no scale tells how much of it is: a person's word will do. */
export const shownOut: Show = (state, display) => {
  const act = state.batch?.toDo[0];
  if (act === undefined) return null;
  const shown = massFigure(act.mass, display, see.division(state));
  return { figure: shown, room: 3, word: words.portion, label: words.spoken.out(figureText(shown)) };
};

/** How far apart lye and oils are now. */
export const shownApart: Show = (state, display) => {
  const lye = see.lye(state)?.value ?? null;
  const oils = see.oils(state)?.value ?? null;
  const apart = see.joining(state)?.apart ?? (lye === null || oils === null ? null : Math.abs(lye - oils));
  if (apart === null) return null;
  const shown = differenceFigure(apart, display);
  return { figure: shown, room: 3, word: words.apart, label: words.spoken.apart(figureText(shown)) };
};

/** Minutes since joining, on the server's clock; after a restart that clock began anew and the minutes are not known. */
export const shownSince: Show = ({ batch, frame }, display) => {
  if (batch?.joined == null || frame === null || batch.joined.boot !== frame.boot) return null;
  const shown = figure(Math.floor((frame.at - batch.joined.mono) / 60_000), 0, 'min', display.locale);
  return { figure: shown, room: 3, word: '', label: words.spoken.since(figureText(shown)) };
};
