import { figureNumber, temperatureFigure } from '#lib/units/format';
import type { ReviewJoining } from '#lib/work/batch/index';
import { showIn } from '../quantities';
import { messages } from '../review/messages';
import { measured } from '../sentence';
import type { Piece } from '../sentence';
import { clockText } from '../times';
import { capital } from '../words';
import type { RecordFacts } from './facts';
import { recordWords } from './messages';
import type { Row, TableBlock } from './sheet';
import { figures, row, table, words as wordsColumn } from './table';

/** What was looked at while it was made, each result beside what it had to be. */
export const processTable = (facts: RecordFacts): TableBlock => {
  const { review, display } = facts;
  const { title, heads, none } = recordWords.process;
  const clock = (wall: number, offsetMin: number): string => clockText(wall, { offsetMin, locale: display.locale });
  const offsetMin = review.story.at(-1)?.offsetMin ?? 0;
  const show = showIn(display);
  const rows: readonly Row[] = [
    ...(review.joining === null ? [] : joiningRows(review.joining, facts)),
    ...review.trace.map(({ mark, batter, wall }) =>
      row([[messages.after.trace[mark]], [clock(wall, offsetMin)], batter === null ? [''] : [measured(show.temperature(batter))], ['']]),
    ),
  ];
  const columns = [wordsColumn(heads.what, 34), wordsColumn(heads.at, 12), figures(heads.result, 24), figures(heads.limits, 28)];
  return table(title, columns, rows, { note: review.joining === null ? none : '' });
};

const joiningRows = (joining: ReviewJoining, { review: { limits }, display }: RecordFacts): readonly Row[] => {
  const { lye, oils, apart, unknown, byHand, window, most } = recordWords.process;
  const show = showIn(display);
  const at = clockText(joining.wall, { offsetMin: joining.offsetMin, locale: display.locale });
  const inWindow = window(figureNumber(temperatureFigure(limits.window.low, display)), show.temperature(limits.window.high));
  const temperature = (of: 'lye' | 'oils'): Piece => {
    const value = joining[of];
    if (value === null) return unknown;
    return joining.byHand.includes(of) ? byHand(show.temperature(value)) : measured(show.temperature(value));
  };
  return [
    row([[lye], [at], [temperature('lye')], [inWindow]]),
    row([[oils], [at], [temperature('oils')], [inWindow]]),
    row([[apart], [at], [joining.apart === null ? unknown : show.difference(joining.apart)], [most(show.difference(limits.allowedApart))]]),
  ];
};

/** Where the batter went, and what stayed behind: each mould by its mark, what jugs kept, and what nobody can say. */
export const yieldTable = ({ review: { parts, moulds, left, summary }, display }: RecordFacts): TableBlock => {
  const words = recordWords.yield;
  const show = showIn(display);
  const share = (mass: number): string => (summary.actual > 0 ? show.share(Math.round((mass / summary.actual) * 1e6)) : '');
  const poured = moulds.length > 0 ? moulds.map(({ mark, name, mass, byHand }) => ({ name: `${mark} ${name}`, mass, byHand })) : parts;
  const kept = left.map(({ of, mass, byHand }) => ({ name: words.leftIn(of), mass, byHand }));
  const rows = [...poured, ...kept].map(({ name, mass, byHand }) => {
    if (mass === null) return row([[name], [words.unweighed], ['']]);
    return row([[capital(name)], [byHand ? words.byHand(show.mass(mass)) : measured(show.mass(mass))], [share(mass)]]);
  });
  const known = [...poured, ...kept].every(({ mass }) => mass !== null);
  const rest = summary.actual - [...poured, ...kept].reduce((sum, { mass }) => sum + (mass ?? 0), 0);
  const columns = [wordsColumn(words.heads.what, 50), figures(words.heads.mass, 28), figures(words.heads.share, 20)];
  const total = rows.length === 0 || !known ? null : row([[kept.length > 0 ? words.rest : words.left], [show.mass(rest)], [share(rest)]]);
  return table(words.title, columns, rows, { total, note: rows.length === 0 ? words.none : '' });
};
