import type { InstrumentId } from '#lib/units/id';
import type { ReviewContribution, ReviewLine } from '#lib/work/batch/index';
import { massCell, massHead, showIn, stepOf, targetStep } from '../quantities';
import { crossedOut, isJudged, lotsOfLine, stepsOf, voiceOf } from '../review/line';
import { messages } from '../review/messages';
import { reasonWords } from '../reason-messages';
import { measured } from '../sentence';
import type { Sentence } from '../sentence';
import { clockText } from '../times';
import { listed } from '../words';
import type { RecordFacts } from './facts';
import { recordWords } from './messages';
import type { Row, TableBlock } from './sheet';
import { figures, row, table, words } from './table';

/** A bar this long runs off the picture, in tolerances; its number says how far. */
const LONGEST = 8;
const LEAST = 2;

type Letters = ReadonlyMap<InstrumentId, string>;

/** Every line: lot, plan, what was weighed, on which scale and when. `letters`: of departures, by line. */
export const materialsTable = (facts: RecordFacts, scales: Letters, letters: ReadonlyMap<string, string>): TableBlock => {
  const { review, display } = facts;
  const { title, heads, total, plusMinus } = recordWords.materials;
  const moved = review.lines.some((line) => line.moved);
  const unit = massHead(display);
  const columns = [
    figures(heads.no, 4),
    words(heads.material, 21),
    words(heads.lot, 12),
    figures(heads.planned, 9, unit),
    ...(moved ? [figures(heads.moved, 9, unit)] : []),
    figures(heads.tolerance, 8, plusMinus(unit)),
    figures(heads.actual, 9, unit),
    figures(heads.difference, 9, unit),
    words(heads.letter, 3),
    words(heads.bar, 14),
    words(heads.on, 6),
    figures(heads.at, 7),
  ];
  const away = review.lines.flatMap((line) => [...(isJudged(line) ? [line.away / 1000] : []), ...crossedOut(line)]).map(Math.abs);
  return table(
    title,
    columns,
    review.lines.map((line, at) => lineRow(line, at, { facts, scales, letters, moved })),
    { total: totalRow(review.lines, facts, moved, total), bars: Math.min(LONGEST, Math.max(LEAST, Math.ceil(Math.max(0, ...away)))) },
  );
};

interface Around {
  readonly facts: RecordFacts;
  readonly scales: Letters;
  readonly letters: ReadonlyMap<string, string>;
  readonly moved: boolean;
}

const lineRow = (line: ReviewLine, at: number, { facts, scales, letters, moved }: Around): Row => {
  const { display } = facts;
  const steps = stepsOf(line, display);
  const mass = (value: number, by: number | null, sign: 'minus' | 'both' = 'minus'): string => massCell(value, by, display, 0, sign).text;
  const counting = line.contributions.filter(({ struck }) => struck === null);
  const lots = lotsOfLine(line).map(({ mark, stated }) => (stated === null ? mark : recordWords.materials.rightLot(mark, stated)));
  const last = counting.at(-1);
  const amends = counting.some(({ amended }) => amended !== null);
  const right = amends
    ? showIn(display).mass(
        counting.reduce((sum, one) => sum + (one.amended ?? one.net), 0),
        steps.weighed,
      )
    : null;
  const weighed = voiceOf(line) !== 'none';
  const actual = weighed ? mass(line.actual, steps.weighed) : recordWords.materials.open;
  const on = [...new Set(counting.flatMap(({ instrument }) => (instrument === null ? [] : (scales.get(instrument) ?? []))))];
  return row(
    [
      [String(at + 1)],
      [line.material, ...(right === null ? [] : [` (${recordWords.materials.rightWeight(right)})`])],
      [lots.length > 0 ? listed(lots) : recordWords.materials.noLot],
      [mass(line.planned.target, steps.planned)],
      ...(moved ? [[line.moved ? mass(line.target, steps.target) : '']] : []),
      [mass(line.tolerance, steps.tolerance)],
      [weighed && !line.byHand ? measured(actual) : actual],
      [weighed ? mass(line.difference, steps.weighed, 'both') : ''],
      [letters.get(line.line) ?? ''],
      [],
      [on.length > 0 ? on.join(' ') : line.byHand ? recordWords.materials.byHand : ''],
      last === undefined ? [''] : at0(last, facts),
    ],
    isJudged(line) ? line.away / 1000 : null,
  );
};

const at0 = ({ wall, offsetMin }: ReviewContribution, { display }: RecordFacts): Sentence => [
  measured(clockText(wall, { offsetMin, locale: display.locale })),
];

const totalRow = (lines: readonly ReviewLine[], { display }: RecordFacts, moved: boolean, name: string): Row => {
  const sum = (of: (line: ReviewLine) => number): number => lines.reduce((all, line) => all + of(line), 0);
  const mass = (value: number, sign: 'minus' | 'both' = 'minus'): string => massCell(value, null, display, 0, sign).text;
  const anyMoved = lines.some((line) => line.moved);
  return row([
    [''],
    [name],
    [''],
    [mass(sum(({ planned }) => planned.target))],
    ...(moved ? [[anyMoved ? mass(sum(({ target }) => target)) : '']] : []),
    [''],
    [mass(sum(({ actual }) => actual))],
    [
      mass(
        sum(({ difference }) => difference),
        'both',
      ),
    ],
    [''],
    [],
    [''],
    [''],
  ]);
};

/** Every weight as it was taken, in the order of the lines; one that was crossed out keeps its row. */
export const weightsTable = (facts: RecordFacts, scales: Letters): TableBlock => {
  const { review, display, personName } = facts;
  const { title, note, heads, crossed, amended, amendedLot } = recordWords.weights;
  const { kinds, how } = messages.workings;
  const show = showIn(display);
  const rows = review.lines.flatMap((line) => {
    const { weighed } = stepsOf(line, display);
    return line.contributions.map((one) => {
      const net = show.mass(one.net, targetStep(line.tolerance, stepOf(one.stated) ?? weighed, display));
      const said = [
        `${kinds[one.kind]}, ${how[one.how]}`,
        ...(one.amended === null ? [] : [amended(show.mass(one.amended, weighed))]),
        ...(one.rightLot === null ? [] : [amendedLot(one.rightLot)]),
        ...(one.struck === null ? [] : [crossed(reasonWords[one.struck.reason], personName(one.struck.by))]),
      ].join('; ');
      return row(
        [
          [clockText(one.wall, { offsetMin: one.offsetMin, locale: display.locale }, true)],
          [line.material],
          [said],
          [one.instrument === null ? net : measured(net)],
          [one.stated === null ? '' : `${one.stated.text.trim()} ${one.stated.unit}`],
          [one.instrument === null ? recordWords.materials.byHand : (scales.get(one.instrument) ?? '')],
          [one.lot ?? ''],
          [personName(one.by)],
        ],
        null,
        one.struck !== null,
      );
    });
  });
  const columns = [
    words(heads.at, 9),
    words(heads.material, 20),
    words(heads.what, 26),
    figures(heads.net, 11),
    figures(heads.shown, 12),
    words(heads.on, 7),
    words(heads.lot, 11),
    words(heads.by, 10),
  ];
  return table(title, columns, rows, { note });
};
